"""What kind of values stand in a column: a cheap look that helps to tell headings apart."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass

from workbook_tools.fields import Field, Kind
from workbook_tools.intake.cells import Cell

_DATE = re.compile(
    r"^(?:[a-z]{2,9}\.?,?\s+)?(?:\d{1,4}|\?{1,2})\s*[./-]\s*(?:\d{1,2}|[a-z]{3,9})(?:\s*[./-]\s*\d{2,4})?\.?$"
    r"|^\d{1,2}(?:st|nd|rd|th)?\.?\s+[a-z]{3,9}\.?(?:\s+\d{2,4})?$|^[a-z]{3,9}\.?\s+\d{1,4}$",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"^[~<>≈]?\s*\d+(?:[.,]\d+)?\s*[+~?]?(?:\s*(?:ml|l|g|cm|qt|%|°c|ish))?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Profile:
    """How a column is filled: shares of its cells that look like dates, numbers or words, and how many differ."""

    filled: int
    dates: float
    numbers: float
    words: float
    different: int

    @property
    def unlike(self) -> float:
        """Share of cells that differ from one another, 0 to 1."""
        return self.different / self.filled if self.filled else 0.0


def _is_number(value: object) -> bool:
    if isinstance(value, str):
        return _NUMBER.match(value) is not None
    return isinstance(value, int | float) and not isinstance(value, bool)


def profile(cells: Sequence[Cell]) -> Profile:
    """Look at up to 400 cells of a column."""
    seen = cells[:400]
    dates = numbers = words = 0
    for cell in seen:
        value = cell.value
        if isinstance(value, dt.date) or (isinstance(value, str) and _DATE.match(value)):
            dates += 1
        elif _is_number(value):
            numbers += 1
        else:
            words += 1
    total = len(seen) or 1
    texts = {cell.text.casefold() for cell in seen}
    return Profile(len(seen), dates / total, numbers / total, words / total, len(texts))


def fits(seen: Profile, field: Field) -> float:
    """How well a column's values suit a field: 1 for well or unknown, less where they look like something else."""
    if not seen.filled:
        return 1.0
    if field.kind is Kind.DATE:
        # A number may be a serial; words such as "weekly" happen; a column of plain small words is no date.
        return 1.0 if seen.dates >= 0.3 else 0.9 if seen.dates + seen.numbers >= 0.3 else 0.75
    if field.kind in (Kind.NUMBER, Kind.AMOUNT, Kind.SHARE):
        return 1.0 if seen.numbers >= 0.3 else 0.96
    if field.kind in (Kind.ACT, Kind.STATE, Kind.CHOICE):
        return 0.7 if seen.dates > 0.6 else 0.97 if seen.numbers > 0.6 else 1.0
    if field.kind is Kind.TEXT:
        return 0.6 if seen.dates > 0.6 else 1.0
    return 1.0
