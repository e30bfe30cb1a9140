"""A sheet of the report as data: columns, tables, sheets. No logic and no drawing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Literal

Value = str | int | float | bool | dt.date | None
Style = Literal["text", "date", "days", "number", "amount", "share", "box", "box_date", "link", "example"]


@dataclass(frozen=True, slots=True)
class Place:
    """A row of a table elsewhere in the same workbook, by the sheet's name and the row's key."""

    sheet: str
    key: str


@dataclass(frozen=True, slots=True)
class Spark:
    """Numbers drawn as a small chart in the cell.

    They stand in hidden columns to the right of the table; ``headings`` stand above them, one for each number.
    All charts of a column have the same scale, from 0.
    """

    headings: tuple[str, ...]
    get: Callable[[Any], Sequence[float]]


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table.

    Attributes
    ----------
    heading : str
        What stands above it; no two of a table may differ only in case.
    get : callable
        Row record to value; None and NaN are drawn as an empty cell.
    style : str
        How it is drawn; see ``styles.STYLES``.
    width : float
        In characters of the base font; the widest column above and below one another counts.
    note : str
        The cell note on the heading: what it means, in one or two sentences.
    choices : tuple of str
        Drop-down of a cell; other words may be written all the same.
    choices_for : callable or None
        Row record to its own drop-down, short or from a place (see ``choices_from``); goes before ``choices``.
    choices_from : Place or None
        A long drop-down: sheet and table name (as ``key``) whose first column holds the words.
    link : callable or None
        Row record to the place that a ``link`` cell leads to.
    spark : Spark or None
        A small chart in place of the value.
    """

    heading: str
    get: Callable[[Any], Value]
    style: Style = "text"
    width: float = 12
    note: str = ""
    choices: tuple[str, ...] = ()
    choices_for: Callable[[Any], tuple[str, ...] | Place] | None = None
    choices_from: Place | None = None
    link: Callable[[Any], Place | None] | None = None
    spark: Spark | None = None


@dataclass(frozen=True)
class TableSpec:
    """One native table of a sheet.

    Attributes
    ----------
    name : str
        The table's own name, unique in the workbook.
    columns : tuple of Column
        At least one.
    rows : sequence
        Row records, one a row.
    title : str
        A line above the headings.
    when_empty : str
        What is written below the headings when there are no rows.
    tone : callable or None
        Row record to a tone of ``styles.TONES``, empty for none (a word in the row always says the same).
    toned : tuple of str
        Headings of the columns that the tone colours; empty for all.
    key : callable or None
        Row record to the key by which a ``Place`` finds its row.
    blank_rows : int
        Empty rows to write in below the others.
    """

    name: str
    columns: tuple[Column, ...]
    rows: Sequence[Any]
    title: str = ""
    when_empty: str = ""
    tone: Callable[[Any], str] | None = None
    toned: tuple[str, ...] = ()
    key: Callable[[Any], str] | None = None
    blank_rows: int = 0


@dataclass(frozen=True, slots=True)
class Series:
    """One line of a chart, or one part of its bars.

    ``name`` stands in the legend; "" for one that the legend leaves out. ``look`` is a key of ``styles.CHART_LOOKS``.
    A value of None or NaN is a gap.
    """

    name: str
    look: str
    values: tuple[float | None, ...]


@dataclass(frozen=True)
class ChartSpec:
    """One native chart; its numbers stand in hidden columns to the right, beside it.

    Attributes
    ----------
    title : str
        What it shows, in words of ours first (a program would run a title that begins with ``=``).
    says : str
        The same for somebody who can't see it: what is drawn and what it comes to.
    kind : str
        ``line`` over days, or ``bar``: columns that stand on one another.
    over : tuple
        Days or words along the bottom.
    over_title, title_up : str
        What stands along the bottom and up the side, with its unit.
    series : tuple of Series
        Each with as many values as ``over``.
    below : str
        Name of the table of the same sheet that it stands below.
    across : int
        How many charts stand side by side.
    whole : bool
        Whether the values are counts, so that the axis shows whole numbers only.
    share : bool
        Whether the values are shares, shown as percent up to 100.
    """

    title: str
    says: str
    kind: Literal["line", "bar"]
    over: tuple[dt.date | str, ...]
    over_title: str
    title_up: str
    series: tuple[Series, ...]
    below: str
    across: int = 2
    whole: bool = False
    share: bool = False


@dataclass(frozen=True)
class SheetSpec:
    """One sheet: the question's answer in the first line, further lines of words, tables below one another.

    ``after`` are lines of words below the tables. ``frozen_columns`` stay in view when scrolling to the right, and so
    do the headings of the first table, unless ``frozen_headings`` is False since other tables have other headings.
    ``charts`` stand below their tables. ``repeated_headings`` prints the first table's headings on every page, which
    a sheet with one table does anyway.
    """

    name: str
    answer: str
    tables: tuple[TableSpec, ...] = ()
    lines: tuple[str, ...] = ()
    landscape: bool = True
    cautions: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    frozen_columns: int = 0
    frozen_headings: bool = True
    repeated_headings: bool = False
    charts: tuple[ChartSpec, ...] = ()
