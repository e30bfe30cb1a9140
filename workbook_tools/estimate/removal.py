"""How many animals there were, from finds that fall from pass to pass, every animal being found equally easily.

The classic ways, used as a count of all that a bin held. They say too few where animals differ in how easily they are
found, as isopods do: what is left after a sift is the matter of `sifting`, which allows for it.

What is said of a sift uses `carle_strub`, which needs no heavy library. `zippin` and `two_pass` stand beside it to be
compared with: most printed tables are of their numbers and limits, by which the likelihood and the standard error that
all share are checked.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

FARTHEST = 1e9
"""In times what was found: a number beyond it is called infinite."""


@dataclass(frozen=True, slots=True)
class Removal:
    """A number of animals before the first pass.

    Parameters
    ----------
    number
        In animals; inf when finds don't fall.
    catchability
        Chance of an animal to be found in a pass; 0 where ``number`` is inf, NaN where nothing was found.
    se
        Standard error of ``number``; inf or NaN where the catchability gives none.
    low, high
        Limits of ``number``. ``high`` is inf where finds don't fall clearly.
    """

    number: float
    catchability: float
    se: float
    low: float
    high: float


def zippin(catches: Sequence[int], level: float = 0.95) -> Removal:
    """The number of highest likelihood, not rounded, with limits from the profile likelihood.

    Parameters
    ----------
    catches
        Animals found and taken out in each pass, passes being alike in effort.
    level
        Of the limits, which hold where the log likelihood is within half the chi-squared point of its best.

    Returns
    -------
    Removal
        The lower limit is never below what was found. One pass, or nothing found, leaves no upper limit.

    Notes
    -----
    Moran 1951, Zippin 1956; limits as in Schnute 1983. Too low when animals differ in how easily they are found or get
    wary; when 1151 fish were in a pool, seven passes with this method said 900, with limits of 823 and 1021.
    """
    from scipy.optimize import brentq, minimize_scalar  # costs a second: only who asks for limits waits for it

    total = sum(catches)
    if len(catches) < 2 or total == 0:
        return Removal(math.inf if total else 0.0, 0.0 if total else math.nan, math.nan, float(total), math.inf)
    cut = NormalDist().inv_cdf((1 + level) / 2) ** 2 / 2
    at_infinity = total * math.log(total / len(catches)) - total
    found = minimize_scalar(
        lambda log: -log_likelihood(total + math.exp(log), catches),
        bounds=(-12, math.log(FARTHEST * total)),
        method="bounded",
        options={"xatol": 1e-10},
    )
    number = max((float(total), total + math.exp(found.x)), key=lambda one: log_likelihood(one, catches))
    best = log_likelihood(number, catches)
    endless = at_infinity >= best - 1e-9
    best = max(best, at_infinity)
    edge = math.inf if endless else number

    def under(log: float) -> float:
        return best - cut - log_likelihood(total + math.exp(log), catches)

    beyond = math.log(FARTHEST * total)
    at = beyond if endless else math.log(max(number - total, 1e-9))
    low = float(total) if under(-40) <= 0 else total + math.exp(brentq(under, -40, at))
    high = math.inf if best - at_infinity <= cut else total + math.exp(brentq(under, at, beyond))
    return Removal(edge, _catchability(edge, catches), standard_error(edge, catches), low, high)


def carle_strub(catches: Sequence[int], level: float = 0.95) -> Removal:
    """The whole number that Carle and Strub's weighting of the likelihood prefers, with normal limits.

    It always gives a number, also where finds don't fall; ask ``zippin(catches).high`` whether to believe it. The
    normal limits may lie below what was found.

    Notes
    -----
    Carle and Strub 1978, with a uniform belief in the catchability (alpha = beta = 1).
    """
    total, passes = sum(catches), len(catches)
    if total == 0:
        return Removal(0.0, math.nan, math.nan, 0.0, math.inf)
    missed = sum((passes - at) * found for at, found in enumerate(catches, start=1))
    number = total
    while True:
        ratio = (number + 1) / (number - total + 1)
        for back in range(passes):
            room = passes * number - missed - total + 1 + back
            ratio *= room / (room + total + 1)
        if ratio <= 1:
            break
        number += 1
    se = standard_error(number, catches)
    far = NormalDist().inv_cdf((1 + level) / 2) * se
    return Removal(float(number), _catchability(number, catches), se, number - far, number + far)


def two_pass(first: int, second: int, level: float = 0.95) -> Removal:
    """The number from two passes, with normal limits; inf when the second found no fewer.

    Notes
    -----
    Seber and Le Cren 1967. Its error leaves out that catchability differs, and is too small for few finds.
    """
    if second >= first:
        return Removal(math.inf if first else 0.0, 0.0, math.inf, float(first + second), math.inf)
    number = first**2 / (first - second)
    se = first * second * math.sqrt(first + second) / (first - second) ** 2
    far = NormalDist().inv_cdf((1 + level) / 2) * se
    return Removal(number, 1 - second / first, se, number - far, number + far)


def log_likelihood(number: float, catches: Sequence[int]) -> float:
    """Log likelihood of a number, at the catchability that suits it best; a constant is left out."""
    total = sum(catches)
    chance = _catchability(number, catches)
    missed = total / chance - total if chance else math.inf
    # log gammas of large numbers lose too many digits in their difference
    ways = (
        math.lgamma(number + 1) - math.lgamma(number - total + 1)
        if number < 1e6 * total
        else total * math.log(number) - total * (total - 1) / 2 / number
    )
    return ways + total * math.log(chance) + (missed * math.log1p(-chance) if missed else 0.0)


def standard_error(number: float, catches: Sequence[int]) -> float:
    """Standard error of a number in animals, by Zippin's formula; inf of an infinite one, 0 if none can be missed."""
    chance, passes = _catchability(number, catches), len(catches)
    stay = 1 - chance
    room = (1 - stay**passes) ** 2 - (passes * chance) ** 2 * stay ** (passes - 1)
    if not math.isfinite(number) or room <= 0:
        return math.inf
    return math.sqrt(number * stay**passes * (1 - stay**passes) / room)


def _catchability(number: float, catches: Sequence[int]) -> float:
    """The chance to be found in a pass that suits a number best."""
    passes, total = len(catches), sum(catches)
    missed = sum((passes - at) * found for at, found in enumerate(catches, start=1))
    return total / (passes * number - missed)
