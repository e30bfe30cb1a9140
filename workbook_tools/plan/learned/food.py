"""Food: grams eaten in a day, and the next portion."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.eating import PRIOR, Eating, Feedings, fit_eating
from workbook_tools.ledger.series.food import KINDS, Feeding, FoodSeries, food_series
from workbook_tools.plan.learned.frame import Frame, range_of
from workbook_tools.plan.learned.numbers import Eaters, Numbers
from workbook_tools.plan.learned.records import FoodForecast, FoodSwing

LEFT = ("gone", "some", "most", "mouldy")
STEP = 0.05
VAGUE = 3.0
"""Error of the natural log from which on what is eaten says nothing of the number."""
CLEAR, TELLING = 0.25, 5
"""How far, in log, all bins must be off their usual for it to be told, at twice its error; and by how many bins."""
ROUGHLY_EATEN = (1.0, 0.7, 0.2, 0.5)
"""The share eaten that simple reckoning takes each word for."""


@dataclass(frozen=True, eq=False)
class Fed:
    """Food given, and what is known of the eating of each kind that was."""

    series: FoodSeries
    eating: Mapping[int, Eating]


def fed_of(frame: Frame, numbers: Numbers) -> Fed:
    """Fit what every bin eats of every kind of food that was ever given."""
    series = food_series(frame.ledger, frame.on)
    given = sorted({feeding.kind for feeding in series.feedings})
    return Fed(series, {kind: eating_of(frame, series, numbers, kind) for kind in given})


def eaters_of(frame: Frame, fed: Fed, numbers: Numbers) -> Eaters:
    """How many animals there are by what they eat, of each bin the kind of food that was looked at most.

    ``numbers`` are those the eating was fitted with.
    """
    off, error, notes = np.zeros(frame.size), np.zeros(frame.size), np.zeros(frame.size)
    looked = np.zeros(frame.size, dtype=np.int64)
    for kind, eating in fed.eating.items():
        more, wide = eating.number()
        use = (wide < VAGUE) & (eating.rates.notes > notes)
        off[use], error[use], notes[use] = more[use], wide[use], eating.rates.notes[use]
        own = (fed.series.kind == kind) & use[fed.series.bin]
        np.maximum.at(looked, fed.series.bin[own], fed.series.day[own] + fed.series.days_out[own])
    places = np.flatnonzero(notes)
    day = np.minimum(looked[places], frame.today)
    return Eaters(places, day, np.log(numbers.at(places, day)) + off[places], error[places])


def forecast_food(frame: Frame, fed: Fed) -> dict[str, tuple[FoodForecast, ...]]:
    """Forecast every kind of food of which at least one feeding of a bin is known."""
    series = fed.series
    last: dict[tuple[int, int], Feeding] = {(f.bin, f.kind): f for f in series.feedings}
    found: dict[str, list[FoodForecast]] = {}
    for kind, eating in fed.eating.items():
        name = KINDS[kind]
        grams = np.array([_grams(last.get((place, kind))) for place in range(frame.size)])
        portions = eating.portion(grams)
        a_day = np.stack([eating.quantile(p) for p in (0.1, 0.5, 0.9)])
        notes = np.bincount(series.bin[series.kind == kind], minlength=frame.size)
        simple = simple_eating(series, kind)
        for place, bin in enumerate(frame.bins):
            given = last.get((place, kind))
            if given is None or not frame.wanted(place):
                continue
            found.setdefault(bin.name, []).append(
                FoodForecast(
                    bin=bin.name,
                    kind=name,
                    basis=frame.basis(place, notes, inherits=True),
                    a_day=range_of(a_day[:, place]),
                    simple=simple.get(place),
                    portion=float(portions.grams[place]),
                    wanted=float(portions.wanted[place]),
                    limited=int(portions.limited[place]),
                    last_grams=given.grams if math.isfinite(given.grams) else None,
                    last_food=given.food,
                    last_day=dt.date.fromordinal(given.day),
                    left=LEFT[given.left] if given.left >= 0 else "",
                )
            )
    return {bin: tuple(own) for bin, own in found.items()}


def food_swings(frame: Frame, fed: Fed) -> tuple[FoodSwing, ...]:
    """Kinds of food of which all bins eat clearly more or less than usual now."""
    found = []
    for kind, eating in fed.eating.items():
        swings = eating.rates.swings
        if swings is None:
            continue
        shift, since = float(swings.shift[0]), swings.since()
        told = swings.told(since)
        if abs(shift) >= max(CLEAR, 2 * swings.sd[0]) and told >= TELLING:
            found.append(FoodSwing(KINDS[kind], math.expm1(shift), frame.on - dt.timedelta(days=since)))
    return tuple(found)


def eating_of(frame: Frame, series: FoodSeries, numbers: Numbers, kind: int) -> Eating:
    """Fit what every bin eats of one kind of food."""
    own = series.kind == kind
    seen = series.day[own] + series.days_out[own]
    feedings = Feedings(
        series.bin[own],
        seen,
        series.grams[own],
        series.days_out[own].astype(np.float64),
        series.left[own],
        _stepped(numbers.at(series.bin[own], series.day[own])),
    )
    prior = replace(PRIOR, mean=math.log(DEFAULTS[f"food.use.{KINDS[kind]}"].value))
    return fit_eating(
        feedings,
        bins=frame.size,
        species=frame.species,
        appetite=frame.appetite,
        number=numbers.now,
        number_sd=numbers.error,
        parent=frame.parent,
        now=frame.today,
        prior=prior,
    )


def _stepped(number: NDArray[np.float64]) -> NDArray[np.float64]:
    """Round to steps of 5 %: numbers aren't known better, and like feedings are then worked out once."""
    return np.asarray(np.exp(np.round(np.log(np.maximum(number, 1.0)) / STEP) * STEP))


def simple_eating(series: FoodSeries, kind: int) -> dict[int, float]:
    """By place: mean grams a day over the last three feedings of a kind that were looked at."""
    own: NDArray[np.bool_] = series.kind == kind
    by_bin: dict[int, list[float]] = {}
    seen = (part[own].tolist() for part in (series.bin, series.grams, series.left, series.days_out))
    for place, grams, left, days in zip(*seen, strict=True):
        by_bin.setdefault(place, []).append(simple_a_day(grams, left, days))
    return {place: float(np.mean(own[-3:])) for place, own in by_bin.items() if len(own) >= 3}


def simple_a_day(grams: float, left: int, days: int) -> float:
    """Grams eaten a day of one feeding by simple reckoning, from how much was left after so many days."""
    return grams * ROUGHLY_EATEN[left] / days


def _grams(given: Feeding | None) -> float:
    return math.nan if given is None else given.grams
