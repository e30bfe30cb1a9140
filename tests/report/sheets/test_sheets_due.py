import dataclasses
import datetime as dt

import pytest

from tools.report_sample import ON, sample, tasks
from workbook_tools.fields import FINDINGS, THINGS
from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef
from workbook_tools.report.sheets.due import COLUMNS, answer, sheet

BY_HEADING = {column.heading: column for column in COLUMNS}


def said(*made):
    return answer(sample(tasks=made), Wording("en-GB"))


def a_task(days, name="A01"):
    return dataclasses.replace(tasks()[0], bin=name, days=days, due=ON - dt.timedelta(days=days))


def test_headings_are_as_agreed():
    assert [column.heading for column in COLUMNS] == [
        *("Bin", "Species", "Place", "Task", "Due", "Days", "Why", "Last done", "Done on", "Seen", "Amount", "Note")
    ]


@pytest.mark.parametrize(
    ("days", "expected"),
    [
        ((9, 3, 0), "2 tasks are overdue and 1 due today; most urgent: A01, look at moss corner, 9 days overdue."),
        ((1,), "1 task is overdue; most urgent: A01, look at moss corner, 1 day overdue."),
        ((0, 0), "2 tasks are due today; most urgent: A01, look at moss corner, today."),
        ((-3, -1), "Nothing is overdue and nothing is due today. Next: A01, look at moss corner, tomorrow."),
        ((), "Nothing is overdue and nothing is due today."),
    ],
)
def test_first_line_says_what_is_due_and_most_urgent(days, expected):
    assert said(*(a_task(day) for day in days)) == expected


def test_most_urgent_is_late_by_the_most_days_and_a_change_of_substrate_only_when_alone():
    change = dataclasses.replace(a_task(102), task="change", label="Change substrate")
    assert "most urgent: A02, look at moss corner, 9 days overdue" in said(a_task(3), change, a_task(9, "A02"))
    assert "most urgent: A01, change substrate, 102 days overdue" in said(change, a_task(0))


def test_first_line_says_that_no_bin_was_read():
    findings = sample(tasks=(), ledger=Ledger({}, ()))
    assert answer(findings, Wording("en-GB")) == "Nothing can be said of what is due: no bin was read."


def test_line_for_all_bins_is_no_bin():
    findings = sample(tasks=(a_task(0), a_task(0, "A02"), a_task(0, "all bins")))
    assert "2 bins of 13 in this list" in sheet(findings).lines[0]


def test_late_tasks_come_before_todays_and_those_to_come():
    table = sheet(sample(tasks=tuple(a_task(day) for day in (-2, 0, 5, 1)))).tables[0]
    assert [task.days for task in table.rows] == [5, 1, 0, -2]
    assert [table.tone(task) for task in table.rows] == ["late", "late", "today", "soon"]


def test_boxes_are_empty_and_offer_the_words_of_their_task():
    for heading in ("Done on", "Seen", "Amount", "Note"):
        assert BY_HEADING[heading].get(tasks()[0]) is None
        assert BY_HEADING[heading].style.startswith("box")
    seen = BY_HEADING["Seen"].choices_for
    assert "drying" in seen(dataclasses.replace(tasks()[0], task="moss"))
    assert "mouldy" in seen(dataclasses.replace(tasks()[0], task="leftovers"))
    assert seen(dataclasses.replace(tasks()[0], task="count")) == ()


@pytest.mark.parametrize("one", [one for one in FINDINGS.values() if one.task not in ("calcium", "hides", "")])
def test_the_box_of_a_finding_offers_first_what_settles_it_and_fits_into_a_cell(one):
    offered = BY_HEADING["Seen"].choices_for(dataclasses.replace(tasks()[0], task=one.task, label=one.label))

    settled = () if one.only_well else (THINGS[one.about].settled,)
    assert offered == ("all well", *settled, *FINDINGS)
    assert len(",".join(offered)) <= 255


def test_why_names_the_rows_it_rests_on():
    why = BY_HEADING["Why"].get
    rows = tuple(CellRef("Log", row) for row in (4, 8, 12, 20, 30))
    assert why(dataclasses.replace(tasks()[0], why="Because.", rests_on=())) == "Because."
    assert why(dataclasses.replace(tasks()[0], why="Because.", rests_on=rows[:2])) == "Because. From Log!4, 8."
    assert why(dataclasses.replace(tasks()[0], why="Because.", rests_on=rows)).endswith("From Log!4, 8, 12 and 2 more.")


def test_rows_left_out_are_said_on_the_first_sheet():
    assert "Not all that you wrote could be used" in sheet(sample()).lines[0]
    assert "Not all" not in sheet(sample(problems=())).lines[0]
