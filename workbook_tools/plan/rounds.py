"""The weekdays on which the keeper does the round, and how a due day is moved to one of them."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import lru_cache

from dateutil.rrule import WEEKLY, rrule

from workbook_tools.intake.settings import Settings

WEEK = dt.timedelta(days=7)


def round_days(weekdays: tuple[int, ...], first: dt.date, last: dt.date) -> tuple[dt.date, ...]:
    """List the round days from ``first`` to ``last``, both included; weekdays count from Monday, 0.

    Source: the weekly rule of RFC 5545, as the dateutil library computes it.
    """
    if not weekdays or last < first:
        return ()
    rule = rrule(
        WEEKLY,
        byweekday=weekdays,
        dtstart=dt.datetime.combine(first, dt.time()),
        until=dt.datetime.combine(last, dt.time()),
    )
    return tuple(moment.date() for moment in rule)


@lru_cache(maxsize=16384)
def _nearest(weekdays: tuple[int, ...], day: dt.date) -> tuple[dt.date, dt.date]:
    """The last round day on or before a day, and the first after it."""
    before = round_days(weekdays, day - WEEK + dt.timedelta(days=1), day)[-1]
    after = round_days(weekdays, day + dt.timedelta(days=1), day + WEEK)[0]
    return before, after


@dataclass(frozen=True)
class Rounds:
    """The keeper's round days; no weekdays means any day.

    Raises
    ------
    ValueError
        A weekday is not one of 0 (Monday) to 6 (Sunday).
    """

    weekdays: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        if any(day not in range(7) for day in self.weekdays):
            raise ValueError("weekdays count from 0, Monday, to 6, Sunday")

    @classmethod
    def of(cls, settings: Settings) -> Rounds:
        """Take the round days from the keeper's settings."""
        setting = settings.find("rounds")
        value = setting.value if setting else ()
        if not isinstance(value, tuple):
            return cls()
        return cls(tuple(sorted({int(day) for day in value if 0 <= day <= 6})))

    def move(self, due: dt.date, done: dt.date | None) -> dt.date:
        """Move a due day to a round day.

        It is the last round day on or before ``due``; where that isn't after ``done``, the day it was last done,
        there is no round day in between and it is the first one after ``due``. So a task is late by at most six
        days, and only when no round lies between.
        """
        if not self.weekdays:
            return due
        before, after = _nearest(self.weekdays, due)
        return before if done is None or before > done else after
