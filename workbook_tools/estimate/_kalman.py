"""One step of a Kalman filter for many bins at once: forward a day, take in a value or bounds, smooth back.

Shapes: means ``(n, B)`` and covariances ``(n, n, B)`` for n states and B bins, so that bins lie side by side in
memory. Everything is general in n; a level that only wanders is n = 1. The equations are those of the linear Gaussian
filter and the fixed-interval smoother (Durbin & Koopman, Time Series Analysis by State Space Methods, chapter 4).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import log_ndtr, ndtr

from workbook_tools.estimate._grid import Floats

_LOG_ROOT_2PI = 0.9189385332046727
_LEAST = 1e-300


@dataclass(frozen=True, eq=False)
class Doubts:
    """What else may be wrong when a value disagrees with what was expected.

    ``bad`` is the share of values whose spread is ``bad_times`` as wide. ``odd`` is the share of values that are far
    out: half of them because the first state jumped by a normal step with variance ``odd_variance``, half because the
    value is off by as much. Which of the two it was, only the next value tells. Both 0 give the plain filter.
    """

    bad: float = 0.0
    bad_times: float = 3.0
    odd: float = 0.0
    odd_variance: float = 1.0


@dataclass(frozen=True, eq=False)
class Taken:
    """State after an observation.

    Mean ``(n, B)``, covariance ``(n, n, B)``; each ``(B,)``: log density of what was seen, the chance that it was far
    out for whatever cause, and the part of that chance which is a jump of the state.
    """

    mean: Floats
    cov: Floats
    log_density: Floats
    odd: Floats
    jumped: Floats


@dataclass(frozen=True, eq=False)
class _Case:
    """One explanation of what was seen: its log weight, what it does to the mean, what to the covariance."""

    log: Floats
    shift: Floats
    change: Floats


def predict(mean: Floats, cov: Floats, transition: Floats, noise: Floats) -> tuple[Floats, Floats, Floats]:
    """One step ahead: mean, covariance, and the covariance ``(before, after)`` that the smoother needs.

    ``transition`` and ``noise`` are ``(n, n, B)`` or ``(n, n, 1)``. For a step that isn't linear give its slope as
    ``transition`` and put the mean right afterwards.
    """
    cross = _product(cov, transition.swapaxes(0, 1))
    ahead = _product(transition, cross) + noise
    return (transition * mean[None]).sum(axis=1), (ahead + ahead.swapaxes(0, 1)) / 2, cross


def take_value(mean: Floats, cov: Floats, loading: Floats, value: Floats, variance: Floats, doubts: Doubts) -> Taken:
    """State after ``value = loading . state + noise`` was seen.

    The cases (a usual value, a bad one, one far out, a jump before it) are updated apart and put together again by
    their first two moments, so that the covariance stays positive definite whatever was seen.
    """
    gap = value - (loading * mean).sum(axis=0)

    def case(share: float, before: Floats, variance: Floats) -> _Case:
        along, own = _along(before, loading)
        spread = own + variance
        log = np.log(share) - _LOG_ROOT_2PI - 0.5 * np.log(spread) - 0.5 * gap**2 / spread
        return _Case(log, along * (gap / spread), before - cov - _outer(along) / spread)

    cases = [case(1 - doubts.bad - doubts.odd, cov, variance)]
    if doubts.bad:
        cases.append(case(doubts.bad, cov, variance * doubts.bad_times**2))
    if doubts.odd:
        cases.append(case(doubts.odd / 2, cov, variance + doubts.odd_variance))
        cases.append(case(doubts.odd / 2, _jumped(cov, doubts), variance))
    return _together(mean, cov, cases, doubts)


def take_bounds(
    mean: Floats, cov: Floats, loading: Floats, low: Floats, high: Floats, variance: Floats, doubts: Doubts
) -> Taken:
    """State after ``loading . state + noise`` was seen to lie between ``low`` and ``high`` (infinite bounds allowed).

    A truncated normal by its first two moments. A bad value says nothing here: its chance is a quarter, whatever the
    state.
    """
    expected = (loading * mean).sum(axis=0)

    def case(share: float, before: Floats) -> _Case:
        along, own = _along(before, loading)
        root = np.sqrt(own + variance)
        log_chance, shift, drop = _truncated((low - expected) / root, (high - expected) / root)
        return _Case(
            np.log(share) + log_chance, along * (shift / root), before - cov - _outer(along) * (drop / root**2)
        )

    cases = [case(1 - doubts.bad - doubts.odd, cov)]
    if doubts.bad:
        nothing = np.full(mean.shape[1], np.log(doubts.bad * 0.25))
        cases.append(_Case(nothing, np.zeros_like(mean), np.zeros_like(cov)))
    if doubts.odd:
        cases.append(case(doubts.odd, _jumped(cov, doubts)))
    return _together(mean, cov, cases, doubts)


def smooth(
    filtered: tuple[Floats, Floats], ahead: tuple[Floats, Floats], cross: Floats, later: tuple[Floats, Floats]
) -> tuple[Floats, Floats]:
    """Mean and covariance of a day given all that came later.

    ``filtered`` is the day as known then, ``ahead`` its forecast of the next day, ``cross`` from `predict`, ``later``
    the next day smoothed. The forecast's covariance must be positive definite.
    """
    stacked = np.moveaxis(ahead[1], 2, 0)
    solved = np.linalg.solve(stacked, np.moveaxis(cross, 2, 0).swapaxes(1, 2))
    gain: Floats = np.asarray(np.moveaxis(solved, 0, 2).swapaxes(0, 1), dtype=np.float64)
    mean = filtered[0] + (gain * (later[0] - ahead[0])[None]).sum(axis=1)
    cov = filtered[1] + _product(gain, _product(later[1] - ahead[1], gain.swapaxes(0, 1)))
    return mean, (cov + cov.swapaxes(0, 1)) / 2


def _truncated(low: Floats, high: Floats) -> tuple[Floats, Floats, Floats]:
    """Log chance of a standard normal between the bounds, its mean there, and by how much its variance is smaller."""
    flip = low > 0
    low, high = np.where(flip, -high, low), np.where(flip, -low, high)
    width = np.maximum(ndtr(high) - ndtr(low), 0.0)
    far = width < 1e-12
    chance = np.where(far, 1.0, width)
    at_low, at_high = _density(low), _density(high)
    shift = (at_low - at_high) / chance
    drop = np.clip(shift**2 + (_times(high, at_high) - _times(low, at_low)) / chance, 0, 1)
    # far out in the tail all the weight lies at the nearer bound
    shift = np.where(far, high, shift)
    return (
        np.where(far, log_ndtr(high), np.log(np.maximum(width, _LEAST))),
        np.where(flip, -shift, shift),
        np.where(far, 1.0, drop),
    )


def _together(mean: Floats, cov: Floats, cases: list[_Case], doubts: Doubts) -> Taken:
    logs = np.stack([case.log for case in cases])
    top = logs.max(axis=0)
    raw = np.exp(logs - top)
    total = raw.sum(axis=0)
    weights = raw / total
    shift = np.zeros_like(mean)
    for weight, case in zip(weights, cases, strict=True):
        shift += weight * case.shift
    spread = cov.copy()
    for weight, case in zip(weights, cases, strict=True):
        spread += weight * (_outer(case.shift - shift) + case.change)
    usual = 1 + (doubts.bad > 0)
    none = np.zeros(mean.shape[1])
    jumped = weights[-1] if doubts.odd else none
    odd = weights[usual:].sum(axis=0) if doubts.odd else none
    return Taken(mean + shift, spread, top + np.log(total), odd, jumped)


def _along(cov: Floats, loading: Floats) -> tuple[Floats, Floats]:
    along = (cov * loading[None]).sum(axis=1)
    return along, (along * loading).sum(axis=0)


def _jumped(cov: Floats, doubts: Doubts) -> Floats:
    before = cov.copy()
    before[0, 0] += doubts.odd_variance
    return before


def _outer(vector: Floats) -> Floats:
    return vector[:, None] * vector[None]


def _product(left: Floats, right: Floats) -> Floats:
    return np.asarray((left[:, :, None] * right[None]).sum(axis=1), dtype=np.float64)


def _density(x: Floats) -> Floats:
    out: Floats = np.exp(-0.5 * np.minimum(x**2, 1e4) - _LOG_ROOT_2PI)
    return out


def _times(bound: Floats, density: Floats) -> Floats:
    return np.where(np.isfinite(bound), bound, 0.0) * density
