import dataclasses
import datetime as dt

from plan.losses.losses_log import ON, at
from tools.losses_sample import alarm, cluster
from tools.rows import bin_row, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.history import History
from workbook_tools.plan.losses.looks import loss_looks
from workbook_tools.plan.losses.records import Losses, Sight
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.tasks import due_tasks
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef


def past(**status):
    rows = [bin_row(name, status=words(status.get(name, "active"))) for name in "ABC"]
    return History.of(build_ledger([*rows, log_row(at(1), "A", "look")], settings(), on=ON)[0], ON)


def looks(losses, **status):
    return list(loss_looks(losses, past(**status), Wording()))


SEEN = Sight("C", ON - dt.timedelta(days=4), ("huddling",), ON - dt.timedelta(days=4), CellRef("Log", 12))


def test_an_alarm_is_due_on_its_day_and_says_what_was_found():
    (due,) = looks(Losses(ON, alarms=(alarm(ON, "A"),)))

    assert (due.bin, due.task, due.due, due.moves) == ("A", "losses", ON - dt.timedelta(days=6), False)
    assert due.last == ON - dt.timedelta(days=1)
    assert due.rests_on == (CellRef("Log", 70), CellRef("Log", 71))
    assert due.why == (
        "11 dead found in the 10 days to 26 May 2026, where fewer than 1 is usual, and 3 since: an alarm. "
        "It stays here until a look says 'all well', 30 days at most."
    )


def test_once_all_is_well_none_is_due():
    assert looks(Losses(ON, alarms=(alarm(ON, "A", well=ON),))) == []


def test_a_bin_that_lost_with_others_is_due_once():
    losses = Losses(ON, alarms=(alarm(ON, "A"),), clusters=(cluster(ON, ["A", "B"]),))

    assert [(due.bin, due.due) for due in looks(losses)] == [
        ("A", ON - dt.timedelta(days=6)),
        ("B", ON - dt.timedelta(days=2)),
    ]


def test_what_was_seen_is_due_with_its_row():
    (due,) = looks(Losses(ON, sights=(SEEN,)))

    assert (due.bin, due.task, due.due) == ("C", "sight", ON - dt.timedelta(days=4))
    assert due.why == "Huddling seen 28 May 2026. It stays here until a look says 'all well'."


def test_bins_that_rest_or_are_gone_and_tubs_have_none():
    losses = Losses(ON, alarms=(alarm(ON, "A"),), clusters=(cluster(ON, ["A", "B"]),), sights=(SEEN,))

    assert looks(losses, A="resting", B="gone", C="straggler tub") == []


def test_they_stand_on_due_before_other_work_of_the_bin():
    known = past()
    losses = Losses(ON, alarms=(dataclasses.replace(alarm(ON, "A"), day=ON),))
    tasks, _ = due_tasks(known, [], Rhythm(known.ledger.settings), Wording(), losses=losses)

    assert next(task for task in tasks if task.days == 0 and task.bin == "A").task == "losses"
