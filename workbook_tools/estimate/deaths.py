"""Deaths found, set against what is usual for a bin: who loses more than chance would have it, look by look.

Notes
-----
Deaths found at a look are counted over a window of days. What is expected in it is the bin's own rate, for each
hundred animals and day, times the days since the look before, capped, for a dead animal doesn't lie for ever. The rate
is learned from what was found before the window; a bin of which little is known has what the others have. Deaths come
in bunches even where nothing is wrong: how much so is learned from all bins. Everything said of a day rests on that
day and those before it, so that an alarm once given stays.

A slow rise is not seen: the rate that is learned rises with it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import special

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._usual import Blocks, Usual, far_above

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

NONE, LOOK, ALARM = 0, 1, 2
"""Nothing; worth a look; an alarm."""


@dataclass(frozen=True, eq=False)
class Watch:
    """What was found in the window up to each day, and what of it is an alarm; every array is (B, T).

    Attributes
    ----------
    found, expected : arrays
        Dead found in the window that ends on the day, and the mean expected in it.
    size : array
        How bunched that number is, as the size of a negative binomial: its variance is mean + mean^2 / size.
    chance : array
        The chance of finding so many or more if nothing is wrong; 1 on a day without a find.
    raised : array of int
        ``ALARM`` or ``LOOK`` on the day one is raised, else 0.
    rate : array
        Dead found for each hundred animals in a day, as learned from what was found before the window.
    bunched : float
        How bunched deaths are in a window as learned to the last day; the higher, the less.
    """

    found: Floats
    expected: Floats
    size: Floats
    chance: Floats
    raised: Ints
    rate: Floats
    bunched: float


def at_risk(looked: Flags, animals: Floats, began: Ints) -> Floats:
    """Hundreds of animals times days that each look covers: what the number of dead found goes by.

    Parameters
    ----------
    looked : (B, T) bool array
        Days on which the bin was opened.
    animals : (B, T) array
        Animals in it.
    began : (B,) int array
        The day a bin began, which may lie before the first day.

    Returns
    -------
    (B, T) array
        0 on days without a look. Days since the look before count up to ``deaths.lie``: by then a dead animal is
        eaten.
    """
    bins, days = looked.shape
    last = began.astype(np.float64) - 1
    covered = np.zeros((bins, days))
    for day in range(days):
        here = looked[:, day]
        covered[:, day] = np.where(here, np.clip(day - last, 0.0, DEFAULTS["deaths.lie"].value), 0.0)
        last = np.where(here, day, last)
    return np.asarray(covered * animals / 100)


def follow_deaths(found: Floats, risk: Floats, animals: Floats) -> Watch:
    """Go through the days and say of every find how unlikely the window is that ends with it.

    Parameters
    ----------
    found : (B, T) array
        Dead found on each day.
    risk : (B, T) array
        From :func:`at_risk`; 0 where the bin wasn't opened.
    animals : (B, T) array
        Animals in it: a bin of few may raise an alarm with fewer dead.

    Returns
    -------
    Watch
        Nothing in it is NaN.

    Notes
    -----
    After an alarm a bin is quiet for ``deaths.quiet`` days, after a 'worth a look' for as long, an alarm excepted.
    Misleads when bins are opened without the dead being looked for or written down, when the number of animals is far
    off, and in the first weeks of a log, when what is usual is a starting guess.

    A window is judged anew at every find. Where finds are many the chance of a false alarm is that much larger, so the
    chance of the window is multiplied by the looks with a find that are expected in it, where that is above one.
    """
    bins, days = found.shape
    width = round(DEFAULTS["deaths.window"].value)
    in_window, risk_window = _window(found, width), _window(risk, width)
    expected, chance = np.zeros((bins, days)), np.ones((bins, days))
    size = np.full((bins, days), np.inf)
    raised = np.zeros((bins, days), dtype=np.int64)
    finds, rate = np.zeros((bins, days)), np.zeros((bins, days))
    usual, blocks = Usual.start(bins), Blocks()
    covered = 100 * risk / np.maximum(animals, 1.0)
    quiet, hushed = np.zeros(bins), np.zeros(bins)
    fewest = np.where(animals < DEFAULTS["deaths.few_animals"].value, 2, 3)
    for day in range(days):
        if day >= width:
            usual.learn(found[:, day - width], risk[:, day - width], covered[:, day - width])
        if day % usual.REFIT == 0:
            usual.refit(blocks)
        mean, spread = usual.expect(risk_window[:, day])
        expected[:, day], rate[:, day] = mean, usual.rate
        size[:, day] = usual.size(spread)
        here = (found[:, day] > 0) & (risk_window[:, day] > 0)
        chance[here, day] = so_many(in_window[here, day], mean[here], size[here, day])
        finds[:, day] = -np.expm1(-rate[:, day] * risk[:, day])
        rare = chance[:, day] * np.maximum(finds[:, max(day - width + 1, 0) : day + 1].sum(axis=1), 1.0)
        enough = here & (np.floor(in_window[:, day]) >= fewest[:, day])
        alarm = enough & (rare < DEFAULTS["deaths.alarm"].value) & (quiet <= 0)
        look = enough & (rare < DEFAULTS["deaths.look"].value) & (hushed <= 0) & ~alarm
        raised[:, day] = np.where(alarm, ALARM, np.where(look, LOOK, NONE))
        lasts = DEFAULTS["deaths.quiet"].value
        quiet = np.where(alarm, lasts, quiet - 1)
        hushed = np.where(alarm | look, lasts, hushed - 1)
        if day % width == width - 1:
            seen = risk_window[:, day] > 0
            most = far_above(mean[seen], size[seen, day])
            blocks.add(np.minimum(in_window[seen, day], most), mean[seen], spread[seen])
    return Watch(in_window, expected, size, chance, raised, rate, usual.bunched)


def so_many(found: Floats, mean: Floats, size: Floats) -> Floats:
    """The chance of finding so many dead or more, where the number is negative binomial.

    Parameters
    ----------
    found, mean, size : arrays of one shape
        Dead found (a part of one counts as none), the mean, and the size; with an infinite size it is Poisson.
    """
    number = np.floor(np.asarray(found, dtype=np.float64) + 1e-9)
    count = np.maximum(number, 1.0)
    bunched = np.where(np.isfinite(size), size, 1.0)
    tail = special.betainc(count, bunched, mean / (bunched + mean))
    plain = special.gammainc(count, mean)
    return np.asarray(np.where(number <= 0, 1.0, np.where(np.isfinite(size), tail, plain)))


def poisson_limits(found: float, share: float = 0.95) -> tuple[float, float]:
    """Limits of the mean behind a number found, if deaths come singly and by chance.

    Parameters
    ----------
    found : float
        A whole number, 0 or more.
    share : float
        How often such limits hold the mean, at the least.

    Sources
    -------
    Garwood (1936), Biometrika 28, 437-442. Checked in tests/published/test_poisson_limits_garwood.py.
    """
    if found < 0 or not 0 < share < 1:
        raise ValueError("a number found is 0 or more, and a share lies between 0 and 1")
    tail = (1 - share) / 2
    low = float(special.gammaincinv(found, tail)) if found > 0 else 0.0
    return low, float(special.gammainccinv(found + 1, tail))


def _window(values: Floats, width: int) -> Floats:
    """Sums over the days up to each, ``width`` of them."""
    total = np.cumsum(values, axis=1)
    before = np.zeros_like(total)
    before[:, width:] = total[:, :-width] if width < values.shape[1] else 0.0
    return np.asarray(np.maximum(total - before, 0.0))
