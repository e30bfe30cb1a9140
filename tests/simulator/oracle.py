"""Numbers of animals as they truly were and will be: for saying what better numbers would be worth."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simulator.colony import Floats
from simulator.keeper import Diary
from simulator.world import World, number, pass_day
from workbook_tools.plan.learned.numbers import AHEAD, Numbers

SURE = 0.02
"""Error, in log, of what is known."""
LEAST = 0.3
"""An empty bin stands as so many animals: its logarithm must be finite."""


@dataclass(frozen=True, eq=False, kw_only=True)
class Known(Numbers):
    """Numbers of which the past is true, (B, D) from ``first`` on, and the coming days too, (B, H), unless None."""

    first: int
    past: Floats
    coming: Floats | None

    @property
    def error(self) -> Floats:
        """(B,) error of the natural log of today's number."""
        return np.concatenate([np.full(len(self.past), SURE), super().error[len(self.past) :]])

    def exposure(self, first_day: int, power: float) -> Floats:
        """As of `Numbers`: true from the first day of the log on."""
        exposure = super().exposure(first_day, power).copy()
        true = _eating(self.past, power)[:, max(first_day - self.first, 0) :]
        exposure[: len(true), -true.shape[1] :] = true
        return exposure

    def exposure_ahead(self, power: float) -> tuple[Floats, Floats]:
        """As of `Numbers`: true, or growing as estimated from the true number of today."""
        exposure, error = (part.copy() for part in super().exposure_ahead(power))
        own = slice(len(self.past))
        if self.coming is not None:
            exposure[own], error[own] = _eating(self.coming, power), power * SURE
        else:
            exposure[own] *= _eating(self.past[:, -1:], power) / np.maximum(exposure[own, :1], 1e-9)
        return exposure, error


def known(numbers: Numbers, world: World, diary: Diary, day: int, *, future: bool) -> Known:
    """The same numbers, but true up to the evening of a day; with ``future`` as they will be if nobody does more."""
    past = np.array(diary.held[: day + 1], dtype=np.float64).T
    coming = None
    if future:
        state, ahead = diary.stood[day].copy(), []
        for later in range(1, AHEAD + 1):
            pass_day(world, state, day + later)
            ahead.append(number(state))
        coming = np.array(ahead, dtype=np.float64).T
    own = (numbers.series, numbers.population, numbers.gone, numbers.doubts)
    return Known(*own, first=world.first, past=past, coming=coming)


def _eating(animals: Floats, power: float) -> Floats:
    return np.asarray((np.maximum(animals, LEAST) / 100) ** power)
