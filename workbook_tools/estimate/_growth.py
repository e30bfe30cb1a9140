"""How numbers go from one evening to the next: growth, crowding, and animals that come and go.

Three states a bin: ``x`` the natural log of the number, ``g`` its growth per month with room to spare, and ``b`` how
easily its animals are seen when counted, against other bins, in standard deviations.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import MONTH, Floats, Ints
from workbook_tools.estimate._kalman import predict

STATES = 3
LEAST_LEFT = 0.02
"""A share taken is never more than all but this; what takes all is an end, not a split."""
FLOOR = 3.0
"""Animals left when more were taken than there were believed to be, give or take this much on the log scale:"""
FLOOR_SD = 1.0
KEEPS_B = 0.97
"""What lasts a month of how easily a bin's animals are seen: hides are moved, substrate is renewed."""
MOST_CROWDED = 2.0
LEAST, MOST = float(np.log(0.5)), 25.0
"""Log numbers beyond these are cut: half an animal, and more than any bin holds."""
ROOT3 = float(np.sqrt(3.0))


@dataclass(frozen=True, eq=False)
class Moves:
    """Animals that came or went, one move an element, in any order.

    Parameters
    ----------
    bin, day
        (n,) index of the bin and day number. What happens on the day a bin starts belongs to its start number, unless
        that is NaN: then it is the start number.
    change
        (n,) animals, negative for those that left or were found dead; NaN where a share is given.
    share
        (n,) share of the animals that left, 0 to 1, or NaN. 1 empties the bin.
    source
        (n,) -1, or the bin whose ``share`` came here: the other half of a split.
    """

    bin: Ints
    day: Ints
    change: Floats
    share: Floats
    source: Ints


@dataclass(frozen=True, eq=False)
class Jumps:
    """The moves of one day summed by bin.

    ``touched`` and ``emptied`` are bins; the others are (B,): log of what stays, animals added, and their variances.
    """

    touched: Ints
    stays: Floats
    stays_variance: Floats
    added: Floats
    added_variance: Floats
    emptied: Ints


def growth_prior(appetite: Ints) -> tuple[Floats, Floats]:
    """Mean and standard deviation of growth per month by appetite class, each (B,).

    The ranges in `defaults` hold for thin bins that thrive. Of the bins in a room some are full or failing, so that
    the mean is a part of theirs and the spread wider.
    """
    thin = np.array([DEFAULTS[f"numbers.growth.{name}"].value for name in ("slow", "medium", "hearty")])
    mean = (thin * DEFAULTS["numbers.thriving"].value)[appetite]
    return mean, np.full(len(mean), DEFAULTS["numbers.growth_spread"].value)


@dataclass(frozen=True, eq=False)
class Growth:
    """One day of growth for all bins.

    Growth is ``g - usual * number / room`` per month: crowding takes away what such bins usually grow by once the
    number reaches ``room`` (B,), inf when it isn't known. ``settled`` (B,) is the ``g`` to which a bin returns in time.
    A bin that dies off does so whatever its room.
    """

    room: Floats
    usual: Floats
    settled: Floats

    @classmethod
    def of(cls, room: Floats, usual: Floats) -> Growth:
        """Without a known end of growth a bin is believed to near it unseen: its growth comes to little in time."""
        return cls(room, usual, np.where(np.isinf(room), DEFAULTS["numbers.settled"].value, usual))

    def pull(self, x: Floats) -> Floats:
        """What crowding takes off growth per month at log number ``x``, (..., B)."""
        return self.usual * np.minimum(np.exp(np.minimum(x, MOST)) / self.room, MOST_CROWDED)

    def day(self, mean: Floats, cov: Floats, gone: Floats) -> tuple[Floats, Floats, Floats]:
        """Mean, covariance and cross covariance a day on; ``gone`` (B,) is the chance that nobody is left to breed."""
        pull = self.pull(mean[0])
        live = (1 - gone) / MONTH
        fade = DEFAULTS["numbers.fade"].value ** (1 / MONTH)
        keeps_b = KEEPS_B ** (1 / MONTH)
        transition = np.zeros((STATES, STATES, mean.shape[1]))
        transition[0, 0] = 1 - np.where(pull < self.usual * MOST_CROWDED, pull, 0.0) * live
        transition[0, 1] = live
        transition[1, 1] = fade
        transition[2, 2] = keeps_b
        noise = np.zeros((STATES, STATES, 1))
        noise[0, 0] = DEFAULTS["numbers.wander"].value ** 2 / MONTH
        noise[1, 1] = DEFAULTS["numbers.growth_wander"].value ** 2 / MONTH
        noise[2, 2] = 1 - keeps_b**2
        _, ahead, cross = predict(mean, cov, transition, noise)
        after = np.stack(
            [mean[0] + (mean[1] - pull) * live, fade * mean[1] + (1 - fade) * self.settled, keeps_b * mean[2]]
        )
        return after, ahead, cross


def sum_moves(moves: Moves, now: Ints, mean: Floats, cov: Floats) -> Jumps:
    """The moves ``now`` (indices) by bin; what comes from another bin is a share of that bin's number this morning."""
    bins = mean.shape[1]
    spread = DEFAULTS["numbers.split_error"].value ** 2
    where, share, source = moves.bin[now], moves.share[now], moves.source[now]
    comes = source >= 0
    leaves = ~comes & np.isfinite(share)
    stays = np.where(leaves, np.log(np.clip(1 - np.where(leaves, share, 0.0), LEAST_LEFT, 1.0)), 0.0)
    number = np.exp(np.minimum(mean[0, source], MOST))
    part = np.where(np.isfinite(share), share, 0.0)
    added = np.where(comes, part * number, np.where(np.isfinite(moves.change[now]), moves.change[now], 0.0))
    doubt = np.where(comes, added**2 * (np.minimum(cov[0, 0, source], 1.0) + spread), 0.0)
    return Jumps(
        touched=np.unique(where),
        stays=_totals(where, stays, bins),
        stays_variance=_totals(where, np.where(leaves, spread, 0.0), bins),
        added=_totals(where, added, bins),
        added_variance=_totals(where, doubt, bins),
        emptied=np.unique(where[leaves & (share > 1 - LEAST_LEFT)]),
    )


def _totals(where: Ints, amount: Floats, bins: int) -> Floats:
    return np.asarray(np.bincount(where, amount, bins), dtype=np.float64)


def jump(mean: Floats, cov: Floats, cross: Floats, jumps: Jumps) -> tuple[Floats, Floats, Floats]:
    """State after the moves of a day, by three sigma points of the log number in each bin touched.

    Taking away a fixed number makes a small colony less certain, adding makes it more so; a share changes neither.
    """
    mean, cov, cross = mean.copy(), cov.copy(), cross.copy()
    at = jumps.touched
    sd = np.sqrt(cov[0, 0, at])
    added = jumps.added[at]
    points = np.stack([mean[0, at], mean[0, at] - ROOT3 * sd, mean[0, at] + ROOT3 * sd]) + jumps.stays[at]
    there = np.exp(np.clip(points, LEAST, MOST))
    least = np.minimum(there, FLOOR)
    number = np.maximum(there + added, least)
    moved = np.log(number)
    short = (there + added < least) & (added < 0)
    middle = (4 * moved[0] + moved[1] + moved[2]) / 6
    slope = (moved[2] - moved[1]) / (2 * ROOT3 * sd)
    variance = (4 * (moved[0] - middle) ** 2 + (moved[1] - middle) ** 2 + (moved[2] - middle) ** 2) / 6
    variance += jumps.stays_variance[at] + jumps.added_variance[at] / number[0] ** 2
    variance += (4 * short[0] + short[1] + short[2]) / 6 * FLOOR_SD**2
    mean[0, at] = middle
    cov[0, :, at] *= slope[:, None]
    cov[:, 0, at] = cov[0, :, at].T
    # no less than what the other states explain of it, so that the covariance stays positive definite
    cov[0, 0, at] = variance + 1e-4
    cross[:, 0, at] *= slope
    return mean, cov, cross


def by_day(days: Ints, order: Ints) -> dict[int, Ints]:
    """Indices ``order`` grouped by their day, in the order given."""
    if len(order) == 0:
        return {}
    sorted_ = order[np.argsort(days[order], kind="stable")]
    cuts = np.flatnonzero(np.diff(days[sorted_])) + 1
    return {int(days[group[0]]): group for group in np.split(sorted_, cuts)}


def rounds(bins: Ints, group: Ints) -> Iterator[Ints]:
    """Split a day's indices so that each part holds a bin once: the first of each bin, then the second, and so on."""
    left = group
    while len(left):
        _, first = np.unique(bins[left], return_index=True)
        yield left[np.sort(first)]
        left = np.delete(left, first)
