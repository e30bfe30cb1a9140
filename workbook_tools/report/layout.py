"""Where everything of a sheet stands, before anything is drawn. Rows and columns count from 0, as the writer needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from workbook_tools.report.columns import Column, SheetSpec, TableSpec
from workbook_tools.report.measure import text_width

WORDS_WIDTH = 110.0
"""Lines of words run over the first columns until they are about this wide, so that they can be read at a glance."""
_NAME_LENGTH = 31
_NOT_IN_NAMES = frozenset("[]:*?/\\")
_HIDDEN_WIDTH = 6.0
FILTER_WIDTH = 3.0
"""What the filter button takes of a heading."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of words: its row, its style, its text."""

    row: int
    style: str
    text: str


@dataclass(frozen=True)
class PlacedTable:
    """One table: rows of its headings, its first and its last row; first hidden column of each spark by column."""

    spec: TableSpec
    headings: int
    first: int
    last: int
    sparks: Mapping[int, int] = field(default_factory=dict)

    @property
    def records(self) -> Sequence[Any]:
        """Row records, without the blank rows."""
        return self.spec.rows


@dataclass(frozen=True)
class Layout:
    """One sheet: lines, tables, widths of its columns, the last column that words run over."""

    spec: SheetSpec
    lines: tuple[Line, ...]
    tables: tuple[PlacedTable, ...]
    widths: tuple[float, ...]
    hidden: tuple[float, ...]
    words_to: int
    last_row: int

    @property
    def words_width(self) -> float:
        """Width that a line of words has, in units of column width."""
        return sum(self.widths[: self.words_to + 1])


def lay_out(spec: SheetSpec, *, date_width: float) -> Layout:
    """Give every line and table of a sheet its rows.

    Parameters
    ----------
    spec : SheetSpec
        The sheet.
    date_width : float
        Least width of a column of dates.

    Raises
    ------
    ValueError
        A developer's mistake: a sheet's name that spreadsheet programs refuse, a table without columns, two headings
        of a table that differ only in case.
    """
    _check_name(spec.name)
    widths = _widths(spec, date_width)
    lines = [Line(0, "answer", spec.answer)]
    lines += [Line(0, "line", text) for text in spec.lines]
    lines += [Line(0, "caution", text) for text in spec.cautions]
    lines = [Line(row, line.style, line.text) for row, line in enumerate(lines)]
    row, hidden = len(lines) + 1, len(widths)
    tables = []
    for table in spec.tables:
        if table.title:
            lines.append(Line(row, "title", table.title))
            row += 1
        sparks = {}
        for col, column in enumerate(table.columns):
            if column.spark:
                sparks[col] = hidden
                hidden += len(column.spark.headings)
        last = row + max(len(table.rows) + table.blank_rows, 1)
        tables.append(PlacedTable(table, row, row + 1, last, sparks))
        row = last + 3
    lines += [Line(row + i, "line", text) for i, text in enumerate(spec.after)]
    last_row = max(lines[-1].row, *(t.last for t in tables), 0)
    words_to = next((i for i in range(len(widths)) if sum(widths[: i + 1]) >= WORDS_WIDTH), len(widths) - 1)
    hidden_widths = (_HIDDEN_WIDTH,) * (hidden - len(widths))
    return Layout(spec, tuple(lines), tuple(tables), widths, hidden_widths, words_to, last_row)


def _widths(spec: SheetSpec, date_width: float) -> tuple[float, ...]:
    widths: list[float] = []
    for table in spec.tables:
        _check_columns(table)
        for col, column in enumerate(table.columns):
            if col == len(widths):
                widths.append(0.0)
            widths[col] = max(widths[col], _width(column, date_width))
    return tuple(widths) or (WORDS_WIDTH,)


def _width(column: Column, date_width: float) -> float:
    longest_word = max(text_width(word, bold=True) for word in column.heading.split())
    least = date_width if column.style in ("date", "box_date") else 0.0
    return max(column.width, longest_word + FILTER_WIDTH, least)


def _check_name(name: str) -> None:
    if not name or len(name) > _NAME_LENGTH or _NOT_IN_NAMES & set(name) or name[0] == "'" or name[-1] == "'":
        raise ValueError(f"no sheet can be named {name!r}")


def _check_columns(table: TableSpec) -> None:
    headings = [column.heading for column in table.columns]
    if not headings or not all(heading.strip() for heading in headings):
        raise ValueError(f"table {table.name} lacks a heading")
    if len({heading.casefold() for heading in headings}) != len(headings):
        raise ValueError(f"table {table.name} has two headings that differ only in case: {headings}")
    if set(table.toned) - set(headings):
        raise ValueError(f"table {table.name} colours a heading that it doesn't have: {table.toned}")
