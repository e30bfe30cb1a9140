"""Dates, numbers and lists as the keeper's region writes them, for sentences and for number formats."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Sequence
from functools import lru_cache

from babel import Locale, UnknownLocaleError
from babel.dates import format_date, get_date_format
from babel.lists import format_list
from babel.numbers import format_decimal

from workbook_tools.intake.settings import Settings
from workbook_tools.intake.values import Number, When
from workbook_tools.problems import Problem

FALLBACK = "en-GB"
SEASONS = {3: "spring", 6: "summer", 9: "autumn", 12: "winter"}
"""Named by the month they begin in, north of the equator, as the reader of dates takes them."""


class Wording:
    """How a region writes dates and numbers; the sentences themselves are English.

    Parameters
    ----------
    region : str
        A language and country such as ``en-GB``, ``en_US`` or ``de-DE``; the language alone will do.

    Attributes
    ----------
    region : str
        The region used: as given, or ``en-GB`` when that isn't one we know.
    understood : bool
        False when the region given was not known.
    """

    def __init__(self, region: str = FALLBACK) -> None:
        try:
            self._locale = Locale.parse(region.strip().replace("-", "_"))
            self.understood = True
        except (UnknownLocaleError, ValueError, TypeError):
            self._locale = Locale.parse(FALLBACK, sep="-")
            self.understood = False
        self.region = str(self._locale).replace("_", "-")
        self._date = lru_cache(maxsize=4096)(self._format_date)

    def _format_date(self, day: dt.date) -> str:
        return format_date(day, format="medium", locale=self._locale)

    def date(self, day: dt.date) -> str:
        """Write a day in the medium style of the region: 3 Mar 2026; Mar 3, 2026; 03.03.2026."""
        return self._date(day)

    def weekday(self, day: dt.date) -> str:
        """Write a day with its weekday in front, in English: Thu 5 Mar 2026."""
        return f"{format_date(day, format='EEE', locale='en')} {self.date(day)}"

    def month(self, day: dt.date) -> str:
        """Write a day's month, in English: Mar 2026."""
        return str(format_date(day, format="MMM y", locale="en"))

    def day_of_week(self, day: dt.date) -> str:
        """Write a day for a narrow place, in English: Thu 5 Mar."""
        return str(format_date(day, format="EEE d MMM", locale="en"))

    def excel_date(self) -> str:
        """Return the number format of a spreadsheet that shows a date as :meth:`date` does."""
        pattern = get_date_format("medium", locale=self._locale).pattern
        out = []
        for quoted, letters, other in re.findall(r"'([^']*)'|([A-Za-z]+)|([^A-Za-z']+)", pattern):
            if letters:
                out.append({"y": "yyyy", "M": "m", "L": "m", "d": "d"}.get(letters, letters.replace("L", "M").lower()))
            elif quoted or not other.strip(" .,/-"):
                out.append(f'"{quoted}"' if quoted else other)
            else:
                out.append(f'"{other}"')
        return "".join(out)

    def number(self, value: float, digits: int = 0) -> str:
        """Write a number with at most ``digits`` decimals and the region's signs."""
        pattern = "#,##0" + ("." + "#" * digits if digits else "")
        return str(format_decimal(value, format=pattern, locale=self._locale))

    def count(self, value: float, one: str, many: str = "") -> str:
        """Write a whole number with its noun: 1 day, 3 days."""
        return f"{self.number(value)} {one if value == 1 else many or one + 's'}"

    def ranged(self, number: Number, noun: str = "", nouns: str = "") -> str:
        """Write a number of animals with the range it may lie in: 44; about 50, 40 to 60; 30 or more."""
        best = f"{self.number(number.best)} {noun if number.best == 1 else nouns}".rstrip()
        if number.exact:
            return best
        if math.isinf(number.high):
            return f"{best} or more"
        return f"about {best}, {self.number(number.low)} to {self.number(number.high)}"

    def days(self, late: int) -> str:
        """Say how late something is: 3 days overdue, today, tomorrow, in 5 days. ``late`` is today minus due."""
        if late > 0:
            return f"{self.count(late, 'day')} overdue"
        return {0: "today", -1: "tomorrow"}.get(late, f"in {self.count(-late, 'day')}")

    def ago(self, days: int) -> str:
        """Say how long ago something was: today, yesterday, 8 days ago; in 2 days for one to come."""
        if days < 0:
            return self.days(days)
        return {0: "today", 1: "yesterday"}.get(days, f"{self.count(days, 'day')} ago")

    def counted_from(self, when: When) -> str:
        """Write a date that days are counted from; of one that isn't exact, say that its first day was taken."""
        return self.when(when) if when.exact else f"{self.when(when)} (counted from its first day)"

    def listing(self, parts: Sequence[str], *, either: bool = False) -> str:
        """Write a list: A, B and C; of choices, A, B or C."""
        return format_list(list(parts), style="or" if either else "standard", locale="en_GB")

    def when(self, when: When) -> str:
        """Write a date as precisely as it is known: a day, March 2025, about spring 2024, 2024, or a span."""
        first, last = when.first, when.last
        if when.exact:
            return self.date(first)
        months = (last.year - first.year) * 12 + last.month - first.month + 1
        whole = first.day == 1 and (last + dt.timedelta(days=1)).day == 1
        if whole and months == 1:
            return str(format_date(first, format="MMMM y", locale=self._locale))
        if whole and months == 12 and first.month == 1:
            return str(first.year)
        if whole and months == 3 and first.month in SEASONS:
            return f"about {SEASONS[first.month]} {last.year if first.month != 12 else first.year}"
        return f"between {self.date(first)} and {self.date(last)}"


def wording_of(settings: Settings, otherwise: str = FALLBACK) -> tuple[Wording, list[Problem]]:
    """Return the wording of the keeper's region, with a problem when that isn't one we know.

    ``otherwise`` is the region when the settings name none.
    """
    setting = settings.find("region")
    if setting is None:
        return Wording(otherwise), []
    wording = Wording(str(setting.value))
    if wording.understood:
        return wording, []
    return wording, [Problem("settings.region", setting.where, {"used": wording.region}, str(setting.value))]
