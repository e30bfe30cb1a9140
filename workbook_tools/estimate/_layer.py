"""How much leaf litter a full layer is."""

from __future__ import annotations

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import Floats, Ints

LAYERS = (0.02, 200.0)
"""Litres between which a full layer is believed to lie."""
GUESS_SD, COMMON_SD, TOP_UP_SD = 0.3, 0.5, 0.4
"""How far off, in the log, the first guess of a full layer may be for a bin and for all bins of a keeper alike, and how
much one top-up differs from half a layer."""


def guess_full(bin_of: Ints, litres: Floats, full: Floats) -> Floats:
    """Litres of a full layer (B,), from top-ups ``bin_of`` and ``litres`` (n,) and a first guess ``full`` (B,).

    A bin is believed to be topped up by half a layer. What the top-ups say is weighed, in the log, against the first
    guess (from the floor of the bin, say): for all bins together, since one keeper heaps leaves deeper than another,
    and then for each bin. A bin with neither gets the middle of all others, else the usual.
    """
    given = np.isfinite(full) & (full > 0)
    guess = np.log(np.where(given, full, 1.0))
    known = np.isfinite(litres) & (litres > 0)
    bin_of, litres = bin_of[known], litres[known]
    sort = np.lexsort((litres, bin_of))
    met, first, count = np.unique(bin_of[sort], return_index=True, return_counts=True)
    twice = np.log(litres[sort][first + count // 2] + litres[sort][first + (count - 1) // 2])
    noise = TOP_UP_SD**2 / count
    worth = np.where(given[met], 1 / (GUESS_SD**2 + noise), 0.0)
    guess = guess + (worth * (twice - guess[met])).sum() / (worth.sum() + 1 / COMMON_SD**2)
    layer = np.where(given, guess, np.nan)
    own = np.where(given[met], GUESS_SD**2 / (GUESS_SD**2 + noise), 1.0)
    layer[met] = (1 - own) * guess[met] + own * twice
    usual = np.log(DEFAULTS["litter.full"].value)
    middle = np.median(layer[np.isfinite(layer)]) if np.isfinite(layer).any() else usual
    return np.clip(np.exp(np.where(np.isfinite(layer), layer, middle)), *LAYERS)
