"""Changes of substrate, and how it was found."""

from __future__ import annotations

import datetime as dt
import math
import re
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.values import Amount, Fact, Number
from workbook_tools.ledger.moved import moved_by
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.noted import Days, Floats, Noted, best, floats, ints, noted

FOUND = {
    "fresh": (0.85, 1.0),
    "good": (0.6, 0.88),
    "part frass": (0.35, 0.65),
    "mostly frass": (0.15, 0.4),
    "spent": (0.0, 0.2),
}
"""The share still to be recognised that each word means: lowest and highest."""
WRITTEN_ERROR = 0.08
"""How far a written share may be off, up or down."""
WHOLE = re.compile(r"\b(full|fully|whole|all|complete|completely|everything)\b", re.IGNORECASE)
PART = re.compile(r"\b(part|partial|partly|partially|some)\b", re.IGNORECASE)
ACTS = frozenset({"substrate_change", "substrate_look"})
_SUBSTRATE = r"\s+(?:\w+\s+)?(?:substrate|soil|dirt|mix)\b"
FRESH = re.compile(r"\b(?:fresh|new|clean)" + _SUBSTRATE, re.IGNORECASE)
OLD = re.compile(r"\b(?:old|used|own|its|their|same|with(?: the)?)" + _SUBSTRATE, re.IGNORECASE)
EIGHTY = 1.2816


@dataclass(frozen=True, slots=True)
class Filled:
    """Old substrate in a new bin: the bin it is of, the share of the new bin it fills, and how far off that may be."""

    source: str
    share: float
    error: float


@dataclass(frozen=True, eq=False)
class SubstrateSeries:
    """Substrate of all bins, by day.

    Attributes
    ----------
    bin, day, share : (n,) arrays
        Changes; the share replaced, 0 to 1, NaN for a part that isn't known.
    seen_bin, seen_day, low, high : (m,) arrays
        The share that could still be recognised before the change of that day, if there was one.
    sunk_bin, sunk_day, ratio : (k,) arrays
        Depths found, as a share of the deepest one written since the substrate was last renewed, that of the list of
        bins among them.
    """

    bin: Days
    day: Days
    share: Floats
    seen_bin: Days
    seen_day: Days
    low: Floats
    high: Floats
    sunk_bin: Days
    sunk_day: Days
    ratio: Floats


def substrate_series(ledger: Ledger, on: dt.date) -> SubstrateSeries:
    """Gather changes and looks up to a day.

    What is found on a day was found before the change of that day. A date in the list of bins that a change in the
    log falls into is that change. Several changes of one day leave what none of them took.
    """
    changes: dict[tuple[int, int], float] = {}
    looks: dict[tuple[int, int], tuple[float, float]] = {}
    depths: dict[tuple[int, int], float] = {}
    all_noted = list(noted(ledger, on, ACTS))
    logged = [
        n for n in all_noted if n.entry.act == "substrate_change" and "last_substrate_change" not in n.entry.facts
    ]
    for one in all_noted:
        key = (one.bin, one.day)
        if one.entry.act == "substrate_look":
            if (found := _found(one.entry)) is not None:
                looks[key] = found
            if (depth := _depth(one.entry.facts.get("depth"))) > 0:
                depths[key] = depth
            continue
        if "last_substrate_change" in one.entry.facts and _is_logged(one, logged):
            continue
        share = share_of(one.entry)
        changes[key] = 1 - (1 - changes.get(key, 0.0)) * (1 - share)
    made = sorted(changes, key=lambda key: (key[1], key[0]))
    seen = sorted(looks, key=lambda key: (key[1], key[0]))
    sunk = _sunk(ledger, depths, changes)
    return SubstrateSeries(
        bin=ints([place for place, _ in made]),
        day=ints([day for _, day in made]),
        share=floats([changes[key] for key in made]),
        seen_bin=ints([place for place, _ in seen]),
        seen_day=ints([day for _, day in seen]),
        low=floats([looks[key][0] for key in seen]),
        high=floats([looks[key][1] for key in seen]),
        sunk_bin=ints([place for place, _, _ in sunk]),
        sunk_day=ints([day for _, day, _ in sunk]),
        ratio=floats([ratio for _, _, ratio in sunk]),
    )


def filled_with(ledger: Ledger, on: dt.date) -> dict[str, Filled]:
    """By bin: the old substrate that bins began with when they were split or moved off others up to a day.

    How much it was is hardly ever written, so it is the usual share, with a large error; words of the row for fresh or
    for old substrate go before that. A change logged for the new bin is a change as any other.
    """
    found: dict[str, Filled] = {}
    fresh: set[str] = set()
    for entry in ledger.entries:
        usual = DEFAULTS.get(f"substrate.{entry.act}")
        if usual is None or entry.when is None or entry.when.first > on:
            continue
        moved = moved_by(entry, ledger.bins)
        words = " ".join(entry.text(key) for key in ("did", "way", "note"))
        fresh.update(moved.targets if FRESH.search(words) else ())
        for name in moved.targets:
            source = next((one for one in moved.sources if one in ledger.bins[name].parents), None)
            if source is not None:
                old = OLD.search(words)
                error = (usual.high - usual.low) / (4 if old else 2) / EIGHTY
                found.setdefault(name, Filled(source, usual.high if old else usual.value, error))
    return {name: filled for name, filled in found.items() if name not in fresh}


def _depth(fact: Fact | None) -> float:
    if fact is None or not isinstance(fact.value, Amount) or fact.value.unit != "cm":
        return 0.0
    return best(fact.value.number, 0.0)


def _sunk(
    ledger: Ledger, depths: dict[tuple[int, int], float], changes: dict[tuple[int, int], float]
) -> list[tuple[int, int, float]]:
    """Depths as shares of the deepest known since the last change; a depth with nothing to compare says nothing."""
    listed = [_depth(bin.facts.get("depth")) for bin in ledger.bins.values()]
    deepest: dict[int, float] = {}
    changed = {place: sorted(day for p, day in changes if p == place) for place, _ in depths}
    before: dict[int, int] = {}
    found = []
    for place, day in sorted(depths, key=lambda key: (key[1], key[0])):
        renewed = max((d for d in changed[place] if d < day), default=0)
        if renewed != before.get(place):
            before[place], deepest[place] = renewed, listed[place]
        depth = depths[place, day]
        if deepest[place] > 0:
            found.append((place, day, min(depth / deepest[place], 1.0)))
        deepest[place] = max(deepest[place], depth)
    return found


def _is_logged(one: Noted, logged: list[Noted]) -> bool:
    when = one.entry.when
    assert when is not None
    return any(
        other.bin == one.bin
        and other.entry.when is not None
        and when.first <= other.entry.when.last
        and other.entry.when.first <= when.last
        for other in logged
    )


def share_of(entry: Entry) -> float:
    """The share replaced: as written; else NaN where it is called partial; else all of it."""
    for key in ("share", "amount"):
        fact = entry.facts.get(key)
        if fact is None:
            continue
        value = fact.value
        if isinstance(value, Amount) and value.unit in ("share", "percent"):
            share = best(value.number, 0.0) / (100 if value.unit == "percent" else 1)
        elif isinstance(value, Number) and key == "share":
            share = best(value, 0.0)
        else:
            continue
        if 0 < share <= 1:
            return share
    words = " ".join(entry.text(key) for key in ("did", "way", "last_substrate_change"))
    return math.nan if PART.search(words) and not WHOLE.search(words) else 1.0


def _found(entry: Entry) -> tuple[float, float] | None:
    fact = entry.facts.get("recognisable")
    if fact is not None and isinstance(fact.value, Amount):
        scale = 100 if fact.value.unit == "percent" else 1
        number = fact.value.number
        if 0 <= number.low / scale <= 1:
            return (
                max(number.low / scale - WRITTEN_ERROR, 0.0),
                min(number.high / scale + WRITTEN_ERROR, 1.0),
            )
    return FOUND.get(entry.state("substrate"))
