"""What moves all bins of a room at once for some days or weeks: cold, heat, a spell of dry air."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from workbook_tools.estimate._grid import TINY, Floats, Ints

WINDOW = 4
"""Days taken together."""
LASTS = 28.0
"""Days after which a swing has shrunk to a third, as a rule."""
OLDEST = 160
"""Days back that are looked at: older notes hardly count."""
REACH = 1.8
"""The largest swing looked for, in log: six times as much, or a sixth."""
OWN = 0.3
"""How far, in log, one bin strays by itself within a window: what one bin does isn't what all do."""


@dataclass(frozen=True, eq=False)
class Swings:
    """How far, in log, all bins together were above their own usual, by windows of `WINDOW` days back from now.

    ``shift`` and ``sd`` (W,), and ``bins`` (W,) how many bins tell of each. Beyond the last window there is none.
    """

    shift: Floats
    sd: Floats
    bins: Ints

    def at(self, age: Floats) -> Floats:
        """The swing so many days ago."""
        place = np.maximum(age, 0.0) // WINDOW
        inside = place < len(self.shift)
        return np.where(inside, self.shift[np.where(inside, place, 0).astype(np.int64)], 0.0)

    def since(self) -> int:
        """Days ago that the swing of now began: when it had come half of its way."""
        way = self.shift / self.shift[0] if self.shift[0] else np.zeros(1)
        before = np.flatnonzero(way < 0.5)
        return int(before[0] if before.size else len(self.shift)) * WINDOW

    def told(self, days: int) -> int:
        """The most bins that tell of one window of the last ``days``."""
        return int(self.bins[: days // WINDOW].max(initial=0))


def steps_of(spacing: float) -> int:
    """How many steps of a grid `REACH` is."""
    return int(np.ceil(REACH / spacing))


def find_swings(
    chance: Floats, kind: Ints, bin_of: Ints, age: Floats, weight: Floats, *, spacing: float, usual: float
) -> Swings:
    """Find what all bins have in common.

    Parameters
    ----------
    chance
        (K, J + 2 S) how likely each kind of note is at each log rate, on a grid that reaches ``S = steps_of(spacing)``
        steps further than that of ``weight`` at both ends. Never 0.
    kind, bin_of, age
        (n,) of each note: its row in ``chance``, its bin, days ago.
    weight
        (B, J) how likely each log rate is, as usual.
    spacing
        Of the grid.
    usual
        How far, in log, bins swing together as a rule.

    Notes
    -----
    The swing follows an autoregression of first order about 0 (a common factor of a panel), smoothed forward and
    back on a grid. One bin says little, as it may stray by itself; sixty say it within days. Misleads when the keeper
    changes the food, the moss or the words for all bins at once, and while most bins were looked at before the swing
    began.
    """
    reach = steps_of(spacing)
    swing = np.asarray(spacing * np.arange(-reach, reach + 1), dtype=np.float64)
    windows = int(min(max(age.max(initial=0.0), 0.0), OLDEST) // WINDOW) + 1
    place = (np.maximum(age, 0.0) // WINDOW).astype(np.int64)
    recent = place < windows
    kind, bin_of, place = kind[recent], bin_of[recent], place[recent]
    log_like = np.zeros((windows, len(swing)))
    order = np.argsort(bin_of, kind="stable")
    _, first = np.unique(bin_of[order], return_index=True)
    for start, stop in pairwise([*first.tolist(), len(order)]):
        own = order[start:stop]
        told = chance[kind[own]] @ _shifted(weight[bin_of[own[0]]], len(swing))
        np.add.at(log_like, place[own], np.log(told + TINY))
    pairs = np.unique(place * len(weight) + bin_of)
    bins = np.bincount(pairs // len(weight), minlength=windows)
    like = _blurred(np.exp(log_like - log_like.max(axis=1, keepdims=True)), swing, OWN / np.sqrt(np.maximum(bins, 1)))
    shift, sd = _smoothed(like, swing, usual)
    return Swings(shift, sd, bins)


def _shifted(weight: Floats, steps: int) -> Floats:
    """The weights of one bin (J,) moved down by 0, 1, ... rows, (J + steps - 1, steps)."""
    size = len(weight)
    moved = np.zeros((size + steps - 1, steps))
    for step in range(steps):
        moved[step : step + size, step] = weight
    return moved


def _blurred(like: Floats, swing: Floats, sd: Floats) -> Floats:
    """The likelihood of each window (W, K) with an error ``sd`` (W,) added."""
    apart = swing[:, None] - swing
    kernel = np.exp(-0.5 * (apart / np.maximum(sd, 1e-3)[:, None, None]) ** 2)
    return np.asarray(np.einsum("wj,wjk->wk", like, kernel / kernel.sum(axis=1, keepdims=True)))


def _smoothed(like: Floats, swing: Floats, usual: float) -> tuple[Floats, Floats]:
    """Mean and spread of the swing of each window, by all windows; the first is the newest."""
    keep = np.exp(-WINDOW / LASTS)
    start = np.exp(-0.5 * (swing / usual) ** 2)
    step = np.exp(-0.5 * ((swing - keep * swing[:, None]) / (usual * np.sqrt(1 - keep**2))) ** 2)
    step /= step.sum(axis=1, keepdims=True)
    so_far = np.empty_like(like)
    before = start / start.sum()
    for at in range(len(like) - 1, -1, -1):
        so_far[at] = before * like[at]
        so_far[at] /= so_far[at].sum()
        before = so_far[at] @ step
    chance = so_far.copy()
    later = np.ones(len(swing))
    for at in range(1, len(like)):
        later = step @ (later * like[at - 1])
        later /= later.sum()
        chance[at] *= later
        chance[at] /= chance[at].sum()
    mean = chance @ swing
    return mean, np.sqrt(np.maximum(chance @ swing**2 - mean**2, 0.0))
