"""Entries as they stood on a day, one at a time for each bin they name."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workbook_tools.intake.values import Number, When
from workbook_tools.ledger.records import Entry, Ledger

Days = NDArray[np.int64]
Floats = NDArray[np.float64]
SHARP = 2
"""A date known to so many days is sharp enough for moss corners and food."""


@dataclass(frozen=True, slots=True)
class Noted:
    """An entry of one bin: the bin's place in the ledger, the day, the entry, and how many bins the entry names."""

    bin: int
    day: int
    entry: Entry
    among: int


def day_of(when: When, on: dt.date) -> int:
    """The day number of a date: the middle of a vague one, but never after ``on``."""
    return min(when.middle, on).toordinal()


def noted(ledger: Ledger, on: dt.date, acts: frozenset[str], *, sharp: bool = False) -> Iterator[Noted]:
    """Give the entries with one of these acts up to a day, by day and then in the order of the ledger.

    Parameters
    ----------
    ledger : Ledger
        Read whole; what begins after ``on`` is passed over.
    on : date
        The day up to which entries are known.
    acts : frozenset of str
        Acts wanted.
    sharp : bool
        Pass over dates that are vague by more than two days.
    """
    places = {name: place for place, name in enumerate(ledger.bins)}
    found: list[tuple[int, int, Noted]] = []
    for order, entry in enumerate(ledger.entries):
        when = entry.when
        if entry.act not in acts or when is None or when.first > on:
            continue
        if sharp and (when.last - when.first).days > SHARP:
            continue
        day = day_of(when, on)
        found += [
            (day, order, Noted(places[name], day, entry, len(entry.bins))) for name in entry.bins if name in places
        ]
    found.sort(key=lambda one: one[:2])
    return (one for _, _, one in found)


def last_day(ledger: Ledger) -> dt.date | None:
    """The last day of the log."""
    return max((entry.when.first for entry in ledger.entries if entry.when), default=None)


def best(number: Number | None, otherwise: float = float("nan")) -> float:
    """The best value of a number that is finite, else another."""
    return number.best if number is not None and np.isfinite(number.best) else otherwise


def ints(values: list[int]) -> Days:
    """An array of whole numbers, also of none."""
    return np.asarray(values, dtype=np.int64)


def floats(values: list[float]) -> Floats:
    """An array of numbers, also of none."""
    return np.asarray(values, dtype=np.float64)
