"""What was seen after a past day, beside what was estimated then and what simple rules would have said."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.counting import EIGHTY, METHOD_INDEX, METHODS
from workbook_tools.estimate.eating import EATEN, LAST_LOOK, SHARING, days_worth
from workbook_tools.estimate.litter import LITTER
from workbook_tools.estimate.substrate import SUBSTRATE
from workbook_tools.ledger.records import Ledger
from workbook_tools.ledger.series.food import KINDS, Feeding, FoodSeries, food_series
from workbook_tools.ledger.series.litter import LitterSeries, litter_series
from workbook_tools.ledger.series.moss import MossSeries, moss_series
from workbook_tools.ledger.series.numbers import Count, NumberSeries, number_series
from workbook_tools.ledger.series.substrate import SubstrateSeries, substrate_series
from workbook_tools.plan.backtest.records import Comparison
from workbook_tools.plan.learned.food import simple_a_day
from workbook_tools.plan.learned.frame import APPETITES
from workbook_tools.plan.learned.numbers import counted_as
from workbook_tools.plan.learned.records import Estimates, Point, Range

SOON, LATER = 30, 180
"""Days ahead that moss corner and food, and all else, are looked for."""
MONTH = 30.4375


@dataclass(frozen=True, eq=False)
class Seen:
    """All that was ever written, gathered once; each comparison takes what lies after its day."""

    ledger: Ledger
    moss: MossSeries
    food: FoodSeries
    litter: LitterSeries
    substrate: SubstrateSeries
    numbers: NumberSeries

    @classmethod
    def of(cls, ledger: Ledger, on: dt.date) -> Seen:
        """Gather it, up to a day."""
        return cls(
            ledger,
            moss_series(ledger, on),
            food_series(ledger, on),
            litter_series(ledger, on),
            substrate_series(ledger, on),
            number_series(ledger, on),
        )

    def beside(self, estimates: Estimates) -> Iterator[Comparison]:
        """Compare everything that was estimated for a day with what was first seen of it after."""
        for place, name in enumerate(self.ledger.bins):
            yield from self._moss(place, name, estimates)
            yield from self._food(place, name, estimates)
            yield from self._leaf(place, name, estimates)
            yield from self._substrate(place, name, estimates)
            yield from self._numbers(place, name, estimates)

    def _moss(self, place: int, name: str, estimates: Estimates) -> Iterator[Comparison]:
        """The first watering after the day: the looks between which the moss became dry."""
        one, today = estimates.moss.get(name), estimates.on.toordinal()
        if one is None:
            return
        own = self.moss.bin == place
        days, since, state = self.moss.day[own], self.moss.since[own], self.moss.state[own]
        starts = sorted({int(start) for start in days - since if today <= start <= today + SOON})
        if not starts:
            return
        cycle = days - since == starts[0]
        dry = since[cycle & (state == 0)]
        high = float(dry.min()) if dry.size else math.inf
        before = since[cycle & (state > 0) & (since < high)]
        low = float(before.max()) if before.size else 0.0
        gaps = self.moss.gaps(place, today)
        rules = {"usual": DEFAULTS["moss.practice"].value}
        if gaps:
            rules["last"] = float(gaps[-1])
        if len(gaps) >= 3:
            rules["three"] = float(np.mean(gaps[-3:]))
        seen_on = dt.date.fromordinal(int(days[cycle].max()))
        yield Comparison("moss", name, estimates.on, seen_on, low, high, one.days, one.basis.learned, rules)

    def _food(self, place: int, name: str, estimates: Estimates) -> Iterator[Comparison]:
        """The first feeding after the day whose leftovers were seen, of each kind of food."""
        today = estimates.on.toordinal()
        for one in estimates.food.get(name, ()):
            kind = KINDS.index(one.kind)
            fed = [f for f in self.food.feedings if f.bin == place and f.kind == kind and _tells(f)]
            after = next((f for f in fed if today < f.day <= today + SOON and f.seen - f.day <= LAST_LOOK), None)
            if after is None:
                continue
            least, most = (float(days_worth(share)) for share in EATEN[after.left])
            a_day = after.grams / (after.seen - after.day)
            before = [simple_a_day(f.grams, f.left, f.seen - f.day) for f in fed if f.seen <= today]
            animals = estimates.numbers[name].now.middle if name in estimates.numbers else 100.0
            rules = {"usual": DEFAULTS[f"food.use.{one.kind}"].value * (max(animals, 1.0) / 100) ** SHARING}
            if before:
                rules["last"] = before[-1]
            if len(before) >= 3:
                rules["three"] = float(np.mean(before[-3:]))
            yield Comparison(
                "food",
                name,
                estimates.on,
                dt.date.fromordinal(after.seen),
                least * a_day,
                most * a_day,
                one.a_day,
                one.basis.learned,
                rules,
                after.where,
            )

    def _leaf(self, place: int, name: str, estimates: Estimates) -> Iterator[Comparison]:
        """Litres a week over the next three top-ups: what was given at all but the last, over the days it lasted."""
        one, today = estimates.leaf.get(name), estimates.on.toordinal()
        if one is None:
            return
        days, litres = self.litter.given(place)
        after = (days > today) & (days <= today + LATER)
        known = days <= today
        used = _a_week(days[after][:4].tolist(), litres[after][:4].tolist())
        if int(after.sum()) < 4 or used is None:
            return
        animals = estimates.numbers[name].now.middle if name in estimates.numbers else 100.0
        appetite = self.ledger.bins[name].word("appetite", "medium")
        usual = DEFAULTS[f"litter.use.{appetite if appetite in APPETITES else 'medium'}"].value
        rules = {"usual": usual * (max(animals, 1.0) / 100) ** LITTER.power}
        for rule, number in (("last", 2), ("three", 4)):
            past = _a_week(days[known][-number:].tolist(), litres[known][-number:].tolist())
            if int(known.sum()) >= number and past is not None:
                rules[rule] = past
        seen_on = dt.date.fromordinal(int(days[after][3]))
        yield Comparison("leaf", name, estimates.on, seen_on, used, used, one.a_week, one.basis.learned, rules)

    def _substrate(self, place: int, name: str, estimates: Estimates) -> Iterator[Comparison]:
        """The next look at the substrate, unless it was changed before."""
        one, today = estimates.substrate.get(name), estimates.on.toordinal()
        if one is None:
            return
        own = self.substrate.seen_bin == place
        days, low, high = self.substrate.seen_day[own], self.substrate.low[own], self.substrate.high[own]
        after = np.flatnonzero((days > today) & (days <= today + LATER))
        changes = self.substrate.day[self.substrate.bin == place]
        if not after.size or ((changes > today) & (changes < days[after[0]])).any():
            return
        day = int(days[after[0]])
        estimate = at_day(one.path, dt.date.fromordinal(day))
        rules: dict[str, float] = {}
        known = np.flatnonzero(days <= today)
        if known.size:
            rules["last"] = float(low[known[-1]] + high[known[-1]]) / 2
        renewed = [int(change) for change in changes if change <= today]
        started = self.ledger.bins[name].started
        reset = renewed[-1] if renewed else started.middle.toordinal() if started else 0
        fresh, spent = SUBSTRATE.fresh, SUBSTRATE.spent
        if reset:
            appetite = self.ledger.bins[name].word("appetite", "medium")
            life = DEFAULTS[f"substrate.life.{appetite}"].value * MONTH
            rules["usual"] = max(fresh - (fresh - spent) * (day - reset) / life, 0.0)
            if known.size and days[known[-1]] > reset:
                fall = (fresh - rules["last"]) / (int(days[known[-1]]) - reset)
                rules["three"] = min(max(fresh - fall * (day - reset), 0.0), 1.0)
        yield Comparison(
            "substrate",
            name,
            estimates.on,
            dt.date.fromordinal(day),
            float(low[after[0]]),
            float(high[after[0]]),
            estimate,
            one.basis.learned,
            rules,
        )

    def _numbers(self, place: int, name: str, estimates: Estimates) -> Iterator[Comparison]:
        """The next count, as its way of counting would have seen the estimated number; unless animals came or went."""
        one, today = estimates.numbers.get(name), estimates.on.toordinal()
        if one is None:
            return
        counts = [c for c in self.numbers.counts if c.bin == place]
        after = next((c for c in counts if today < c.day <= today + LATER), None)
        if after is None or after.high <= 0:
            return
        if any(m.bin == place and not m.dead and today < m.day <= after.day for m in self.numbers.moves):
            return
        there = at_day(one.path, dt.date.fromordinal(after.day))
        last = next((c for c in reversed(counts) if c.day <= today), None)
        yield Comparison(
            "numbers",
            name,
            estimates.on,
            dt.date.fromordinal(after.day),
            after.low,
            after.high,
            _as_counted(there, after),
            one.basis.learned,
            {"last": last.value / _share(last) * _share(after)} if last and last.value > 0 else {},
            after.where,
        )


def _tells(feeding: Feeding) -> bool:
    return feeding.left >= 0 and math.isfinite(feeding.grams) and feeding.grams > 0 and feeding.seen > feeding.day


def _a_week(days: list[int], litres: list[float]) -> float | None:
    """Litres a week from one top-up to the last of several; None if an amount isn't known."""
    given = sum(litres[:-1])
    if len(days) < 2 or not math.isfinite(given) or given <= 0:
        return None
    return given / (days[-1] - days[0]) * 7


def _share(count: Count) -> float:
    return METHODS[METHOD_INDEX[counted_as(count)]].share


def _as_counted(there: Range, count: Count) -> Range:
    """The number that a way of counting sees of so many animals, and how far it errs."""
    method = METHODS[METHOD_INDEX[counted_as(count)]]
    middle = there.middle * method.share
    number_sd = math.log(max(there.high, 1e-6) / max(there.low, 1e-6)) / (2 * EIGHTY)
    few = (1 - min(method.share, 1.0)) / max(middle, 1.0)
    sd = math.sqrt(number_sd**2 + method.log_sd**2 + few)
    return Range(middle * math.exp(-EIGHTY * sd), middle, middle * math.exp(EIGHTY * sd))


def at_day(path: tuple[Point, ...], day: dt.date) -> Range:
    """A path between its points; its last point for any later day."""
    for before, after in pairwise(path):
        if before.day <= day <= after.day:
            part = (day - before.day).days / max((after.day - before.day).days, 1)
            low, middle, high = (
                a + (b - a) * part
                for a, b in ((before.low, after.low), (before.middle, after.middle), (before.high, after.high))
            )
            return Range(low, middle, high)
    return Range(path[-1].low, path[-1].middle, path[-1].high)
