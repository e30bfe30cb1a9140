"""One span for each watering: what all looks between two waterings say together of the time to dry."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workbook_tools.estimate._grid import ELSEWHERE, NORMAL, Floats, Ints, span_chance

DRY, DRYING, DAMP, WET, SOAKED = range(5)
NODES = 5
CLOCKS = [1, 3, 5, 7, 9, 10]
"""Columns of the edges that are clocks."""
HABIT, HABIT_SPREAD = 0.75, 0.4
"""When keepers water, as a share of the time to dry, and its spread in log: at drying as a rule, some sooner."""
SURELY = 0.9
WET_SD = 0.5
"""How far, in log, the edge between damp and wet differs from bin to bin: it hangs on how full the moss is watered."""


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
        (n, 11): edge from below and edge from above (state, clock, state, clock) by all looks, the same by all looks
        but the last, state and clock of the last look, and clock of the look before it, 0 where there was none.
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

    A look that finds the moss wetter by two states, or wetter than dry, shows a watering that nobody logged: it is
    the last of its row, and so are no looks after it. When looks contradict one another by a single state the last one
    stands. Dry looks after a dry one say nothing more.

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
    again = ~fresh & (before == DRY) & (state == DRY)
    rise = ~fresh & ((state - before >= 2) | ((before == DRY) & (state > DRY)))
    risen = np.cumsum(rise) - rise
    start = np.maximum.accumulate(np.where(fresh, np.arange(len(fresh)), 0))
    keep = ~again & (risen == risen[start])
    rise = rise[keep]
    bin_of, day, state = bin_of[keep], day[keep], state[keep]
    clock, fresh = clock[keep], fresh[keep]
    if not len(bin_of):
        return Cycles(bin_of, day, np.zeros((0, 11)))
    lower, upper = factors(drying, damp)
    low, high = np.log(clock) + lower[state], np.log(clock) + upper[state]
    first = np.flatnonzero(fresh)
    last = np.concatenate([first[1:], [len(fresh)]]) - 1
    number = np.cumsum(fresh) - 1
    below, above = np.lexsort((low, number))[last], np.lexsort((-high, number))[last]
    clash = (low[below] >= high[above] - 1e-9) & ~rise[last]
    below, above = np.where(clash, last, below), np.where(clash, last, above)
    low[last], high[last] = -np.inf, np.inf
    below_before, above_before = np.lexsort((low, number))[last], np.lexsort((-high, number))[last]
    single = (first == last) | clash
    earlier = np.where(single, 0.0, clock[np.maximum(last - 1, 0)])
    none_below, none_above = single | np.isinf(low[below_before]), single | np.isinf(high[above_before])
    columns = [state[below], clock[below], state[above], clock[above]]
    columns += [np.where(none_below, DRY, state[below_before]), clock[below_before]]
    columns += [np.where(none_above, WET, state[above_before]), clock[above_before], state[last], clock[last], earlier]
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

    ``edges`` (K, 11) as in `Cycles`; ``kind`` (n,) which row each cycle is; ``share`` (4,) how often each state was
    the last one.
    """

    edges: Floats
    kind: Ints
    share: Floats

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
            Share of waterings that nobody logged.

        Notes
        -----
        Either nobody watered since the look before the last one, and all looks hold; or somebody did, then the looks
        before hold and the last one counts from that watering. Keepers water as the moss dries, so that such a
        watering becomes likely once the time to dry has nearly passed and none was logged. A second one after it
        isn't followed: the last look then says no more than how often its state is met.
        """
        lower, upper = factors(drying, damp)

        soft = np.where(np.arange(4) == WET, np.hypot(sigma, WET_SD), sigma)
        soft_above = np.where(np.arange(4) == DAMP, np.hypot(sigma, WET_SD), sigma)

        def chance(low_state: Ints, low: Floats, high_state: Ints, high: Floats) -> Floats:
            below = (low + lower[low_state][:, None] - grid) / soft[low_state][:, None]
            above = (high + upper[high_state][:, None] - grid) / soft_above[high_state][:, None]
            return span_chance(below, above, np.zeros(1), 1.0)

        def span(at: int) -> Floats:
            low, high = np.log(self.edges[:, at + 1, None]), np.log(self.edges[:, at + 3, None])
            return chance(self.edges[:, at].astype(np.int64), low, self.edges[:, at + 2].astype(np.int64), high)

        ends, end = np.unique(self.edges[:, 8:], axis=0, return_inverse=True)
        state, now, before = ends[:, 0].astype(np.int64), ends[:, 1:2], ends[:, 2:3]
        watered_before, watered_now = watered_by(before, grid), watered_by(now, grid)
        unlogged = np.zeros_like(watered_now)
        total = np.full_like(watered_now, 1e-12)
        share = self.share[state][:, None]
        later = watered_now
        for node in range(NODES):
            # Waterings in the last fifth of the time between the two looks, in the fifth before it, and so on.
            part = (now - before) / NODES
            sooner = watered_by(now - (node + 1) * part, grid)
            log_ago = np.log(np.maximum((node + 0.5) * part, 1e-9))
            found = chance(state, log_ago, state, log_ago)
            once = left_alone(0.0, watered_by((node + 0.5) * part, grid), missed)
            unlogged += (later - sooner) * (once * found + (1 - once) * share)
            total += later - sooner
            later = sooner
        alone = left_alone(watered_before, watered_now, missed)
        other = (1 - alone) * (unlogged + 1e-12 * share) / total
        row = end.reshape(-1)
        until_then = left_alone(0.0, watered_before, missed)
        lost = (1 - until_then) * ELSEWHERE * share
        return np.asarray(until_then[row] * (alone[row] * span(0) + span(4) * other[row]) + lost[row], dtype=np.float64)


def watered_by(clock: Floats, grid: Floats) -> Floats:
    """Chance that a keeper would have watered by ``clock`` when the moss dries in exp(``grid``).

    Never above ``SURELY``: keepers are away, or wait.
    """
    with np.errstate(divide="ignore"):
        return SURELY * NORMAL.cdf((np.log(np.maximum(clock, 0.0)) - grid - np.log(HABIT)) / HABIT_SPREAD)


def left_alone(before: Floats | float, now: Floats, missed: float) -> Floats:
    """Chance that nobody watered between two looks, when no watering was logged between them.

    Parameters
    ----------
    before, now
        Chance that the moss would have been watered by the one look and by the other.
    missed
        Share of waterings that nobody logs.
    """
    dry = np.maximum(1 - now, 1e-9)
    return np.asarray(dry / (dry + missed * (now - before)), dtype=np.float64)
