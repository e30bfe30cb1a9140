"""What a look back found: single comparisons, and scores of many."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import dataclass

from workbook_tools.plan.learned.records import Range
from workbook_tools.problems import CellRef


@dataclass(frozen=True, slots=True)
class Quantity:
    """One thing that is looked back at.

    ``logs`` says that errors are taken of the natural log, so that twice too much and half as much count the same.
    ``rules`` names the simple rules it is set beside, by key.
    """

    key: str
    label: str
    unit: str
    logs: bool
    rules: Mapping[str, str]


QUANTITIES: dict[str, Quantity] = {
    one.key: one
    for one in (
        Quantity(
            "moss",
            "Days until the moss corner is dry",
            "days",
            False,
            {"usual": "common practice", "last": "last time between waterings", "three": "mean of the last three"},
        ),
        Quantity(
            "food",
            "Food eaten in a day",
            "times",
            True,
            {"usual": "common practice", "last": "last feeding", "three": "mean of the last three"},
        ),
        Quantity(
            "leaf",
            "Leaf litter used in a week",
            "times",
            True,
            {"usual": "common practice", "last": "last top-up", "three": "last three top-ups"},
        ),
        Quantity(
            "substrate",
            "Share of substrate still recognisable",
            "share",
            False,
            {"usual": "common practice", "last": "last look", "three": "straight line from the last renewal"},
        ),
        Quantity(
            "numbers",
            "Animals at the next count",
            "times",
            True,
            {"last": "last count, turned into the next way of counting"},
        ),
    )
}


@dataclass(frozen=True, slots=True)
class Comparison:
    """One estimate of a past day beside what was seen after it.

    What was seen lies between ``low`` and ``high``, equal where it is exact, infinite where it is a bound. ``rules``
    holds what the simple rules said, where they could say anything.
    """

    quantity: str
    bin: str
    on: dt.date
    seen_on: dt.date
    low: float
    high: float
    estimate: Range
    learned: bool
    rules: Mapping[str, float]
    where: CellRef | None = None

    def off(self, value: float) -> float:
        """How far a value lies outside what was seen, below 0 for too low; of the log for some quantities.

        Raises
        ------
        ValueError
            The answer isn't finite: a mistake in the comparison.
        """
        low, high = self.low, self.high
        if not math.isfinite(value + self.estimate.low + self.estimate.high) or math.isnan(low + high):
            raise ValueError(f"{self.quantity} of {self.bin} on {self.on}: {value} and {self.estimate} aren't numbers")
        if QUANTITIES[self.quantity].logs:
            value, low, high = (_log(one) for one in (value, low, high))
        return value - low if value < low else value - high if value > high else 0.0

    @property
    def held(self) -> bool:
        """Whether what was seen fits the 80 % interval: it isn't wholly below nor wholly above."""
        return self.low <= self.estimate.high and self.high >= self.estimate.low


def _log(value: float) -> float:
    return math.log(max(value, 1e-6)) if math.isfinite(value) else value


@dataclass(frozen=True, slots=True)
class Score:
    """How good the estimates of one quantity were, over some comparisons.

    ``error`` is the mean of how far they were off, ``bias`` the mean with its sign (below 0: too low), ``held`` the
    share of notes that fit the 80 % interval. ``rules`` gives for each simple rule its error and that of the estimates
    over the comparisons in which the rule could say anything.
    """

    quantity: str
    number: int
    bins: int
    error: float
    bias: float
    held: float
    rules: Mapping[str, tuple[float, float, int]]


@dataclass(frozen=True)
class Backtest:
    """A whole look back: the days estimates were made for, all comparisons, and scores in all, by month and by bin."""

    on: dt.date
    days: tuple[dt.date, ...]
    comparisons: tuple[Comparison, ...]
    scores: tuple[Score, ...]
    by_day: tuple[tuple[dt.date, Score], ...]
