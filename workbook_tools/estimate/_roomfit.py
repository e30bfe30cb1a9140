"""What all moss corners of a room have in common: scatter, the edges of the states, missed waterings."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._cycles import CLOCKS, Cycles, CycleTable
from workbook_tools.estimate._grid import Floats, Ints, RatePrior, climb, gather, pool, with_slips
from workbook_tools.estimate.rate import MANY_KINDS, STEP

STATES_SD = 0.1
"""How far, in log, the edge between two states wanders from look to look."""
DRYING_AT_MOST, DAMP_AT_MOST = DEFAULTS["moss.drying"].value, DEFAULTS["moss.damp"].value
"""The time to dry is at most this many times the time passed when the moss is found drying, and found damp."""
LEAST_RATIO = 1.15
MISSED = DEFAULTS["moss.unwritten"].value
"""Share of waterings that nobody logs, where fitting starts."""
LOOSE = np.array([0.3, 0.3, 0.4, 1.2])
"""How far, in log, scatter, the two edges and missed waterings may lie from where fitting starts."""
FITTED_FROM = 20
"""Waterings below which all stays as believed: so few would only suit themselves."""
FITTED_ON = 100
"""Bins from which it is learned; more hardly change it."""
COARSE, COARSE_STEP, FEW_KINDS = 60, 0.1, 800
"""Points of the grid, and rounding of clocks in log above so many kinds of rows, while that is being learned."""


@dataclass(frozen=True, eq=False)
class RoomFit:
    """Scatter, the edges of drying and damp, and the share of waterings that nobody logged."""

    sigma: float
    drying: float
    damp: float
    missed: float

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


def fit_room(found: Cycles, weight: Floats, airing: Ints, prior: RatePrior) -> RoomFit:
    """Learn what all bins have in common.

    Parameters
    ----------
    found
        Rows of all bins.
    weight
        (n,) weight of each row.
    airing
        (B,) ventilation.
    prior
        Of the log time to dry.
    """
    if len(found.bin) < FITTED_FROM:
        return RoomFit(prior.sigma, DRYING_AT_MOST, DAMP_AT_MOST, MISSED)
    noted = np.unique(found.bin)
    chosen = noted[np.unique(np.linspace(0, len(noted) - 1, min(FITTED_ON, len(noted))).astype(np.int64))]
    place_of = np.full(len(airing), -1)
    place_of[chosen] = np.arange(len(chosen))
    use = place_of[found.bin] >= 0
    own = Cycles(place_of[found.bin[use]], found.day[use], found.edges[use])
    grid, airing, weight = prior.grid(COARSE), airing[chosen], weight[use]
    return _uphill(own, weight, airing, grid, prior)


def _uphill(found: Cycles, weight: Floats, airing: Ints, grid: Floats, prior: RatePrior) -> RoomFit:
    """Improve scatter, the two edges and missed waterings one at a time."""
    table = tabulate(found, few=True)
    held = gather(found.bin, table.kind, weight, len(airing), len(table.edges))
    middle = np.log([prior.sigma, DRYING_AT_MOST, DAMP_AT_MOST, MISSED])

    def fit_at(place: Floats) -> RoomFit:
        sigma, drying, damp, missed = (float(value) for value in np.exp(place))
        return RoomFit(sigma, drying, damp, missed)

    def score(place: Floats) -> float:
        tried = fit_at(place)
        if tried.sigma < 0.05 or tried.drying <= 1.02 or tried.damp < LEAST_RATIO * tried.drying or tried.missed >= 1:
            return -np.inf
        log_like = np.asarray(held @ tried.slips(table, grid, prior), dtype=np.float64)
        gain = pool(log_like, grid, airing, classes(airing), prior).evidence
        return gain - 0.5 * float((((place - middle) / LOOSE) ** 2).sum())

    best, _ = climb(score, [float(at) for at in middle], [0.2, 0.2, 0.2, 0.6], halvings=2)
    return fit_at(best)


def tabulate(found: Cycles, *, few: bool = False) -> CycleTable:
    """The different rows among cycles; clocks are rounded when there are very many, and further to have ``few``."""
    step, most = (COARSE_STEP, FEW_KINDS) if few else (STEP, MANY_KINDS)
    last = found.edges[:, 8].astype(np.int64)
    share = np.asarray((np.bincount(last, minlength=4) + 1.0) / (len(last) + 4.0), dtype=np.float64)
    rows, kind = np.unique(found.edges, axis=0, return_inverse=True)
    if len(rows) > most:
        rounded = found.edges.copy()
        clocks = rounded[:, CLOCKS]
        steps = np.round(np.log(np.maximum(clocks, 1e-9)) / step) * step
        rounded[:, CLOCKS] = np.where(clocks > 0, np.exp(steps), 0.0)
        rows, kind = np.unique(rounded, axis=0, return_inverse=True)
    return CycleTable(rows, kind.reshape(-1), share)
