"""Each word for absent, denied, planned or asked in each kind of column, and each act in each mood, whole reader."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from pathlib import Path

import pytest

from workbook_tools.intake.cells import Book, Cell, Sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.ledger.build import build_ledger
from workbook_tools.problems import CellRef
from workbook_tools.vocabulary.presence import UNDONE, Presence, words_of

ON = dt.date(2026, 6, 1)
DAY = dt.date(2026, 5, 4)
COLUMNS = {
    ("Fed", "x"): "feed",
    ("Fed", "carrot"): "feed",
    ("Food", "2 pellets"): "feed",
    ("Food g", 0.5): "feed",
    ("Watered", "✓"): "water",
    ("Water", 20): "water",
    ("Water (ml)", "15"): "water",
    ("Leaves", "x"): "leaf",
    ("Leaf litter l", 0.5): "leaf",
    ("Calcium", "yes"): "calcium",
    ("Replaced", "1/3"): "substrate_change",
    ("What I did", "watered and fed"): "",
}
"""Headings with what fills most of the column, and the act that a filled cell is."""
SAID_TOO = ("0", "not today", "no time", "will do tomorrow", "forgot again", "skipped this week")
ACTS = {
    "water": "watered", "feed": "fed carrot", "leaf": "added oak leaves", "calcium": "gave cuttlebone",
    "hides": "renewed the bark", "substrate_change": "changed the substrate", "count": "counted 31",
    "split": "split the colony", "sift": "sifted the old soil", "freeze": "froze the old soil",
    "discard": "threw away the old soil", "animals_out": "sold 12 animals", "animals_in": "bought 12 animals",
    "quarantine": "quarantined them", "release": "released from quarantine", "end": "closed the bin",
    "move_up": "moved them up a size", "look": "checked the bin", "start": "set up the bin",
}  # fmt: skip
DENIED = ("not {}", "never {}", "have not {} yet", "haven't {}")
PLANNED = ("must be {}", "should be {} soon", "next week to be {}", "tomorrow: {}")
HUNG = ("if dry, {}", "unless {}", "when it warms up: {}")
ASKED = ("{}?", "who {}?", "maybe {}")


def acts_by_row(heading: str, cells: list[object]) -> dict[int, set[str]]:
    """The acts of each row of a log with one column beside date and bin, through the whole reader."""
    rows = [["Date", "Bin", heading], *([DAY, f"K{at:04}", cell] for at, cell in enumerate(cells))]
    placed = {
        (row, col): Cell(CellRef("Log", row, col), value, str(value))
        for row, line in enumerate(rows, start=1)
        for col, value in enumerate(line, start=1)
    }
    intake, _ = read_book(Book(Path("log.xlsx"), (Sheet("Log", placed),)), ON)
    ledger, _ = build_ledger(intake.rows, intake.settings, on=ON)
    found: dict[int, set[str]] = defaultdict(set)
    for entry in ledger.entries:
        found[entry.where.row - 2].add(entry.act)
    return found


@pytest.mark.parametrize(("column", "act"), COLUMNS.items())
def test_what_was_not_done_is_done_in_no_column(column, act):
    heading, usual = column
    words = [*sorted(words_of(*UNDONE, Presence.UNKNOWN)), *SAID_TOO, False]
    cells = [cell for word in words for cell in (word, usual, usual)]
    found = acts_by_row(heading, cells)

    wrong = {str(word): found[3 * at] - {"note", "look"} for at, word in enumerate(words)}
    assert {word: acts for word, acts in wrong.items() if acts} == {}
    expected = {act} if act else {"water", "feed"}
    assert all(found[3 * at + 1] == expected for at in range(len(words)))


@pytest.mark.parametrize(("heading", "act"), [("Fed", "feed"), ("Watered", "water"), ("Leaves", "leaf")])
def test_every_tick_is_done(heading, act):
    words = [*sorted(words_of(Presence.DONE)), True]
    found = acts_by_row(heading, [cell for word in words for cell in (word, "no")])

    assert [str(word) for at, word in enumerate(words) if found[2 * at] != {act}] == []


def test_an_act_that_was_done_is_booked():
    found = acts_by_row("What I did", list(ACTS.values()))

    assert {act: found[at] for at, act in enumerate(ACTS)} == {act: {act} for act in ACTS}


@pytest.mark.parametrize("form", [*DENIED, *PLANNED, *HUNG, *ASKED])
def test_an_act_in_a_mood_is_not_booked(form):
    found = acts_by_row("What I did", [form.format(said) for said in ACTS.values()])

    booked = {act: found[at] - {"note"} for at, act in enumerate(ACTS)}
    booked.pop("count" if form == "{}?" else "", None)  # 'counted 31?' doubts the number, not the counting
    assert {act: acts for act, acts in booked.items() if acts} == {}
