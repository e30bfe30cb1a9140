import dataclasses
import datetime as dt

import pytest

from plan.losses.losses_log import ON, at
from tools.losses_sample import alarm, cluster
from tools.rows import bin_row, log_row, settings, words
from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS, FINDINGS, THINGS
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.due import Due
from workbook_tools.plan.history import History
from workbook_tools.plan.losses.looks import loss_looks, settled_by, with_care
from workbook_tools.plan.losses.questions import TOPICS
from workbook_tools.plan.losses.records import Losses, Sight
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.tasks import due_tasks
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef
from workbook_tools.report.cautions import OF_FINDINGS


def past(**status):
    rows = [bin_row(name, status=words(status.get(name, "active"))) for name in "ABC"]
    return History.of(build_ledger([*rows, log_row(at(1), "A", "look")], settings(), on=ON)[0], ON)


def looks(losses, **status):
    return list(loss_looks(losses, past(**status), Wording()))


DAY = ON - dt.timedelta(days=4)
SEEN = Sight("C", "huddling", DAY, DAY, DAY, CellRef("Log", 12))


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
    assert due.label == "See to huddling"
    assert due.why == (
        "Huddling seen 28 May 2026: feel whether the rest is too dry, too wet or too warm. Stays until you write "
        "'spread out' or 'all well', or 3 looks say nothing of it."
    )


def test_what_was_seen_before_says_since_when():
    (due,) = looks(Losses(ON, sights=(dataclasses.replace(SEEN, first=ON - dt.timedelta(days=9)),)))

    assert due.why.startswith("Huddling seen 28 May 2026, first on 23 May 2026: feel")


@pytest.mark.parametrize(
    ("key", "says"),
    [
        ("blue or violet", "you write 'all well'"),
        ("crowded", "you log 'Split', 'Move up' or 'Animals out', or write 'not crowded' or 'all well'"),
        (
            "too dry",
            "you log 'Water', or write 'moisture fine' or 'all well', or find the moss damp, wet or soaked, or 3 looks "
            "say nothing of it",
        ),
        ("condensation", "you write 'lid dry' or 'all well', or 1 look says nothing of it"),
    ],
)
def test_how_a_finding_is_settled_is_said(key, says):
    assert settled_by(FINDINGS[key], Wording()) == says


@pytest.mark.parametrize("one", FINDINGS.values(), ids=lambda one: one.key)
def test_no_finding_is_without_what_follows(one):
    due = looks(Losses(ON, sights=(dataclasses.replace(SEEN, finding=one.key),))) if not one.good else []

    assert one.good or (due[0].label and one.do and one.do in due[0].why and DEFAULTS[one.days])
    assert one.about in THINGS and set(one.acts) <= set(ACTS)
    assert not one.caution or one.caution in OF_FINDINGS
    assert not one.topic or one.topic in TOPICS
    assert one.good or one.only_well or THINGS[one.about].settled


def at_once(key, days=4):
    day = ON - dt.timedelta(days=days)
    return Due("C", FINDINGS[key].task, FINDINGS[key].label, day, "Seen.", rests_on=(CellRef("Log", 3),), moves=False)


def test_a_task_that_was_due_anyway_and_a_finding_are_one_line_by_the_sooner_day():
    care = Due("C", "calcium", "Give calcium", ON, "Last given.", rests_on=(CellRef("Log", 2),), last=DAY)
    sooner, later = at_once("calcium gone"), at_once("calcium gone", days=-3)

    assert with_care([care], [sooner]) == [dataclasses.replace(sooner, last=DAY)]
    assert with_care([care], [later]) == [
        dataclasses.replace(care, why="Last given. Seen.", rests_on=(CellRef("Log", 2), CellRef("Log", 3)))
    ]
    assert with_care([], [sooner]) == [sooner]
    assert with_care([dataclasses.replace(care, bin="B")], [sooner]) == [dataclasses.replace(care, bin="B"), sooner]


def test_two_findings_of_one_bin_are_two_lines():
    both = [at_once("mites"), at_once("slime")]

    assert with_care([], both) == both


def test_bins_that_rest_or_are_gone_and_tubs_have_none():
    losses = Losses(ON, alarms=(alarm(ON, "A"),), clusters=(cluster(ON, ["A", "B"]),), sights=(SEEN,))

    assert looks(losses, A="resting", B="gone", C="straggler tub") == []


def test_they_stand_on_due_before_other_work_of_the_bin():
    known = past()
    losses = Losses(ON, alarms=(dataclasses.replace(alarm(ON, "A"), day=ON),))
    tasks, _ = due_tasks(known, [], Rhythm(known.ledger.settings), Wording(), losses=losses)

    assert next(task for task in tasks if task.days == 0 and task.bin == "A").task == "losses"


def test_a_bin_to_be_kept_apart_stands_before_all_other_work_of_that_day():
    known = past()
    blue = Sight("C", "blue or violet", ON, ON, ON, CellRef("Log", 8))
    tasks, _ = due_tasks(known, [], Rhythm(known.ledger.settings), Wording(), losses=Losses(ON, sights=(blue,)))
    today = [task for task in tasks if task.days == 0]

    assert len(today) > 1
    assert (today[0].bin, today[0].task, today[0].label) == ("C", "isolate", "Keep this bin apart")
