"""The room the bins stand in: daily warmth and dampness with seasons, heating and weather."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Series = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Room:
    """Daily means: warmth in C, relative humidity in percent, and the pull of dry air in kPa."""

    warmth: Series
    damp: Series
    pull: Series


def wander(chance: np.random.Generator, days: int, sd: float, keep: float, columns: int = 1) -> Series:
    """Noise that remembers: an AR(1) path (days, columns) with the stationary spread ``sd``."""
    out = np.empty((days, columns))
    out[0] = chance.normal(0, sd, columns)
    fresh = chance.normal(0, sd * np.sqrt(1 - keep**2), (days, columns))
    for day in range(1, days):
        out[day] = keep * out[day - 1] + fresh[day]
    return out


def make_room(chance: np.random.Generator, first: int, days: int) -> Room:
    """A room from ``first`` (an ordinal) on: a warm summer, a heated and dry winter, weather in between."""
    year = 2 * np.pi * ((first + np.arange(days)) % 365.25 - 200) / 365.25
    summer = np.cos(year)
    heated = 1 / (1 + np.exp(6 * (summer + 0.2)))
    base, swing = chance.normal(20.8, 0.7), chance.uniform(1.0, 2.8)
    warmth = base + swing * summer + 0.6 * heated + wander(chance, days, 0.8, 0.85)[:, 0]
    mean = chance.normal(57, 5)
    damp = mean - chance.uniform(10, 22) * heated + 3 * summer + wander(chance, days, 6, 0.8)[:, 0]
    damp = np.clip(damp, 18, 92)
    full = 0.6112 * np.exp(17.62 * warmth / (243.12 + warmth))
    return Room(warmth, damp, full * (1 - damp / 100))


def liveliness(warmth: Series | float) -> Series:
    """How fast animals live against 21 C: rising by 7 % a degree, flat above 26 C, none at 34 C."""
    rise = np.exp(0.07 * (np.minimum(warmth, 26.0) - 21.0))
    return np.asarray(rise * np.clip((34.0 - np.asarray(warmth)) / 8.0, 0, 1))
