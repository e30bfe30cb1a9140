import math

import numpy as np
import pytest
from scipy.stats import hypergeom

from workbook_tools.estimate.recapture import bailey, chapman, schnabel, schumacher_eschmeyer


@pytest.mark.parametrize("catch", [(30, 25, 6), (5, 40, 1), (40, 60, 30), (12, 12, 11), (7, 9, 7)])
def test_limits_of_a_single_census_are_exact(catch):
    marked, caught, again = catch
    found = chapman(*catch, level=0.8)
    at_most = lambda total: hypergeom.cdf(again, total, marked, caught)  # noqa: E731
    at_least = lambda total: hypergeom.sf(again - 1, total, marked, caught)  # noqa: E731
    least = marked + caught - again
    if found.low > least and found.low < found.number:
        assert at_most(found.low) > 0.1 >= at_most(found.low - 1)
    assert at_least(found.high) > 0.1 >= at_least(found.high + 1)


def test_limits_don_t_lose_digits_where_animals_are_many():
    found = chapman(10, 10, 1, level=0.999999)
    assert math.isfinite(found.high)
    # caught again by chance one time in two million: about 100 / N
    assert found.high == pytest.approx(100 / 5e-7, rel=0.01)


def test_none_caught_again_gives_no_upper_limit():
    for found in (
        chapman(30, 30, 0),
        bailey(30, 30, 0),
        schnabel([30], [30], [0]),
        schumacher_eschmeyer([30], [30], [0]),
    ):
        assert math.isinf(found.high)
        assert 0 < found.low <= found.number


def test_all_marked_and_all_caught_are_all_there_are():
    assert (chapman(8, 8, 8).number, chapman(8, 8, 8).low, chapman(8, 8, 8).sd) == (8, 8, 0)


def test_number_is_never_below_what_must_be_there():
    for marked, caught, again in [(40, 60, 40), (40, 60, 0), (3, 1, 1), (1, 500, 1)]:
        for found in (
            chapman(marked, caught, again),
            schnabel([marked], [caught], [again]),
            schumacher_eschmeyer([marked, marked], [caught, caught], [again, again]),
        ):
            assert found.number >= marked + caught - again
            assert found.low <= found.number <= found.high
            assert found.normal()[0] >= found.least or math.isnan(found.sd)


def test_bailey_is_close_to_chapman_with_a_larger_error_for_meeting_one_animal_twice():
    one, other = bailey(948, 421, 167), chapman(948, 421, 167)
    assert one.number == pytest.approx(948 * 422 / 168)
    assert 0 < other.number - one.number < 2
    assert one.sd > other.sd
    assert (bailey(12, 5, 5).number, bailey(12, 5, 5).low) == (12, 12)


def test_perfect_shares_give_the_number_by_all_ways():
    marked, caught, again = [20, 40, 60], [50, 50, 50], [10, 20, 30]
    assert schnabel(marked, caught, again, added=0).number == pytest.approx(100)
    line = schumacher_eschmeyer(marked, caught, again)
    assert (line.number, line.low, line.high) == pytest.approx((100, 100, 100))


def test_a_line_needs_two_catches_for_an_upper_limit():
    assert math.isinf(schumacher_eschmeyer([0, 40], [30, 50], [0, 20]).high)
    assert schumacher_eschmeyer([0, 40], [30, 50], [0, 20]).number == pytest.approx(100)


@pytest.mark.parametrize("catch", [(5, 10, 6), (10, 5, 6), (-1, 3, 0), (3, -1, 0), (3, 3, -1)])
def test_numbers_that_cant_be_are_refused(catch):
    for way in (chapman, bailey):
        with pytest.raises(ValueError, match="marked"):
            way(*catch)
    for way in (schnabel, schumacher_eschmeyer):
        with pytest.raises(ValueError, match="marked"):
            way(*([x] for x in catch))


def test_80_percent_limits_hold_four_times_in_five_where_all_are_caught_alike():
    draw = np.random.default_rng(41)
    held = {"one": 0, "several": 0}
    runs = 300
    for _ in range(runs):
        total, marked, caught = draw.integers(60, 400), draw.integers(20, 50), draw.integers(15, 60)
        again = draw.hypergeometric(marked, total - marked, caught)
        found = chapman(int(marked), int(caught), int(again), level=0.8)
        held["one"] += found.low <= total <= found.high
        n = draw.integers(10, 30, size=5)
        there, met = [0], []
        for each in n:
            met.append(int(draw.hypergeometric(there[-1], total - there[-1], each)))
            there.append(there[-1] + int(each) - met[-1])
        found = schnabel(there[:-1], n.tolist(), met, level=0.8)
        held["several"] += found.low <= total <= found.high
    assert {way: count / runs >= 0.78 for way, count in held.items()} == {"one": True, "several": True}
