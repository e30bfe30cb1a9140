"""How long a moss corner takes from watering to dry, and when to look at it next."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._cycles import DRY, SOAKED, WET, cycles, factors
from workbook_tools.estimate._grid import NORMAL, Floats, Ints, RatePrior, discount, pool
from workbook_tools.estimate._roomfit import DAMP_AT_MOST, DRYING_AT_MOST, classes, fit_room
from workbook_tools.estimate.rate import Rates

Bools = npt.NDArray[np.bool_]

PRIOR = RatePrior(
    mean=float(np.log(DEFAULTS["moss.dry"].value)),
    sd_top=0.5,
    sd_between=0.4,
    sd_species=0.3,
    sigma=0.27,
    grid_low=float(np.log(0.7)),
    grid_high=float(np.log(40.0)),
    outlier=0.01,
    half_life=120.0,
    by_class=(float(np.log(DEFAULTS["moss.airing"].value)), 0.0, -float(np.log(DEFAULTS["moss.airing"].value))),
    lean=12.0,
)
"""Log of days to dry, before anything is seen: two weeks with few holes, one with some, half a one under mesh.

Derived from what a moss corner holds, what an open wet surface loses and what vents let through; to a factor of two.
"""
WICK = np.array([DEFAULTS[f"moss.wick.{airing}"].value for airing in ("low", "medium", "high")])
"""Share of the drying, in an ordinary room, that the air has no part in: the substrate draws it. By ventilation."""
SEASON_SD, YEAR = DEFAULTS["moss.season"].value, 365.0
"""How far, in log, the season moves the time to dry, added to the scatter while a year of looks hasn't shown it."""


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
        (B,) days of the clock that pass in a day now.
    wick
        (B,) share of that which the air has no part in.
    drying, damp
        Learned factors of the two middle states.
    missed
        Learned share of waterings that nobody logged.
    too_wet
        (B,) where the last look found the moss soaked, or the lid running with water: give no water.
    """

    rates: Rates
    pace: Floats
    wick: Floats
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
            (B,) days, and days weighted by the room's air, from the watering to that look (to today where there was
            none).

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
        clock = since if clock is None else self.wick * since + (1 - self.wick) * clock
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
    airing: Ints,
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
    bins
        Number of bins.
    airing
        (B,) ventilation of the box: 0 low, 1 medium, 2 high or mesh, -1 not known. Bins aired alike lean on each
        other; those not known are a group of their own, thought medium at first.
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
    So is the share of waterings nobody logged, which turns "still wet after 20 days" from a marvel into a gap in the
    log. Without room readings the season isn't followed except by old notes counting less, and the interval is wider
    until a year has been seen: in the first weeks of heating the moss is dry sooner than said.
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
    wick = WICK[classes(airing)]
    if visits.clock is not None:
        clock = wick[bin_of] * since + (1 - wick[bin_of]) * clock
    found = cycles(bin_of, day, state, since, clock, DRYING_AT_MOST, DAMP_AT_MOST)
    weight = discount((now - found.day).astype(np.float64), prior.half_life)
    fitted = fit_room(found, weight, airing, prior)
    grid = prior.grid(size)
    log_like = fitted.log_like(found, weight, grid, bins, prior)
    pooled = pool(log_like, grid, airing, classes(airing), prior)
    notes = np.bincount(found.bin, weight, bins).astype(np.float64)
    ahead = fitted.sigma
    if visits.clock is None:
        unseen = 1.0 - min(float(np.ptp(found.day)) if len(found.day) else 0.0, YEAR) / YEAR
        ahead = float(np.hypot(ahead, SEASON_SD * np.sqrt(unseen)))
    rates = Rates(grid, pooled, ahead, notes)
    speed = np.ones(bins) if pace is None else wick + (1 - wick) * pace
    wet = _too_wet(visits, bins, now)
    return Drying(rates, speed, wick, fitted.drying, fitted.damp, fitted.missed, wet)


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
