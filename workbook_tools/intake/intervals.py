"""Read how often something is to be done: 5, 5 days, 2 weeks, weekly, twice a week."""

from __future__ import annotations

import re

from workbook_tools.intake.date_words import fold
from workbook_tools.intake.headings import plain

DAYS_IN = {"day": 1.0, "d": 1.0, "week": 7.0, "wk": 7.0, "w": 7.0, "fortnight": 14.0, "month": 30.4375, "mo": 30.4375,
           "mth": 30.4375, "year": 365.25, "yr": 365.25, "y": 365.25}  # fmt: skip
NAMED = {"daily": 1.0, "every day": 1.0, "every other day": 2.0, "weekly": 7.0, "every week": 7.0,
         "every other week": 14.0,
         "fortnightly": 14.0, "biweekly": 14.0, "monthly": 30.4375, "every month": 30.4375, "quarterly": 91.3125,
         "yearly": 365.25, "every year": 365.25, "twice a year": 182.625, "half yearly": 182.625}  # fmt: skip
TIMES = {"once": 1.0, "twice": 2.0, "three times": 3.0, "four times": 4.0}

_COUNT = re.compile(r"^(?:every )?(\d+(?:[.,]\d+)?)(?:\s*(?:-|to)\s*(\d+(?:[.,]\d+)?))?\s*([a-z]*)$")
_TIMES = re.compile(r"^(once|twice|three times|four times|(\d+)\s*(?:x|times))\s*(?:a|per|every)\s*([a-z]+)$")


def _unit(word: str) -> float | None:
    if not word:
        return 1.0
    return DAYS_IN.get(word) or DAYS_IN.get(word.rstrip("s"))


def read_interval(value: object) -> float | None:
    """Return an interval in days, or None when the text isn't one; of a range (10-14 days) the middle.

    A bare number is a number of days.
    """
    if isinstance(value, bool):
        return None
    if isinstance(value, int | float):
        return float(value)
    text = fold(str(value)).strip()
    bare = plain(text)
    if bare in NAMED:
        return NAMED[bare]
    if found := _COUNT.match(text):
        low, high, word = found.groups()
        unit = _unit(word)
        if unit is None:
            return None
        first = float(low.replace(",", "."))
        last = float(high.replace(",", ".")) if high else first
        return (first + last) / 2 * unit
    if found := _TIMES.match(text):
        times = TIMES.get(found[1]) or float(found[2])
        unit = _unit(found[3])
        return unit / times if unit and times else None
    return None
