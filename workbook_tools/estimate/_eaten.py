"""How leaf litter goes: eaten while there is plenty, less as it gets scarce, and rotting besides."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.special import wrightomega

from workbook_tools.estimate._grid import Floats, Ints

HUNGER = 1.06
"""Makes the use of a full layer the rate itself."""


@dataclass(frozen=True, eq=False)
class Eaten:
    """Litter is eaten at its rate while there is plenty, less as it gets scarce, and rots besides.

    Parameters
    ----------
    full
        (B, 1) litres of a full layer.
    scarce
        Share of it at which half as much is eaten.
    rot
        How fast it rots, as a rate a day.
    """

    full: Floats
    scarce: float
    rot: float

    def step(self, mean: Floats, variance: Floats, amount: Floats) -> tuple[Floats, Floats]:
        """One day: ``amount`` (B, J) litres where there is plenty. Error a quarter of it, a month hanging together."""
        half = self.scarce * self.full
        at_hand = mean / (mean + half)
        used = HUNGER * amount * at_hand
        stays = np.exp(-self.rot)
        keep = np.maximum(stays - HUNGER * amount * half / (mean + half) ** 2, 0.0)
        wobble = 8 * (self.day_noise() * used) ** 2 + (0.003 * self.full) ** 2
        return np.maximum(mean * stays - used, 0.0), variance * keep**2 + wobble

    def change(
        self, rows: Ints, mean: Floats, variance: Floats, size: Floats, size_sd: Floats
    ) -> tuple[Floats, Floats]:
        """A top-up of ``size`` litres (n,), give or take ``size_sd``."""
        return mean + size[:, None], variance + size_sd[:, None] ** 2

    def clock(self, mean: Floats) -> tuple[Floats, Floats]:
        """How long the litter feeds at one litre a day, scarcity counted in, and the slope of that."""
        half = self.scarce * self.full
        some = np.maximum(mean, 1e-3 * self.full)
        return (some + half * np.log(some)) / HUNGER, (1 + half / some) / HUNGER

    def left(self, clock: Floats) -> Floats:
        """Litres left at that clock."""
        half = self.scarce * self.full
        return np.asarray(half * wrightomega(HUNGER * clock / half - np.log(half)))

    def idle(self, mean: Floats, days: float) -> Floats:
        """What rots."""
        return self.rot * days * (np.maximum(mean, 0.0) + self.scarce * self.full) / HUNGER

    def lasts(self, mean: Floats, threshold: Floats, amount: Floats) -> tuple[Floats, Floats, Floats]:
        """Days from ``mean`` to ``threshold`` at ``amount`` litres a day, eaten and rotting: the sum of both losses."""
        half, least = self.scarce * self.full, 1e-3 * self.full
        some, end = np.maximum(mean, least), np.maximum(threshold, least)
        eaten = HUNGER * np.maximum(amount, 1e-12)
        if self.rot == 0:
            days = (some - end + half * np.log(some / end)) / eaten
            return days, (1 + half / some) / eaten, np.ones_like(days)
        both = self.rot * half + eaten
        straight = np.log1p(self.rot * (some - end) / (self.rot * end + both)) / self.rot
        days = (half * np.log(some / end) + eaten * straight) / both
        middle = (some + end) / 2
        part = eaten / (eaten + self.rot * (middle + half))
        return days, (some + half) / (some * (self.rot * some + both)), part

    def day_noise(self) -> float:
        """A quarter."""
        return 0.25
