"""How many animals there were, from finds and the work that went into each pass."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class Depletion:
    """A straight line through finds per unit of effort against what was taken out before.

    Parameters
    ----------
    number, number_se
        Animals before the first pass, and its standard error; inf when finds per effort don't fall.
    catchability, catchability_se
        Chance of an animal to be found by one unit of effort, and its standard error; NaN with two passes.
    intercept
        Finds per unit of effort when nothing has been taken out.
    """

    number: float
    number_se: float
    catchability: float
    catchability_se: float
    intercept: float


def leslie(catches: Sequence[float], effort: Sequence[float], *, half: bool = False) -> Depletion:
    """Leslie's line.

    Parameters
    ----------
    catches, effort
        Animals found and taken out in each pass, and its effort, say in minutes; effort above 0.
    half
        Ricker's modification: what was taken out before a pass, and half of what was taken in it. What is said of a
        sift doesn't use it; books print it, and the line is checked by it.

    Raises
    ------
    ValueError
        With fewer than two passes.

    Notes
    -----
    Leslie and Davis 1939; Ricker 1975; the standard error of the number is that of Krebs. Takes minutes as what makes
    finds: handling many animals takes time as well, so that minutes fall with finds and the number comes out too large.
    """
    if len(catches) < 2:
        raise ValueError("a line needs two passes")
    found, work = np.asarray(catches, dtype=float), np.asarray(effort, dtype=float)
    rate = found / work
    before = np.cumsum(found) - (found / 2 if half else found)
    spread = float(((before - before.mean()) ** 2).sum())
    slope = float(((before - before.mean()) * (rate - rate.mean())).sum()) / spread if spread else 0.0
    intercept = float(rate.mean() - slope * before.mean())
    if slope >= 0:
        return Depletion(math.inf, math.inf, 0.0, math.nan, intercept)
    number, free = intercept / -slope, len(found) - 2
    residual = float(((rate - intercept - slope * before) ** 2).sum()) / free if free else math.nan
    number_se = math.sqrt(residual) / -slope * math.sqrt(1 / len(found) + (number - before.mean()) ** 2 / spread)
    return Depletion(number, number_se, -slope, math.sqrt(residual / spread), intercept)
