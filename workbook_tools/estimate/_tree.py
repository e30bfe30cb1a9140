"""Bins about the mean of their species, species about that of their class: what each learns from all the others.

Everything is normal and a deviation from what is usual for the class. What a bin has shown of itself is a message: a
precision ``sure`` and that precision times the place it points at, ``pull``. Messages go up the tree and come back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Message:
    """A normal heap in natural form; ``sure`` 0 says nothing. Arrays of one shape."""

    sure: Floats
    pull: Floats

    def through(self, variance: Floats | float) -> Message:
        """The same, told of a mean about which the values scatter with ``variance``."""
        part = 1.0 / (1.0 + variance * self.sure)
        return Message(self.sure * part, self.pull * part)

    def among(self, group: Ints, groups: int) -> Message:
        """All messages of each group together."""
        sure, pull = (np.bincount(group, part, groups).astype(np.float64) for part in (self.sure, self.pull))
        return Message(sure, pull)

    def of(self, group: Ints) -> Message:
        """That of the group of each."""
        return Message(self.sure[group], self.pull[group])

    def beside(self, other: Message) -> Message:
        """Both together."""
        return Message(self.sure + other.sure, self.pull + other.pull)

    def but(self, other: Message) -> Message:
        """Without a message that is part of it."""
        return Message(np.maximum(self.sure - other.sure, 0.0), self.pull - other.pull)

    def log_mass(self, mean: Floats | float, variance: Floats | float) -> Floats:
        """Log of what the message leaves of a normal heap: of the integral of the two multiplied."""
        grown = 1.0 + variance * self.sure
        squares = 2 * mean * self.pull + variance * self.pull**2 - mean**2 * self.sure
        return np.asarray(0.5 * (squares / grown - np.log(grown)), dtype=np.float64)


@dataclass(frozen=True, eq=False)
class Tree:
    """Which bin is of which group, which group of which class, and how far each level scatters (variances).

    ``group`` (B,) and ``class_of`` (G,) are whole numbers; ``top`` is how far a class may be from what is usual.
    """

    group: Ints
    class_of: Ints
    classes: int
    between: float
    apart: float
    top: float

    def others(self, own: Message) -> tuple[Floats, Floats]:
        """Mean and variance of each bin by all but its own message, (B,) each. Exact."""
        bins = own.through(self.between)
        groups = bins.among(self.group, len(self.class_of))
        rest = self._above(groups).beside(groups).of(self.group).but(bins).through(self.between)
        return rest.pull / rest.sure, 1.0 / rest.sure

    def after_parents(self, own: Message, parent: Ints, keeps: float) -> tuple[Floats, Floats]:
        """By how much the parent of each bin moves what is expected of it, and by how much that is better known.

        What sets a bin apart from its group is, in part, what sets its parent apart: ``keeps`` times as much, and the
        rest is its own. A parent that has shown nothing, itself or through its own parents, changes nothing.

        Parameters
        ----------
        own : Message
            What each bin has shown.
        parent : array
            (B,) the bin each was split off, of its own group, below 0 for none; no bin may come of itself.
        keeps : float
            From 0 to 1.

        Returns
        -------
        tuple of arrays
            (B,) to add to the mean of `others`, and to take off its variance.
        """
        means = self._means(own.through(self.between).among(self.group, len(self.class_of)))
        usual = means.pull / means.sure
        away, unknown = np.zeros(len(parent)), np.full(len(parent), self.between)
        shift, known = np.zeros(len(parent)), np.zeros(len(parent))
        for now in _generations(parent):
            child = now[parent[now] >= 0]
            shift[child] = keeps * away[parent[child]]
            known[child] = keeps**2 * np.maximum(self.between - unknown[parent[child]], 0.0)
            before = self.between - known[now]
            unknown[now] = 1.0 / (1.0 / before + own.sure[now])
            told = own.pull[now] - own.sure[now] * usual[now]
            away[now] = unknown[now] * (shift[now] / before + told)
        return shift, known

    def _means(self, groups: Message) -> Message:
        """The mean of each bin's group by the messages of all groups."""
        return self._above(groups).beside(groups).of(self.group)

    def _above(self, groups: Message) -> Message:
        """What each group is told of its mean by all others."""
        kinds = groups.through(self.apart)
        tops = Message(np.full(self.classes, 1.0 / self.top), np.zeros(self.classes))
        tops = tops.beside(kinds.among(self.class_of, self.classes))
        # Back down: each gets what reached its parent, without what it sent up itself.
        return tops.of(self.class_of).but(kinds).through(self.apart)

    def log_mass(self, own: Message) -> float:
        """Log of what the messages leave of the whole tree."""
        groups = own.through(self.between).among(self.group, len(self.class_of))
        tops = groups.through(self.apart).among(self.class_of, self.classes)
        parts = own.log_mass(0.0, self.between), groups.log_mass(0.0, self.apart), tops.log_mass(0.0, self.top)
        return float(sum(part.sum() for part in parts))

    def spreads(self, own: Message, usual: tuple[float, float], weight: float) -> tuple[float, float]:
        """Better variances between bins and between groups, leaning on ``usual`` with the weight of so many.

        One step towards the most likely ones. Bins that have shown nothing don't count.
        """
        bins = own.through(self.between)
        groups = bins.among(self.group, len(self.class_of))
        kinds = groups.through(self.apart)
        tops = Message(np.full(self.classes, 1.0 / self.top), np.zeros(self.classes))
        tops = tops.beside(kinds.among(self.class_of, self.classes)).of(self.class_of)
        return (
            _spread(own, self.between, self._means(groups), usual[0], weight),
            _spread(groups, self.apart, tops, usual[1], weight),
        )


def _generations(parent: Ints) -> Iterator[Ints]:
    """Bins by how many are above them: parents before their children."""
    depth, above = np.zeros(len(parent), dtype=np.int64), parent
    for _ in range(len(parent)):
        if not (above >= 0).any():
            break
        depth += above >= 0
        above = np.where(above >= 0, parent[above], -1)
    yield from (np.flatnonzero(depth == one) for one in range(int(depth.max(initial=0)) + 1))


def _spread(own: Message, variance: float, parent: Message, usual: float, weight: float) -> float:
    """Variance of values about a parent known as ``parent``, of which the values said ``own``."""
    known = variance * own.sure / (1.0 + variance * own.sure)
    mean = parent.pull / parent.sure
    off = variance * own.pull / (1.0 + variance * own.sure) - known * mean
    return float((weight * usual + (off**2 + known**2 / parent.sure).sum()) / (weight + known.sum()))
