"""Short ways to write counts and moves in tests of the numbers."""

import numpy as np

from workbook_tools.estimate.counting import METHOD_INDEX, Counts
from workbook_tools.estimate.population import Moves, Population, follow_numbers

NAN = float("nan")


def seen(bin, day, value, way="sort", low=None, high=None):
    """One count: exact unless bounds are given."""
    return bin, day, value, value if low is None else low, value if high is None else high, METHOD_INDEX[way]


def move(bin, day, change=NAN, share=NAN, source=-1):
    """One move."""
    return bin, day, change, share, source


def counts_of(rows):
    kinds = (np.int64, np.int64, float, float, float, np.int64)
    return Counts(*(np.array([row[i] for row in rows], dtype=kind) for i, kind in enumerate(kinds)))


def moves_of(rows):
    kinds = (np.int64, np.int64, float, float, np.int64)
    return Moves(*(np.array([row[i] for row in rows], dtype=kind) for i, kind in enumerate(kinds)))


def follow(
    counts=(), moves=(), *, bins=1, days=365, start=0, number=NAN, sd=NAN, crowding=NAN, appetite=1
) -> Population:
    """Follow from day 0; one value stands for all bins."""

    def each(value, kind=float):
        return np.broadcast_to(np.asarray(value, dtype=kind), (bins,)).copy()

    return follow_numbers(
        counts_of(list(counts)),
        moves_of(list(moves)),
        bins=bins,
        start_day=each(start, np.int64),
        start_number=each(number),
        start_sd=each(sd),
        crowding=each(crowding),
        appetite=each(appetite, np.int64),
        first_day=0,
        last_day=days,
    )
