"""What all estimates of one ledger share: places of bins, like bins, which live, and dates from days ahead."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workbook_tools.defaults import DEFAULTS
from workbook_tools.ledger.records import Bin, Ledger
from workbook_tools.ledger.status import statuses
from workbook_tools.plan.learned.records import NOT_YET, Basis, DateRange, Range
from workbook_tools.plan.rhythm import Rhythm

APPETITES = ("slow", "medium", "hearty")
TEN_YEARS = 3650


@dataclass(frozen=True, eq=False)
class Frame:
    """One ledger on one day.

    ``species`` and ``appetite`` (B,) say which bins are alike; ``parent`` (B,) is which one of its like each was split
    off, -1 for none. ``status`` (B) is a word for each bin.
    """

    ledger: Ledger
    on: dt.date
    rhythm: Rhythm
    bins: tuple[Bin, ...]
    species: NDArray[np.int64]
    appetite: NDArray[np.int64]
    parent: NDArray[np.int64]
    status: tuple[str, ...]

    @classmethod
    def of(cls, ledger: Ledger, on: dt.date) -> Frame:
        """Gather it; a bin without a species is of the one unnamed species, one without an appetite eats medium."""
        bins = tuple(ledger.bins.values())
        names = [" ".join(bin.species.casefold().split()) for bin in bins]
        numbers = {name: number for number, name in enumerate(dict.fromkeys(names))}
        words = statuses(ledger, on)
        species = np.array([numbers[name] for name in names], dtype=np.int64)
        appetite = np.array([APPETITES.index(bin.word("appetite", "medium")) for bin in bins], dtype=np.int64)
        return cls(
            ledger,
            on,
            Rhythm(ledger.settings),
            bins,
            species,
            appetite,
            _parents(bins, species, appetite),
            tuple(words[bin.name].word for bin in bins),
        )

    @property
    def size(self) -> int:
        """How many bins there are."""
        return len(self.bins)

    @property
    def today(self) -> int:
        """The day number of ``on``."""
        return self.on.toordinal()

    def wanted(self, place: int, *, tub: bool = False) -> bool:
        """Whether a bin is to have a forecast; ``tub`` where a straggler tub has one too.

        One that hasn't begun, or whose name may be a slip of the log, has none and is in no sum.
        """
        word = self.status[place]
        started = self.bins[place].started
        if self.bins[place].doubtful:
            return False
        if started is not None and started.first > self.on:
            return False
        return word in ("active", "quarantine") or (tub and word == "straggler tub")

    def basis(self, place: int, notes: NDArray[np.int64], *, inherits: bool = False) -> Basis:
        """Say what an estimate of one bin rests on, by the ``notes`` (B,) of all.

        One that ``inherits`` and isn't learned here begins with what was learned of the bin it was split off.
        """
        least = DEFAULTS["learn.least_notes"].value
        own, parent = int(notes[place]), int(self.parent[place])
        if own >= least:
            return Basis(own, True, f"learned from {own} notes")
        if inherits and parent >= 0 and notes[parent] >= least:
            return Basis(own, False, f"learned from {self.bins[parent].name}, which it was split off, not yet here")
        return Basis(own, False, NOT_YET)

    def ahead(self, days: float, beyond: bool = False) -> dt.date | None:
        """The day so many days from now; None for one beyond ten years."""
        if beyond or not days < TEN_YEARS:
            return None
        return self.on + dt.timedelta(days=int(days))

    def dates(self, days: NDArray[np.float64], beyond: NDArray[np.bool_]) -> DateRange:
        """Three days from now, lowest first, as dates."""
        low, middle, high = (self.ahead(float(d), bool(b)) for d, b in zip(days, beyond, strict=True))
        return DateRange(low, middle, high)


def _parents(bins: tuple[Bin, ...], species: NDArray[np.int64], appetite: NDArray[np.int64]) -> NDArray[np.int64]:
    """The first parent of each bin that is of its species and appetite; -1 without one."""
    places = {bin.name: place for place, bin in enumerate(bins)}
    like = list(zip(species.tolist(), appetite.tolist(), strict=True))
    found = [
        next((p for name in bin.parents if (p := places.get(name, -1)) >= 0 and like[p] == like[place]), -1)
        for place, bin in enumerate(bins)
    ]
    return np.array(found, dtype=np.int64)


def range_of(values: NDArray[np.float64]) -> Range:
    """Three numbers, lowest first."""
    low, middle, high = (float(value) for value in values)
    return Range(low, middle, high)
