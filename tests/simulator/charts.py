"""Plain control charts, to compare the watch over deaths with: the package uses none of them."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from scipy import stats


def c_limit(mean: float) -> tuple[float, float]:
    """Lower and upper three-sigma limit of counts with this mean."""
    reach = 3 * math.sqrt(mean)
    return max(mean - reach, 0.0), mean + reach


def c_signals(counts: Sequence[int], mean: float) -> list[int]:
    """Places, from 1, of counts beyond the limits; one that is equal to a limit isn't beyond it."""
    low, high = c_limit(mean)
    return [place for place, count in enumerate(counts, start=1) if not low <= count <= high]


def tabular_cusum(values: Sequence[float], target: float, slack: float) -> tuple[list[float], list[float]]:
    """Sums of what lies above the target by more than the slack, and below it, neither ever under 0."""
    up, down, above, below = 0.0, 0.0, [], []
    for value in values:
        up = max(0.0, up + value - target - slack)
        down = max(0.0, down + target - slack - value)
        above.append(up)
        below.append(down)
    return above, below


def run_length(mean: float, step: int, reference: int, limit: int, *, start: int = 0, upper: bool = True) -> float:
    """Counts until a cumulative sum of Poisson counts signals, on average, by the chain of its states.

    The sum goes up by ``step`` x count - ``reference``, or down side by its opposite, is never below 0, and signals
    when it is ``limit`` or more; all whole numbers.
    """
    moves = np.zeros((limit, limit))
    counts = np.arange(int(stats.poisson.ppf(1 - 1e-15, mean)) + 2 + (limit + reference) // step)
    chances = stats.poisson.pmf(counts, mean)
    for state in range(limit):
        change = step * counts - reference
        after = np.maximum(0, state + (change if upper else -change))
        inside = after < limit
        np.add.at(moves[state], after[inside], chances[inside])
    lengths = np.linalg.solve(np.eye(limit) - moves, np.ones(limit))
    return float(lengths[start])
