"""Dead animals found, and the days on which each bin was opened, as arrays by bin and day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workbook_tools.fields import ACTS
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.noted import SHARP, Days, Floats, day_of, noted
from workbook_tools.problems import CellRef

OPENS = frozenset(act.key for act in ACTS.values() if act.opens)
LONGEST = 3 * 365
"""Days back that deaths are followed at most."""


@dataclass(frozen=True, slots=True)
class Find:
    """Dead animals found in one bin at one look: place of the bin, day, number, and its row."""

    bin: int
    day: int
    number: float
    where: CellRef


@dataclass(frozen=True, eq=False)
class DeathSeries:
    """Deaths found in all bins.

    Attributes
    ----------
    first_day : int
        The day number of the first column of the arrays; the last is that of ``on``.
    found : (B, T) array
        Dead found on each day.
    looked : (B, T) bool array
        Days on which the bin was opened, for whatever was done.
    began : (B,) array
        The column of the day each bin began, as far as known; else of the first time it was opened. May be below 0.
    finds : tuple of Find
        By day; what lies before ``first_day`` is left out.
    vague : int
        Entries of deaths whose day isn't known well enough to be used.
    """

    first_day: int
    found: Floats
    looked: NDArray[np.bool_]
    began: Days
    finds: tuple[Find, ...]
    vague: int


def death_series(ledger: Ledger, on: dt.date) -> DeathSeries:
    """Gather deaths and looks up to a day.

    A number found in several bins at once is shared out evenly, so that none of them has a whole one where it is
    small. Dead without a number count as one. An entry whose date is vague by more than two days is passed over.
    """
    opened = list(noted(ledger, on, OPENS, sharp=True))
    today = on.toordinal()
    first = max(min((one.day for one in opened), default=today), today - LONGEST)
    bins, days = len(ledger.bins), today - first + 1
    found, looked = np.zeros((bins, days)), np.zeros((bins, days), dtype=np.bool_)
    began = np.full(bins, days - 1, dtype=np.int64)
    finds = []
    for one in opened:
        began[one.bin] = min(began[one.bin], one.day - first)
        if one.day < first:
            continue
        looked[one.bin, one.day - first] = True
        if one.entry.act == "dead" and (number := dead_in(one.entry) / one.among) > 0:
            found[one.bin, one.day - first] += number
            finds.append(Find(one.bin, one.day, number, one.entry.where))
    for place, bin in enumerate(ledger.bins.values()):
        if bin.started is not None and bin.started.first <= on:
            began[place] = min(began[place], day_of(bin.started, on) - first)
    vague = sum(
        entry.act == "dead"
        and entry.when is not None
        and entry.when.first <= on
        and (entry.when.last - entry.when.first).days > SHARP
        and dead_in(entry) > 0
        for entry in ledger.entries
    )
    return DeathSeries(first, found, looked, began, tuple(finds), vague)


def dead_in(entry: Entry) -> float:
    """How many dead an entry tells of: the number written, 1 where none is, and 0 for one that can't be."""
    number = entry.number("dead") or entry.number("number")
    if number is None:
        return 1.0
    return number.best if 0 < number.best < float("inf") else 0.0
