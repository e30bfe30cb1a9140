"""Leaf litter given, and what was seen to be left of it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields.acts import ACTS
from workbook_tools.intake.values import Amount
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.series.noted import Days, Floats, best, floats, ints, noted

LEFT = {"none": (0.0, 0.1), "little": (0.05, 0.35), "half": (0.3, 0.7), "plenty": (0.6, 1.1)}
"""What is left as a share of a full layer: lowest and highest."""
TOLD = frozenset({"leaf", "look"})
SEEN_INSIDE = frozenset(act.key for act in ACTS.values() if act.opens)
"""Acts for which the bin is opened and its litter seen."""


@dataclass(frozen=True, eq=False)
class LitterSeries:
    """Leaf litter of all bins, by day.

    Attributes
    ----------
    bin, day, litres : (n,) arrays
        Top-ups; several of one day are one. Litres are NaN where the amount isn't known.
    seen_bin, seen_day, low, high : (m,) arrays
        What was left before the top-up of that day, if there was one, as a share of a full layer.
    full : (B,) array
        Litres of a full layer.
    passed_bin, passed_day : (k,) arrays
        The last day on which each bin was looked after and its litter neither topped up nor written of, if that was
        after a top-up of it.
    """

    bin: Days
    day: Days
    litres: Floats
    seen_bin: Days
    seen_day: Days
    low: Floats
    high: Floats
    full: Floats
    passed_bin: Days
    passed_day: Days

    def given(self, place: int) -> tuple[Days, Floats]:
        """Days and litres of the top-ups of one bin."""
        own = self.bin == place
        return self.day[own], self.litres[own]


def litter_series(ledger: Ledger, on: dt.date) -> LitterSeries:
    """Gather top-ups and sights of leaf litter up to a day; grams are turned into litres of loose leaves."""
    given: dict[tuple[int, int], float] = {}
    seen: dict[tuple[int, int], tuple[float, float]] = {}
    visits: dict[int, int] = {}
    for one in noted(ledger, on, SEEN_INSIDE):
        key = (one.bin, one.day)
        visits[one.bin] = one.day
        if one.entry.act not in TOLD:
            continue
        word = one.entry.state("leaf_left")
        if word:
            seen[key] = LEFT[word]
        if one.entry.act == "leaf":
            given[key] = given.get(key, 0.0) + _litres(one.entry)
    tops = sorted(given, key=lambda key: (key[1], key[0]))
    sights = [(*key, *seen[key]) for key in sorted(seen, key=lambda key: (key[1], key[0]))]
    last = {place: day for place, day in sorted({*given, *seen}, key=lambda key: key[1])}
    passed = [(place, day) for place, day in visits.items() if day > last.get(place, day)]
    bins = ints([place for place, _ in tops])
    litres = floats([given[key] for key in tops])
    return LitterSeries(
        bin=bins,
        day=ints([day for _, day in tops]),
        litres=litres,
        seen_bin=ints([s[0] for s in sights]),
        seen_day=ints([s[1] for s in sights]),
        low=floats([s[2] for s in sights]),
        high=floats([s[3] for s in sights]),
        passed_bin=ints([place for place, _ in passed]),
        passed_day=ints([day for _, day in passed]),
        full=floats([_full(bin, litres[bins == place]) for place, bin in enumerate(ledger.bins.values())]),
    )


def _litres(entry: Entry) -> float:
    for key in ("leaf", "amount"):
        fact = entry.facts.get(key)
        if fact is None or not isinstance(fact.value, Amount):
            continue
        value = best(fact.value.number)
        if fact.value.unit == "g":
            return value / DEFAULTS["leaf.grams"].value
        if fact.value.unit == "l":
            return value
    return float("nan")


def floor_of(bin: Bin) -> float:
    """The floor of a bin in dm2: as given, else from its volume, with the shape of a shoebox; else a shoebox's."""
    floor, volume = bin.amount("floor"), bin.amount("volume")
    usual = DEFAULTS["bin.floor"].value
    if floor is not None and floor.unit == "dm2" and 0 < best(floor.number, 0) < 1e4:
        return best(floor.number)
    if volume is not None and volume.unit == "l" and 0 < best(volume.number, 0) < 1e4:
        return float(usual * (best(volume.number) / DEFAULTS["measure.shoebox"].value) ** (2 / 3))
    return usual


def _full(bin: Bin, given: Floats) -> float:
    """Litres of a full layer: the floor times its usual depth, but no less than the larger top-ups."""
    known = given[np.isfinite(given)]
    layer = floor_of(bin) * DEFAULTS["leaf.depth"].value / 10
    return max(layer, float(np.quantile(known, 0.9)) if known.size else 0.0, 0.05)
