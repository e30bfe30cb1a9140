"""When a stock will be used up, and how it shrinks until then."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.special import ndtr

from workbook_tools.estimate._grid import MONTH, Floats
from workbook_tools.estimate.stock import Followed, Use

Flags = npt.NDArray[np.bool_]

LONGEST = 3650
"""Days ahead that are looked at. Later is "beyond"."""
AHEAD = np.unique(np.concatenate([np.arange(15), np.rint(np.geomspace(15, LONGEST, 100))])).astype(np.int64)
SHARES = (0.1, 0.5, 0.9)
POINTS, _WEIGHTS = np.polynomial.hermite_e.hermegauss(7)
POINT_SHARES = _WEIGHTS / _WEIGHTS.sum()


@dataclass(frozen=True, eq=False)
class Exposure:
    """How much will be eaten, by how many animals there will be.

    Parameters
    ----------
    daily
        (B, H) exposure of each coming day, 1 where 100 animals eat; the last column goes on for ever.
    sd
        (B, H) standard deviation of its natural log, from the error of the number of animals.
    """

    daily: Floats
    sd: Floats

    def until(self, days: int) -> tuple[Floats, Floats]:
        """Exposure added up over ``days``, and its relative error, both (B, 1)."""
        known = min(days, self.daily.shape[1])
        more = days - known
        total = self.daily[:, :known].sum(axis=1) + more * self.daily[:, -1]
        error = (self.daily * self.sd)[:, :known].sum(axis=1) + more * self.daily[:, -1] * self.sd[:, -1]
        return total[:, None], (error / np.maximum(total, 1e-12))[:, None]


@dataclass(frozen=True, eq=False)
class Outlook:
    """One bin's future, for all bins.

    Parameters
    ----------
    stock
        What is left: its `Followed` with the weights to believe, for each rate.
    rate
        (B, J).
    use
        How the stock shrinks.
    exposure
        Of the days to come.
    walk
        How far the log rate wanders in the square root of a month.
    shared
        How far off, in log, the pace may be for reasons that no note tells.
    """

    stock: Followed
    rate: Floats
    use: Use
    exposure: Exposure
    walk: float
    shared: float = 0.0

    def used(self, days: int) -> tuple[Floats, Floats]:
        """What the clock loses in ``days`` by eating, and the square of its relative error, both (B, J)."""
        total, sd = self.exposure.until(days)
        noise = 8 * self.use.day_noise() ** 2 / max(days, 1)
        error = noise + self.walk**2 * days / MONTH / 3 + self.shared**2 + sd**2
        return self.rate * total, np.broadcast_to(error, self.rate.shape)

    def chance_out(self, threshold: Floats, days: int) -> Floats:
        """Chance (B,) that no more than ``threshold`` (B, 1) is left after ``days``, at their mean exposure.

        What is left is taken at seven points of its normal; how fast it goes is uncertain by a factor, so that the
        days it lasts are log-normal and a doubtful rate doesn't make it last for ever.
        """
        span = max(days, 1)
        used, error = self.used(span)
        chance = np.zeros(len(self.rate))
        sd = np.sqrt(self.stock.variance)
        for place, share in zip(POINTS, POINT_SHARES, strict=True):
            mean = self.stock.mean + place * sd
            lasts, _, part = self.use.lasts(np.maximum(mean, threshold), threshold, used / span)
            log_sd = np.sqrt(part**2 * np.log1p(error) + 1e-6)
            gone = ndtr(np.log(np.maximum(days, 1e-3) / np.maximum(lasts, 1e-3)) / log_sd)
            chance += share * (self.stock.weight * np.where(mean <= threshold, 1.0, gone)).sum(axis=1)
        return chance

    def out_by(self, threshold: Floats) -> tuple[Floats, Flags]:
        """Days until ``threshold`` is reached, and whether that lies beyond what is looked at.

        Returns
        -------
        days
            (3, B): with 10, 50 and 90 % chance it has happened by then. At most `LONGEST`; 0 is "already".
        beyond
            (3, B) true where it is later than `LONGEST`.
        """
        chance = np.stack([self.chance_out(threshold, int(days)) for days in AHEAD], axis=1)
        chance = np.maximum.accumulate(chance, axis=1)
        found = [_first_at(chance, share) for share in SHARES]
        return np.stack([days for days, _ in found]), np.stack([beyond for _, beyond in found])

    def path(self, horizon: tuple[int, ...]) -> Floats:
        """What will be left on rising days: 10, 50 and 90 % (3, B, len(horizon)), never below 0."""
        slope = self.use.clock(self.stock.mean)[1]
        result = np.empty((3, len(self.rate), len(horizon)))
        mean, variance, before = self.stock.mean, self.stock.variance, 0
        for place, days in enumerate(horizon):
            if days > before:
                used, error = self.used(days)
                since = used - (self.used(before)[0] if before else 0.0)
                mean = self.use.left(self.use.clock(mean)[0] - since - self.use.idle(mean, days - before))
                variance = (slope**2 * self.stock.variance + used**2 * error) / self.use.clock(mean)[1] ** 2
                before = days
            for row, share in enumerate(SHARES):
                result[row, :, place] = mixture_quantile(self.stock.weight, mean, np.sqrt(variance), share)
        return np.maximum(result, 0.0)


def mixture_quantile(weight: Floats, mean: Floats, sd: Floats, share: float) -> Floats:
    """The value (B,) below which ``share`` of a mixture of normals lies; all (B, J)."""
    low = (mean - 8 * sd).min(axis=1)
    high = (mean + 8 * sd).max(axis=1)
    for _ in range(36):
        middle = (low + high) / 2
        under = (weight * ndtr((middle[:, None] - mean) / np.maximum(sd, 1e-12))).sum(axis=1) < share
        low, high = np.where(under, middle, low), np.where(under, high, middle)
    return np.asarray((low + high) / 2)


def _first_at(chance: Floats, share: float) -> tuple[Floats, Flags]:
    """Where each row (B, K) first reaches ``share``, in days, straight between two of `AHEAD`."""
    reached = chance >= share
    beyond = np.asarray(~reached.any(axis=1))
    at = np.where(beyond, len(AHEAD) - 1, reached.argmax(axis=1))
    before = np.maximum(at - 1, 0)
    rows = np.arange(len(chance))
    low, high = chance[rows, before], chance[rows, at]
    part = np.clip((share - low) / np.maximum(high - low, 1e-12), 0.0, 1.0)
    days = AHEAD[before] + part * (AHEAD[at] - AHEAD[before])
    return np.where(beyond, float(LONGEST), np.where(at == 0, 0.0, days)), beyond
