"""Looks at the moss corner, each with the days since it was last watered."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from workbook_tools.fields import FINDINGS
from workbook_tools.intake.values import Words
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.noted import Days, ints, noted
from workbook_tools.problems import CellRef

STATE = {"dry": 0, "drying": 1, "damp": 2, "wet": 3, "soaked": 4}
WET_FINDINGS = frozenset(one.key for one in FINDINGS.values() if one.wet)
WET_DAYS = 14
"""A sign that a bin is too wet counts for so many days, or until its moss corner is seen damp or drier."""
ACTS = frozenset({"moss", "water", "look"})


@dataclass(frozen=True, eq=False)
class MossSeries:
    """Looks at moss corners of all bins, by day.

    Attributes
    ----------
    bin, day, state, since : (n,) arrays
        Place of the bin, day number, 0 dry to 4 soaked, days since the last watering before that day, 1 or more.
        A look at a bin that was never watered before is left out: nothing can be reckoned from it.
    watered : (B,) array
        Day number of the last watering, 0 if there is none.
    looked, found : (B,) arrays
        Day number of the last look since that watering, and its state; 0 and -1 if there is none.
    waterings : tuple of tuples of int
        By bin: day numbers of its waterings.
    too_wet : dict
        By place of the bin: what says that it is too wet, and where.
    """

    bin: Days
    day: Days
    state: Days
    since: Days
    watered: Days
    looked: Days
    found: Days
    waterings: tuple[tuple[int, ...], ...]
    too_wet: dict[int, tuple[str, CellRef]]

    @property
    def size(self) -> int:
        """Number of looks."""
        return int(self.bin.size)

    def gaps(self, place: int, until: int) -> list[int]:
        """Days from each watering of a bin to the next, up to a day."""
        days = [day for day in self.waterings[place] if day <= until]
        return [later - earlier for earlier, later in pairwise(days)]


def moss_series(ledger: Ledger, on: dt.date) -> MossSeries:
    """Gather what was seen of each moss corner up to a day.

    What is found on a day was found before anything was done, so a look and a watering of one day are a look at the
    end of the time since the watering before it. Two looks on one day count once, the drier.
    """
    bins = len(ledger.bins)
    watered = [0] * bins
    before = [0] * bins
    """The last watering on an earlier day than ``watered``."""
    waterings: list[list[int]] = [[] for _ in range(bins)]
    looks: dict[tuple[int, int], tuple[int, int]] = {}
    wet: dict[int, tuple[int, str, CellRef]] = {}
    for one in noted(ledger, on, ACTS, sharp=True):
        place, day, entry = one.bin, one.day, one.entry
        word = entry.state("moss")
        if word:
            start = watered[place] if watered[place] < day else before[place]
            if start:
                state = min(STATE[word], looks.get((place, day), (4, 0))[0])
                looks[place, day] = (state, day - start)
            if word == "soaked":
                wet[place] = (day, "found soaked", entry.where)
            elif word != "wet":
                wet.pop(place, None)
        seen = _wet_finding(entry)
        if seen and not (word and word in ("dry", "drying")):
            wet[place] = (day, f"{seen} seen", entry.where)
        if entry.act == "water" and watered[place] < day:
            waterings[place].append(day)
            before[place], watered[place] = watered[place], day
    order = sorted(looks, key=lambda key: (key[1], key[0]))
    last = np.zeros((2, bins), dtype=np.int64)
    last[1] = -1
    for place, day in order:
        if day > watered[place]:
            last[:, place] = day, looks[place, day][0]
    return MossSeries(
        bin=ints([place for place, _ in order]),
        day=ints([day for _, day in order]),
        state=ints([looks[key][0] for key in order]),
        since=ints([looks[key][1] for key in order]),
        watered=ints(watered),
        looked=last[0],
        found=last[1],
        waterings=tuple(tuple(own) for own in waterings),
        too_wet={place: (says, where) for place, (day, says, where) in wet.items() if on.toordinal() - day <= WET_DAYS},
    )


def _wet_finding(entry: Entry) -> str:
    fact = entry.facts.get("seen")
    keys = fact.value.keys if fact is not None and isinstance(fact.value, Words) else ()
    return next((key for key in keys if key in WET_FINDINGS), "")
