"""Feedings, each with what was found left of it."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass, replace

import numpy as np

from workbook_tools.intake.values import Amount
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.noted import Days, Floats, Noted, best, floats, ints, noted
from workbook_tools.problems import CellRef

LEFT = {"gone": 0, "some": 1, "most": 2, "mouldy": 3}
KINDS = ("dry", "fresh")
FRESH = re.compile(
    r"\b(?:apple|avocado|banana|beet|beetroot|broccoli|cabbage|carrot|cauliflower|courgette|cucumber|fruit|gourd|greens"
    r"|kale|lettuce|mango|marrow|melon|mushroom|nettle|parsnip|pear|pepper|potato|pumpkin|radish|salad|spinach|squash"
    r"|swede|turnip|veg|vegetable|zucchini)(?:s|es)?\b",
    re.IGNORECASE,
)
DRIED = re.compile(r"\b(?:dried|dry|flakes?|powder|flour|pellets?)\b", re.IGNORECASE)
ACTS = frozenset({"feed", "leftovers"})


@dataclass(frozen=True, slots=True)
class Feeding:
    """One feeding: place of the bin, kind of food, day, grams (NaN if unknown), and what was seen of it and when.

    ``left`` counts from 0, gone, to 3, mouldy; -1 if it wasn't looked at.
    """

    bin: int
    kind: int
    day: int
    grams: float
    food: str
    where: CellRef
    left: int = -1
    seen: int = 0


@dataclass(frozen=True, eq=False)
class FoodSeries:
    """Feedings by day; and as arrays those of known grams whose leftovers were seen."""

    feedings: tuple[Feeding, ...]
    bin: Days
    kind: Days
    day: Days
    grams: Floats
    days_out: Days
    left: Days

    @property
    def size(self) -> int:
        """Number of feedings of known grams whose leftovers were seen."""
        return int(self.bin.size)

    def last(self, place: int, kind: int | None = None) -> Feeding | None:
        """The last feeding of a bin, of one kind of food or of any."""
        return next((f for f in reversed(self.feedings) if f.bin == place and kind in (None, f.kind)), None)


def kind_of(food: str) -> int:
    """Whether a food is dry (0) or fresh (1), by its name; dry if the name tells nothing.

    Fresh food is mostly water, so its grams are never put together with those of dry food.
    """
    return int(bool(FRESH.search(food)) and not DRIED.search(food))


def food_series(ledger: Ledger, on: dt.date) -> FoodSeries:
    """Gather the feedings of each bin up to a day.

    What is left on a day is left of the last feeding of an earlier day, and only the first look at it counts. Several
    feedings of one day and kind are one. A feeding of several bins gives each the amount written.
    """
    found: list[Feeding] = []
    newest: dict[int, list[int]] = {}
    before: dict[int, list[int]] = {}
    """By bin: places in ``found`` of the feedings of its last day of feeding, and of the one before that."""
    for one in noted(ledger, on, ACTS, sharp=True):
        word = one.entry.state("leftovers")
        given = newest.get(one.bin, [])
        seen_of = before.get(one.bin, []) if given and found[given[0]].day == one.day else given
        for place in seen_of if word else ():
            if found[place].left < 0:
                found[place] = replace(found[place], left=LEFT[word], seen=one.day)
        if one.entry.act == "feed":
            _feed(one, found, newest, before)
    known = [f for f in found if f.left >= 0 and np.isfinite(f.grams) and f.grams > 0]
    return FoodSeries(
        tuple(found),
        bin=ints([f.bin for f in known]),
        kind=ints([f.kind for f in known]),
        day=ints([f.day for f in known]),
        grams=floats([f.grams for f in known]),
        days_out=ints([f.seen - f.day for f in known]),
        left=ints([f.left for f in known]),
    )


def _feed(one: Noted, found: list[Feeding], newest: dict[int, list[int]], before: dict[int, list[int]]) -> None:
    food = one.entry.text("food")
    made = Feeding(one.bin, kind_of(food), one.day, _grams(one.entry), food, one.entry.where)
    given = newest.setdefault(one.bin, [])
    if given and found[given[0]].day < one.day:
        before[one.bin] = given
        given = newest[one.bin] = []
    for place in given:
        if found[place].kind == made.kind:
            found[place] = replace(found[place], grams=found[place].grams + made.grams)
            return
    given.append(len(found))
    found.append(made)


def _grams(entry: Entry) -> float:
    for key in ("amount", "food"):
        fact = entry.facts.get(key)
        if fact is not None and isinstance(fact.value, Amount):
            return best(fact.value.number) if fact.value.unit == "g" else float("nan")
    return float("nan")
