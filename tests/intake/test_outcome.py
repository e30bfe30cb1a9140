import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.fields import LOG_FIELDS
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.outcome import ticked, told_of_all
from workbook_tools.intake.reading import read_book
from workbook_tools.ledger.build import build_ledger
from workbook_tools.problems import CellRef

FIELDS = {field.key: field for field in LOG_FIELDS}
ON = dt.date(2026, 4, 1)


def acts(text, name="Log"):
    intake, problems = read_book(book(sheet(name, text)), ON)
    ledger, _ = build_ledger(intake.rows, intake.settings, on=ON)
    return {entry.where.row: entry.act for entry in ledger.entries}, [str(one) for one in problems]


def cells(*texts):
    return [Cell(CellRef("Log", row, 3), text, text) for row, text in enumerate(texts, start=2)]


@pytest.mark.parametrize("word", ["skipped", "planned", "no", "✗", "open", "later", "in progress"])
def test_a_row_whose_status_says_that_it_was_not_done_is_kept_as_a_note(word):
    found, problems = acts(
        f"Date|Bin|Task|Status\n2/3/2026|A1|water|done\n3/3/2026|A2|feed|{word}\n4/3/2026|A1|feed|done"
    )

    assert found == {2: "water", 3: "note", 4: "feed"}
    assert any(f"'{word}'" in text for text in problems)


def test_the_words_of_a_row_that_was_not_done_are_kept():
    text = "Date|Bin|Task|Status\n14/3/2026|A1|water|done\n15/3/2026|A2|feed|skipped\n16/3/2026|A1|feed|done"
    intake, _ = read_book(book(sheet("Log", text)), ON)
    ledger, _ = build_ledger(intake.rows, intake.settings, on=ON)

    assert [(entry.act, entry.facts["did"].text) for entry in ledger.entries if entry.bins == ("A2",)] == [
        ("note", "feed")
    ]


def test_a_row_without_a_tick_among_ticked_ones_is_not_done_and_named():
    found, problems = acts("Date|Bin|Task|Done?\n2/3/2026|A1|water|x\n3/3/2026|A2|feed|\n4/3/2026|A1|feed|x")

    assert found == {2: "water", 3: "note", 4: "feed"}
    assert any("Log!D3" in text and "'Done?'" in text for text in problems)


def test_a_plan_without_a_day_is_no_entry_and_named():
    found, problems = acts(
        "Planned|Actual|Bin|Task\n1/3/2026|2/3/2026|A1|water\n3/3/2026||A2|feed\n4/3/2026|4/3/2026|A1|feed"
    )

    assert found == {2: "water", 4: "feed"}
    assert any("Log!B3" in text for text in problems)


def test_a_sheet_of_one_kind_of_work_has_no_entry_for_what_was_only_planned_or_not_ticked():
    planned, told = acts("Planned|Actual|Bin\n14/3/2026|15/3/2026|A1\n16/3/2026||A2\n17/3/2026|17/3/2026|A1", "Feeding")
    ticked_rows, named = acts("Date|Bin|Done?\n14/3/2026|A1|x\n16/3/2026|A2|\n17/3/2026|A1|x", "Feeding")

    assert planned == {2: "feed", 4: "feed"}
    assert any("Feeding!B3" in text for text in told)
    assert ticked_rows == {2: "feed", 3: "note", 4: "feed"}
    assert any("Feeding!C3" in text for text in named)


@pytest.mark.parametrize(
    ("key", "unit", "texts", "ticks"),
    [
        ("water", "", ("1", "0", "1"), True),
        ("water", "", ("1", "1", "1"), True),
        ("water", "ml", ("1", "0", "1"), False),
        ("water", "", ("1", "20", "1"), False),
        ("leaf", "", ("1", "1", "1"), False),
        ("leaf", "", ("1", "0", "1"), True),
        ("leaf", "", ("1", "x", "1"), True),
        ("food", "", ("1", "0", "1"), True),
        ("number", "", ("1", "0", "1"), False),
    ],
)
def test_columns_of_ticks_are_told_from_amounts(key, unit, texts, ticks):
    assert ticked(FIELDS[key], unit, cells(*texts)) is ticks


def test_a_column_with_few_statuses_says_nothing_of_the_other_rows():
    assert told_of_all([*cells("x", "x"), None])
    assert not told_of_all([*cells("x"), *[None] * 9])
