"""How much of its variation a small line is likely to keep, from how many animals it had over time."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


def kept(breeders: Floats, generation: float) -> float:
    """Share of the expected heterozygosity kept: the product over generations of 1 - 1 / (2 Ne).

    Parameters
    ----------
    breeders : (T,) array
        Animals that breed in effect (Ne) on each day from the line's beginning.
    generation : float
        Days from one generation to the next.

    Returns
    -------
    float
        From 0 to 1; 1 before any day has passed.

    Notes
    -----
    The parents of each generation are those of its first day, the founders for the first. Of the generation that isn't
    over yet its part is counted. Misleads where animals came from outside the line, where few fathers sire most of the
    young, and where bins of the line never exchange animals: each bin alone loses more.

    The formula is that of population-genetics textbooks (Wright 1931).
    """
    days = len(breeders) - 1
    if days <= 0:
        return 1.0
    first = np.arange(0, days, generation)
    part = np.minimum((days - first) / generation, 1.0)
    parents = np.maximum(breeders[first.astype(np.int64)], 1.0)
    return float(np.exp(np.sum(part * np.log1p(-1 / (2 * parents)))))


def breeders_of(animals: Floats, share: float) -> Floats:
    """Animals that breed in effect: a ``share`` of ``animals`` (T,), but a pair breeds whole."""
    return np.maximum(animals * share, np.minimum(animals, 2.0))


def in_effect(breeders: Floats) -> float:
    """The one number of breeders that loses as much as numbers that change: their harmonic mean.

    Parameters
    ----------
    breeders : (G,) array
        Of each generation.
    """
    return float(len(breeders) / np.sum(1 / breeders))
