"""Numbers: how many animals there are, how they grow, when a bin is crowded."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from workbook_tools.estimate.counting import EATEN, METHOD_INDEX, Counts
from workbook_tools.estimate.population import Moves, Population, Until, follow_numbers
from workbook_tools.ledger.series.census import census_series
from workbook_tools.ledger.series.numbers import Count, NumberSeries, number_series
from workbook_tools.plan.learned.census import MARKS, NO_LIMIT, PASSES, WORKED_OUT, worked_out
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.records import DateRange, MarksCount, NumberForecast, Point, Range
from workbook_tools.problems import Problem

Floats = NDArray[np.float64]
Days = NDArray[np.int64]
METHOD = {
    "hide lift": "lift",
    "all hides": "hides",
    "trap": "trap",
    "hand sort": "sort",
    "sieve": "sieve",
    MARKS: "marks",
    PASSES: "passes",
    "weighing": "weight",
    "guess": "guess",
    "unsaid": "unsaid",
}
"""The key of the estimates for each of our words."""
LONGEST = 5 * 365
"""Days back that numbers are followed at most; a bin that began before is taken up then, as if newly counted."""
AHEAD = 400
"""Days ahead that the animals' appetite is followed day by day."""
PAST_WEEKS, COMING_WEEKS = 52, 26
EIGHTY = 1.2816


@dataclass(frozen=True, eq=False)
class Numbers:
    """The animals of all bins: the series, and the population as it was followed."""

    series: NumberSeries
    population: Population
    gone: NDArray[np.bool_]
    """(B,) bins that the keeper closed: nothing eats there any more."""
    doubts: tuple[Problem, ...] = ()
    """What is doubtful about the counts that were worked out."""

    @property
    def now(self) -> Floats:
        """(B,) animals today."""
        return self.population.today[1]

    @property
    def error(self) -> Floats:
        """(B,) error of the natural log of that."""
        return self.population.log_sd[:, -1]

    def at(self, bin: Days, day: Days) -> Floats:
        """Animals of each bin on each day."""
        column = np.clip(day - self.population.first_day, 0, self.population.log_mean.shape[1] - 1)
        return np.asarray(np.exp(self.population.log_mean[bin, column]))

    def exposure(self, first_day: int, power: float) -> Floats:
        """(B, T) how much is eaten on each day from ``first_day`` to now: 1 where there are a hundred animals."""
        days = np.arange(first_day, self.population.last_day + 1)
        column = np.clip(days - self.population.first_day, 0, None)
        exposure = np.exp(power * (self.population.log_mean[:, column] - math.log(100)))
        return np.asarray(np.where(self.gone[:, None], 0.0, exposure))

    def exposure_ahead(self, power: float) -> tuple[Floats, Floats]:
        """The same of the coming days, and the error of its natural log, both (B, H)."""
        weeks = np.arange(0, AHEAD + 7, 7)
        low, middle, high = self.population.forecast(weeks.astype(np.float64))
        sd = np.log(np.maximum(high, 1e-9) / np.maximum(low, 1e-9)) / (2 * EIGHTY)
        days = np.arange(1, AHEAD + 1)
        log = np.stack([np.interp(days, weeks, row) for row in np.log(np.maximum(middle, 1e-9) / 100)])
        error = np.stack([np.interp(days, weeks, row) for row in sd])
        exposure = np.where(self.gone[:, None], 0.0, np.exp(power * log))
        return exposure, power * error


@dataclass(frozen=True, eq=False)
class Eaters:
    """How many animals there are by what they eat: bin and day, natural log of the number and its error, (n,) each."""

    bin: Days
    day: Days
    log: Floats
    sd: Floats

    def counts(self) -> Counts:
        """As counts with limits of their own."""
        value, wide = np.exp(self.log), np.exp(EIGHTY * self.sd)
        return Counts(self.bin, self.day, value, value / wide, value * wide, np.full(len(self.bin), EATEN))


def numbers_of(frame: Frame) -> Numbers:
    """Follow the animals of every bin from its start to today, counts worked out from marks and passes among them."""
    series, doubts = _all_counts(frame)
    return _followed(frame, series, doubts)


def numbers_by_eating(frame: Frame, counted: Numbers, eaters: Eaters) -> Numbers:
    """The same once more, with what the animals eat as one more count of each bin."""
    return _followed(frame, counted.series, counted.doubts, eaters) if eaters.bin.size else counted


def _followed(frame: Frame, series: NumberSeries, doubts: tuple[Problem, ...], eaters: Eaters | None = None) -> Numbers:
    counts, moves = series.counts, series.moves
    floor = frame.today - LONGEST
    start = np.where(series.start_day > 0, series.start_day, _first_noted(series, frame))
    start = np.minimum(start, frame.today)
    old = start < floor
    written = Counts(
        np.array([c.bin for c in counts], dtype=np.int64),
        np.array([c.day for c in counts], dtype=np.int64),
        np.array([_value(c) for c in counts], dtype=np.float64),
        np.array([c.low for c in counts], dtype=np.float64),
        np.array([c.high for c in counts], dtype=np.float64),
        np.array([METHOD_INDEX[counted_as(c)] for c in counts], dtype=np.int64),
    )
    population = follow_numbers(
        written if eaters is None else written.joined(eaters.counts()),
        Moves(
            np.array([m.bin for m in moves], dtype=np.int64),
            np.array([m.day for m in moves], dtype=np.int64),
            np.array([m.change for m in moves], dtype=np.float64),
            np.array([m.share for m in moves], dtype=np.float64),
            np.array([m.source for m in moves], dtype=np.int64),
        ),
        bins=frame.size,
        start_day=np.maximum(start, floor),
        start_number=np.where(old, math.nan, series.start_number),
        start_sd=np.where(old, math.nan, series.start_sd),
        crowding=series.crowding,
        appetite=frame.appetite,
        first_day=int(np.maximum(start, floor).min()) if frame.size else frame.today,
        last_day=frame.today,
    )
    gone = np.array([word == "gone" for word in frame.status], dtype=np.bool_)
    return Numbers(series, population, gone, doubts)


def _all_counts(frame: Frame) -> tuple[NumberSeries, tuple[Problem, ...]]:
    """Counts and moves as logged, and those worked out from marks and passes."""
    series = number_series(frame.ledger, frame.on)
    worked = worked_out(
        census_series(frame.ledger, frame.on, series.moves), [bin.name for bin in frame.bins], series.moves
    )
    counts = sorted((*series.counts, *worked.counts), key=lambda c: (c.day, c.bin))
    moves = sorted((*series.moves, *worked.moves), key=lambda m: (m.day, m.bin))
    return replace(series, counts=tuple(counts), moves=tuple(moves)), worked.problems


def _first_noted(series: NumberSeries, frame: Frame) -> Days:
    """The first day anything was written of each bin whose start isn't known; today if nothing was."""
    first = {name: frame.today for name in frame.ledger.bins}
    for entry in frame.ledger.entries:
        if entry.when is not None and entry.when.first <= frame.on:
            for name in entry.bins:
                if name in first:
                    first[name] = min(first[name], entry.when.first.toordinal())
    return np.array(list(first.values()), dtype=np.int64)


def _value(count: Count) -> float:
    """The number counted; NaN for words and bounds, of which only the bounds are known.

    Of a number worked out it is the middle of its limits by their ratio, for the numbers are followed on a log scale.
    """
    if count.method in WORKED_OUT and count.high >= NO_LIMIT:
        return math.nan
    if count.method in WORKED_OUT:
        return math.sqrt(count.low * count.high) if count.low > 0 else count.value
    wide = math.isinf(count.high) or count.high > 2.5 * max(count.low, 1.0)
    return math.nan if wide else count.value


def _as_it_stands(count: Count) -> float:
    """The number as it was written; of one without an upper end (230+) the lower one."""
    return count.low if math.isinf(count.high) else count.value


def counted_as(count: Count) -> str:
    """The way of counting; a number in words that doesn't say how is one of its own."""
    if count.method == "unsaid" and math.isnan(_value(count)):
        return "words"
    return METHOD[count.method]


def forecast_numbers(frame: Frame, numbers: Numbers) -> tuple[dict[str, NumberForecast], list[Problem]]:
    """Say how many animals each bin holds and where that is going, and name notes that can't fit together."""
    population = numbers.population
    today = np.stack(population.today)
    growth, growth_sd = population.growth
    doubles, crowded = population.doubling(), population.crowding_day()
    last = {count.bin: count for count in numbers.series.counts}
    marks = _by_marks(frame, numbers.series.counts)
    past = np.arange(-7 * PAST_WEEKS, 1, 7)
    weeks = np.arange(7, 7 * COMING_WEEKS + 1, 7)
    coming = np.stack(population.forecast(weeks.astype(np.float64)))
    found = {}
    for place, bin in enumerate(frame.bins):
        if not frame.wanted(place):
            continue
        count = last.get(place)
        number = float(numbers.series.crowding[place])
        began = int(numbers.series.start_day[place])
        points = [_past_point(population, place, day) for day in (frame.today + past).tolist() if day >= began]
        points += [
            Point(dt.date.fromordinal(frame.today + int(week)), *(float(x) for x in coming[:, place, column]))
            for column, week in enumerate(weeks)
        ]
        spread = EIGHTY * float(growth_sd[place])
        found[bin.name] = NumberForecast(
            bin=bin.name,
            basis=frame.basis(place, population.notes),
            now=Range(*(float(x) for x in today[:, place])),
            growth=Range(*(math.expm1(float(growth[place]) + x) for x in (-spread, 0.0, spread))),
            doubles=_until(frame, doubles, place),
            crowding=number if math.isfinite(number) else None,
            crowded=_until(frame, crowded, place) if bool(crowded.known[place]) else None,
            already=bool(crowded.already[place]) and bool(crowded.known[place]),
            last_count=_as_it_stands(count) if count else None,
            last_day=dt.date.fromordinal(count.day + count.before) if count else None,
            last_method=count.method if count else "",
            counted=bool(population.counted[place]),
            path=tuple(p for p in points if p is not None),
            marks=marks.get(place),
            by_eating=bool(population.by_eating[place]),
        )
    return found, _problems(frame, numbers)


def _by_marks(frame: Frame, counts: Sequence[Count]) -> dict[int, MarksCount]:
    """By place: the last number by marks, on the day of its last catch, which a count's own may come before."""
    found = {count.bin: count for count in counts if count.method == MARKS}
    caught = {entry.where: entry.when.last for entry in frame.ledger.entries if entry.when is not None}
    return {
        place: MarksCount(
            count.value,
            count.low,
            count.high if count.high < NO_LIMIT else None,
            min(caught.get(count.where, dt.date.fromordinal(count.day)), frame.on),
        )
        for place, count in found.items()
    }


def _past_point(population: Population, place: int, day: int) -> Point | None:
    if not population.first_day <= day <= population.last_day:
        return None
    column = day - population.first_day
    middle, sd = float(population.log_mean[place, column]), float(population.log_sd[place, column])
    low, best, high = (math.exp(middle + z * sd) for z in (-EIGHTY, 0.0, EIGHTY))
    return Point(dt.date.fromordinal(day), low, best, high)


def _until(frame: Frame, until: Until, place: int) -> DateRange:
    days = np.array([until.low[place], until.middle[place], until.high[place]])
    return frame.dates(days, until.beyond[:, place])


def _problems(frame: Frame, numbers: Numbers) -> list[Problem]:
    """Sales larger than the bin, and counts before which the number must have jumped."""
    series, population = numbers.series, numbers.population
    problems = list(numbers.doubts)
    for move, sold in zip(series.moves, population.oversold.tolist(), strict=True):
        if sold and math.isfinite(move.change):
            facts = {"bin": frame.bins[move.bin].name, "number": f"{-move.change:.0f}"}
            problems.append(Problem("learned.oversold", move.where, facts, f"{-move.change:.0f}"))
    for count, chance in zip(series.counts, population.odd[: len(series.counts)].tolist(), strict=True):
        if chance >= 0.5:
            facts = {"bin": frame.bins[count.bin].name, "number": f"{count.value:.0f}"}
            problems.append(Problem("learned.odd_count", count.where, facts, f"{count.value:.0f}"))
    return problems
