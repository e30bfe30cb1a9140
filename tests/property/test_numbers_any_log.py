"""Whatever is counted and moved, the numbers are finite and in order."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from estimate.numbers_made import follow, move, seen
from workbook_tools.estimate.counting import METHOD_INDEX

BINS, DAYS = 3, 60
WAYS = st.sampled_from(sorted(METHOD_INDEX))
VALUE = st.one_of(st.integers(0, 20000).map(float), st.floats(0, 1e6), st.just(float("nan")))
EDGE = st.one_of(st.none(), VALUE, st.just(float("inf")))
COUNT = st.builds(seen, st.integers(0, BINS - 1), st.integers(-5, DAYS + 5), VALUE, WAYS, EDGE, EDGE)
MOVE = st.one_of(
    st.builds(move, st.integers(0, BINS - 1), st.integers(-5, DAYS + 5), st.floats(-5000, 5000)),
    st.builds(
        lambda bin, day, share, source: move(bin, day, share=share, source=source),
        st.integers(0, BINS - 1),
        st.integers(0, DAYS),
        st.floats(-0.5, 1.5),
        st.integers(-1, BINS - 1),
    ),
)
NUMBER = st.one_of(st.just(float("nan")), st.floats(0, 5000))


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    counts=st.lists(COUNT, max_size=12),
    moves=st.lists(MOVE, max_size=8),
    number=NUMBER,
    crowding=NUMBER,
    starts=st.lists(st.integers(-400, DAYS + 3), min_size=BINS, max_size=BINS),
)
def test_numbers_are_finite_and_in_order(counts, moves, number, crowding, starts):
    population = follow(
        counts, moves, bins=BINS, days=DAYS, start=starts, number=number, crowding=crowding, appetite=[0, 1, 2]
    )

    for values in (population.log_mean, population.log_sd, *population.growth, population.gone, population.odd):
        assert np.isfinite(values).all()
    assert (population.log_sd > 0).all()
    assert (np.linalg.eigvalsh(np.moveaxis(population.cov, 2, 0)) > 0).all()
    for points in (population.today, population.forecast(90)):
        low, middle, high = points
        assert (low <= middle).all() and (middle <= high).all() and np.isfinite(high).all()
    for until in (population.doubling(), population.crowding_day()):
        assert (until.low <= until.middle).all() and (until.middle <= until.high).all()
        assert (until.high <= until.horizon).all() and (until.low >= 0).all()


@settings(max_examples=15, deadline=None, derandomize=True)
@given(counts=st.lists(COUNT, min_size=2, max_size=8), moves=st.lists(MOVE, max_size=5))
def test_the_order_of_bins_and_moves_doesnt_matter(counts, moves):
    # counts of one bin and day are taken in the order noted, so those are kept apart here
    counts = list({(row[0], row[1]): row for row in counts}.values())
    there = follow(counts, moves, bins=BINS, days=DAYS)
    back = follow(counts[::-1], moves[::-1], bins=BINS, days=DAYS)

    assert np.allclose(there.log_mean, back.log_mean, atol=1e-8)
    assert np.allclose(there.log_sd, back.log_sd, atol=1e-8)
