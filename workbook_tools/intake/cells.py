"""What an opened workbook is to the rest of intake: sheets of placed cells, whatever the file format."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from workbook_tools.problems import CellRef

Raw = str | int | float | bool | dt.datetime | dt.date | dt.time | dt.timedelta


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell that holds something.

    Attributes
    ----------
    ref : CellRef
        Where it stands.
    value : str, int, float, bool, datetime, date, time or timedelta
        What the file holds. Text is as typed, with white space at both ends removed; a cell formatted as a date
        is a ``date`` (or a ``datetime`` where it has a time of day) in the file's own date system.
    text : str
        What the keeper sees or typed, as near as the file tells: the value itself for text, the shortest form of
        a number, ISO 8601 for a date.
    written : str
        What the keeper wrote, where ``text`` is what it stands for: a code of a grid, a day whose month stands
        elsewhere. Empty where ``text`` is the keeper's own.
    """

    ref: CellRef
    value: Raw
    text: str
    written: str = ""


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle of cells, both ends included; rows and columns count from 1."""

    top: int
    left: int
    bottom: int
    right: int

    def __str__(self) -> str:
        first, last = CellRef("", self.top, self.left), CellRef("", self.bottom, self.right)
        return str(first) if first == last else f"{first}:{last}"

    def holds(self, row: int, col: int) -> bool:
        """Whether the cell lies inside."""
        return self.top <= row <= self.bottom and self.left <= col <= self.right


@dataclass(frozen=True)
class Sheet:
    """One sheet: only the cells that hold something, by (row, column), counted from 1.

    A sheet unfolded from another shape (``rows_at`` is filled) has its headings in row 1 and its body below; its
    cells keep the places they have in the keeper's sheet.
    """

    name: str
    cells: Mapping[tuple[int, int], Cell]
    merged: tuple[Area, ...] = ()
    hidden: bool = False
    rows_at: Mapping[int, CellRef] = field(default_factory=dict)
    """For an unfolded sheet: where each row of the body stands in the keeper's sheet."""

    @cached_property
    def rows(self) -> Mapping[int, Mapping[int, Cell]]:
        """The cells that hold something by row and then by column, both rising."""
        rows: dict[int, dict[int, Cell]] = {}
        for (row, col), cell in sorted(self.cells.items()):
            rows.setdefault(row, {})[col] = cell
        return rows

    def at(self, row: int) -> CellRef:
        """Where a row stands in the keeper's sheet."""
        return self.rows_at.get(row, CellRef(self.name, row))

    @property
    def stands(self) -> Area:
        """The smallest area of the keeper's sheet that holds every cell."""
        refs = [cell.ref for cell in self.cells.values() if cell.ref.row and cell.ref.col]
        if not refs:
            return Area(1, 1, 1, 1)
        rows, cols = [ref.row for ref in refs], [ref.col for ref in refs]
        return Area(min(rows), min(cols), max(rows), max(cols))

    @property
    def last_row(self) -> int:
        """The lowest row that holds something; 0 for an empty sheet."""
        return max((row for row, _ in self.cells), default=0)

    @property
    def last_col(self) -> int:
        """The rightmost column that holds something; 0 for an empty sheet."""
        return max((col for _, col in self.cells), default=0)


@dataclass(frozen=True)
class Book:
    """An opened workbook or folder of tables."""

    path: Path
    sheets: tuple[Sheet, ...]
    date_1904: bool = False
    facts: Mapping[str, str] = field(default_factory=dict)
    """What else was noticed on opening, for the reading notes: format, encoding, delimiter."""
