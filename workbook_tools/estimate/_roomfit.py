"""What all moss corners of a room have in common: scatter, the edges of the states, missed waterings, the season."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from workbook_tools.estimate._cycles import CLOCKS, Cycles, CycleTable
from workbook_tools.estimate._grid import Floats, Ints, RatePrior, climb, gather, pool, with_slips
from workbook_tools.estimate._season import CALM, Season, follow_season
from workbook_tools.estimate.rate import COARSE, MANY_KINDS, STEP

STATES_SD = 0.1
"""How far, in log, the edge between two states wanders from look to look."""
DRYING_AT_MOST, DAMP_AT_MOST = 1.5, 2.7
"""The time to dry is at most this many times the time passed when the moss is found drying, and found damp."""
LEAST_RATIO = 1.15
MISSED = 0.1
"""Share of waterings that nobody logs, where fitting starts."""
LOOSE = np.array([0.3, 0.3, 0.4, 1.2])
"""How far, in log, scatter, the two edges and missed waterings may lie from where fitting starts."""
FITTED_FROM = 20
"""Waterings below which all stays as believed: so few would only suit themselves."""
FITTED_ON = 100
"""Bins from which it is learned; more hardly change it."""
PASSES = 2


@dataclass(frozen=True, eq=False)
class RoomFit:
    """Scatter, the edges of drying and damp, share of waterings that nobody logged, and the season."""

    sigma: float
    drying: float
    damp: float
    missed: float
    season: Season

    @property
    def wide(self) -> float:
        """Scatter with that of the states."""
        return float(np.hypot(self.sigma, STATES_SD))

    def slips(self, table: CycleTable, grid: Floats, prior: RatePrior) -> Floats:
        """Log likelihood of each kind of row over the grid."""
        return with_slips(table.chance(grid, self.wide, self.drying, self.damp, self.missed), prior.outlier)

    def log_like(self, found: Cycles, weight: Floats, grid: Floats, bins: int, prior: RatePrior) -> Floats:
        """Log likelihood of all that was seen of each bin, (bins, J)."""
        table = tabulate(found)
        held = gather(found.bin, table.kind, weight, bins, len(table.edges))
        return np.asarray(held @ self.slips(table, grid, prior), dtype=np.float64)


def classes(airing: Ints) -> Ints:
    """Class of each ventilation; one not known is in the middle."""
    return np.where(airing < 0, 1, np.minimum(airing, 2))


def hasten(found: Cycles, season: Season, when: Ints) -> Cycles:
    """Turn the clocks of the season into those of an ordinary one."""
    edges = found.edges.copy()
    slow = np.round(season.slow[when] / STEP) * STEP
    edges[:, CLOCKS] *= np.exp(-slow)[:, None]
    return Cycles(found.bin, found.day, edges)


def fit_room(found: Cycles, weight: Floats, when: Ints, airing: Ints, prior: RatePrior) -> RoomFit:
    """Learn what all bins have in common.

    Parameters
    ----------
    found
        Rows of all bins.
    weight, when
        (n,) weight of each row and the window it lies in.
    airing
        (B,) ventilation.
    prior
        Of the log time to dry.
    """
    fitted = RoomFit(prior.sigma, DRYING_AT_MOST, DAMP_AT_MOST, MISSED, CALM)
    if len(found.bin) < FITTED_FROM:
        return fitted
    noted = np.unique(found.bin)
    chosen = noted[np.unique(np.linspace(0, len(noted) - 1, min(FITTED_ON, len(noted))).astype(np.int64))]
    place_of = np.full(len(airing), -1)
    place_of[chosen] = np.arange(len(chosen))
    use = place_of[found.bin] >= 0
    own = Cycles(place_of[found.bin[use]], found.day[use], found.edges[use])
    grid, airing, weight, when = prior.grid(COARSE), airing[chosen], weight[use], when[use]
    for _ in range(PASSES):
        still = hasten(own, fitted.season, when)
        fitted = _uphill(still, weight, airing, grid, fitted, prior)
        pooled = pool(fitted.log_like(still, weight, grid, len(chosen), prior), grid, airing, classes(airing), prior)
        table = tabulate(own)
        like = np.exp(fitted.slips(table, grid, prior))
        fitted = replace(fitted, season=follow_season(pooled.weight, like, grid, own.bin, table.kind, when))
    return _uphill(hasten(own, fitted.season, when), weight, airing, grid, fitted, prior)


def _uphill(found: Cycles, weight: Floats, airing: Ints, grid: Floats, start: RoomFit, prior: RatePrior) -> RoomFit:
    """Improve scatter, the two edges and missed waterings one at a time."""
    table = tabulate(found)
    held = gather(found.bin, table.kind, weight, len(airing), len(table.edges))
    middle = np.log([prior.sigma, DRYING_AT_MOST, DAMP_AT_MOST, MISSED])

    def fit_at(place: Floats) -> RoomFit:
        sigma, drying, damp, missed = (float(value) for value in np.exp(place))
        return RoomFit(sigma, drying, damp, missed, start.season)

    def score(place: Floats) -> float:
        tried = fit_at(place)
        if tried.sigma < 0.05 or tried.drying <= 1.02 or tried.damp < LEAST_RATIO * tried.drying or tried.missed >= 1:
            return -np.inf
        log_like = np.asarray(held @ tried.slips(table, grid, prior), dtype=np.float64)
        gain = pool(log_like, grid, airing, classes(airing), prior).evidence
        return gain - 0.5 * float((((place - middle) / LOOSE) ** 2).sum())

    first = [float(at) for at in np.log([start.sigma, start.drying, start.damp, start.missed])]
    best, _ = climb(score, first, [0.2, 0.2, 0.2, 0.6], halvings=1)
    return fit_at(best)


def tabulate(found: Cycles) -> CycleTable:
    """The different rows among cycles; clocks are rounded to a step when there are very many."""
    last = found.edges[:, 8].astype(np.int64)
    share = np.asarray((np.bincount(last, minlength=4) + 1.0) / (len(last) + 4.0), dtype=np.float64)
    rows, kind = np.unique(found.edges, axis=0, return_inverse=True)
    if len(rows) > MANY_KINDS:
        rounded = found.edges.copy()
        clocks = rounded[:, CLOCKS]
        steps = np.round(np.log(np.maximum(clocks, 1e-9)) / STEP) * STEP
        rounded[:, CLOCKS] = np.where(clocks > 0, np.exp(steps), 0.0)
        rows, kind = np.unique(rounded, axis=0, return_inverse=True)
    return CycleTable(rows, kind.reshape(-1), share)
