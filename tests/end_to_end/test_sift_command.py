import os
import subprocess
import sys
from functools import partial

import pytest

from tools import command
from workbook_tools.cli import MOST_FINDS
from workbook_tools.defaults import DEFAULTS

BOUND = "likely lower bound"


run = partial(command.run, "sift")


def test_falling_finds_are_answered_in_one_short_paragraph():
    status, said = run("41", "22", "9", "4")

    assert status == 0
    assert said.count("\n") == 1 and len(said.split()) <= 90
    assert "76 found in 4 passes" in said and "four times in five" in said
    assert "Sort through it once more. That pass should find about 3" in said
    assert BOUND in said


def test_the_answer_comes_at_once():
    """Processor time, since a busy machine would make the clock lie; and nothing heavy is loaded."""
    program = (
        "import sys; from workbook_tools.cli import cli; cli(['sift', '41', '22', '9', '4'], standalone_mode=False); "
        "print([name for name in ('pandas', 'scipy', 'babel', 'pint') if name in sys.modules])"
    )
    before = os.times()
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    after = os.times()

    assert done.stdout.endswith("[]\n")
    assert after.children_user + after.children_system - before.children_user - before.children_system < 0.5


def test_finds_that_do_not_fall_have_no_upper_limit():
    status, said = run("5", "7", "8")

    assert status == 0
    assert "no upper limit: finds don't clearly fall" in said and BOUND in said


def test_all_in_the_first_pass():
    status, said = run("10", "0", "0")

    assert status == 0
    assert "At most 1 more" in said and "straggler corner" in said and BOUND in said


def test_nothing_found():
    status, said = run("0", "0", "0")

    assert status == 0
    assert "None found in 3 passes" in said and "no upper limit" in said and "trap tells more" in said
    assert BOUND not in said


def test_one_pass():
    status, said = run("3")

    assert status == 0
    assert "one pass can't show how fast finds fall" in said and "once more" in said


@pytest.mark.parametrize(
    ("args", "named"),
    [
        (("--", "-1", "x"), ("'-1'", "'x'")),
        (("-1", "3"), ("'-1'",)),
        (("4.5",), ("'4.5'",)),
        (("41", "1e3"), ("'1e3'",)),
        (("99999999",), ("'99999999'", "1,000,000")),
        (("٣",), ("'٣'",)),
        (("4", "--trap", "2 no"), ("--trap", "'no'")),
        (("4", "--minutes", ""), ("--minutes", "''")),
        ((), ("FINDS",)),
    ],
)
def test_what_is_no_number_of_animals_is_named(args, named):
    status, said = run(*args)

    assert status == 2
    assert all(word in said for word in named)
    assert "Traceback" not in said


def test_finds_may_stand_in_one_argument():
    assert run("41, 22, 9, 4") == run("41", "22", "9", "4")


def test_checks_of_a_trap_go_on_from_the_passes():
    status, said = run("41", "22", "9", "4", "--trap", "2 1 0 0")

    assert status == 0
    assert "79 found in 4 passes and in 4 checks of the trap" in said
    assert "Choose: another pass by hand, or freeze the lot now and accept what may be left" in said
    assert "Keep trapping until 13 more checks in a row are empty" in run("41 22 9 4 0", "--trap", "2 1 0 0 0 0")[1]


@pytest.mark.parametrize("args", [("0", "0"), ("0", "0", "--trap", "0" + " 0" * 30)])
def test_tub_in_which_nothing_is_found_can_end(args):
    status, said = run(*args)

    assert status == 0
    assert "which proves little" in said and "that is your decision" in said
    assert BOUND not in said and "Stop only" not in said


def test_days_between_checks_count():
    empty = "5" + " 0" * 20

    assert "Probably empty" in run("60", "20", "5", "0", "0", "--trap", empty)[1]
    assert "5 more days" in run("60", "20", "5", "0", "0", "--trap", empty, "--trap-days", "5")[1]


@pytest.mark.parametrize("days", ["nan", "inf", "-inf", "-1", "soon", "1e999"])
def test_days_of_the_trap_are_a_number(days):
    status, said = run("41", "22", "--trap", "2 1 0", "--trap-days", days)

    assert status == 2
    assert "--trap-days" in said and "Traceback" not in said


def test_days_without_a_trap_are_refused():
    status, said = run("41", "22", "--trap-days", "5")

    assert status == 2
    assert "--trap-days" in said and "needs --trap," in said


def test_the_most_finds_are_the_most_that_is_believed_in_a_workbook():
    assert DEFAULTS["number.most"].value == MOST_FINDS


def test_minutes_tell_the_price_of_a_find():
    status, said = run("41", "22", "9", "4", "--minutes", "30 25 20 20")

    assert status == 0
    assert "minutes a find" in said


@pytest.mark.parametrize("minutes", ["30 25", "30 25 20 0"])
def test_minutes_must_fit_the_passes(minutes):
    status, said = run("41", "22", "9", "4", "--minutes", minutes)

    assert status == 2
    assert "each of the 4 passes" in said
