"""Numbers ahead: a fixed fan of paths for each bin, the same every time.

A path starts at a point of today's joint distribution of number and growth and carries its own luck. Points are a
Sobol sequence and its mirror image, so that the middle path is the median. Nothing is random.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.special import ndtri
from scipy.stats import qmc

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import Floats
from workbook_tools.estimate._growth import MONTH, MOST_CROWDED

TENTHS = (0.1, 0.5, 0.9)
STEP = 7.0
LEAST = float(np.log(0.5))
MOST = 25.0


def nodes(size: int = 64) -> Floats:
    """Points of four standard normals, (2 * size, 4), mirrored, each scaled to variance 1; ``size`` a power of 2."""
    raw = qmc.Sobol(4, scramble=False).random(size)
    half = ndtri((raw + 0.5 / size) % 1.0)
    both = np.concatenate([half, -half])
    scaled: Floats = both / both.std(axis=0)
    return scaled


@dataclass(frozen=True, eq=False)
class Until:
    """Days from now until something, as 10 %, 50 % and 90 % points, each (B,), with flags instead of infinities.

    Where ``beyond`` (3, B) holds, the point lies past the horizon and the days are the horizon. ``already`` (B,): it
    has happened more likely than not. ``known`` (B,): there was something to wait for.
    """

    low: Floats
    middle: Floats
    high: Floats
    beyond: npt.NDArray[np.bool_]
    already: npt.NDArray[np.bool_]
    known: npt.NDArray[np.bool_]
    horizon: float


def paths(mean: Floats, cov: Floats, room: Floats, live: Floats, days: Floats) -> Iterator[Floats]:
    """Log number (M, B) of each path on each of ``days`` from now, which must rise."""
    z = nodes()
    sd = np.sqrt(cov[0, 0])
    slope = cov[0, 1] / cov[0, 0]
    rest = np.sqrt(np.maximum(cov[1, 1] - slope * cov[0, 1], 0.0))
    x = mean[0] + z[:, :1] * sd
    g = mean[1] + z[:, :1] * sd * slope + z[:, 1:2] * rest
    fade_month = np.where(np.isinf(room), DEFAULTS["numbers.fade"].value, 1.0)
    settled = DEFAULTS["numbers.settled"].value
    wander, growth_wander = DEFAULTS["numbers.wander"].value, DEFAULTS["numbers.growth_wander"].value
    now = 0.0
    for day in days:
        while now < day:
            step = min(STEP, day - now)
            months = step / MONTH
            luck = np.sqrt((now + step) / MONTH) - np.sqrt(now / MONTH)
            crowded = np.minimum(np.exp(x) / room, MOST_CROWDED)
            x = np.clip(x + g * (1 - crowded) * live * months + wander * luck * z[:, 2:3], LEAST, MOST)
            fade = fade_month**months
            g = settled + fade * (g - settled) + growth_wander * luck * z[:, 3:4]
            now += step
        yield x


def quantiles(values: Floats) -> Floats:
    """The 10 %, 50 % and 90 % points over paths, (3, B)."""
    return np.asarray(np.quantile(values, TENTHS, axis=0), dtype=np.float64)


def first_day(mean: Floats, cov: Floats, room: Floats, live: Floats, target: Floats, relative: bool) -> Until:
    """When each path first reaches ``target`` (B,), a log number, or a log ratio to its own start when ``relative``.

    NaN targets are not known: their days are the horizon, all ``beyond``.
    """
    horizon = DEFAULTS["numbers.horizon"].value
    known = np.isfinite(target)
    aim = np.where(known, target, np.inf)
    steps = np.arange(0.0, horizon + STEP, STEP)
    walk = paths(mean, cov, room, live, steps)
    before = next(walk)
    base = before if relative else np.zeros_like(before)
    reached = np.where(before - base >= aim, 0.0, np.inf)
    for step, x in zip(steps[1:], walk, strict=True):
        rise = np.maximum(x - before, 1e-12)
        part = np.clip((aim + base - before) / rise, 0.0, 1.0)
        reached = np.where(np.isinf(reached) & (x - base >= aim), step - STEP + STEP * part, reached)
        before = x
    days = np.sort(reached, axis=0)
    # plain order statistics: interpolating towards a path that never gets there has no meaning
    points = days[[round(q * (len(days) - 1)) for q in TENTHS]]
    beyond = points > horizon
    low, middle, high = np.minimum(points, horizon)
    return Until(low, middle, high, beyond, known & ~beyond[1] & (middle == 0), known, horizon)
