"""Numbers ahead: a fixed fan of paths for each bin, the same every time.

A path starts at a point of today's joint distribution of number and growth and carries its own luck. Points are a
Sobol sequence and its mirror image, so that the middle path is the median. Nothing is random.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt
from scipy.special import ndtri
from scipy.stats import qmc

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import MONTH, Floats
from workbook_tools.estimate._growth import LEAST, MOST, Growth

TENTHS = (0.1, 0.5, 0.9)
STEP = 7.0
TURNS = np.array([0, 35, 73, 101]) / 128


@lru_cache(maxsize=1)
def nodes(size: int = 128) -> Floats:
    """Points of four independent standard normals, (2 * size, 4), mirrored; ``size`` is a power of 2.

    Their means are 0 and their covariance is 1 exactly, whatever their number.
    """
    raw = qmc.Sobol(4, scramble=False).random(size)
    # each direction turned by its own part, or the first point would lie far out in all four at once
    half = ndtri((raw + TURNS + 0.5 / size) % 1.0)
    both = np.concatenate([half, -half])
    root = np.linalg.cholesky(both.T @ both / len(both))
    return np.asarray(np.linalg.solve(root, both.T).T, dtype=np.float64)


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


@lru_cache(maxsize=4)
def _luck(days: int, fade: float, growth_wander: float) -> Floats:
    """Standard deviation of the log number, (days + 1,), from growth that strays on each day ahead."""
    var_x = var_g = cov = 0.0
    out = np.zeros(days + 1)
    for day in range(1, days + 1):
        var_x += 2 * cov / MONTH + var_g / MONTH**2
        cov = fade * (cov + var_g / MONTH)
        var_g = fade**2 * var_g + growth_wander**2 / MONTH
        out[day] = np.sqrt(var_x)
    return out


def paths(mean: Floats, cov: Floats, growth: Growth, live: Floats, days: Floats) -> Iterator[Floats]:
    """Log number (M, B) of each path on each of ``days`` from now, which must rise."""
    z = nodes()
    sd = np.sqrt(cov[0, 0])
    slope = cov[0, 1] / cov[0, 0]
    rest = np.sqrt(np.maximum(cov[1, 1] - slope * cov[0, 1], 0.0))
    x = mean[0] + z[:, :1] * sd
    g = mean[1] + z[:, :1] * sd * slope + z[:, 1:2] * rest
    last = int(np.ceil(days[-1])) if len(days) else 0
    fade = DEFAULTS["numbers.fade"].value ** (1 / MONTH)
    strays = _luck(last, fade, DEFAULTS["numbers.growth_wander"].value)
    every = np.arange(last + 1.0)
    wander = DEFAULTS["numbers.wander"].value
    now, strayed = 0.0, 0.0
    for day in days:
        while now < day:
            step = min(STEP, day - now)
            stray = float(np.interp(now + step, every, strays))
            luck = wander * (np.sqrt((now + step) / MONTH) - np.sqrt(now / MONTH)) * z[:, 2:3]
            part = fade**step
            # growth fades within the step: its sum over the days, not its first day times the days
            total = growth.settled * step + (g - growth.settled) * (1 - part) / (1 - fade)
            change = (total - growth.pull(x) * step) / MONTH + (stray - strayed) * z[:, 3:4]
            x = np.clip(x + change * live + luck, LEAST, MOST)
            g = growth.settled + part * (g - growth.settled)
            now += step
            strayed = stray
        yield x


def quantiles(values: Floats) -> Floats:
    """The 10 %, 50 % and 90 % points over paths, (3, B)."""
    return np.asarray(np.quantile(values, TENTHS, axis=0), dtype=np.float64)


def first_day(mean: Floats, cov: Floats, growth: Growth, live: Floats, target: Floats, relative: bool) -> Until:
    """When each path first reaches ``target`` (B,), a log number, or a log ratio to its own start when ``relative``.

    NaN targets are not known: their days are the horizon, all ``beyond``.
    """
    horizon = DEFAULTS["numbers.horizon"].value
    known = np.isfinite(target)
    aim = np.where(known, target, np.inf)
    steps = np.arange(0.0, horizon + STEP, STEP)
    walk = paths(mean, cov, growth, live, steps)
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
