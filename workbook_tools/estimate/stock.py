"""A stock that is used up: what is left, followed day by day for every rate on a grid, all bins at once.

For each bin and each rate of a grid the filter keeps a normal for what is left (mean, variance) and how well that rate
has explained what was seen (weight). Leaf litter and substrate differ only in their `Use`: how the stock shrinks.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from itertools import pairwise
from typing import Protocol

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from workbook_tools.estimate._grid import MONTH, Floats, Ints

WEEK = 7
ELSEWHERE = 0.25
"""How likely any one sight is when it is a slip."""
LEAST = 1e-30
"""Weights never sink below this, so that a rate that was ruled out may come back."""

START, TAKEN, SEEN, CHANGED, SEEN_AFTER = range(5)
"""The order in which things of one day are taken."""


class Use(Protocol):
    """How a stock shrinks. ``rows`` picks bins; arrays are (n, J) unless said otherwise."""

    def step(self, mean: Floats, variance: Floats, amount: Floats) -> tuple[Floats, Floats]:
        """One day of use at ``amount``, rate times exposure, of all bins."""

    def change(
        self, rows: Ints, mean: Floats, variance: Floats, size: Floats, size_sd: Floats
    ) -> tuple[Floats, Floats]:
        """Something was added or renewed: ``size`` and its error, both (n,)."""

    def clock(self, mean: Floats) -> tuple[Floats, Floats]:
        """How much exposure at rate one the stock has in it, from a fixed zero, and its slope in the stock."""

    def left(self, clock: Floats) -> Floats:
        """The stock at that clock: the inverse of `clock`."""

    def idle(self, mean: Floats, days: float) -> Floats:
        """What the clock loses in ``days``, not many, even when nothing eats."""

    def lasts(self, mean: Floats, threshold: Floats, amount: Floats) -> tuple[Floats, Floats, Floats]:
        """Days down to ``threshold`` (B, 1) at ``amount`` a day, their slope in the stock, and the part eating has."""

    def day_noise(self) -> float:
        """Relative error of one day's use."""


@dataclass(frozen=True, eq=False)
class Events:
    """Everything that happened to the stocks, one element an event.

    Parameters
    ----------
    bin, day, order
        (n,) which bin, on which day, and its place within the day: START, TAKEN, SEEN, CHANGED or SEEN_AFTER.
    low, high
        (n,) for a sight the bounds of what is left, inf allowed; for START the mean and its error; for CHANGED the
        size and its error; for TAKEN the part that is not of ``source`` but new, and its error.
    noise, slip
        (n,) error of the eye, in units of the stock, and the share of such sights that are slips. Sights only.
    jump
        (n,) of the slips upwards, the share that means a refill nobody wrote down. Sights only.
    source
        (n,) the bin whose stock, as it is that morning, this bin is filled with. TAKEN only.
    """

    bin: Ints
    day: Ints
    order: Ints
    low: Floats
    high: Floats
    noise: Floats
    slip: Floats
    jump: Floats
    source: Ints

    @staticmethod
    def of(
        bin_of: Ints,
        day: Ints,
        order: int,
        low: Floats,
        high: Floats,
        *,
        source: Ints | None = None,
        **more: Floats | float,
    ) -> Events:
        """Events of one kind; ``noise``, ``slip`` and ``jump`` may be one number for all."""
        size = len(bin_of)
        noise, slip, jump = (
            np.broadcast_to(np.asarray(more.get(name, 0.0), float), size) for name in ("noise", "slip", "jump")
        )
        whence = np.full(size, -1) if source is None else np.asarray(source)
        of_kind = np.full(size, order)
        return Events(np.asarray(bin_of), np.asarray(day), of_kind, low, high, noise, slip, jump, whence)

    @staticmethod
    def joined(*parts: Events) -> Events:
        """All of several."""
        return Events(*(np.concatenate([getattr(part, name) for part in parts]) for name in _PARTS))

    def within(self, first_day: int, last_day: int) -> Events:
        """Those from ``first_day`` to ``last_day``; starts before are moved to the first day."""
        day = np.where(self.order == START, np.maximum(self.day, first_day), self.day)
        keep = (day >= first_day) & (day <= last_day)
        return replace(Events(*(getattr(self, name)[keep] for name in _PARTS)), day=day[keep])


_PARTS = tuple(part.name for part in fields(Events))


@dataclass(frozen=True, eq=False)
class Followed:
    """The stocks on the last day.

    ``weight``, ``mean`` and ``variance`` are (B, J): for each rate how likely it is by what was seen (flat before
    anything is), and what is then left. ``path`` is (3, B, T), mean, low and high of each day, or None.
    """

    weight: Floats
    mean: Floats
    variance: Floats
    path: Floats | None


def follow(
    use: Use,
    events: Events,
    *,
    rate: Floats,
    exposure: Floats,
    first_day: int,
    walk: float,
    spacing: float,
    started: tuple[Floats, Floats],
    weight: Floats | None = None,
    history: bool = False,
) -> Followed:
    """Run the filter over all days.

    Parameters
    ----------
    use
        How the stock shrinks.
    events
        What happened. Those outside the days are left out.
    rate
        (B, J) rates, evenly spaced in log along J.
    exposure
        (B, T) of each day from ``first_day``: 1 where 100 animals eat. Finite, not negative.
    first_day
        Whole number of the first day.
    walk
        How far the log rate wanders in the square root of a month.
    spacing
        Natural log between two rates.
    started
        Mean and standard deviation (B,) of what was there on the first day.
    weight
        (B, J) to start with; flat when not given.
    history
        Keep the path.

    Returns
    -------
    Followed

    Notes
    -----
    Cost grows with days x bins x rates, plus sights x rates. Misleads when refills go unwritten: a level that rises
    for no reason is believed only when it is seen again, or when the sight was far above what was thought.
    """
    bins, size = rate.shape
    days = exposure.shape[1]
    mean = np.repeat(started[0][:, None], size, axis=1)
    variance = np.repeat(started[1][:, None] ** 2, size, axis=1)
    weight = np.full((bins, size), 1.0 / size) if weight is None else weight.copy()
    flat = weight.copy()
    path = np.empty((3, bins, days)) if history else None
    turns = _turns(events.within(first_day, first_day + days - 1), first_day, days)
    # In a week the walk may be wider than one step of the grid: then it is taken in several.
    square = walk**2 * WEEK / MONTH / spacing**2
    mixes = max(1, int(np.ceil(square / 0.9)))
    for day in range(days):
        for order, some in turns[day]:
            rows = some.bin
            if order == START:
                mean[rows] = some.low[:, None]
                variance[rows] = some.high[:, None] ** 2
                weight[rows] = flat[rows]
            elif order == TAKEN:
                held, spread = _heap(weight[some.source], mean[some.source], variance[some.source])
                flat_held, flat_spread = (np.repeat(part[:, None], size, axis=1) for part in (held, spread))
                mean[rows], variance[rows] = use.change(rows, flat_held, flat_spread, some.low, some.high)
            elif order == CHANGED:
                mean[rows], variance[rows] = use.change(rows, mean[rows], variance[rows], some.low, some.high)
            else:
                weight[rows], mean[rows], variance[rows] = see(weight[rows], mean[rows], variance[rows], some)
        if path is not None:
            path[:, :, day] = _band(weight, mean, variance)
        if day < days - 1:
            mean, variance = use.step(mean, variance, rate * exposure[:, day, None])
            if walk > 0 and (first_day + day) % WEEK == 0:
                for _ in range(mixes):
                    weight, mean, variance = _wander(weight, mean, variance, square / mixes / 2)
    return Followed(weight, mean, variance, path)


def see(weight: Floats, mean: Floats, variance: Floats, sights: Events) -> tuple[Floats, Floats, Floats]:
    """Take in one sight of each of n bins: what is left, as the eye has it, lies between ``low`` and ``high``.

    A sight is either right, or a slip that says nothing, or, when it lies above what was thought, a refill nobody
    wrote down. The three are weighed and put back into one normal for each rate.

    Parameters
    ----------
    weight, mean, variance
        (n, J).
    sights
        n of them, each of another bin.
    """
    noise = sights.noise[:, None]
    scale = np.sqrt(variance + noise**2)
    below = (sights.low[:, None] - mean) / scale
    above = (sights.high[:, None] - mean) / scale
    chance, shift, shrink = truncated(below, above)
    gain = variance / scale
    slip = sights.slip[:, None]
    jump = np.where(below > 0, slip * sights.jump[:, None], 0.0)
    right, lost, refilled = (1 - slip) * chance, (slip - jump) * ELSEWHERE, jump * ELSEWHERE
    total = right + lost + refilled
    right, lost, refilled = right / total, lost / total, refilled / total
    if_right = mean + gain * shift
    var_right = variance - gain**2 * shrink
    bottom = np.where(np.isfinite(sights.low), sights.low, 0.0)
    top = np.where(np.isfinite(sights.high), sights.high, bottom + 2 * sights.noise)
    if_refilled = np.broadcast_to(((bottom + top) / 2)[:, None], mean.shape)
    var_refilled = ((top - bottom) ** 2 / 12)[:, None] + noise**2
    now = right * if_right + lost * mean + refilled * if_refilled
    spread = right * (var_right + (if_right - now) ** 2) + lost * (variance + (mean - now) ** 2)
    spread += refilled * (var_refilled + (if_refilled - now) ** 2)
    weight = weight * total
    weight = weight / weight.sum(axis=1, keepdims=True) + LEAST
    return weight, now, np.maximum(spread, 1e-12)


def truncated(below: Floats, above: Floats) -> tuple[Floats, Floats, Floats]:
    """A standard normal known to lie between two bounds: chance of that, its mean, and by how much its variance falls.

    Far out, where the chance is under 1e-12, mean and fall are 0: such a sight says nothing that could be believed.
    """
    flip = below > -above
    low, high = np.where(flip, -above, below), np.where(flip, -below, above)
    chance = np.maximum(ndtr(high) - ndtr(low), 0.0)
    sure = chance > 1e-12
    with np.errstate(over="ignore"):
        at_low = np.exp(-0.5 * low**2) / np.sqrt(2 * np.pi)
        at_high = np.exp(-0.5 * high**2) / np.sqrt(2 * np.pi)
    safe = np.where(sure, chance, 1.0)
    shift = np.where(sure, (at_low - at_high) / safe, 0.0)
    low_part = np.where(np.isfinite(low), low, 0.0) * at_low
    high_part = np.where(np.isfinite(high), high, 0.0) * at_high
    shrink = np.where(sure, np.clip(shift**2 + (high_part - low_part) / safe, 0.0, 1.0), 0.0)
    return chance, np.where(flip, -shift, shift), shrink


def _turns(events: Events, first_day: int, days: int) -> list[list[tuple[int, Events]]]:
    """The events of each day in groups that hold each bin once, in the order in which they are to be taken."""
    round_of = _rounds(events)
    sort = np.lexsort((events.bin, round_of, events.order, events.day))
    keys = np.stack([events.day[sort], events.order[sort], round_of[sort]])
    parts = [getattr(events, name)[sort] for name in _PARTS]
    cuts = np.flatnonzero((np.diff(keys, axis=1) != 0).any(axis=0)) + 1 if len(sort) else np.zeros(0, dtype=np.int64)
    turns: list[list[tuple[int, Events]]] = [[] for _ in range(days)]
    edges = [0, *cuts.tolist(), len(sort)]
    for start, stop in pairwise(edges):
        if start < stop:
            group = Events(*(part[start:stop] for part in parts))
            turns[int(group.day[0]) - first_day].append((int(group.order[0]), group))
    return turns


def _rounds(events: Events) -> Ints:
    """For each event how many of the same bin, day and order come before it."""
    sort = np.lexsort((events.bin, events.order, events.day))
    keys = np.stack([events.day[sort], events.order[sort], events.bin[sort]])
    new = np.ones(len(sort), dtype=bool)
    new[1:] = (np.diff(keys, axis=1) != 0).any(axis=0)
    place = np.arange(len(sort))
    first = np.maximum.accumulate(np.where(new, place, 0))
    result = np.empty(len(sort), dtype=np.int64)
    result[sort] = place - first
    return result


def _wander(weight: Floats, mean: Floats, variance: Floats, share: float) -> tuple[Floats, Floats, Floats]:
    """Let ``share`` of the weight of each rate pass to each of its two neighbours; at the ends it stays."""
    stay = weight * (1 - 2 * share)
    up, down = weight * share, weight * share
    from_below = np.concatenate([down[:, :1], up[:, :-1]], axis=1)
    from_above = np.concatenate([down[:, 1:], up[:, -1:]], axis=1)
    mean_below = np.concatenate([mean[:, :1], mean[:, :-1]], axis=1)
    mean_above = np.concatenate([mean[:, 1:], mean[:, -1:]], axis=1)
    var_below = np.concatenate([variance[:, :1], variance[:, :-1]], axis=1)
    var_above = np.concatenate([variance[:, 1:], variance[:, -1:]], axis=1)
    total = stay + from_below + from_above
    now = (stay * mean + from_below * mean_below + from_above * mean_above) / total
    spread = stay * (variance + (mean - now) ** 2)
    spread += from_below * (var_below + (mean_below - now) ** 2) + from_above * (var_above + (mean_above - now) ** 2)
    return total, now, spread / total


def _band(weight: Floats, mean: Floats, variance: Floats) -> npt.NDArray[np.float64]:
    """Mean and an 80 % band (3, B) of the mixture, taken as one normal."""
    centre, spread = _heap(weight, mean, variance)
    sd = np.sqrt(spread)
    return np.stack([centre, centre - 1.2816 * sd, centre + 1.2816 * sd])


def _heap(weight: Floats, mean: Floats, variance: Floats) -> tuple[Floats, Floats]:
    """Mean and variance (n,) of a mixture over the rates, whose weights (n, J) need not sum to one."""
    share = weight / weight.sum(axis=1, keepdims=True)
    centre = (share * mean).sum(axis=1)
    return centre, (share * (variance + (mean - centre[:, None]) ** 2)).sum(axis=1)
