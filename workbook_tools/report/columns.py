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
        Row record to its own drop-down; goes before ``choices``.
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
    choices_for: Callable[[Any], tuple[str, ...]] | None = None
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


@dataclass(frozen=True)
class SheetSpec:
    """One sheet: the question's answer in the first line, further lines of words, tables below one another.

    ``after`` are lines of words below the tables. ``frozen_columns`` stay in view when scrolling to the right.
    """

    name: str
    answer: str
    tables: tuple[TableSpec, ...] = ()
    lines: tuple[str, ...] = ()
    landscape: bool = True
    cautions: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    frozen_columns: int = 0
