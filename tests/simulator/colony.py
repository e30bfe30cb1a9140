"""The animals of every bin: mancas, growing and grown ones, whole animals, day by day."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MANCA, GROWING = 2, 3
STAGES = MANCA + GROWING + 1
"""Stages an animal passes: two of a manca, three of a growing animal, grown."""
MANCA_DAYS = 30.0
BODY = np.array([0.02, 0.05, 0.12, 0.30, 0.55, 1.0])
"""Mass of an animal of each stage as a share of a grown one's."""


@dataclass(frozen=True)
class Kind:
    """One species as the simulator has it: all invented round numbers of a likely size."""

    name: str
    appetite: str
    ripe: float
    """Days from release to breeding at 21 C."""
    brood: float
    interval: float
    young_die: float
    """Share of mancas that die in a day."""
    grown_die: float
    grown_mg: float
    room_each: float
    """Animals a litre at which breeding is halved."""


KINDS = (
    Kind("Porcellio scaber", "medium", 170, 22, 62, 0.022, 0.0022, 75, 34),
    Kind("Armadillidium vulgare", "medium", 185, 24, 66, 0.022, 0.0020, 95, 30),
    Kind("Armadillidium nasatum", "medium", 160, 23, 60, 0.022, 0.0022, 80, 32),
    Kind("Armadillidium maculatum", "medium", 185, 20, 64, 0.020, 0.0020, 90, 30),
    Kind("Porcellionides pruinosus", "hearty", 80, 17, 40, 0.026, 0.0042, 20, 95),
    Kind("Porcellio laevis", "hearty", 115, 24, 48, 0.027, 0.0035, 130, 24),
    Kind("Porcellio dilatatus", "hearty", 120, 24, 50, 0.026, 0.0032, 140, 22),
    Kind("Oniscus asellus", "medium", 180, 18, 60, 0.021, 0.0025, 75, 30),
    Kind("Cubaris murina", "slow", 170, 10, 62, 0.016, 0.0020, 35, 45),
    Kind("Trichorhina tomentosa", "slow", 75, 6, 38, 0.016, 0.0045, 1.8, 190),
    Kind("Porcellio hoffmannseggii", "slow", 270, 24, 100, 0.022, 0.0016, 600, 8),
    Kind("Porcellio spinicornis", "slow", 210, 17, 75, 0.021, 0.0020, 70, 26),
)


@dataclass(frozen=True, eq=False)
class Breeding:
    """What governs the numbers of each bin: one value a bin."""

    ripe: Floats
    brood: Floats
    interval: Floats
    young_die: Floats
    grown_die: Floats
    crowd: Floats
    """Animals past the manca stage at which breeding is halved."""


def settle(start: Floats, chance: np.random.Generator) -> Ints:
    """Spread a starting number over the stages; new, small bins are of growing and grown animals only."""
    shares = np.array([0.13, 0.13, 0.17, 0.15, 0.12, 0.30])
    grown = np.array([0.0, 0.0, 0.1, 0.2, 0.3, 0.4])
    out = np.empty((len(start), STAGES), dtype=np.int64)
    for place, number in enumerate(start):
        weights = grown if number < 25 else chance.dirichlet(shares * 40)
        out[place] = chance.multinomial(round(number / max(weights[MANCA:].sum(), 0.4)), weights)
    return out


def counted(animals: Ints) -> Ints:
    """Animals past the manca stage: what every number in this simulator means."""
    return animals[..., MANCA:].sum(-1)


def live_a_day(
    animals: Ints, how: Breeding, pace: float, breeding: Floats, dying: Floats, chance: np.random.Generator
) -> tuple[Ints, Ints, Ints]:
    """One day: deaths, growing up and broods.

    Parameters
    ----------
    animals : (B, STAGES) int
    how : Breeding
    pace : float
        How fast animals live for the warmth of the day, 1 at 21 C.
    breeding, dying : (B,)
        How well breeding goes and how hard animals die just then, 1 as usual.

    Returns
    -------
    tuple
        Animals the next morning (B, STAGES), deaths (B, STAGES) and young born (B,).
    """
    number = counted(animals)
    press = (number / how.crowd) ** 2
    die = np.empty(animals.shape)
    die[:, :MANCA] = (how.young_die * (1 + 0.35 * press))[:, None]
    fade = np.linspace(1, 0, GROWING + 1)[None, 1:]
    die[:, MANCA:-1] = how.grown_die[:, None] + 0.25 * (how.young_die - how.grown_die)[:, None] * fade
    die[:, -1] = how.grown_die
    die = np.clip(die * dying[:, None], 0, 0.9)
    deaths = chance.binomial(animals, die)
    left = animals - deaths
    up = np.empty((len(animals), STAGES - 1))
    up[:, :MANCA] = pace * MANCA / MANCA_DAYS
    up[:, MANCA:] = (pace * GROWING / (how.ripe - MANCA_DAYS))[:, None]
    grow = chance.binomial(left[:, :-1], np.clip(up, 0, 0.9))
    left[:, :-1] -= grow
    left[:, 1:] += grow
    chance_of_brood = np.clip(0.42 * pace * breeding / how.interval / (1 + press), 0, 0.5)
    broods = chance.binomial(left[:, -1], chance_of_brood)
    born = chance.poisson(broods * how.brood)
    left[:, 0] += born
    return left, deaths, born


def take(animals: Ints, wanted: Ints, chance: np.random.Generator) -> tuple[Ints, Ints]:
    """Take up to ``wanted`` animals out of each bin, none of them mancas; give what is left and what was taken."""
    older = animals[:, MANCA:].copy()
    number = np.minimum(wanted, older.sum(1))
    taken = np.zeros_like(animals)
    for place in np.flatnonzero(number):
        taken[place, MANCA:] = chance.multivariate_hypergeometric(older[place], number[place])
    return animals - taken, taken
