"""How many animals there are, from how many of those caught carry a mark.

Assumed: nobody comes or goes between marking and catching, marked and unmarked are caught alike, and no mark is lost.
Animals that are easily caught are easily caught twice, so these numbers are rather too low; marks lost at a moult make
them too high. Take out of ``marked`` what died or left before calling.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import betaincinv, betaln, gammaincinv, ndtri, stdtrit

from workbook_tools.estimate._grid import Floats

LARGEST = 1e12
"""No limit is looked for beyond so many animals."""


@dataclass(frozen=True, slots=True)
class ByMarks:
    """A number worked out from marks.

    ``low`` to ``high`` hold the truth with the level asked for, if the assumptions hold; ``high`` is inf where none
    of the marked was caught again. ``sd`` is the standard deviation of the number; 0 where all caught were marked or
    all marked were caught, and NaN where the method gives none. ``least`` is what there must be.
    """

    number: float
    low: float
    high: float
    least: float
    sd: float = float("nan")

    def normal(self, level: float = 0.95) -> tuple[float, float]:
        """Limits from ``sd`` as if the number were normal, the lower no less than what there must be.

        Too low on both sides where few of the marked were caught again, so the report shows ``low`` and ``high``; books
        print these, and ``sd`` is checked by them.
        """
        reach = float(ndtri((1 + level) / 2)) * self.sd
        return max(self.number - reach, self.least), max(self.number + reach, self.least)


def chapman(marked: int, caught: int, again: int, *, level: float = 0.95) -> ByMarks:
    """One marking and one catch without putting back in between (Chapman 1951, Seber 1970).

    Parameters
    ----------
    marked, caught, again : int
        Marked animals there, animals caught, and how many of these carry a mark.
    level : float
        Chance with which the limits hold. They are exact (hypergeometric), so mostly hold more often.

    Raises
    ------
    ValueError
        When more carry a mark than were caught or were marked, or a number is below 0.
    """
    _check(marked, caught, again)
    number = (marked + 1) * (caught + 1) / (again + 1) - 1
    variance = (marked + 1) * (caught + 1) * (marked - again) * (caught - again) / ((again + 1) ** 2 * (again + 2))
    least = marked + caught - again
    tail = (1 - level) / 2
    low = _first(lambda total: _at_most(again, total, marked, caught) > tail, least)
    high = np.inf if again == 0 else _first(lambda total: _at_least(again, total, marked, caught) <= tail, least) - 1
    return ByMarks(number, min(low, number), max(high, number), least, float(np.sqrt(variance)))


def bailey(marked: int, caught: int, again: int, *, level: float = 0.95) -> ByMarks:
    """The same where an animal may be met twice in one catch (Bailey 1951); limits of a binomial share.

    Raises
    ------
    ValueError
        As `chapman`.
    """
    _check(marked, caught, again)
    number = marked * (caught + 1) / (again + 1)
    variance = marked**2 * (caught + 1) * (caught - again) / ((again + 1) ** 2 * (again + 2))
    tail = (1 - level) / 2
    lowest = 0.0 if again == 0 else float(betaincinv(again, caught - again + 1, tail))
    highest = 1.0 if again == caught else float(betaincinv(again + 1, caught - again, 1 - tail))
    low, high = marked / highest, marked / lowest if lowest > 0 else np.inf
    least = float(marked)
    return ByMarks(max(number, least), max(min(low, number), least), max(high, number), least, float(np.sqrt(variance)))


def schnabel(
    marked: Sequence[float], caught: Sequence[int], again: Sequence[int], *, level: float = 0.95, added: int = 1
) -> ByMarks:
    """Several catches with a growing number of marks (Schnabel 1938), in Chapman's form (1952).

    Parameters
    ----------
    marked : (k,) sequence
        Marked animals there before each catch; needn't be whole.
    caught, again : (k,) sequences
        Animals caught and how many carried a mark.
    level : float
        Chance with which the limits hold. They are Garwood's for the number caught again, as if it were of Poisson:
        too wide where a good part of all animals is marked.
    added : int
        1 for Chapman's form, which the report uses; 0 for Schnabel's own, which most books print.

    Raises
    ------
    ValueError
        When more carry a mark than were caught or were marked, or a number is below 0.
    """
    there, n, m = _arrays(marked, caught, again)
    chances, met = float((n * there).sum()), float(m.sum())
    least = float((n + there - m).max(initial=0.0))
    tail = (1 - level) / 2
    lowest = float(gammaincinv(met, tail)) if met > 0 else 0.0
    highest = float(gammaincinv(met + 1, 1 - tail))
    number = chances / (met + added) if met + added > 0 else np.inf
    low, high = chances / highest, chances / lowest if lowest > 0 else np.inf
    return ByMarks(max(number, least), max(min(low, number), least), max(high, number, least), least)


def schumacher_eschmeyer(
    marked: Sequence[float], caught: Sequence[int], again: Sequence[int], *, level: float = 0.95
) -> ByMarks:
    """The same catches as a line of marked shares through the origin (Schumacher & Eschmeyer 1943).

    A catch before any mark counts for nothing. The limits go by Student's t with one degree of freedom less than the
    catches that had marks to meet, and are inf above where the line may be flat or there is only one such catch.

    Raises
    ------
    ValueError
        As `schnabel`.
    """
    there, n, m = _arrays(marked, caught, again)
    tells = (there > 0) & (n > 0)
    there, n, m = there[tells], n[tells], m[tells]
    least = float((n + there - m).max(initial=0.0))
    weight, met = float((n * there**2).sum()), float((m * there).sum())
    if met <= 0:
        return ByMarks(np.inf, least, np.inf, least)
    slope, free = met / weight, len(n) - 1
    number = max(1 / slope, least)
    if free < 1:
        return ByMarks(number, least, np.inf, least)
    left = max(float((m**2 / n).sum()) - met**2 / weight, 0.0) / free
    reach = float(stdtrit(free, (1 + level) / 2)) * float(np.sqrt(left / weight))
    high = 1 / (slope - reach) if slope > reach else np.inf
    return ByMarks(number, max(1 / (slope + reach), least), max(high, least), least)


def _check(marked: float, caught: float, again: float) -> None:
    if min(marked, caught, again) < 0 or again > caught or again > marked:
        raise ValueError("marked and caught must hold those caught with a mark, and none be below 0")


def _arrays(marked: Sequence[float], caught: Sequence[int], again: Sequence[int]) -> tuple[Floats, Floats, Floats]:
    for one in zip(marked, caught, again, strict=True):
        _check(*one)
    there, n, m = (np.asarray(values, dtype=np.float64) for values in (marked, caught, again))
    return there, n, m


def _at_most(again: int, total: float, marked: int, caught: int) -> float:
    """Chance to catch at most so many marked ones out of ``total`` animals."""
    fewest = max(0, caught + marked - int(total))
    if again < fewest:
        return 0.0
    met = np.arange(fewest, again + 1, dtype=np.float64)
    log = _choose(marked, met) + _choose(total - marked, caught - met) - _choose(total, np.asarray(float(caught)))
    return float(min(np.exp(log).sum(), 1.0))


def _at_least(again: int, total: float, marked: int, caught: int) -> float:
    met = np.arange(again, min(marked, caught) + 1, dtype=np.float64)
    possible = caught - met <= total - marked
    met = met[possible]
    log = _choose(marked, met) + _choose(total - marked, caught - met) - _choose(total, np.asarray(float(caught)))
    return float(min(np.exp(log).sum(), 1.0))


def _choose(of: float, some: Floats) -> Floats:
    """Natural log of the number of ways to choose some of so many; no digits lost where ``of`` is large."""
    return np.asarray(-np.log(of + 1.0) - betaln(of - some + 1.0, some + 1.0))


def _first(holds: Callable[[float], bool], least: float) -> float:
    """The smallest whole number from ``least`` on from which a condition holds; inf if none is found."""
    if holds(least):
        return least
    below, above = least, 2.0 * least + 1
    while not holds(above):
        below, above = above, 2 * above
        if above > LARGEST:
            return np.inf
    while above - below > 1:
        middle = float(np.floor((below + above) / 2))
        below, above = (below, middle) if holds(middle) else (middle, above)
    return above
