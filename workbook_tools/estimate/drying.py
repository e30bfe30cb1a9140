"""How long a moss corner takes from watering to dry, and when to look at it next."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from workbook_tools.estimate._cycles import DRY, SOAKED, WET, Cycles, CycleTable, cycles, factors
from workbook_tools.estimate._grid import (
    NORMAL,
    Floats,
    Ints,
    RatePrior,
    climb,
    discount,
    gather,
    pool,
    with_slips,
)
from workbook_tools.estimate.rate import COARSE, MANY_KINDS, STEP, Rates

Bools = npt.NDArray[np.bool_]

PRIOR = RatePrior(
    mean=float(np.log(5.0)),
    sd_top=0.5,
    sd_between=0.3,
    sd_species=0.3,
    sigma=0.27,
    grid_low=float(np.log(0.7)),
    grid_high=float(np.log(40.0)),
    outlier=0.01,
    half_life=120.0,
)
"""Log of days to dry, before anything is seen. A judgement: from two days under mesh to two weeks in a closed tub."""
STATES_SD = 0.1
"""How far, in log, the edge between two states wanders from look to look."""
DRYING_AT_MOST, DAMP_AT_MOST = 1.5, 2.7
"""The time to dry is at most this many times the time passed when the moss is found drying, and found damp."""
LEAST_RATIO = 1.15
MISSED = 0.1
"""Share of waterings that nobody logs, where fitting starts."""
FITTED_FROM = 20
"""Waterings below which scatter, states and missed waterings stay as believed: so few would only suit themselves."""
FITTED_ON = 200
"""Bins from which scatter, states and missed waterings are learned; more hardly change them."""


@dataclass(frozen=True, eq=False)
class Visits:
    """Looks at moss corners.

    Parameters
    ----------
    bin, day
        (n,) index of the bin and day number.
    state
        (n,) as found, before any watering of that look: 0 dry, 1 drying, 2 damp, 3 wet, 4 soaked.
    since
        (n,) days since the last logged watering. Looks with 0 or less, or NaN, say nothing of drying.
    clock
        (n,) the same time with each day weighted by the deficit of the room's air; None without room readings.
    condensation
        (n,) whether the lid was noted as running with water; None when never noted.
    """

    bin: Ints
    day: Ints
    state: Ints
    since: Floats
    clock: Floats | None = None
    condensation: Bools | None = None


@dataclass(frozen=True, eq=False)
class Checks:
    """When to look next, all (B,).

    ``after`` whole days after the last watering; ``low``, ``middle``, ``high`` the 10, 50 and 90 % points of the day
    it is dry, in days after the last watering; ``by_ceiling`` where the ceiling came first.
    """

    after: Ints
    low: Floats
    middle: Floats
    high: Floats
    by_ceiling: Bools


@dataclass(frozen=True, eq=False)
class Drying:
    """What is known of the time to dry of each bin.

    Parameters
    ----------
    rates
        Log of days of the clock from watering to dry; ``rates.notes`` counts waterings that told something.
    pace
        (B,) days of the clock that pass in a day now; 1 without room readings.
    drying, damp
        Learned factors of the two middle states.
    missed
        Learned share of waterings that nobody logged.
    too_wet
        (B,) where the last look found the moss soaked, or the lid running with water: give no water.
    """

    rates: Rates
    pace: Floats
    drying: float
    damp: float
    missed: float
    too_wet: Bools

    def quantile(self, p: float) -> Floats:
        """(B,) days, as days pass now, from a watering until the moss is dry with chance ``p``."""
        return self.rates.quantile(p) / self.pace

    def next_check(
        self,
        *,
        risk: float,
        ceiling: Floats,
        state: Ints | None = None,
        since: Floats | None = None,
        clock: Floats | None = None,
    ) -> Checks:
        """Latest day at which the moss is dry already with chance ``risk`` at most.

        Parameters
        ----------
        risk
            Chance of finding it dry that the keeper puts up with, between 0 and 1.
        ceiling
            (B,) longest time in days between two looks.
        state
            (B,) what the last look since the watering found; -1 where there was none.
        since, clock
            (B,) days, and days of the clock, from the watering to that look (to today where there was none).

        Returns
        -------
        Checks
            ``after`` is at least 1, at least a day after the last look unless that found it dry (then it is the day
            of that look: water now), and never later than the last look plus the ceiling.

        Notes
        -----
        A bin last seen damp on day 5 isn't dry before that, and is judged from there on.
        """
        bins = len(self.pace)
        seen = np.full(bins, -1) if state is None else np.minimum(state, WET)
        since = np.zeros(bins) if since is None else since
        clock = since if clock is None else clock
        lower, upper = factors(self.drying, self.damp)
        looked = (seen >= 0) & (clock > 0)
        with np.errstate(divide="ignore"):
            passed = np.log(np.maximum(clock, 0.0))
        low = np.where(looked, passed + lower[np.maximum(seen, 0)], -np.inf)
        high = np.where(looked, passed + upper[np.maximum(seen, 0)], np.inf)
        points = [since + (np.exp(self._point(p, low, high)) - clock) / self.pace for p in (risk, 0.1, 0.5, 0.9)]
        points = [np.maximum(point, 0.0) for point in points]
        earliest = np.where(looked, since + 1, 1.0)
        latest = np.where(looked, since, 0.0) + ceiling
        after = np.minimum(np.maximum(np.floor(points[0]), earliest), np.maximum(latest, 1.0))
        after = np.where(seen == DRY, np.maximum(since, 0.0), after)
        return Checks(
            np.floor(after).astype(np.int64),
            points[1],
            points[2],
            points[3],
            (np.floor(points[0]) > latest) & (seen != DRY),
        )

    def _point(self, p: float, low: Floats, high: Floats) -> Floats:
        """Log days of the clock until dry with chance ``p``, knowing that the time to dry lies in (low, high]."""
        grid, sigma = self.rates.grid, self.rates.sigma
        under = NORMAL.cdf((low[:, None] - grid) / sigma)
        room = NORMAL.cdf((high[:, None] - grid) / sigma) - under
        # Where the look all but excludes a time to dry, a slower one ends just above low, a faster one just below high.
        lost = room < 1e-9
        early = (grid < low[:, None]).astype(np.float64)
        room = np.where(lost, 1.0, room)
        left = np.maximum(low, grid[0] - 8 * sigma)
        right = np.minimum(high, np.maximum(grid[-1] + 8 * sigma, left))
        for _ in range(40):
            middle = (left + right) / 2
            share = np.where(lost, early, (NORMAL.cdf((middle[:, None] - grid) / sigma) - under) / room)
            below = (self.rates.weight * share).sum(axis=1) < p
            left, right = np.where(below, middle, left), np.where(below, right, middle)
        return np.asarray((left + right) / 2, dtype=np.float64)


def fit_drying(
    visits: Visits,
    *,
    bins: int,
    species: Ints,
    appetite: Ints,
    now: int,
    pace: Floats | None = None,
    prior: RatePrior = PRIOR,
    size: int = 400,
) -> Drying:
    """Estimate the time to dry of each bin.

    Parameters
    ----------
    visits
        Every look up to ``now``; later ones are left out.
    bins, species, appetite
        As in `fit_rates`.
    now
        Day number.
    pace
        (B,) days of the clock that pass in a day now, when ``visits.clock`` is given.
    prior
        Of the log of days to dry.
    size
        Points of the grid.

    Returns
    -------
    Drying

    Notes
    -----
    A state bounds the time to dry on both sides: damp on day 4 means between 4 r1 and 4 r2 days; r1 and r2 are learned.
    So is the rate of waterings nobody logged, which turns "still wet after 20 days" from a marvel into a gap in the
    log. Without room readings the season isn't followed except by old notes counting less: in the first weeks of
    heating the moss is dry sooner than said.
    """
    clock = visits.since if visits.clock is None else visits.clock
    usable = (
        np.isfinite(visits.since)
        & (visits.since > 0)
        & np.isfinite(clock)
        & (clock > 0)
        & (visits.state >= DRY)
        & (visits.day <= now)
    )
    bin_of, day, state = visits.bin[usable], visits.day[usable], np.minimum(visits.state[usable], WET)
    since, clock = visits.since[usable], clock[usable]
    found = cycles(bin_of, day, state, since, clock, DRYING_AT_MOST, DAMP_AT_MOST)
    table = _table(found)
    age = (now - found.day).astype(np.float64)
    weight = discount(age, prior.half_life)
    fitted = _fit(found, table, weight, species, appetite, prior) if len(found.bin) >= FITTED_FROM else _start(prior)
    sigma, drying, damp, missed = fitted
    grid = prior.grid(size)
    held = gather(found.bin, table.kind, weight, bins, len(table.edges))
    wide = float(np.hypot(sigma, STATES_SD))
    log_like = held @ with_slips(table.chance(grid, wide, drying, damp, missed), prior.outlier)
    pooled = pool(np.asarray(log_like, dtype=np.float64), grid, species, appetite, prior)
    notes = np.bincount(found.bin, weight, bins).astype(np.float64)
    rates = Rates(grid, pooled.weight, wide, notes)
    return Drying(rates, np.ones(bins) if pace is None else pace, drying, damp, missed, _too_wet(visits, bins, now))


def _start(prior: RatePrior) -> tuple[float, float, float, float]:
    return prior.sigma, DRYING_AT_MOST, DAMP_AT_MOST, MISSED


def _fit(
    found: Cycles, table: CycleTable, weight: Floats, species: Ints, appetite: Ints, prior: RatePrior
) -> tuple[float, float, float, float]:
    """Scatter, the two factors and the rate of missed waterings, uphill from where they start."""
    noted = np.unique(found.bin)
    chosen = noted[np.unique(np.linspace(0, len(noted) - 1, min(FITTED_ON, len(noted))).astype(np.int64))]
    place_of = np.full(len(species), -1)
    place_of[chosen] = np.arange(len(chosen))
    use = place_of[found.bin] >= 0
    rows, kind = np.unique(table.kind[use], return_inverse=True)
    small = CycleTable(table.edges[rows], kind, table.share)
    held = gather(place_of[found.bin[use]], kind, weight[use], len(chosen), len(rows))
    grid = prior.grid(COARSE)
    middle = np.log([prior.sigma, DRYING_AT_MOST, DAMP_AT_MOST, MISSED])
    loose = np.array([0.3, 0.3, 0.4, 1.2])

    def score(place: Floats) -> float:
        sigma, drying, damp, missed = np.exp(place) - (0, 0, 0, 0.001)
        if sigma < 0.05 or drying <= 1.02 or damp < LEAST_RATIO * drying or not 0 <= missed < 1:
            return -np.inf
        chance = small.chance(grid, float(np.hypot(sigma, STATES_SD)), drying, damp, missed)
        log_like = np.asarray(held @ with_slips(chance, prior.outlier), dtype=np.float64)
        gain = pool(log_like, grid, species[chosen], appetite[chosen], prior).evidence
        return gain - 0.5 * float((((place - middle) / loose) ** 2).sum())

    best, _ = climb(score, [float(at) for at in middle], [0.2, 0.2, 0.2, 0.6], halvings=2)
    sigma, drying, damp, missed = (float(value) for value in np.exp(best))
    return sigma, drying, damp, missed - 0.001


def _table(found: Cycles) -> CycleTable:
    """The different rows among cycles; clocks are rounded to a step when there are very many."""
    last = found.edges[:, 8].astype(np.int64)
    share = np.asarray((np.bincount(last, minlength=4) + 1.0) / (len(last) + 4.0), dtype=np.float64)
    rows, kind = np.unique(found.edges, axis=0, return_inverse=True)
    if len(rows) > MANY_KINDS:
        rounded = found.edges.copy()
        clocks = rounded[:, [1, 3, 5, 7, 9, 10]]
        steps = np.round(np.log(np.maximum(clocks, 1e-9)) / STEP) * STEP
        rounded[:, [1, 3, 5, 7, 9, 10]] = np.where(clocks > 0, np.exp(steps), 0.0)
        rows, kind = np.unique(rounded, axis=0, return_inverse=True)
    return CycleTable(rows, kind.reshape(-1), share)


def _too_wet(visits: Visits, bins: int, now: int) -> Bools:
    """Whether the last look of each bin found it soaked, or the lid running with water."""
    wet = np.zeros(bins, dtype=np.bool_)
    keep = visits.day <= now
    bin_of, day = visits.bin[keep], visits.day[keep]
    soaked = visits.state[keep] == SOAKED
    if visits.condensation is not None:
        soaked |= visits.condensation[keep]
    order = np.lexsort((soaked, day, bin_of))
    wet[bin_of[order]] = soaked[order]
    return wet
