"""Sheets made from text grids, without a file."""

from __future__ import annotations

from pathlib import Path

from tools.grid import typed
from workbook_tools.intake.cells import Area, Book, Cell, Raw, Sheet
from workbook_tools.problems import CellRef


def sheet(name: str, text: str, merged: tuple[Area, ...] = (), hidden: bool = False) -> Sheet:
    """A sheet from lines of cells parted by bars; a line that is empty is an empty row."""
    cells = {}
    for row, line in enumerate(text.strip("\n").split("\n"), start=1):
        for col, part in enumerate(line.split("|"), start=1):
            if part.strip():
                value: Raw = typed(part.strip())  # type: ignore[assignment]
                shown = f"{value:g}" if isinstance(value, float) else str(value)
                cells[row, col] = Cell(CellRef(name, row, col), value, shown)
    return Sheet(name, cells, merged, hidden)


def book(*sheets: Sheet, date_1904: bool = False) -> Book:
    return Book(Path("made.xlsx"), sheets, date_1904)
