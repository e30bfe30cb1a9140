import math

import pytest

from workbook_tools.estimate.removal import carle_strub, log_likelihood, two_pass, zippin


def test_all_found_in_the_first_pass():
    found = zippin((38, 0, 0))

    assert (found.number, found.catchability, found.se, found.low) == (38, 1, 0, 38)
    assert 38 < found.high < 38.3


@pytest.mark.parametrize("catches", [(4, 2, 0), (5, 3, 1, 0), (12, 7, 2), (5, 1, 2), (41, 22, 9, 4)])
def test_limits_lie_where_the_likelihood_has_fallen_by_the_cut(catches):
    found = zippin(catches, level=0.8)
    best = log_likelihood(found.number, catches)

    assert sum(catches) <= found.low <= found.number < found.high
    assert best - log_likelihood(found.high, catches) == pytest.approx(0.8212, abs=1e-3)
    assert found.low == sum(catches) or best - log_likelihood(found.low, catches) == pytest.approx(0.8212, abs=1e-3)


def test_what_the_formulas_give_where_print_differs():
    # worked out here: the error by Zippin's formula, the number and its lower limit by the likelihood
    assert carle_strub((72, 56, 46, 30, 24)).se == pytest.approx(24.85, abs=0.005)
    found = zippin((77, 50, 37))
    assert (found.number, found.low) == pytest.approx((237.596539, 194.645), abs=5e-4)
    assert log_likelihood(found.number, (77, 50, 37)) - log_likelihood(found.low, (77, 50, 37)) == pytest.approx(
        1.9207, abs=1e-4
    )


@pytest.mark.parametrize("step", [-0.05, 0.05])
def test_the_number_has_the_highest_likelihood(step):
    found = zippin((77, 50, 37)).number

    assert log_likelihood(found, (77, 50, 37)) > log_likelihood(found + step, (77, 50, 37))


def test_rising_finds_have_a_lower_limit_only():
    found = zippin((5, 7, 8))

    assert found.number == found.high == found.se == math.inf
    assert 20 < found.low < 30


@pytest.mark.parametrize("catches", [(3,), (0, 0, 0), (0,)])
def test_one_pass_or_no_find_says_nothing_of_the_most(catches):
    found = zippin(catches)

    assert found.low == sum(catches) and found.high == math.inf


def test_a_wider_level_gives_wider_limits():
    narrow, wide = zippin((41, 22, 9, 4), level=0.8), zippin((41, 22, 9, 4), level=0.95)

    assert wide.low <= narrow.low and narrow.high < wide.high


def test_large_finds_are_handled():
    found = zippin((40_000, 20_000, 10_000))

    assert found.number == pytest.approx(80_000, rel=0.001)


def test_carle_strub_gives_a_number_where_finds_do_not_fall():
    assert carle_strub((10, 10, 10)).number == 58
    assert carle_strub((0, 0, 0)).number == 0


def test_two_passes_that_do_not_fall_have_no_number():
    assert two_pass(5, 5).number == math.inf
    assert two_pass(0, 0).high == math.inf
