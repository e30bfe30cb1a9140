"""Bins about the mean of their species, species about that of their class: what each learns from all the others.

Everything is normal and a deviation from what is usual for the class. What a bin has shown of itself is a message: a
precision ``sure`` and that precision times the place it points at, ``pull``. Messages go up the tree and come back.
"""

from __future__ import annotations

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
        kinds = groups.through(self.apart)
        tops = Message(np.full(self.classes, 1.0 / self.top), np.zeros(self.classes))
        tops = tops.beside(kinds.among(self.class_of, self.classes))
        # Back down: each gets what reached its parent, without what it sent up itself.
        down = tops.of(self.class_of).but(kinds).through(self.apart)
        rest = down.beside(groups).of(self.group).but(bins).through(self.between)
        return rest.pull / rest.sure, 1.0 / rest.sure

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
        down = tops.but(kinds).through(self.apart)
        means = down.beside(groups).of(self.group)
        return (
            _spread(own, self.between, means, usual[0], weight),
            _spread(groups, self.apart, tops, usual[1], weight),
        )


def _spread(own: Message, variance: float, parent: Message, usual: float, weight: float) -> float:
    """Variance of values about a parent known as ``parent``, of which the values said ``own``."""
    known = variance * own.sure / (1.0 + variance * own.sure)
    mean = parent.pull / parent.sure
    off = variance * own.pull / (1.0 + variance * own.sure) - known * mean
    return float((weight * usual + (off**2 + known**2 / parent.sure).sum()) / (weight + known.sum()))
