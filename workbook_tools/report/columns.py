"""A sheet of the report as data: columns, tables, sheets. No logic and no drawing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

Value = str | int | float | bool | dt.date | None
Style = Literal["text", "wrap", "date", "days", "number", "amount", "share", "box", "box_date", "link", "word"]


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
        In characters of the base font.
    note : str
        The cell note on the heading: what it means, in one or two sentences.
    choices : tuple of str
        Drop-down of an empty box.
    link : callable or None
        Row record to a place in this same workbook ("Bins" row), for ``link`` columns.
    """

    heading: str
    get: Callable[[Any], Value]
    style: Style = "text"
    width: float = 12
    note: str = ""
    choices: tuple[str, ...] = ()
    link: Callable[[Any], str | None] | None = None


@dataclass(frozen=True)
class TableSpec:
    """One native table of a sheet: a title above it, its columns, its rows; ``name`` is the table's own name."""

    name: str
    columns: tuple[Column, ...]
    rows: Sequence[Any]
    title: str = ""
    when_empty: str = ""
    """What is written below the headings when there are no rows."""
    tone: Callable[[Any], str] | None = None
    """Row record to a tone of ``styles.TONES`` (a word in the row always says the same)."""


@dataclass(frozen=True)
class SheetSpec:
    """One sheet: the question's answer in the first line, further lines of words, tables below one another."""

    name: str
    answer: str
    tables: tuple[TableSpec, ...] = ()
    lines: tuple[str, ...] = ()
    landscape: bool = True
    cautions: tuple[str, ...] = ()
    after: tuple[str, ...] = field(default_factory=tuple)
    """Lines of words below the tables."""
