"""One span for each watering: what all looks between two waterings say together of the time to dry."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workbook_tools.estimate._grid import Floats, Ints, span_chance

DRY, DRYING, DAMP, WET, SOAKED = range(5)
NODES = 10
MISSED_FROM = 14.0
"""Days since the last logged watering from which sparse logs say nothing: another one was surely not logged."""


@dataclass(frozen=True, eq=False)
class Cycles:
    """One row a watering.

    An edge is a state and a clock: a look that finds it ``state`` at ``clock`` puts the time to dry above ``clock``
    times the lower factor of the state, and not above ``clock`` times the upper one.

    Parameters
    ----------
    bin, day
        (n,) of the last look.
    edges
        (n, 10): edge from below and edge from above (state, clock, state, clock) by all looks, the same by all looks
        but the last, state of the last look, and the clock between it and the look before it or the watering.
    """

    bin: Ints
    day: Ints
    edges: Floats


def factors(drying: float, damp: float) -> tuple[Floats, Floats]:
    """Natural logs of the lower and the upper factor of dry, drying, damp and wet."""
    edges = np.log([1.0, drying, damp])
    return np.concatenate([[-np.inf], edges]), np.concatenate([edges, [np.inf]])


def cycles(bin_of: Ints, day: Ints, state: Ints, since: Floats, clock: Floats, drying: float, damp: float) -> Cycles:
    """Put the looks after one watering together.

    Looks after the first dry one, or after the moss got wetter by two states without a watering, are left out: there
    was a watering that nobody logged. When the looks contradict one another the last one stands.

    Parameters
    ----------
    bin_of, day, state
        (n,) state 0 dry, 1 drying, 2 damp, 3 wet.
    since, clock
        (n,) days, and days of the clock, since the last logged watering; above 0.
    drying, damp
        Factors used to choose the edges.
    """
    watered = day - since
    order = np.lexsort((day, watered, bin_of))
    bin_of, day, state = bin_of[order], day[order], state[order]
    clock, watered = clock[order], watered[order]
    fresh = _starts(bin_of, watered)
    before = np.concatenate([[WET], state[:-1]])
    broken = ~fresh & ((before == DRY) | (state - before >= 2))
    broken_so_far = np.cumsum(broken)
    at_start = broken_so_far[np.maximum.accumulate(np.where(fresh, np.arange(len(fresh)), 0))] if len(fresh) else broken
    keep = broken_so_far == at_start
    bin_of, day, state = bin_of[keep], day[keep], state[keep]
    clock, fresh = clock[keep], fresh[keep]
    if not len(bin_of):
        return Cycles(bin_of, day, np.zeros((0, 10)))
    lower, upper = factors(drying, damp)
    low, high = np.log(clock) + lower[state], np.log(clock) + upper[state]
    first = np.flatnonzero(fresh)
    last = np.concatenate([first[1:], [len(fresh)]]) - 1
    number = np.cumsum(fresh) - 1
    below, above = np.lexsort((low, number))[last], np.lexsort((-high, number))[last]
    clash = low[below] >= high[above] - 1e-9
    below, above = np.where(clash, last, below), np.where(clash, last, above)
    low[last], high[last] = -np.inf, np.inf
    below_before, above_before = np.lexsort((low, number))[last], np.lexsort((-high, number))[last]
    single = (first == last) | clash
    gap = np.where(single, clock[last], clock[last] - clock[np.maximum(last - 1, 0)])
    none_below, none_above = single | np.isinf(low[below_before]), single | np.isinf(high[above_before])
    columns = [state[below], clock[below], state[above], clock[above]]
    columns += [np.where(none_below, DRY, state[below_before]), clock[below_before]]
    columns += [np.where(none_above, WET, state[above_before]), clock[above_before], state[last], gap]
    edges = np.stack(columns, axis=1).astype(np.float64)
    for at, unbounded in ((0, DRY), (2, WET), (4, DRY), (6, WET)):
        # An edge at -inf or inf has no clock of its own.
        edges[edges[:, at] == unbounded, at + 1] = 1.0
    return Cycles(bin_of[last], day[last], edges)


def _starts(bin_of: Ints, watered: Floats) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Where a new watering begins in sorted looks."""
    fresh = np.ones(len(bin_of), dtype=np.bool_)
    fresh[1:] = (bin_of[1:] != bin_of[:-1]) | (watered[1:] != watered[:-1])
    return fresh


@dataclass(frozen=True, eq=False)
class CycleTable:
    """The different rows among cycles, so that each is worked out only once.

    ``edges`` (K, 10) as in `Cycles`; ``kind`` (n,) which row each cycle is; ``share`` (4,) how often each state was
    the last one; ``dense`` whether looks are frequent.
    """

    edges: Floats
    kind: Ints
    share: Floats
    dense: bool

    def chance(self, grid: Floats, sigma: float, drying: float, damp: float, missed: float) -> Floats:
        """Chance of each row at each log time to dry, shape (K, J).

        Parameters
        ----------
        grid
            (J,) natural log of days of the clock.
        sigma
            Scatter of single times to dry, with that of the states.
        drying, damp
            How many times the time passed the time to dry is at most, when found drying or damp.
        missed
            Waterings that nobody logged, in the time the moss takes to dry: who waters more often forgets more often.

        Notes
        -----
        Either nobody watered since the look before the last one, and all looks hold; or somebody did, then the looks
        before hold and the last one counts from that watering. On sparse logs the time of such a watering is not
        worth guessing at: the last look then says no more than how often its state is met.
        """
        lower, upper = factors(drying, damp)

        def span(at: int) -> Floats:
            low = np.log(self.edges[:, at + 1]) + lower[self.edges[:, at].astype(np.int64)]
            high = np.log(self.edges[:, at + 3]) + upper[self.edges[:, at + 2].astype(np.int64)]
            return span_chance(low[:, None], high[:, None], grid, sigma)

        gap = self.edges[:, 9:]
        ends, end = np.unique(self.edges[:, 8:], axis=0, return_inverse=True)
        state, rate = ends[:, 0].astype(np.int64), missed * np.exp(-grid)
        gone = -np.expm1(-rate * ends[:, 1:])
        if self.dense:
            unlogged = np.zeros_like(gone)
            for node in (np.arange(NODES) + 0.5) / NODES:
                ago = -np.log1p(-node * gone) / rate if missed > 0 else node * ends[:, 1:]
                log_ago = np.log(np.maximum(ago, 1e-6))
                low, high = log_ago + lower[state][:, None], log_ago + upper[state][:, None]
                unlogged += span_chance(low, high, grid, sigma) / NODES
        else:
            unlogged = self.share[state][:, None]
        other = (gone * unlogged)[end.reshape(-1)]
        return np.asarray(np.exp(-rate * gap) * span(0) + span(4) * other, dtype=np.float64)
