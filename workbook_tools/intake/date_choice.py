"""What is known beside a date's text: the file's style, the neighbours, and how an open year is chosen from them."""

from __future__ import annotations

import calendar
import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from dateutil.relativedelta import relativedelta

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.readings import Reading
from workbook_tools.intake.values import When

Order = Literal["dmy", "mdy", "ymd"]
ORDER_WORDS: dict[Order, str] = {"dmy": "day-month", "mdy": "month-day", "ymd": "year-month-day"}
Span = tuple[dt.date, dt.date]


@dataclass(frozen=True, slots=True)
class DateStyle:
    """How the dates of one file are written, and the day of the report.

    ``sure`` is False while nothing in the file decides between day-month and month-day.
    """

    order: Order
    sure: bool
    on: dt.date
    date_1904: bool = False

    @property
    def furthest(self) -> dt.date:
        """The last day that is believed."""
        return self.on + relativedelta(years=int(DEFAULTS["date.years_ahead"].value))


@dataclass(frozen=True, slots=True, kw_only=True)
class DateReading(Reading):
    """A date read from a cell; ``when`` is None when there is none."""

    when: When | None = None


class Odd(Exception):
    """Ends the reading of one cell with a problem; ``read_date`` turns it into a reading."""

    def __init__(self, code: str, **facts: object) -> None:
        super().__init__(code)
        self.reading = DateReading(code=code, facts=facts)


@dataclass(frozen=True, slots=True)
class Context:
    """The style, the neighbours and the column that one cell is read with."""

    style: DateStyle
    near: dt.date | None
    latest: dt.date | None
    coarse: bool
    ahead: bool
    text: str

    @property
    def limit(self) -> dt.date:
        """The last day that can be meant."""
        return self.latest or self.style.on

    def full_year(self, year: int) -> int:
        """The year that two digits stand for: in this century unless that is too far ahead."""
        if year > 99:
            return year
        return 2000 + year if 2000 + year <= self.style.on.year + DEFAULTS["date.years_ahead"].value else 1900 + year

    def pick(self, make: Callable[[int], Span], fits: Callable[[Span], bool] = lambda span: True) -> Span:
        """Choose the year of a span that has none.

        With ``ahead`` the first that is not over on the day of the neighbour (or of the report); near a neighbour the
        nearest to it; else the latest that has begun by the limit.
        """
        found = self._choose(make, fits, range(-3, 3)) or self._choose(make, fits, range(-9, 10))
        if found is None:
            raise Odd("dates.impossible", value=self.text)
        return found

    def _choose(self, make: Callable[[int], Span], fits: Callable[[Span], bool], years: range) -> Span | None:
        """Choose among the years around the neighbour or the limit; a 29 February may need more of them."""
        middle = self.near or self.limit
        spans = []
        for step in years:
            try:
                spans.append(make(middle.year + step))
            except ValueError:  # 29 February
                continue
        if self.ahead:
            start = self.near or self.style.on
            return min((span for span in spans if span[1] >= start), default=None)
        if self.near:
            near = self.near
            spans = [span for span in spans if self.latest is None or span[0] <= self.latest] or spans
            return min(spans, key=lambda span: (abs(span[0] + (span[1] - span[0]) / 2 - near), span), default=None)
        begun = [span for span in spans if span[0] <= self.limit]
        return max([span for span in begun[-3:] if fits(span)] or begun, default=None)

    def vague(self, span: Span) -> When:
        """Make a span end by the limit, unless all of it is later."""
        first, last = span
        if not self.ahead and first <= self.limit < last:
            last = self.limit
        return When(first, last, guessed=True)


def day_span(month: int, day: int) -> Callable[[int], Span]:
    """Return what makes one day of a year."""
    return lambda year: (dt.date(year, month, day), dt.date(year, month, day))


def month_span(month: int, part: int | None) -> Callable[[int], Span]:
    """Return what makes a month of a year, or its early, middle or late third."""

    def make(year: int) -> Span:
        end = calendar.monthrange(year, month)[1]
        first, last = ((1, 10), (11, 20), (21, end))[part] if part is not None else (1, end)
        return dt.date(year, month, first), dt.date(year, month, last)

    return make


def months_span(month: int, months: int) -> Callable[[int], Span]:
    """Return what makes a run of months from one of a year."""

    def make(year: int) -> Span:
        first = dt.date(year, month, 1)
        return first, first + relativedelta(months=months, days=-1)

    return make


def exists(month: int, day: int, year: int | None) -> bool:
    """Whether the calendar has such a day; without a year, whether some year has."""
    try:
        dt.date(2024 if year is None else year, month, day)
    except ValueError:
        return False
    return True


def month_noted(context: Context, reading: DateReading) -> DateReading:
    """Say that two numbers were taken as a month and a year."""
    if reading.when is None:
        return reading
    when = replace(reading.when, guessed=True)
    facts = {"value": context.text, "month": f"{when.first:%Y-%m}"}
    return replace(reading, when=when, guessed=True, code="dates.month_year", facts=facts)


def say(when: When) -> str:
    """Write a date or a span for a sentence."""
    if when.exact:
        return when.first.isoformat()
    return f"{when.first.isoformat()} to {when.last.isoformat()}"
