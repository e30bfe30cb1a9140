"""What kind of values stand in a column: a cheap look that helps to tell headings apart."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from workbook_tools.fields import Field, Kind
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_words import fold, months, weekdays
from workbook_tools.vocabulary.presence import presence_of

_IN_WORDS = frozenset({"species", "food", "way"})
"""Texts that are no plain numbers: 'Animals' over numbers says how many."""
_UNTIL = frozenset({"quarantine_until", "frozen_until", "planned"})
"""Days that are kept as they are written."""
_MARKED = 0.9
"""From this share of ticks and the like on a column says whether, not what."""
_WORD = r"[^\W\d_]"
_DATE = re.compile(
    rf"^(?:(?P<day>{_WORD}{{2,}})\.?,?\s+)?(?:\d{{1,4}}|\?{{1,2}})\s*[./-]\s*(?:\d{{1,2}}|(?P<in>{_WORD}{{3,}}))"
    rf"(?:\s*[./-]\s*\d{{2,4}})?\.?$"
    rf"|^(?:(?P<day2>{_WORD}{{2,}})\.?,?\s+)?\d{{1,2}}(?:st|nd|rd|th|er)?\.?\s+(?P<in2>{_WORD}{{3,}})\.?(?:\s+\d{{2,4}})?$"
    rf"|^(?P<in3>{_WORD}{{3,}})\.?\s+\d{{1,4}}(?:(?:st|nd|rd|th)?(?:,\s*|\s+)\d{{2,4}})?$"
)
_CLOCK = re.compile(r"[\sT]+\d{1,2}[:.]\d{2}(?:[:.]\d{2})?(?:\s?[ap]\.?m\.?)?$", re.IGNORECASE)
_NUMBER = re.compile(r"^[~<>≈]?\s*\d+(?:[.,]\d+)?\s*[+~?]?(?:\s*(?:ml|l|g|cm|qt|%|°c|ish))?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Profile:
    """How a column is filled: shares of its cells that look like dates, numbers or words, and how many differ."""

    filled: int
    dates: float
    numbers: float
    words: float
    different: int
    marks: float = 0.0
    """Share of cells that only say whether something was done: ✓, no, skipped, planned."""
    ones: float = 0.0
    """Share of cells that are 1 or 0."""

    @property
    def unlike(self) -> float:
        """Share of cells that differ from one another, 0 to 1."""
        return self.different / self.filled if self.filled else 0.0


def _is_number(value: object) -> bool:
    if isinstance(value, str):
        return _NUMBER.match(value) is not None
    return isinstance(value, int | float) and not isinstance(value, bool)


@lru_cache(maxsize=20_000)
def _is_date(text: str) -> bool:
    """Whether a text has the form of a date and its words are those of a calendar: '3 May', but not 'Rack 3'."""
    found = _DATE.match(fold(_CLOCK.sub("", text)))
    if found is None:
        return False
    said = found.groupdict()
    days, names = (said["day"], said["day2"]), (said["in"], said["in2"], said["in3"])
    return all(word in weekdays() for word in days if word) and all(word in months() for word in names if word)


def is_date(cell: Cell) -> bool:
    """Whether a cell holds a date, or a text in the form of one."""
    return isinstance(cell.value, dt.date) or (isinstance(cell.value, str) and _is_date(cell.value))


def is_value(cell: Cell) -> bool:
    """Whether a cell holds a date, a number or a measured amount."""
    return is_date(cell) or _is_number(cell.value)


def profile(cells: Sequence[Cell]) -> Profile:
    """Look at up to 400 cells of a column."""
    seen = cells[:400]
    dates = numbers = words = 0
    for cell in seen:
        value = cell.value
        if is_date(cell):
            dates += 1
        elif _is_number(value):
            numbers += 1
        else:
            words += 1
    total = len(seen) or 1
    texts = {cell.text.casefold() for cell in seen}
    ones = sum(cell.text.strip() in ("0", "1") for cell in seen)
    marks = sum(isinstance(cell.value, bool) or presence_of(cell.text) is not None for cell in seen)
    return Profile(len(seen), dates / total, numbers / total, words / total, len(texts), marks / total, ones / total)


def fits(seen: Profile, field: Field) -> float:
    """How well a column's values suit a field: 1 for well or unknown, less where they look like something else."""
    if not seen.filled:
        return 1.0
    if field.key == "outcome":
        return 1.0 if seen.marks >= _MARKED else 0.5
    if field.key == "did" and seen.marks >= _MARKED:
        return 0.9
    if field.kind is Kind.DATE:
        # A number may be a serial; words such as "weekly" happen; a column of plain small words is no date.
        return 1.0 if seen.dates >= 0.3 else 0.9 if seen.dates + seen.numbers >= 0.3 else 0.75
    if field.kind in (Kind.NUMBER, Kind.AMOUNT, Kind.SHARE):
        return 1.0 if seen.numbers >= 0.3 else 0.96
    if field.kind in (Kind.ACT, Kind.STATE, Kind.CHOICE):
        return 0.7 if seen.dates > 0.6 else 0.97 if seen.numbers > 0.6 else 1.0
    if field.key in _IN_WORDS and seen.numbers > 0.8 and not (field.key == "food" and seen.ones >= _MARKED):
        return 0.6
    if field.kind is Kind.TEXT:
        return 0.6 if seen.dates > 0.6 and field.key not in _UNTIL else 1.0
    return 1.0
