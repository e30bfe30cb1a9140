"""The estimates of the package, asked as a keeper would: from the log as it stood, through the ledger."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

import numpy as np

from simulator.colony import Floats
from simulator.keeper import Diary
from simulator.log import names, rows_of
from simulator.oracle import known
from simulator.score import Forecast
from simulator.truths import AHEAD
from simulator.world import World
from tools.rows import row
from workbook_tools.intake.settings import Settings
from workbook_tools.intake.tables import Row
from workbook_tools.intake.values import Amount, Number, When
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.estimates import estimate_all
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.leaf import forecast_leaf
from workbook_tools.plan.learned.numbers import numbers_of
from workbook_tools.plan.learned.records import DateRange, Estimates, NumberForecast, Range
from workbook_tools.plan.learned.substrate import forecast_substrate

LATER = 1e4
"""Days put for 'later than can be said'."""
Three = tuple[float, float, float]


def forecast(world: World, diary: Diary, day: int, *, given: str = "log") -> Forecast:
    """Estimate every bin on the evening of a day, after a watering that is written down.

    ``given`` the true "numbers" of every day so far, or of the "future" too, instead of the "log" alone, it says how
    much better leaf litter and substrate would be foreseen: what no estimate of numbers can do more for them.
    """
    on = dt.date.fromordinal(world.first + day)
    bins = names(len(world.traits.kind))
    rows = [*rows_of(world, diary, day), *_watered(world, diary, on, bins)]
    ledger, _ = build_ledger(rows, Settings(), on=on)
    estimates = estimate_all(ledger, on, history=False)
    if given != "log":
        frame = Frame.of(ledger, on)
        numbers = known(numbers_of(frame), world, diary, day, future=given == "future")
        estimates = replace(
            estimates,
            leaf=forecast_leaf(frame, numbers, history=False),
            substrate=forecast_substrate(frame, numbers, history=False),
        )
    return answers(estimates, bins)


def _watered(world: World, diary: Diary, on: dt.date, bins: list[str]) -> list[Row]:
    """Every bin watered as its keeper does it: the truth of a drying time is counted from here too."""
    grams = np.round(world.traits.moss * diary.fill / 10) * 5
    return [
        row("log", "Log", "", 10**6 + at, when=When.on(on), bins=name, water=Amount(Number.exactly(given), "ml", "ml"))
        for at, (name, given) in enumerate(zip(bins, grams.tolist(), strict=True))
    ]


def answers(estimates: Estimates, bins: list[str]) -> Forecast:
    """The answers of the estimates by bin; a bin that has none of a kind is silent on it."""
    moss, leaf, substrate, numbers = estimates.moss, estimates.leaf, estimates.substrate, estimates.numbers
    food = {bin: next(one for one in kinds if one.kind == "dry") for bin, kinds in estimates.food.items()}
    on = estimates.on
    said: dict[str, dict[str, Three]] = {
        "dry": {bin: _range(one.days) for bin, one in moss.items()},
        "eaten": {bin: _range(one.a_day) for bin, one in food.items()},
        "out": {bin: _days(one.runs_out, on) for bin, one in leaf.items()},
        "spent": {bin: _days(one.spent, on) for bin, one in substrate.items()},
        "now": {bin: _range(one.now) for bin, one in numbers.items()},
        "later": {bin: _ahead(one, on) for bin, one in numbers.items()},
    }
    checks = {bin: float((one.next - on).days) for bin, one in moss.items() if one.next is not None}
    silent = {name: np.array([bin not in own for bin in bins]) for name, own in said.items()}
    return Forecast(
        {name: np.array([own.get(bin, (1.0, 1.0, 1.0)) for bin in bins]).T for name, own in said.items()},
        check=np.array([checks[bin] for bin in bins]),
        portion=_of(bins, {bin: one.wanted for bin, one in food.items()}),
        step=_of(bins, {bin: one.portion for bin, one in food.items()}),
        silent=silent,
    )


def _of(bins: list[str], values: dict[str, float]) -> Floats:
    return np.array([values.get(bin, 1.0) for bin in bins])


def _range(three: Range) -> Three:
    return three.low, three.middle, three.high


def _days(three: DateRange, on: dt.date) -> Three:
    low, middle, high = (
        LATER if day is None else float((day - on).days) for day in (three.low, three.middle, three.high)
    )
    return low, middle, high


def _ahead(one: NumberForecast, on: dt.date) -> Three:
    """The number ``AHEAD`` days on, between the weekly points of the chart."""
    days = [(point.day - on).days for point in one.path]

    def at(values: list[float]) -> float:
        return math.exp(float(np.interp(AHEAD, days, np.log(np.maximum(values, 1e-3)))))

    return at([p.low for p in one.path]), at([p.middle for p in one.path]), at([p.high for p in one.path])
