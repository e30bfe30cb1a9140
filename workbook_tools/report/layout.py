"""Where everything of a sheet stands, before anything is drawn. Rows and columns count from 0, as the writer needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from workbook_tools.report.columns import ChartSpec, Column, SheetSpec, TableSpec
from workbook_tools.report.measure import text_width

WORDS_WIDTH = 110.0
"""Lines of words run over the first columns until they are about this wide, so that they can be read at a glance."""
_NAME_LENGTH = 31
_NOT_IN_NAMES = frozenset("[]:*?/\\")
_HIDDEN_WIDTH = 6.0
CHART_ROWS = 17
"""Rows that a row of charts takes, with the empty one below it."""
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


@dataclass(frozen=True, slots=True)
class PlacedChart:
    """One chart: its first row, its place from the left among ``spec.across``, the first hidden column of its numbers.

    The numbers have their headings in the chart's first row: what it runs over, then one column a series.
    """

    spec: ChartSpec
    row: int
    place: int
    numbers: int

    @property
    def rows(self) -> range:
        """The rows that it takes."""
        return range(self.row, self.row + CHART_ROWS)


@dataclass(frozen=True)
class Layout:
    """One sheet: lines, tables, charts, widths of its columns, the last column that words run over.

    ``hidden`` are the widths of hidden columns, of which ``hidden_from`` is the first.
    """

    spec: SheetSpec
    lines: tuple[Line, ...]
    tables: tuple[PlacedTable, ...]
    charts: tuple[PlacedChart, ...]
    widths: tuple[float, ...]
    hidden: tuple[float, ...]
    hidden_from: int
    words_to: int
    last_row: int

    @property
    def paged(self) -> bool:
        """Whether it has page breaks, and so a scale of its own: they don't hold where a sheet is fitted to a width."""
        return bool(self.charts) or len(self.tables) > 1

    @property
    def repeated(self) -> bool:
        """Whether every page begins with the headings of the first table."""
        return len(self.tables) == 1 or (bool(self.tables) and self.spec.repeated_headings)

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
        of a table that differ only in case, a chart without numbers or without a table to stand below.
    """
    _check_name(spec.name)
    _check_charts(spec)
    widths = _widths(spec, date_width)
    lines = [Line(0, "answer", spec.answer)]
    lines += [Line(0, "line", text) for text in spec.lines]
    lines += [Line(0, "caution", text) for text in spec.cautions]
    lines = [Line(row, line.style, line.text) for row, line in enumerate(lines)]
    # An empty column keeps what some programs draw of hidden cells off the printed page.
    hidden_from = len(widths) + bool(spec.charts)
    row, hidden = len(lines) + 1, hidden_from
    tables: list[PlacedTable] = []
    charts: list[PlacedChart] = []
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
        below = [chart for chart in spec.charts if chart.below == table.name]
        for i, chart in enumerate(below):
            charts.append(PlacedChart(chart, row - 1 + i // chart.across * CHART_ROWS, i % chart.across, hidden))
            hidden += 1 + len(chart.series)
        if below:
            row = charts[-1].row + CHART_ROWS + 1
    lines += [Line(row + i, "line", text) for i, text in enumerate(spec.after)]
    last_row = max(lines[-1].row, *(t.last for t in tables), *(c.rows[-1] for c in charts), 0)
    words_to = next((i for i in range(len(widths)) if sum(widths[: i + 1]) >= WORDS_WIDTH), len(widths) - 1)
    hidden_widths = (_HIDDEN_WIDTH,) * (hidden - hidden_from)
    return Layout(
        spec, tuple(lines), tuple(tables), tuple(charts), widths, hidden_widths, hidden_from, words_to, last_row
    )


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


def _check_charts(spec: SheetSpec) -> None:
    for chart in spec.charts:
        if chart.below not in {table.name for table in spec.tables}:
            raise ValueError(f"the chart {chart.title!r} stands below no table of {spec.name}")
        if not chart.series or not chart.over or any(len(one.values) != len(chart.over) for one in chart.series):
            raise ValueError(f"the chart {chart.title!r} is empty or of uneven length")
        if not chart.title[:1].isalpha() or not chart.says:
            raise ValueError(f"the chart {chart.title!r} must begin with a word and say what it shows")


def _check_columns(table: TableSpec) -> None:
    headings = [column.heading for column in table.columns]
    if not headings or not all(heading.strip() for heading in headings):
        raise ValueError(f"table {table.name} lacks a heading")
    if len({heading.casefold() for heading in headings}) != len(headings):
        raise ValueError(f"table {table.name} has two headings that differ only in case: {headings}")
    if set(table.toned) - set(headings):
        raise ValueError(f"table {table.name} colours a heading that it doesn't have: {table.toned}")
