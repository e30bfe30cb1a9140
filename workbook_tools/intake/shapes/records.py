"""What a shape is, and what a sheet of that shape comes to when it is unfolded (records only)."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.corrections import NONE, Corrections
from workbook_tools.intake.date_choice import Order
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.problems import CellRef, Problem

PLAIN = "a plain list"
"""Headings above, one row for a bin or an entry: what is read where no other shape is recognised."""


@dataclass(frozen=True)
class Around:
    """What is known beside a sheet: the file's words, the order of its dates, what the keeper put right."""

    lexicon: Lexicon
    order: Order | None = None
    corrections: Corrections = NONE
    alike: frozenset[tuple[str, str]] = frozenset()
    """Labels of a bin's name with what most sheets say there: no name of a bin."""


@dataclass(frozen=True)
class Unfolded:
    """A sheet as plain lists, and what it was taken for.

    Attributes
    ----------
    sheets : tuple of Sheet
        Plain lists. One made from another shape has ``rows_at`` filled, its headings in row 1 and cells whose ``ref``
        is the keeper's own cell; a part that is a plain list already keeps its places and has no ``rows_at``.
    shape : str
        The name of the shape.
    score : float
        How surely it is that shape, 0 to 1.
    why : str
        In words: what made it be taken so.
    others : tuple of (str, float)
        Other shapes that it might be, and how surely.
    problems : tuple of Problem
        What was met on the way.
    passed : mapping of CellRef to str
        Cells that hold no fact of their own, each with the reason: a key, a mark for nothing, a sum.
    words : mapping of str to str
        The keeper's words and codes explained on the sheet, each with the word of ours that it means.
    order : str or None
        The order of day and month that was leaned on; None where none was needed.
    dates : tuple of Cell
        Headings that are dates, as they stand in their line: they help to settle the order for the file.
    """

    sheets: tuple[Sheet, ...]
    shape: str = PLAIN
    score: float = 0.0
    why: str = ""
    others: tuple[tuple[str, float], ...] = ()
    problems: tuple[Problem, ...] = ()
    passed: Mapping[CellRef, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    order: Order | None = None
    dates: tuple[Cell, ...] = ()


@dataclass(frozen=True, slots=True)
class Shape:
    """One way that facts may lie on a sheet.

    Attributes
    ----------
    name : str
        As it is told to a keeper: "a grid of dates".
    likeness : callable
        How surely a sheet is of this shape, 0 to 1, by general features.
    unfolded : callable
        The sheet as plain lists; called only where the shape was chosen.
    """

    name: str
    likeness: Callable[[Sheet, Around], float]
    unfolded: Callable[[Sheet, Around], Unfolded]
