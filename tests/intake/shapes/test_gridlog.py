"""A grid written out: notes for all bins, facts of bins, sums, marks and doubts."""

import calendar
import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.shapes.gridlog import is_sum

ON = dt.date(2025, 3, 20)
KEY = "\nKEY|W water F food C count"


def read(text, *others, name="Chart"):
    intake, problems = read_book(book(sheet(name, text), *others), ON)
    return intake, [(one.code, " ".join(str(ref).partition("!")[2] for ref in one.cells)) for one in problems]


def told(intake, role="log"):
    return [
        {key: [one.text for one in found] for key, found in row.facts.items()}
        for row in intake.rows
        if row.role == role
    ]


def test_away_is_one_note_for_all_bins_of_the_day():
    intake, problems = read(f"Bin|1/2|3/2|13/2\nC1|W|away|W\nC2|W|away|{KEY}")
    notes = [row for row in intake.rows if "note" in row.facts]
    assert [(str(row.where), row.first("bins").value, row.first("note").value) for row in notes] == [
        ("Chart!C2", "all", "away")
    ]
    assert problems == []
    assert {str(ref): why for ref, why in intake.tables[0].passed_cells.items()}["Chart!C3"].startswith("said for all")


def test_away_on_a_day_with_entries_is_named():
    _, problems = read(f"Bin|1/2|3/2|13/2\nC1|W|away|W\nC2|W|W|{KEY}")
    assert problems == [("grid.away_but_done", "C2")]


def test_columns_beside_the_days_are_facts_of_the_bin_and_sums_are_passed_over():
    intake, problems = read(f"Bin|Who|L|1/2|3/2|13/2|wk total|notes\nC1|Pods|4|W||W|2|lid cracked{KEY}")
    assert told(intake, "bins") == [{"name": ["C1"], "species": ["Pods"], "volume": ["4"], "note": ["lid cracked"]}]
    assert problems == []


def test_a_start_begins_a_bin():
    intake, problems = read(f"Bin|1/2|3/2|13/2\nC1|W|W|W\nC1b|||START 25{KEY}")
    assert told(intake)[-1] == {"when": ["13/2"], "bins": ["C1b"], "did": ["START 25"], "number": ["START 25"]}
    assert problems == []


def test_a_mark_explained_in_the_notes_brings_its_note():
    intake, problems = read(f"Bin|1/2|3/2|13/2|notes\nC1|W|W*|W!|*too much{KEY}")
    assert [one.get("note") for one in told(intake)] == [None, ["*too much"], None]
    assert problems == [("grid.mark", "D2")]


@pytest.mark.parametrize(
    ("cells", "problem"),
    [
        ("W|Q|W", ("grid.code_open", "C2")),
        ("W|12|W", ("grid.number_alone", "C2")),
        ("W|x|W", ("grid.tick_alone", "C2")),
        ("W|FF|W", ("grid.twice", "C2")),
        ("W|W|zz", ("grid.code_open", "D2")),
    ],
)
def test_what_is_doubtful_is_named(cells, problem):
    assert read(f"Bin|1/2|3/2|13/2\nC1|{cells}{KEY}")[1] == [problem]


def test_codes_without_a_bin_are_named_and_not_used():
    intake, problems = read(f"Bin|1/2|3/2|13/2\nC1|W|W|W\n|F|F|{KEY}")
    assert problems == [("grid.no_bin", "B3 C3")]
    assert len(told(intake)) == 3


def test_facts_of_the_day_stand_in_a_row_of_their_own():
    intake, problems = read(f"Bin|1/2|3/2|13/2\nTemp|21|20|19\nC1|W|W|W\nC2|W|W|{KEY}")
    assert [one["temperature"] for one in told(intake) if "temperature" in one] == [["21"], ["20"], ["19"]]
    assert problems == []


def test_blocks_of_months_list_a_bin_once_and_name_what_differs():
    made = f"Bin|Shelf|1/2|3/2|13/2\nC1|top|W|W|W\n\nBin|Shelf|1/3|3/3|13/3\nC1|low|W|W|W{KEY}"
    intake, problems = read(made)
    assert told(intake, "bins") == [{"name": ["C1"], "place": ["top"]}]
    assert problems == [("grid.fact_differs", "B5")]


def test_the_order_of_the_file_settles_bare_days():
    log = sheet("Log", "Date|Bin|Done\n1/13/2025|C1|water\n1/14/2025|C1|water")
    intake, _ = read(f"Bin|1/2|3|5\nC1|W|W|W{KEY}", log)
    days = [row.first("when").value.first for row in intake.rows if row.where.sheet == "Chart" and row.role == "log"]
    assert days == [dt.date(2025, 1, 2), dt.date(2025, 1, 3), dt.date(2025, 1, 5)]


def test_counts_by_month_are_counts_and_the_months_are_named():
    intake, problems = read("Bin|Nov 24|Dec 24|Jan 25\nA1|30|35|40", name="Counts")
    log = [row for row in intake.rows if row.role == "log"]
    counted = [(str(row.first("when").value.first), row.first("number").value.best) for row in log]
    assert counted == [("2024-11-01", 30), ("2024-12-01", 35), ("2025-01-01", 40)]
    assert problems == [("grid.months_taken", "B1 C1 D1")]


def test_a_row_of_sums_by_another_name_and_weeks_over_the_days_are_passed_over():
    _, problems = read(f"|Week 7||\nBin|1/2|13/2|15/2\nA1|W|W|W\nTotal watered|1|1|1{KEY}")
    assert problems == [("tables.totals", "A4")]


@pytest.mark.parametrize(
    ("text", "yes"), [("wk total", True), ("Σ", True), ("Sum", True), ("notes", False), ("L", False)]
)
def test_headings_of_sums(text, yes):
    assert is_sum(text) is yes


@pytest.mark.parametrize("full", calendar.month_name[1:])
def test_sums_of_every_month(full):
    short = full[:3]

    assert is_sum(f"{short} total")
    assert is_sum(f"{full} total") and is_sum(f"Total of {full}") and is_sum(f"sum {short}.")
    assert not is_sum(full)


def test_sums_of_a_month_beside_the_days_are_passed_over():
    intake, problems = read(f"Bin|1/3|3/3|13/3|Mar total|notes\nC1|W||W|2|lid cracked{KEY}")
    assert [one["note"] for one in told(intake, "bins")] == [["lid cracked"]]
    assert problems == []


def test_an_impossible_day_over_a_grid_is_named_and_the_others_are_read():
    intake, problems = read(f"Bin|1/5|3|5|15/5|17|29/13|31\nC1|W|W|W|W|W|W|W{KEY}")
    days = [row.first("when").value.first for row in intake.rows if row.role == "log" and row.first("when")]
    assert days == [dt.date(2024, 5, day) for day in (1, 3, 5, 15, 17, 31)]
    assert problems == [("dates.impossible", "G1")]
