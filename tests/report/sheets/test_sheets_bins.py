import datetime as dt
from dataclasses import replace

import pytest

from tools.report_sample import ON, a_bin, fact, sample, tasks
from workbook_tools.intake.values import Number, When, Words
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef, Problem
from workbook_tools.report.sheets.bins import WEEKS, bin_lines, sheet

WORDING = Wording("en-GB")


def entry(act, days_ago, row=10, name="A01", **facts):
    when = None if days_ago is None else When.on(ON - dt.timedelta(days=days_ago))
    return Entry(act, when, (name,), CellRef("Log", row), facts)


def lines(*entries, bins=None, **more):
    ledger = Ledger({bin.name: bin for bin in bins or (a_bin(1),)}, entries)
    return bin_lines(sample(ledger=ledger, **{"problems": (), "tasks": (), **more}), WORDING)


def test_last_days_are_the_latest_up_to_the_day_of_the_report():
    (line,) = lines(entry("water", 9), entry("water", 3), entry("feed", 20), entry("water", -2))
    assert {act: day for act, day in line.last.items() if day} == {
        "water": ON - dt.timedelta(days=3),
        "feed": ON - dt.timedelta(days=20),
    }


def test_month_that_is_not_over_counts_as_on_the_sheet_due():
    month = When(ON.replace(day=1), ON.replace(day=28) + dt.timedelta(days=4))
    (line,) = lines(entry("water", 60), Entry("water", month, ("A01",), CellRef("Log", 12), {}))
    assert line.last["water"] == WORDING.when(month)
    assert sum(line.weeks) == 2


def test_weeks_end_on_the_day_of_the_report():
    (line,) = lines(entry("feed", 0), entry("feed", 6), entry("feed", 7), entry("feed", 7 * WEEKS), entry("feed", -1))
    assert line.weeks[-1] == 2
    assert line.weeks[-2] == 1
    assert sum(line.weeks) == 3
    assert len(line.weeks) == WEEKS


def test_last_count_is_a_number_with_its_range():
    counted = {"number": fact("number", Number(50, 40, 60), 9, text="~50 under bark")}
    (line,) = lines(entry("count", 90, number=fact("number", Number.exactly(8), 9)), entry("count", 30, **counted))
    assert (line.count, line.counted) == ("about 50, 40 to 60", ON - dt.timedelta(days=30))
    (undated,) = lines(entry("count", None, number=fact("last_count", Number.exactly(8), 9, text="8")))
    assert (undated.count, undated.counted) == (8, "no date written")


def test_number_that_the_list_gives_without_a_date_is_called_a_guess_and_a_count_goes_before_it():
    guess = entry("count", None, number=fact("number_now", Number(200, 100, 500), 9, text="lots"))
    (alone,) = lines(guess)
    assert (alone.count, alone.counted) == ("lots", "your list's guess")
    (both,) = lines(guess, entry("count", 300, number=fact("number", Number.exactly(8), 9, text="8")))
    assert (both.count, both.counted) == (8, ON - dt.timedelta(days=300))


@pytest.mark.parametrize("text", ["W C44", "count 44", "counted 30 adults + 14 babies"])
def test_last_count_is_no_raw_text(text):
    (line,) = lines(entry("count", 3, number=fact("number", Number.exactly(44), 9, text=text)))
    assert line.count == 44


def test_mancas_are_shown_by_the_last_day_they_were_seen():
    none = entry("young", 2, young=fact("young", Words(("no",)), 9, text="0"))
    ahead = entry("young", -3)
    (line,) = lines(entry("young", 30), entry("young", 9), none, ahead)
    assert line.young == ON - dt.timedelta(days=9)
    assert lines(none, ahead)[0].young is None
    column = next(c for c in sheet(sample()).tables[0].columns if c.heading == "Young or brood")
    assert column.get(line) == line.young


def test_problems_count_for_the_bins_whose_rows_they_name():
    bad = Problem("entries.no_date", CellRef("Log", 44, 2), {}, "?", (CellRef("Log", 45, 2),))
    first, second = lines(
        entry("feed", 3, row=44), entry("feed", 2, row=45), bins=(a_bin(1), a_bin(2)), problems=(bad,)
    )
    assert (first.problems, second.problems) == (1, 0)


def test_open_tasks_are_those_late_or_due_today():
    (line,) = lines(tasks=tuple(task for task in tasks() if task.bin == "A01") * 2)
    assert line.tasks == 2


def test_vague_starts_are_said_in_words():
    (line,) = lines(bins=(a_bin(5),))
    assert line.started == "March 2025"


def test_first_line_counts_bins_by_what_they_are():
    findings = sample(ledger=Ledger({bin.name: bin for bin in (a_bin(1), a_bin(2), a_bin(7))}, ()), tasks=tasks()[:1])
    assert sheet(findings).answer == "3 bins of 3 species: 2 active and 1 in quarantine. 1 bin has something due."


def test_no_private_note_is_shown():
    assert not {column.heading for column in sheet(sample()).tables[0].columns} & {"Private note", "Note"}


def test_a_bin_split_off_another_came_from_there_unless_the_keeper_wrote_whence():
    split_off = replace(a_bin(2), facts={}, parents=("A01", "A04"))
    swapped = replace(split_off, facts={"came_from": fact("came_from", "swap", 9)})
    (column,) = [column for column in sheet(sample()).tables[0].columns if column.heading == "Came from"]
    assert [column.get(lines(bins=(bin,))[0]) for bin in (split_off, swapped)] == ["A01 and A04", "swap"]
