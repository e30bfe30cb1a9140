"""An unknown log rate of each bin on one grid: likelihoods of spans, and pooling over like bins.

The unknown ``u`` is a natural logarithm. What is seen of a bin is a span: the value of the day lay above ``low`` and
not above ``high``, itself ``u`` plus scatter. Bins of one species lean on each other, and species of one appetite.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_array
from scipy.special import ndtr

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._tree import Message, Tree

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]

MONTH = 30.4
"""Days of a month, wherever something is told by the month."""
TINY = 1e-12
ELSEWHERE = 0.25
"""How likely any one note is when it is a slip: one of about four things that could have been written."""
ROUNDS = 30
SETTLED = 1e-5
"""Change of the mean, and share of the variance, below which pooling has settled."""
APPETITES = 3


class Law(Protocol):
    """A standard distribution of the scatter: ``cdf(z)`` and ``sf(z) = 1 - cdf(z)``, both without cancellation."""

    def cdf(self, z: Floats, /) -> Floats:
        """Share below ``z``."""

    def sf(self, z: Floats, /) -> Floats:
        """Share above ``z``."""


class Normal:
    """The scatter used everywhere in the package: log-normal rates."""

    def cdf(self, z: Floats, /) -> Floats:
        """Share below ``z``."""
        return np.asarray(ndtr(z), dtype=np.float64)

    def sf(self, z: Floats, /) -> Floats:
        """Share above ``z``."""
        return np.asarray(ndtr(-z), dtype=np.float64)


NORMAL = Normal()


@dataclass(frozen=True, eq=False)
class RatePrior:
    """What is believed of a log rate before anything is seen.

    Parameters
    ----------
    mean, sd_top
        Natural log of the usual rate, and how far the mean of an appetite class may be from it.
    sd_species, sd_between
        Standard deviation of species within an appetite class, and of bins within a species.
    sigma
        Scatter of single values within a bin; where fitting starts.
    grid_low, grid_high
        Natural logs between which the rate is looked for.
    outlier
        Share of notes that are slips, 0 to 1.
    half_life
        Days after which a note counts half, at most.
    walk
        How far a log rate wanders in the square root of a month; 0 where only ``half_life`` says what old notes count.
    by_class
        What the class of a bin adds to ``mean``.
    lean
        How many bins, or species, the spreads count for beside those that are learned from.
    """

    mean: float
    sd_top: float
    sd_between: float
    sd_species: float
    sigma: float
    grid_low: float
    grid_high: float
    outlier: float
    half_life: float
    by_class: tuple[float, float, float] = (0.0, 0.0, 0.0)
    lean: float = 4.0
    walk: float = 0.0

    def grid(self, size: int) -> Floats:
        """Log rates, evenly spaced, shape (size,)."""
        return np.linspace(self.grid_low, self.grid_high, size)


@dataclass(frozen=True, eq=False)
class Pooled:
    """What pooling gives.

    ``weight`` (B, J) sums to one over the grid; ``mean`` and ``sd`` (B,) are what the others, without the bin itself,
    say of each bin; ``own_mean`` and ``own_sure`` (B,) what the bin itself says, as a normal with that precision, 0
    where it says nothing. ``doubt`` (B,) is the part of the square of ``sd`` that comes from what the rate was divided
    by. ``evidence`` is the log probability of all that was seen, good only for comparing settings;
    ``between`` and ``apart`` are the learned standard deviations of bins and of species.
    """

    weight: Floats
    mean: Floats
    sd: Floats
    own_mean: Floats
    own_sure: Floats
    doubt: Floats
    evidence: float
    between: float
    apart: float


def span_chance(low: Floats, high: Floats, centre: Floats, scale: float, law: Law = NORMAL) -> Floats:
    """Chance that a value lies in (low, high] when its centre is ``centre``, broadcasting the three.

    Parameters
    ----------
    low, high
        Natural logs, -inf and inf allowed. Where ``high <= low`` the chance is 0.
    centre, scale
        Of the log value. ``scale`` must be positive.
    law
        The standard distribution of the scatter.
    """
    below = (low - centre) / scale
    above = (high - centre) / scale
    # Differences are taken in the nearer tail: 1 - cdf of a far span would cancel to 0.
    upper = below > -above
    if isinstance(law, Normal):
        mirrored = law.cdf(np.where(upper, -below, above)) - law.cdf(np.where(upper, -above, below))
        return np.maximum(mirrored, 0.0)
    flipped = law.sf(below) - law.sf(above)
    plain = law.cdf(above) - law.cdf(below)
    return np.maximum(np.where(upper, flipped, plain), 0.0)


def with_slips(chance: Floats, outlier: float) -> Floats:
    """Log likelihood of notes of which a share ``outlier`` are slips, so that none can outweigh all the others."""
    return np.log((1.0 - outlier) * chance + outlier * ELSEWHERE + TINY)


def discount(age: Floats, half_life: Floats | float) -> Floats:
    """Weight of notes ``age`` days old, half after ``half_life`` days. Those of after "now" count in full."""
    return np.asarray(np.exp2(-np.maximum(age, 0.0) / half_life), dtype=np.float64)


def gather(bin_of: Ints, kind: Ints, weight: Floats, bins: int, kinds: int) -> csr_array:
    """Total weight of each kind of note in each bin, sparse (bins, kinds): times a table (kinds, J) it gives logs."""
    return csr_array((weight, (bin_of, kind)), shape=(bins, kinds))


def pool(
    log_like: Floats,
    grid: Floats,
    species: Ints,
    appetite: Ints,
    prior: RatePrior,
    doubt: Floats | None = None,
    parent: Ints | None = None,
) -> Pooled:
    """Let like bins lean on each other and give each its distribution over the grid.

    Two levels: bins about the mean of their species, species about the mean of their appetite class, classes about
    ``prior.mean``. The spreads between bins and between species are learned too, starting with the weight of
    ``prior.lean``.

    Parameters
    ----------
    log_like
        (B, J) log likelihood of all that was seen of each bin; a row of zeros where nothing was.
    grid
        (J,) evenly spaced log rates.
    species, appetite
        (B,) whole numbers. A species written with two appetites is two groups. Appetite 0, 1 or 2.
    prior
        Where the classes start.
    doubt
        (B,) variance of the log of what each rate was divided by, such as the number of animals. Rates are told apart
        by so much more, and say so much less to the others. None is 0.
    parent
        (B,) the bin each was split off, of the same species and appetite, below 0 for none: it begins with what was
        learned of that one. None is none. See `Tree.after_parents`.

    Returns
    -------
    Pooled
        Without any bin, arrays of length 0.

    Raises
    ------
    ValueError
        When ``log_like`` holds NaN or inf, or an appetite is not 0, 1 or 2: a mistake of the caller.

    Notes
    -----
    What a bin says to the others is passed on as a normal with the mean and spread it has (expectation propagation):
    exact, given the two spreads, where what was seen of each bin is normal. Misleads when bins of one species are of
    two kinds (say half of them under a lamp), as the group is then believed to be one broad heap.
    """
    bins = len(log_like)
    if not np.isfinite(log_like).all():
        raise ValueError("the log likelihood of a bin isn't finite")
    if bins and (appetite.min() < 0 or appetite.max() >= APPETITES):
        raise ValueError("an appetite is none of slow 0, medium 1, hearty 2")
    if not bins:
        none = np.zeros(0)
        return Pooled(np.zeros((0, len(grid))), none, none, none, none, none, 0.0, prior.sd_between, prior.sd_species)
    loose = np.zeros(bins) if doubt is None else doubt
    keys, group = np.unique(np.stack([species, appetite], axis=1), axis=0, return_inverse=True)
    usual = (prior.mean + np.array(prior.by_class))[appetite]
    spreads = prior.sd_between**2, prior.sd_species**2
    tree = Tree(group.reshape(-1), keys[:, 1], APPETITES, *spreads, prior.sd_top**2)
    own = Message(np.zeros(bins), np.zeros(bins))
    mean, variance = tree.others(own)
    for _ in range(ROUNDS):
        weight, _evidence = _weigh(log_like, grid, usual + mean, variance + loose)
        own = _told(weight, grid, usual, mean, variance + loose).through(loose)
        between, apart = tree.spreads(own, spreads, prior.lean)
        tree = replace(tree, between=between, apart=apart)
        before = mean, variance
        mean, variance = tree.others(own)
        if max(np.abs(mean - before[0]).max(), np.abs(variance / before[1] - 1).max()) < SETTLED:
            break
    if parent is not None:
        shift, known = tree.after_parents(own, parent, DEFAULTS["learn.inherits"].value)
        mean, variance = mean + shift, variance - known
    variance = variance + loose
    weight, evidence = _weigh(log_like, grid, usual + mean, variance)
    own = _told(weight, grid, usual, mean, variance)
    evidence += tree.log_mass(own.through(loose)) + float(
        (own.log_mass(0.0, loose) - own.log_mass(mean, variance)).sum()
    )
    says = np.where(own.sure > 0, own.pull / np.maximum(own.sure, TINY), 0.0)
    between, apart = float(np.sqrt(tree.between)), float(np.sqrt(tree.apart))
    return Pooled(weight, usual + mean, np.sqrt(variance), usual + says, own.sure, loose, evidence, between, apart)


def _told(weight: Floats, grid: Floats, usual: Floats, mean: Floats, variance: Floats) -> Message:
    """The normal message that takes the prior of each bin to the mean and spread of its posterior.

    Where the posterior is wider than the prior, as of notes that contradict one another, only its mean is matched.
    """
    found = weight @ grid
    spread = np.maximum(weight @ grid**2 - found**2, (grid[1] - grid[0]) ** 2 / 12)
    sure = np.maximum(1.0 / spread - 1.0 / variance, 0.0)
    found = found - usual
    return Message(sure, (found - mean) / variance + found * sure)


def _weigh(log_like: Floats, grid: Floats, centre: Floats, variance: Floats) -> tuple[Floats, float]:
    """Posterior over the grid of each bin under a normal prior, and the log evidence of all bins."""
    prior = -0.5 * (grid - centre[:, None]) ** 2 / variance[:, None]
    prior -= np.log(np.exp(prior).sum(axis=1, keepdims=True) + 1e-300)
    weight = log_like + prior
    most = weight.max(axis=1, keepdims=True)
    np.exp(weight - most, out=weight)
    total = weight.sum(axis=1, keepdims=True)
    weight /= total
    return weight, float((most + np.log(total)).sum())


def climb(
    score: Callable[[Floats], float], start: Sequence[float], step: Sequence[float], halvings: int = 3
) -> tuple[Floats, float]:
    """Go uphill one coordinate at a time, halving the steps when none helps.

    Parameters
    ----------
    score
        What to make large. -inf or NaN means "not allowed here".
    start, step
        Of each coordinate. ``score(start)`` must be finite.
    halvings
        How often the steps are halved before stopping.

    Raises
    ------
    ValueError
        When the start isn't allowed, rather than handing on a NaN.
    """
    place = np.array(start, dtype=np.float64)
    best = score(place)
    if not np.isfinite(best):
        raise ValueError("fitting can't start: the score of the starting values isn't finite")
    width = np.array(step, dtype=np.float64)
    left = halvings
    for _ in range(40):
        moved = False
        for at in range(len(place)):
            for sign in (1.0, -1.0):
                tried = place.copy()
                tried[at] += sign * width[at]
                found = score(tried)
                if np.isfinite(found) and found > best + 1e-3:
                    place, best, moved = tried, found, True
                    break
        if not moved:
            if not left:
                break
            left -= 1
            width = width / 2
    return place, best
