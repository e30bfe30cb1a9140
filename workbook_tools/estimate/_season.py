"""What slows or hastens the drying of all bins together, told from their own notes: season, heating, weather."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workbook_tools.estimate._grid import Floats, Ints

WINDOW = 14
"""Days over which one common pace is taken to hold."""
SPREAD = 0.3
"""How far, in log, the common pace wanders from its mean over a year."""
KEPT = 0.9
"""Share of the distance from the mean that is left after one window."""
FURTHEST = 1.0
"""Log distance beyond which a common pace isn't looked for."""
OLDEST = 80


@dataclass(frozen=True, eq=False)
class Season:
    """Log of how much longer all bins take than usual: ``slow`` (W,) by window, 0 the newest, and ``sd`` of now."""

    slow: Floats
    sd: float


CALM = Season(np.zeros(OLDEST), SPREAD)


def window(age: Ints) -> Ints:
    """Window in which a note of this age (days) lies."""
    return np.clip(age // WINDOW, 0, OLDEST - 1)


def follow_season(weight: Floats, like: Floats, grid: Floats, bin_of: Ints, kind: Ints, when: Ints) -> Season:
    """Find the common pace of each window.

    Parameters
    ----------
    weight
        (B, J) what is believed of the log time of each bin.
    like
        (K, J) likelihood of each kind of note over the same grid, slips included.
    grid
        (J,) evenly spaced.
    bin_of, kind, when
        (n,) bin, kind and window of each note.

    Notes
    -----
    A log pace that returns to its mean, on the steps of the grid, by the forward and backward sums of a hidden Markov
    chain. With few bins it can't be told from the bins' own times and stays near the mean.
    """
    step = grid[1] - grid[0]
    reach = int(FURTHEST / step)
    shifts = np.arange(-reach, reach + 1)
    padded = np.pad(like, ((0, 0), (reach, reach)), mode="edge")
    seen = np.zeros((OLDEST, len(shifts)))
    size = len(grid)
    for place, shift in enumerate(shifts):
        moved = padded[:, reach + shift : reach + shift + size]
        chance = np.einsum("nj,nj->n", weight[bin_of], moved[kind])
        seen[:, place] = np.bincount(when, np.log(chance), OLDEST)
    pace = shifts * step
    start = _normal(pace, 0.0, SPREAD)
    change = np.stack([_normal(pace, KEPT * at, SPREAD * np.sqrt(1 - KEPT**2)) for at in pace])
    emit = np.exp(seen - seen.max(axis=1, keepdims=True))
    before = np.empty_like(emit)
    carried = start
    for at in range(OLDEST - 1, -1, -1):
        before[at] = carried * emit[at]
        before[at] /= before[at].sum()
        carried = before[at] @ change
    after = np.ones(len(shifts))
    slow = np.empty(OLDEST)
    for at in range(OLDEST):
        here = before[at] * after
        here /= here.sum()
        slow[at] = here @ pace
        after = change @ (emit[at] * after)
        after /= after.max()
    spread = float(np.sqrt(before[0] @ pace**2 - (before[0] @ pace) ** 2))
    return Season(slow, spread)


def _normal(at: Floats, mean: float, sd: float) -> Floats:
    density = np.exp(-0.5 * ((at - mean) / sd) ** 2)
    return np.asarray(density / density.sum(), dtype=np.float64)
