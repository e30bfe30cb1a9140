"""A positive rate of each bin from spans: noted above this, below that, or between the two."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy.sparse import csr_array

from workbook_tools.estimate._grid import (
    MONTH,
    NORMAL,
    Floats,
    Ints,
    Pooled,
    RatePrior,
    climb,
    discount,
    gather,
    pool,
    span_chance,
    with_slips,
)
from workbook_tools.estimate._swing import Swings, find_swings, steps_of

__all__ = ["RatePrior", "Rates", "Spans", "fit_rates"]

MANY_KINDS = 4_000
"""Above this many different spans, bounds are rounded to ``STEP``, which moves a bound by 1.5 % at most."""
STEP = 0.03
COARSE = 100
"""Points of the grid while the scatter is being fitted: its best value hardly depends on them."""
LOOSE = np.array([0.3, 0.8])
"""How far, in log, the scatter and the share of slips may lie from where they start."""
SIGMA_LEAST, SLIPS_MOST = 0.05, 0.8
ROUNDS = 2
"""How often rates and swings are found in turn; more hardly change either."""
LEAST_SLIPS = 0.01
"""Share of slips while swings are looked for: no note may rule one out."""
RECENT = 60
"""Days over which it is counted how often a bin is noted."""


@dataclass(frozen=True, eq=False)
class Spans:
    """What was seen: a value of bin ``bin`` lay in (low, high], ``age`` days ago.

    Parameters
    ----------
    bin
        (n,) index of the bin.
    low, high
        (n,) natural logs, -inf and inf allowed. A span with ``high <= low`` or a NaN is left out.
    age
        (n,) days before now.
    """

    bin: Ints
    low: Floats
    high: Floats
    age: Floats

    def usable(self) -> Spans:
        """The spans that say something."""
        keep = (self.high > self.low) & np.isfinite(self.age) & ~(np.isinf(self.low) & np.isinf(self.high))
        return Spans(self.bin[keep], self.low[keep], self.high[keep], self.age[keep])


@dataclass(frozen=True, eq=False)
class Rates:
    """What is known of the log rate of each bin.

    Parameters
    ----------
    grid
        (J,) natural logs of the rate of now: where bins swing together, with today's swing.
    pooled
        What each bin said, what the others say of it, and both together; as usual, without any swing.
    sigma
        Scatter of single values about the bin's rate, natural log, the error of today's swing included.
    notes
        (B,) number of observations, old ones counting less.
    swings
        What moved all bins at once, or None where that wasn't asked.
    """

    grid: Floats
    pooled: Pooled
    sigma: float
    notes: Floats
    swings: Swings | None = None

    @property
    def weight(self) -> Floats:
        """(B, J) how likely each rate is; each row sums to one."""
        return self.pooled.weight

    @property
    def mean_log(self) -> Floats:
        """(B,) mean of the log rate."""
        return self.weight @ self.grid

    @property
    def sd_log(self) -> Floats:
        """(B,) standard deviation of the log rate, without the scatter of single values."""
        return np.asarray(np.sqrt(np.maximum(self.weight @ self.grid**2 - self.mean_log**2, 0.0)), dtype=np.float64)

    def chance_below(self, value: Floats) -> Floats:
        """Chance that the next single value lies below ``value`` (B,), in the unit of the rate.

        0 for values of 0 or less.
        """
        with np.errstate(divide="ignore"):
            logs = np.log(np.maximum(value, 0.0))
        chance = NORMAL.cdf((logs[:, None] - self.grid) / self.sigma)
        return np.asarray((self.weight * chance).sum(axis=1), dtype=np.float64)

    def quantile(self, p: float) -> Floats:
        """(B,) the value that the next single value stays below with chance ``p``, in the unit of the rate.

        Raises
        ------
        ValueError
            When ``p`` is not between 0 and 1.
        """
        if not 0 < p < 1:
            raise ValueError("a quantile needs a chance between 0 and 1")
        low = np.full(len(self.weight), self.grid[0] - 8 * self.sigma)
        high = np.full(len(self.weight), self.grid[-1] + 8 * self.sigma)
        for _ in range(40):
            middle = (low + high) / 2
            under = self.chance_below(np.exp(middle)) < p
            low = np.where(under, middle, low)
            high = np.where(under, high, middle)
        return np.asarray(np.exp((low + high) / 2), dtype=np.float64)


def fit_rates(
    spans: Spans,
    *,
    bins: int,
    species: Ints,
    appetite: Ints,
    prior: RatePrior,
    doubt: Floats | None = None,
    parent: Ints | None = None,
    eye: float = 0.0,
    swing: float = 0.0,
    size: int = 400,
    fit_scatter: bool = True,
) -> Rates:
    """Estimate the rate of each bin.

    Parameters
    ----------
    spans
        What was seen.
    bins
        Number of bins. A bin without a span gets what its like have, or the prior.
    species, appetite
        (bins,) as in `pool`.
    prior
        Where everything starts.
    doubt, parent
        As in `pool`.
    eye
        How far, in log, the bounds of a span wander from look to look, with the eye of who looks. It isn't part of the
        scatter that is handed back: the values themselves don't wander with it.
    swing
        How far, in log, all bins swing together as a rule; 0 where they don't. See `_swing.find_swings`.
    size
        Points of the grid.
    fit_scatter
        Whether the scatter and the share of slips are learned from the spans or taken from the prior as they are.

    Returns
    -------
    Rates

    Notes
    -----
    Values of one bin are taken as independent of one another. Misleads when one cause moves all values of a single bin
    for weeks; that old ones count less is all that follows it. What fits no scatter is a slip: in a log with gaps that
    is much, as what was seen then belongs to something that nobody wrote.
    """
    spans = spans.usable()
    weight = discount(spans.age, _half_life(spans, bins, prior, eye)[spans.bin])
    fitting = _Fitting(weight, species, appetite, prior, doubt, eye, parent)
    swings, seen = None, fitting.gathered(spans)
    if swing and len(spans.bin):
        swings, seen = fitting.without_swings(spans, seen, swing)
    sigma, slips = fitting.scatter(seen, min(size, COARSE)) if fit_scatter else (prior.sigma, prior.outlier)
    pooled = fitting.pooled(seen, prior.grid(size), sigma, slips)
    grid = prior.grid(size)
    if swings is not None:
        grid, sigma = grid + swings.shift[0], float(np.hypot(sigma, swings.sd[0]))
    return Rates(grid, pooled, sigma, np.bincount(spans.bin, weight, bins).astype(np.float64), swings)


def _half_life(spans: Spans, bins: int, prior: RatePrior, eye: float) -> Floats:
    """(B,) days after which a note counts half: that of the prior, and less where a wandering rate is noted often.

    A random walk seen with errors, once the filter is steady: memory grows with the root of the time between notes.
    """
    if prior.walk <= 0:
        return np.full(bins, prior.half_life)
    notes = np.bincount(spans.bin[spans.age <= RECENT], minlength=bins)
    gap = RECENT / np.maximum(notes, 1)
    memory = np.log(2) * np.sqrt(gap * MONTH) * np.hypot(prior.sigma, eye) / prior.walk
    return np.asarray(np.minimum(memory, prior.half_life), dtype=np.float64)


@dataclass(frozen=True, eq=False)
class _Seen:
    """The different spans, ``low`` and ``high`` (K,); which each span is (n,); the weight of each in a bin (B, K)."""

    low: Floats
    high: Floats
    kind: Ints
    held: csr_array


@dataclass(frozen=True, eq=False)
class _Fitting:
    """What stays the same while rates are fitted: the weight of each span (n,), and all that `fit_rates` was given."""

    weight: Floats
    species: Ints
    appetite: Ints
    prior: RatePrior
    doubt: Floats | None
    eye: float
    parent: Ints | None

    def gathered(self, spans: Spans) -> _Seen:
        """Put like spans together, so that each is worked out once."""
        low, high, kind = _kinds(spans)
        return _Seen(low, high, kind, gather(spans.bin, kind, self.weight, len(self.species), len(low)))

    def chance(self, seen: _Seen, grid: Floats, sigma: float, slips: float) -> Floats:
        """(K, J) log of how likely spans are at each log rate."""
        scale = np.hypot(sigma, self.eye)
        return with_slips(span_chance(seen.low[:, None], seen.high[:, None], grid, scale), slips)

    def pooled(self, seen: _Seen, grid: Floats, sigma: float, slips: float) -> Pooled:
        """Pool the spans of all bins."""
        log_like = np.asarray(seen.held @ self.chance(seen, grid, sigma, slips), dtype=np.float64)
        return pool(log_like, grid, self.species, self.appetite, self.prior, self.doubt, self.parent)

    def scatter(self, seen: _Seen, size: int) -> tuple[float, float]:
        """Learn the scatter, and the share of slips."""
        prior, grid = self.prior, self.prior.grid(size)
        if not len(seen.low):
            return prior.sigma, prior.outlier
        # Where slips are ruled out there is no share of them to learn.
        middle = np.log([prior.sigma, prior.outlier][: 2 if prior.outlier > 0 else 1])

        def score(place: Floats) -> float:
            sigma, slips = (float(value) for value in np.append(np.exp(place), 0.0)[:2])
            if sigma < SIGMA_LEAST or slips > SLIPS_MOST:
                return -np.inf
            gain = self.pooled(seen, grid, sigma, slips).evidence
            return gain - 0.5 * float((((place - middle) / LOOSE[: len(place)]) ** 2).sum())

        best, _ = climb(score, middle.tolist(), [0.2, 0.6][: len(middle)], halvings=2)
        sigma, slips = (float(value) for value in np.append(np.exp(best), 0.0)[:2])
        return sigma, slips

    def without_swings(self, spans: Spans, seen: _Seen, usual: float) -> tuple[Swings, _Seen]:
        """Find what moves all bins at once, and the spans as they would be without it."""
        prior, grid = self.prior, self.prior.grid(COARSE)
        spacing = float(grid[1] - grid[0])
        wide = grid[0] + spacing * np.arange(-steps_of(spacing), COARSE + steps_of(spacing))
        chance = np.exp(self.chance(seen, wide, prior.sigma, max(prior.outlier, LEAST_SLIPS)))
        still = seen
        for _ in range(ROUNDS):
            weight = self.pooled(still, grid, prior.sigma, prior.outlier).weight
            swings = find_swings(chance, seen.kind, spans.bin, spans.age, weight, spacing=spacing, usual=usual)
            shift = swings.at(spans.age)
            still = self.gathered(replace(spans, low=spans.low - shift, high=spans.high - shift))
        return swings, still


def _kinds(spans: Spans) -> tuple[Floats, Floats, Ints]:
    """Bounds of the different spans, and which of them each span is."""
    low, high, kind = _pairs(spans.low, spans.high)
    if len(low) > MANY_KINDS:
        low, high = np.round(spans.low / STEP), np.round(spans.high / STEP)
        low, high, kind = _pairs(low, np.where(high > low, high, low + 1))
        low, high = low * STEP, high * STEP
    return low, high, kind


def _pairs(one: Floats, other: Floats) -> tuple[Floats, Floats, Ints]:
    """The different pairs of two arrays, and which of them each pair is."""
    ones, place = np.unique(one, return_inverse=True)
    others, beside = np.unique(other, return_inverse=True)
    keys, kind = np.unique(place.reshape(-1) * len(others) + beside.reshape(-1), return_inverse=True)
    return ones[keys // max(len(others), 1)], others[keys % max(len(others), 1)], kind.reshape(-1)
