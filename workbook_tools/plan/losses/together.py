"""Bins that lose animals together: which of the groups lost more than chance would have it, and after what."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.deaths import Watch, so_many
from workbook_tools.plan.losses.records import Cluster, Event

Floats = NDArray[np.float64]
ALL_BINS = "in all bins"
RAISED = 0.10
"""A bin has lost more than usual where so many by chance are rarer than this."""


@dataclass(frozen=True, eq=False)
class Lost:
    """Deaths of all bins by day, (B, T), and what is usual; ``first_day`` is the day number of the first column."""

    names: tuple[str, ...]
    first_day: int
    found: Floats
    risk: Floats
    watch: Watch

    @property
    def last(self) -> int:
        """The last column."""
        return int(self.found.shape[1]) - 1

    def day(self, column: int) -> dt.date:
        """The day of a column."""
        return dt.date.fromordinal(self.first_day + column)

    def between(self, first: int, last: int) -> tuple[Floats, Floats, Floats]:
        """Dead found from one column to another, the mean usual in that time, and its size, (B,) each."""
        span = slice(max(first, 0), last + 1)
        mean = self.watch.rate[:, last] * self.risk[:, span].sum(axis=1)
        return self.found[:, span].sum(axis=1), mean, self.watch.size[:, last]


@dataclass(frozen=True, eq=False)
class _Try:
    """One group over one time: the chance of what its bins lost apart from the bin that lost the most."""

    group: str
    bins: tuple[int, ...]
    raised: tuple[int, ...]
    first: int
    last: int
    found: float
    expected: float
    luck: float


def clusters(lost: Lost, groups: Mapping[str, tuple[int, ...]], events: Sequence[Event]) -> tuple[Cluster, ...]:
    """Find the groups whose bins lost more than usual together, the least likely by luck first.

    Each group is looked at over all windows that end within ``losses.recent`` days, and after each event. What counts
    is what it lost apart from the bin that lost the most, so that one bin alone is no cluster. Places differ anyway, by
    ``losses.place`` on the log scale. The chance is multiplied by the number of groups and, without an event, by that
    of the windows that hardly overlap. Once a group is named its bins are left out of the others.
    """
    found: list[Cluster] = []
    taken: set[int] = set()
    while True:
        tries = [one for one in _tries(lost, groups, events, taken) if one.luck < DEFAULTS["losses.luck"].value]
        if not tries:
            return tuple(found)
        best = min(tries, key=lambda one: (one.luck, one.group == ALL_BINS, -len(one.raised), one.last))
        found.append(_cluster(lost, best, events))
        taken |= set(best.bins)


def _tries(
    lost: Lost, groups: Mapping[str, tuple[int, ...]], events: Sequence[Event], taken: set[int]
) -> Iterable[_Try]:
    width = round(DEFAULTS["deaths.window"].value)
    recent, after = (round(DEFAULTS[key].value) for key in ("losses.recent", "losses.after"))
    windows = 1 + 2 * recent / width
    days = range(max(lost.last - recent + 1, width - 1), lost.last + 1)
    everywhere = {**groups, ALL_BINS: tuple(range(len(lost.names)))}
    for day in days:
        tally = lost.between(day - width + 1, day)
        for group, bins in groups.items():
            yield from _judged(group, bins, taken, tally, day - width + 1, day, len(groups) * windows)
    for event in events:
        first = event.day.toordinal() - lost.first_day
        last = min(first + after, lost.last)
        if first < 0 or last <= first or lost.last - last > recent:
            continue
        tally = lost.between(first + 1, last)
        named = {place for place, name in enumerate(lost.names) if name in event.bins}
        for group, bins in everywhere.items():
            if not named or named & set(bins):
                yield from _judged(group, bins, taken, tally, first + 1, last, len(everywhere) * len(events))


def _judged(
    group: str,
    bins: tuple[int, ...],
    taken: set[int],
    tally: tuple[Floats, Floats, Floats],
    first: int,
    last: int,
    times: float,
) -> Iterable[_Try]:
    left = np.array([bin for bin in bins if bin not in taken], dtype=np.int64)
    if left.size < 2:
        return
    dead, mean, size = (values[left] for values in tally)
    if dead.sum() <= mean.sum() or np.count_nonzero(dead) < 2:
        return
    own = so_many(dead, mean, size)
    raised = np.flatnonzero((own <= RAISED) & (dead >= 2))
    if raised.size < 2:
        return
    rest = np.arange(left.size) != int(np.argmin(own))
    middle = np.array([mean[rest].sum()])
    spread = (mean[rest] ** 2 / size[rest]).sum() + (DEFAULTS["losses.place"].value * middle[0]) ** 2
    chance = float(so_many(np.array([dead[rest].sum()]), middle, middle**2 / max(spread, 1e-12))[0])
    yield _Try(
        group,
        tuple(left.tolist()),
        tuple(left[raised].tolist()),
        max(first, 0),
        last,
        float(dead.sum()),
        float(mean.sum()),
        min(chance * times, 1.0),
    )


def _cluster(lost: Lost, best: _Try, events: Sequence[Event]) -> Cluster:
    """Name its bins, its first and last find, and the events of the days before the first."""
    finds = np.flatnonzero(lost.found[list(best.raised), best.first : best.last + 1].sum(axis=0)) + best.first
    first, last = lost.day(int(finds[0])), lost.day(int(finds[-1]))
    before = dt.timedelta(days=round(DEFAULTS["losses.after"].value))
    names = tuple(lost.names[bin] for bin in best.raised)
    group = {lost.names[bin] for bin in best.bins}
    near = [event for event in events if first - before <= event.day <= last and event.day < last]
    near = [event for event in near if not event.bins or group & set(event.bins)]
    return Cluster(best.group, names, len(best.bins), first, last, best.found, best.expected, best.luck, tuple(near))
