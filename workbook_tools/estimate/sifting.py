"""How many animals are left in old substrate after passes by hand and checks of a trap.

Animals differ in how easily they are found: those found first are the easy ones, so that what is left is harder to
find than what was found. Each animal has a chance of its own to be found in a pass, the same in every pass, and these
chances are spread over animals as a beta of mean ``mu`` and correlation ``rho``. How much they differ can't be told
from a handful of passes, so that every ``rho`` that is likely beforehand is weighed. A trap has a ``mu`` and ``rho``
of its own and goes on with what the hand left.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

WHOLE, COARSE = 250, 160
"""Numbers left are looked at one by one to the first; beyond it at so many, ever wider apart."""
FURTHEST = 60
"""Numbers left are looked at to so many times what was found."""
FINE, FINEST = 1000, 10
"""From so many finds on numbers and chances are looked at closer, as the root of the finds, so many times at most."""
MOST_CHECKS = 365
"""Empty checks ahead that are looked at."""
FALLING = 0.1
"""Finds fall where level ones would look so by no more than this chance."""
EXACT = 20_000
"""Finds times passes up to which that chance is worked out exactly."""


@dataclass(frozen=True, slots=True)
class Ease:
    """What is believed beforehand of how easily animals are found.

    ``mean`` is the chance to be found in a pass, ``mean_weight`` how likely each is; ``alike`` is ``rho``, 0 where all
    animals are alike, with ``alike_weight``.
    """

    mean: Floats
    mean_weight: Floats
    alike: Floats
    alike_weight: Floats

    def found(self, passes: int) -> tuple[Floats, Floats]:
        """Chances (passes + 1, G) to be found in each pass, and in the one to come, if missed before; weights (G,)."""
        mean, alike = (grid.ravel() for grid in np.meshgrid(self.mean, self.alike, indexing="ij"))
        weight = np.outer(self.mean_weight / self.mean_weight.sum(), self.alike_weight / self.alike_weight.sum())
        before = np.arange(passes + 1)[:, None]
        return mean * (1 - alike) / (1 - alike + before * alike), weight.ravel()

    def finer(self, times: int) -> Ease:
        """The same with so many steps for each even step of the mean."""
        steps = np.diff(self.mean)
        if times <= 1 or not len(steps):
            return self
        first = int(np.argmax(np.isclose(steps, steps.max())))
        at, weight = self.mean[first:], self.mean_weight[first:]
        mean = np.linspace(at[0], at[-1], (len(at) - 1) * times + 1)
        finer = np.interp(mean, at, weight)
        finer *= weight.sum() / finer.sum()
        return replace(
            self,
            mean=np.concatenate([self.mean[:first], mean]),
            mean_weight=np.concatenate([self.mean_weight[:first], finer]),
        )


_HAND = np.linspace(0.05, 0.95, 31)
_TRAP = np.linspace(0.01, 0.97, 33)
_IDLE, _IDLE_WEIGHT = 0.002, 0.2
"""The chance to be caught in a check of a trap that hardly works, and how likely such a trap is."""
HAND = Ease(
    _HAND,
    _HAND * (1 - _HAND),
    np.array([0.0, 0.02, 0.04, 0.08, 0.13, 0.19, 0.26, 0.34]),
    np.array([0.28, 0.10, 0.12, 0.14, 0.13, 0.10, 0.08, 0.05]),
)
_CATCHING = (1 - _TRAP) ** 4
TRAP = Ease(
    np.concatenate([[_IDLE], _TRAP]),
    np.concatenate([[_IDLE_WEIGHT], (1 - _IDLE_WEIGHT) * _CATCHING / _CATCHING.sum()]),
    np.array([0.0, 0.06, 0.13, 0.22]),
    np.array([0.30, 0.30, 0.25, 0.15]),
)


@dataclass(frozen=True, slots=True)
class Left:
    """What is probably left, in animals.

    It is a likely lower bound: animals that no pass could have found (mancas, those in moult, those where no hand
    reaches) aren't in it.

    Parameters
    ----------
    passes, trap
        Animals found in each pass by hand, and in each check of the trap.
    low, middle, high
        80 % interval of the number left and its median. ``middle`` and ``high`` are None where finds don't fall:
        there is no upper limit then.
    chance_none
        Chance that none is left. Where finds don't fall, or the trap never caught anything, it rests on what is
        believed beforehand and not on the finds: don't act on it.
    next_pass, next_trap
        Finds expected of one more pass by hand, and of one more check of the trap. Before a first pass or check it
        rests on what is believed beforehand; where finds don't fall, it is a guess.
    depletes
        Whether finds fall, by hand or in the trap, more than level ones would one time in ten, and don't rise so in the
        trap.
    trap_proven
        Whether the trap has caught anything.
    empty_checks
        Checks of the trap without a find since the last find, by hand or in the trap.
    empty_needed
        Further empty checks until ``chance_none`` reaches 90 %; 0 when it has, None beyond `MOST_CHECKS`.
    """

    passes: tuple[int, ...]
    trap: tuple[int, ...]
    low: int
    middle: int | None
    high: int | None
    chance_none: float
    next_pass: float
    next_trap: float
    depletes: bool
    trap_proven: bool
    empty_checks: int
    empty_needed: int | None

    @property
    def found(self) -> int:
        """Animals found in all, by hand and in the trap."""
        return sum(self.passes) + sum(self.trap)


def sift_left(
    catches: Sequence[int],
    trap: Sequence[int] = (),
    *,
    checks_before: Sequence[int] = (),
    doubted: int = 0,
    share: float = 0.8,
    sure: float = 0.9,
    hand_ease: Ease = HAND,
    trap_ease: Ease = TRAP,
) -> Left:
    """How many animals are probably left.

    Parameters
    ----------
    catches
        Animals found in each pass of a hand sort, each through all of the substrate; may be empty when the substrate
        was only trapped.
    trap
        Animals caught in each check of a trap.
    checks_before
        For each pass, how many of the checks came before it, never falling; empty where all came after the last pass.
    doubted
        So many of the checks came before or on a day on which something was found, or may have been, that can't be
        given to this substrate: ``empty_checks`` are counted after them. The number left doesn't know of it.
    share
        Of the interval.
    sure
        Chance of none left that ``empty_needed`` counts to.
    hand_ease, trap_ease
        What is believed beforehand.

    Raises
    ------
    ValueError
        When there is neither a pass nor a check, a number is below 0, or ``checks_before`` don't fit the passes.

    Notes
    -----
    A number N beforehand has the weight 1/(N + 1). Misleads when passes were unlike in care (a hasty last pass looks
    like an empty tub), when animals were born or got in or out between passes, and when many can't be found at all.
    """
    if not len(catches) and not len(trap):
        raise ValueError("there is neither a pass nor a check of a trap")
    if min([*catches, *trap]) < 0:
        raise ValueError("finds can't be below 0")
    before = list(checks_before) or [0] * len(catches)
    if len(before) != len(catches) or before != sorted(before) or not all(0 <= one <= len(trap) for one in before):
        raise ValueError("checks before each pass don't fit the passes and checks")
    total = sum(catches) + sum(trap)
    left, width = _numbers_left(total)
    hand_ease, trap_ease = hand_ease.finer(_closer(sum(catches))), trap_ease.finer(_closer(sum(trap)))
    by_hand, hand_chance, hand_weight = _log_likelihood(catches, _missed_by_hand(trap, before), left, hand_ease)
    known = np.log(width) - np.log(left + total + 1) + _ways(left, total)
    by_hand += known[:, None] + np.log(hand_weight)
    missed = _missed_by_trap(catches, before)
    by_trap, trap_chance, trap_weight = _log_likelihood(trap, missed, left, trap_ease)
    by_trap += np.log(trap_weight)
    hand = _total(by_hand)
    both = hand + _total(by_trap)
    chance = np.exp(both - both.max())
    chance /= chance.sum()
    hand_mean = np.exp(by_hand - hand[:, None]) @ hand_chance
    trap_mean = np.exp(by_trap - _total(by_trap)[:, None]) @ trap_chance
    likely = slice(int(np.searchsorted(np.cumsum(chance), 1 - 1e-9)) + 1)
    falls = (_falls(catches) or _falls(trap)) and not _falls(trap[::-1])
    low, middle, high = (_quantile(left, width, chance, at) for at in ((1 - share) / 2, 0.5, (1 + share) / 2))
    last = max(
        [
            doubted,
            *(at + 1 for at, n in enumerate(trap) if n),
            *(at for at, n in zip(before, catches, strict=True) if n),
        ]
    )
    return Left(
        passes=tuple(int(one) for one in catches),
        trap=tuple(int(one) for one in trap),
        low=low,
        middle=middle if falls else None,
        high=high if falls else None,
        chance_none=float(chance[0]),
        next_pass=float((chance * left * hand_mean).sum()),
        next_trap=float((chance * left * trap_mean).sum()),
        depletes=falls,
        trap_proven=sum(trap) > 0,
        empty_checks=max(len(trap) - last, 0),
        empty_needed=_empty_needed(hand[likely], left[likely], trap, missed, trap_ease, sure),
    )


def _closer(found: int) -> int:
    """How much closer numbers and chances are looked at with so many finds."""
    return min(max(math.ceil(math.sqrt(found / FINE)), 1), FINEST)


def _numbers_left(found: int) -> tuple[Floats, Floats]:
    """Numbers left (R,) that are looked at, and how many whole numbers each stands for."""
    most = max(FURTHEST * (found + 20), 2 * WHOLE)
    wide = np.unique(np.rint(np.geomspace(WHOLE, most, COARSE * _closer(found))))
    left = np.concatenate([np.arange(WHOLE, dtype=float), wide])
    edges = np.concatenate([[-0.5], (left[1:] + left[:-1]) / 2, [left[-1] + 0.5]])
    return left, np.diff(edges)


def _missed_by_hand(trap: Sequence[int], before: Sequence[int]) -> dict[int, int]:
    """Animals caught in the trap after so many passes."""
    passes = [sum(one <= at for one in before) for at in range(len(trap))]
    return {at: sum(n for n, one in zip(trap, passes, strict=True) if one == at) for at in set(passes)}


def _missed_by_trap(catches: Sequence[int], before: Sequence[int]) -> dict[int, int]:
    """Animals found by hand after so many checks."""
    return {at: sum(n for n, one in zip(catches, before, strict=True) if one == at) for at in set(before)}


def _ways(left: Floats, total: int) -> Floats:
    """Log of the ways to choose those found out of all, in order of finding, up to what is alike for all numbers."""
    return np.array([math.lgamma(number + total + 1) - math.lgamma(number + 1) for number in left])


def _log_likelihood(
    catches: Sequence[int], missed: Mapping[int, int], left: Floats, ease: Ease
) -> tuple[Floats, Floats, Floats]:
    """Log likelihood (R, G) of finds that leave ``left``, the chance (G,) to be found next, and weights (G,).

    ``missed`` holds how many of those found in the other way had been missed here so many times.
    """
    chance, weight = ease.found(len(catches))
    escape = np.concatenate([np.zeros((1, chance.shape[1])), np.cumsum(np.log1p(-chance), axis=0)])
    finds = np.asarray(catches, dtype=float) @ (np.log(chance) + escape[:-1])[:-1]
    for times, number in missed.items():
        finds = finds + number * escape[times]
    return finds + left[:, None] * escape[len(catches)], chance[-1], weight


def _total(log: Floats) -> Floats:
    """Log of the sum over the last axis."""
    top = log.max(axis=1)
    return np.asarray(top + np.log(np.exp(log - top[:, None]).sum(axis=1)))


def _falls(catches: Sequence[int]) -> bool:
    """Whether finds fall from pass to pass, the total being given.

    The mean place of the finds tells it, which among ways to fall by a constant share is all there is to know.
    """
    total, passes = sum(catches), len(catches)
    if passes < 2 or total == 0:
        return False
    late = sum(at * caught for at, caught in enumerate(catches))
    if total * passes > EXACT:
        mean, spread = total * (passes - 1) / 2, math.sqrt(total * (passes**2 - 1) / 12)
        return math.erfc((mean - late - 0.5) / spread / math.sqrt(2)) / 2 <= FALLING
    size = total * (passes - 1) + 1
    chance = np.fft.irfft(np.fft.rfft(np.full(passes, 1 / passes), 2 * size) ** total, 2 * size)
    return float(chance[: late + 1].sum()) <= FALLING + 1e-9


def _quantile(left: Floats, width: Floats, chance: Floats, at: float) -> int:
    """The number left that is not passed with the chance ``at``."""
    reached = np.cumsum(chance)
    place = int(np.searchsorted(reached, at))
    place = min(place, len(left) - 1)
    before = reached[place] - chance[place]
    part = (at - before) / max(chance[place], 1e-300) - 0.5
    return round(float(left[place] + (part * width[place] if width[place] > 1 else 0.0)))


def _empty_needed(
    hand: Floats, left: Floats, trap: Sequence[int], missed: Mapping[int, int], ease: Ease, sure: float
) -> int | None:
    """Further empty checks until none is left with the chance ``sure``."""

    def chance(more: int) -> float:
        by_trap, _, weight = _log_likelihood([*trap, *[0] * more], missed, left, ease)
        both = hand + _total(by_trap + np.log(weight))
        reached = np.exp(both - both.max())
        return float(reached[0] / reached.sum())

    if chance(MOST_CHECKS) < sure:
        return None
    short, enough = -1, MOST_CHECKS
    while enough - short > 1:
        middle = (short + enough) // 2
        short, enough = (short, middle) if chance(middle) >= sure else (middle, enough)
    return enough
