"""Spoil one cell of a sound workbook in a known way: exactly that cell must be named, and nothing else."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from tools.sheets import book
from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.checks import check
from workbook_tools.problems import CellRef

ON = dt.date(2025, 6, 1)
BIN_HEADINGS = ("Bin", "Species", "Shelf", "Litres", "Ventilation", "Started")
LOG_HEADINGS = ("Date", "Bin", "Done", "Amount", "Moss corner", "Dead", "Note")
SPOILS = {
    "Date": ("31/02/2025", "32/13/2025", "gibberish", "1899-05-05"),
    "Bin": ("Z99", "somewhere"),
    "Done": ("frobnicated", "zork"),
    "Amount": ("4 fortnights", "much of it"),
    "Moss corner": ("like a mermaid", "purple"),
    "Dead": ("the usual", "x-ray"),
    "Started": ("30 Feb 2025", "whenever it was"),
    "Ventilation": ("sideways",),
    "Litres": ("5 seconds", "roomy-ish"),
}


def placed(name: str, rows: list[tuple[object, ...]], top: int, left: int) -> Sheet:
    cells = {}
    for down, values in enumerate(rows):
        for right, value in enumerate(values):
            if value is not None:
                at = (top + down, left + right)
                cells[at] = Cell(CellRef(name, *at), value, str(value))
    return Sheet(name, cells)


@st.composite
def sound(draw: st.DrawFn) -> tuple[Sheet, Sheet]:
    """A list of bins and a log, anywhere on their sheets, columns in any order."""
    names = [f"A{number:02}" for number in range(1, draw(st.integers(2, 5)) + 1)]
    bins = [
        (name, "Porcellio scaber", "top", 6, draw(st.sampled_from(["low", "medium", "high"])), dt.date(2024, 1, 5))
        for name in names
    ]
    days = sorted(draw(st.lists(st.integers(0, 120), min_size=3, max_size=12, unique=True)))
    log = [
        (
            dt.date(2025, 1, 15) + dt.timedelta(days=day),
            draw(st.sampled_from(names)),
            "water",
            "20 ml",
            draw(st.sampled_from(["dry", "damp", "wet"])),
            draw(st.sampled_from([None, 0, 1])),
            draw(st.sampled_from([None, "all fine", "=1+1"])),
        )
        for day in days
    ]
    sheets = []
    for name, headings, rows in (("Boxes", BIN_HEADINGS, bins), ("Diary", LOG_HEADINGS, log)):
        order = draw(st.permutations(range(len(headings))))
        turned = [tuple(row[index] for index in order) for row in (headings, *rows)]
        sheets.append(placed(name, turned, draw(st.integers(1, 6)), draw(st.integers(1, 4))))
    return sheets[0], sheets[1]


def named(bins: Sheet, log: Sheet) -> set[tuple[CellRef, str]]:
    intake, problems = read_book(book(bins, log), ON)
    ledger, building = build_ledger(intake.rows, intake.settings, on=ON)
    return {(ref, problem.code) for problem in (*problems, *building, *check(ledger, ON)) for ref in problem.cells}


@settings(max_examples=60, deadline=None, derandomize=True)
@given(sound())
def test_a_sound_workbook_has_no_problems(sheets):
    assert named(*sheets) == set()


@settings(max_examples=150, deadline=None, derandomize=True)
@given(sound(), st.data())
def test_the_spoiled_cell_is_named_and_no_other(sheets, data):
    which = data.draw(st.sampled_from([0, 1]))
    sheet = sheets[which]
    heading_row = min(row for row, _ in sheet.cells)
    columns = {cell.text: col for (row, col), cell in sheet.cells.items() if row == heading_row}
    heading = data.draw(st.sampled_from(sorted(set(columns) & set(SPOILS) - ({"Bin"} if which == 0 else set()))))
    row = data.draw(st.sampled_from(sorted({row for row, _ in sheet.cells} - {heading_row})))
    at = (row, columns[heading])
    text = data.draw(st.sampled_from(SPOILS[heading]))
    spoiled = replace(sheet, cells={**sheet.cells, at: Cell(CellRef(sheet.name, *at), text, text)})

    found = named(spoiled, sheets[1]) if which == 0 else named(sheets[0], spoiled)

    refs = {ref for ref, _ in found}
    assert CellRef(sheet.name, *at) in refs
    # A row left out for its date is named by its row as well; without a known act its amount belongs to nothing.
    follows = {CellRef(sheet.name, row)} if heading == "Date" else set()
    follows |= {CellRef(sheet.name, row, columns["Amount"])} if heading == "Done" else set()
    assert refs <= {CellRef(sheet.name, *at)} | follows
