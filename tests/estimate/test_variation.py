import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.estimate.variation import breeders_of, in_effect, kept


def test_parents_are_those_of_the_first_day_of_each_generation():
    numbers = np.array([5.0] * 100 + [50.0] * 101)
    assert kept(numbers, 100) == pytest.approx((1 - 1 / 10) * (1 - 1 / 100))


def test_part_of_a_generation_counts_in_part():
    assert kept(np.full(51, 10.0), 100) == pytest.approx(0.95**0.5)
    assert kept(np.full(1, 10.0), 100) == 1.0
    assert kept(np.empty(0), 100) == 1.0


def test_less_than_one_breeder_counts_as_one():
    assert kept(np.zeros(101), 100) == pytest.approx(0.5)


@given(st.lists(st.floats(1, 1e5), min_size=2, max_size=400), st.floats(1, 500))
def test_kept_is_a_share_and_more_breeders_keep_more(numbers, generation):
    few = kept(np.array(numbers), generation)
    assert 0 < few <= 1
    assert few <= kept(2 * np.array(numbers), generation)


@given(st.lists(st.integers(2, 1000), min_size=1, max_size=20))
def test_harmonic_mean_keeps_what_the_numbers_keep_nearly(each):
    days = np.repeat(np.array(each, dtype=float), 10)
    level = np.full(10 * len(each) + 1, in_effect(np.array(each, dtype=float)))
    assert kept(np.append(days, 1.0), 10) == pytest.approx(kept(level, 10), rel=0.2)


def test_a_pair_breeds_whole_and_loses_a_quarter_in_a_generation():
    assert breeders_of(np.array([1.0, 2.0, 5.0, 100.0]), 0.3).tolist() == [1.0, 2.0, 2.0, 30.0]
    assert kept(breeders_of(np.full(101, 2.0), 0.3), 100) == pytest.approx(0.75)
