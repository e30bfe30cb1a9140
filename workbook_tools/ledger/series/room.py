"""Readings of the room's air."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np

from workbook_tools.intake.values import Amount
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.noted import Days, Floats, best, day_of, floats, ints


@dataclass(frozen=True, eq=False)
class RoomSeries:
    """Readings by day: day number, temperature (C) and relative humidity (%); only those that hold both."""

    day: Days
    temperature: Floats
    humidity: Floats

    def between(self, first: int, last: int) -> int:
        """How many days of readings lie from ``first`` to ``last``, both included."""
        return int(np.count_nonzero((self.day >= first) & (self.day <= last)))


def room_series(ledger: Ledger, on: dt.date) -> RoomSeries:
    """Gather the readings up to a day; several of one day are averaged, and one of a vague date is left out."""
    by_day: dict[int, list[tuple[float, float]]] = {}
    for entry in ledger.entries:
        when = entry.when
        if entry.act != "room" or when is None or not when.exact or when.first > on:
            continue
        warm, damp = _reading(entry, "temperature", "degC"), _reading(entry, "humidity", "percent")
        if np.isfinite(warm) and np.isfinite(damp):
            by_day.setdefault(day_of(when, on), []).append((warm, min(max(damp, 0.0), 100.0)))
    days = sorted(by_day)
    means = [np.mean(by_day[day], axis=0) for day in days]
    return RoomSeries(ints(days), floats([float(m[0]) for m in means]), floats([float(m[1]) for m in means]))


def _reading(entry: Entry, key: str, unit: str) -> float:
    fact = entry.facts.get(key)
    if fact is None or not isinstance(fact.value, Amount):
        return float("nan")
    value = best(fact.value.number)
    if fact.value.unit == "share" and unit == "percent":
        return value * 100
    return value if fact.value.unit == unit else float("nan")
