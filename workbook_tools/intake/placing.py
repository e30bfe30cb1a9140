"""Place values in a sheet: bring them to one form, whatever reader they come from, and name what can't be used."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Iterable, Sequence

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.cells import Area, Cell, Raw, Sheet
from workbook_tools.problems import CellRef, Problem

_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff]")
_LINE_END = re.compile(r"\r\n?")
_EXACT = 2**53
"""Whole numbers up to here are exact in a workbook's floats."""


def base(date_1904: bool) -> dt.date:
    """The day with the serial number 0, for dates from March 1900 on."""
    return dt.date(1904, 1, 1) if date_1904 else dt.date(1899, 12, 30)


def first_date(date_1904: bool) -> dt.date:
    """The earliest date a cell may hold; an earlier one is a number wrongly shown as a date."""
    return base(date_1904) + dt.timedelta(days=DEFAULTS["date.first_serial"].value)


def settled(value: Raw) -> Raw:
    """Bring a value to its one form.

    Whole floats become whole numbers, line ends become single, white space at both ends goes. Dates and times are
    rounded to the second, since a workbook holds them as fractions of a day; a date at midnight becomes a date.
    """
    if isinstance(value, str):
        return (_LINE_END.sub("\n", value) if "\r" in value else value).strip()
    if isinstance(value, float):
        if not math.isfinite(value):
            return str(value)
        return int(value) if value.is_integer() and abs(value) <= _EXACT else value
    if isinstance(value, dt.datetime):
        if value.microsecond:
            value = _whole_second(value)
        return value.date() if value.time() == dt.time() else value
    if isinstance(value, dt.time) and value.microsecond:
        return _whole_second(dt.datetime.combine(dt.date(1904, 1, 1), value)).time()
    if isinstance(value, dt.timedelta) and value.microseconds:
        return dt.timedelta(seconds=round(value.total_seconds()))
    return value


def _whole_second(moment: dt.datetime) -> dt.datetime:
    whole = moment.replace(microsecond=0)
    if moment.microsecond < 500_000:
        return whole
    try:
        return whole + dt.timedelta(seconds=1)
    except OverflowError:  # the last second of the year 9999
        return whole


def text_of(value: Raw) -> str:
    """Write a settled value as a keeper would read it; see ``Cell.text``."""
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, dt.datetime):
        return value.isoformat(" ", "seconds" if value.second else "minutes")
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, dt.time):
        return value.isoformat("seconds" if value.second else "minutes")
    if isinstance(value, dt.timedelta):
        seconds = round(value.total_seconds())
        minutes, rest = divmod(abs(seconds), 60)
        tail = f":{rest:02d}" if rest else ""
        return f"{'-' if seconds < 0 else ''}{minutes // 60}:{minutes % 60:02d}{tail}"
    return repr(value)


class Placing:
    """One sheet while it is read: ``put`` the values, ``blame`` the cells that can't be used, then ``sheet``."""

    def __init__(self, name: str, limit: int, *, date_1904: bool = False) -> None:
        self.name = name
        self.limit = limit
        self._blamed = 0
        self.full = False
        """Whether the limit has been reached; what is put from then on isn't kept."""
        self._cells: dict[tuple[int, int], Cell] = {}
        self._faults: dict[tuple[str, int, str, tuple[tuple[str, object], ...]], list[CellRef]] = {}
        self._first_date = first_date(date_1904)
        self._end = CellRef(name)

    def put(self, row: int, col: int, value: Raw) -> None:
        """Place a value; rows and columns count from 1. An empty text is no cell."""
        if self._is_full(row):
            return
        value = settled(value)
        if isinstance(value, str):
            if not value.isprintable() and _UNPRINTABLE.search(value):
                self.blame("cell.unprintable", row, col, _UNPRINTABLE.sub("\ufffd", value))
                value = _UNPRINTABLE.sub("", value).strip()
            text = value
        elif isinstance(value, dt.date):
            text = text_of(value)
            day = value.date() if isinstance(value, dt.datetime) else value
            if day < self._first_date:
                self.blame("cell.early_date", row, col, text)
                return
        else:
            text = text_of(value)
        if text:
            self._cells[row, col] = Cell(CellRef(self.name, row, col), value, text)

    def blame(self, code: str, row: int, col: int, value: str = "", **facts: object) -> None:
        """Name a cell that can't be used. Cells of one column with the same fault make one problem."""
        key = (code, col, value, tuple(sorted(facts.items())))
        if not self._is_full(row):
            self._blamed += 1
            self._faults.setdefault(key, []).append(CellRef(self.name, row, col))

    def _is_full(self, row: int) -> bool:
        """Whether there is no room for one more cell, be it a good or a faulty one; the row is remembered."""
        if not self.full and len(self._cells) + self._blamed >= self.limit:
            self.full = True
            self._end = CellRef(self.name, row)
        return self.full

    def sheet(self, merged: Sequence[Area] = (), *, hidden: bool = False) -> tuple[Sheet, list[Problem]]:
        """Close the sheet: cells under a merged one are left out and named."""
        for row, col in sorted(_covered(self._cells, merged)):
            self.blame("cell.covered", row, col, self._cells.pop((row, col)).text)
        problems = [
            Problem(code, cells[0], dict(facts), value, tuple(cells[1:]))
            for (code, _, value, facts), cells in self._faults.items()
        ]
        if self.full:
            problems.append(Problem("sheet.too_large", self._end, {"row": self._end.row}))
        return Sheet(self.name, self._cells, tuple(merged), hidden), problems

    @property
    def count(self) -> int:
        """How many cells hold something."""
        return len(self._cells)


def _covered(cells: Iterable[tuple[int, int]], merged: Sequence[Area]) -> set[tuple[int, int]]:
    """Places of filled cells that lie in a merged area but not at its top left."""
    places = cells if isinstance(cells, dict) else dict.fromkeys(cells)
    found: set[tuple[int, int]] = set()
    for area in merged:
        rows, cols = range(area.top, area.bottom + 1), range(area.left, area.right + 1)
        if len(rows) * len(cols) <= len(places):
            inside = {(row, col) for row in rows for col in cols if (row, col) in places}
        else:
            inside = {place for place in places if area.holds(*place)}
        found |= inside - {(area.top, area.left)}
    return found
