"""A grid of dates: bins down and dates across, or the other way round, codes in the cells."""

from __future__ import annotations

from workbook_tools.intake.cells import Sheet
from workbook_tools.intake.shapes.records import Around, Shape, Unfolded


def likeness(sheet: Sheet, around: Around) -> float:
    """How surely a sheet is a grid of dates."""
    return 0.0


def unfolded(sheet: Sheet, around: Around) -> Unfolded:
    """The grid as a log."""
    return Unfolded((sheet,))


SHAPE = Shape("a grid of dates", likeness, unfolded)
