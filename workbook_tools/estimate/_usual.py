"""How many deaths are usual: the rate of each bin, what bins have in common, and how much deaths come in bunches."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

import numpy as np
from numpy.typing import NDArray
from scipy import special

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import MONTH

Floats = NDArray[np.float64]
BUNCHED = np.geomspace(0.2, 10.0, 24)
"""Sizes tried for how deaths of one window bunch: the higher, the less."""
ALIKE = np.array([0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0])
"""Shapes tried for how bins differ in their rates: the higher, the more alike they are."""


@dataclass
class Blocks:
    """Windows that don't overlap, of all bins: dead found, mean expected, how sure that is."""

    found: list[Floats] = field(default_factory=list)
    mean: list[Floats] = field(default_factory=list)
    sure: list[Floats] = field(default_factory=list)

    def add(self, found: Floats, mean: Floats, sure: Floats) -> None:
        """Keep the windows that end on one day."""
        self.found.append(found)
        self.mean.append(mean)
        self.sure.append(sure)

    def bunched(self) -> float:
        """How bunched deaths are by all windows so far: the average of what fits, the best the most.

        Without any it is the starting guess.
        """
        centre = np.log(DEFAULTS["deaths.bunched"].value)
        fit = -0.5 * ((np.log(BUNCHED) - centre) / DEFAULTS["deaths.bunched_error"].value) ** 2
        if self.found:
            found, mean, sure = (np.concatenate(kept) for kept in (self.found, self.mean, self.sure))
            size = 1 / (1 / sure[:, None] + 1 / BUNCHED)
            fit = fit + log_chance(np.floor(found)[:, None], mean[:, None], size).sum(axis=0)
        return float(np.exp(np.average(np.log(BUNCHED), weights=np.exp(fit - fit.max()))))


@dataclass
class Usual:
    """What is usual for each bin, learned day by day.

    ``dead``, ``risk`` and ``windows`` (B,) are dead found, hundreds of animals times days, and windows of days, the
    older counting less. A bin's rate is gamma with ``shape`` and ``shape / mean`` before anything is known of it.
    """

    REFIT: ClassVar[int] = 28
    dead: Floats
    risk: Floats
    windows: Floats
    mean: float
    shape: float
    bunched: float

    @classmethod
    def start(cls, bins: int) -> Usual:
        """Begin with the starting guess."""
        none = np.zeros(bins)
        rate = DEFAULTS["deaths.rate"].value / MONTH
        return cls(none, none.copy(), none.copy(), rate, 1.0, DEFAULTS["deaths.bunched"].value)

    def learn(self, found: Floats, risk: Floats, covered: Floats) -> None:
        """Take one day's finds and the days they cover; a find far above the usual doesn't count in full."""
        fade = 0.5 ** (1 / DEFAULTS["deaths.half_life"].value)
        most = far_above(self.rate * risk, np.asarray(self.bunched))
        self.dead = fade * self.dead + np.where(risk > 0, np.minimum(found, most), 0.0)
        self.risk = fade * self.risk + risk
        self.windows = fade * self.windows + covered / DEFAULTS["deaths.window"].value

    @property
    def _weight(self) -> Floats:
        """What a bin's own finds count for: less where they are bunched, as bunches tell less than single deaths."""
        a_window = self.mean * self.risk / np.maximum(self.windows, 1.0)
        return np.asarray(1 / (1 + a_window / self.bunched))

    @property
    def _known(self) -> tuple[Floats, Floats]:
        shape = self.shape + self._weight * self.dead
        return shape, self.shape / self.mean + self._weight * self.risk

    @property
    def rate(self) -> Floats:
        """(B,) dead found for each hundred animals in a day."""
        shape, risk = self._known
        return np.asarray(shape / risk)

    def expect(self, risk: Floats) -> tuple[Floats, Floats]:
        """The mean expected for so much risk, and how sure the rate is, as the shape of a gamma."""
        shape, known = self._known
        return shape / known * risk, 1 / (1 / shape + DEFAULTS["deaths.wander"].value ** 2)

    def size(self, sure: Floats) -> Floats:
        """The size of the negative binomial: how unsure the rate is and how bunched deaths are, together."""
        return np.asarray(1 / (1 / sure + 1 / self.bunched))

    def refit(self, blocks: Blocks) -> None:
        """Learn from all bins: the mean rate, how bins differ, how deaths bunch."""
        self.bunched = blocks.bunched()
        guess, weight = DEFAULTS["deaths.rate"].value / MONTH, DEFAULTS["deaths.rate_weight"].value
        self.mean = float((guess * weight + self.dead.sum()) / (weight + self.risk.sum()))
        known = self.risk > 0
        if not known.any():
            return
        spread = 1 / (self.bunched * np.maximum(self.windows[known], 1.0))
        size = 1 / (1 / ALIKE + spread[:, None])
        fit = log_chance(self.dead[known, None], self.mean * self.risk[known, None], size).sum(axis=0)
        fit -= 0.5 * np.log(ALIKE / 1.2) ** 2
        self.shape = float(np.exp(np.average(np.log(ALIKE), weights=np.exp(fit - fit.max()))))


def far_above(mean: Floats, size: Floats) -> Floats:
    """The most of a number found from which something is learned: a die-off is not to become what is usual."""
    return np.asarray(np.maximum(mean + 5 * np.sqrt(mean + mean**2 / size), 2.0))


def log_chance(found: Floats, mean: Floats, size: Floats) -> Floats:
    """Log chance of a number found, negative binomial; also of a number that isn't whole, as a likelihood."""
    return np.asarray(
        special.gammaln(found + size)
        - special.gammaln(size)
        - special.gammaln(found + 1)
        + size * np.log(size / (size + mean))
        + special.xlogy(found, mean / (size + mean))
    )
