"""Food: grams eaten in a day, and the next portion."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.eating import PRIOR, Eating, Feedings, fit_eating
from workbook_tools.ledger.series.food import KINDS, Feeding, FoodSeries, food_series
from workbook_tools.plan.learned.frame import Frame, range_of
from workbook_tools.plan.learned.numbers import Numbers
from workbook_tools.plan.learned.records import FoodForecast

LEFT = ("gone", "some", "most", "mouldy")
STEP = 0.05
ROUGHLY_EATEN = (1.0, 0.7, 0.2, 0.5)
"""The share eaten that simple reckoning takes each word for."""


def forecast_food(frame: Frame, numbers: Numbers) -> dict[str, tuple[FoodForecast, ...]]:
    """Forecast every kind of food of which at least one feeding of a bin is known."""
    series = food_series(frame.ledger, frame.on)
    last: dict[tuple[int, int], Feeding] = {(f.bin, f.kind): f for f in series.feedings}
    found: dict[str, list[FoodForecast]] = {}
    for kind, name in enumerate(KINDS):
        if not any(key[1] == kind for key in last):
            continue
        eating = eating_of(frame, series, numbers, kind)
        grams = np.array([_grams(last.get((place, kind))) for place in range(frame.size)])
        portions = eating.portion(grams)
        a_day = np.stack([eating.quantile(p) for p in (0.1, 0.5, 0.9)])
        notes = np.bincount(series.bin[series.kind == kind], minlength=frame.size)
        simple = simple_eating(series, kind)
        for place, bin in enumerate(frame.bins):
            fed = last.get((place, kind))
            if fed is None or not frame.wanted(place):
                continue
            found.setdefault(bin.name, []).append(
                FoodForecast(
                    bin=bin.name,
                    kind=name,
                    basis=frame.basis(int(notes[place])),
                    a_day=range_of(a_day[:, place]),
                    simple=simple.get(place),
                    portion=float(portions.grams[place]),
                    wanted=float(portions.wanted[place]),
                    limited=int(portions.limited[place]),
                    last_grams=fed.grams if math.isfinite(fed.grams) else None,
                    last_food=fed.food,
                    last_day=dt.date.fromordinal(fed.day),
                    left=LEFT[fed.left] if fed.left >= 0 else "",
                )
            )
    return {bin: tuple(own) for bin, own in found.items()}


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


def _grams(fed: Feeding | None) -> float:
    return math.nan if fed is None else fed.grams
