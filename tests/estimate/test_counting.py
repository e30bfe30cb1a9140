import numpy as np
import pytest

from estimate.numbers_made import NAN, counts_of, seen
from workbook_tools.estimate.counting import EATEN, METHODS, as_seen


def observed(*rows):
    usable, places = counts_of(list(rows)).usable()
    return as_seen(usable), places


def test_a_value_is_scaled_by_the_share_its_way_sees():
    out, _ = observed(seen(0, 1, 30, "lift"), seen(0, 2, 30, "sort"))

    assert np.exp(out.value) == pytest.approx([30 / 0.25, 30 / 0.85])
    assert out.hold[0] > out.hold[1]
    assert out.variance[0] > out.variance[1]


@pytest.mark.parametrize("method", METHODS[:EATEN], ids=lambda method: method.key)
def test_a_methods_spread_holds_four_counts_of_five(method):
    assert method.low < method.share < method.high
    assert method.high / method.low == pytest.approx(np.exp(2 * 1.2815515655 * method.log_sd))
    assert 0 < method.held < 1


def test_bounds_words_and_none_are_told_apart():
    out, _ = observed(
        seen(0, 1, 50, "lift"),
        seen(0, 2, NAN, "lift", 24, 100),
        seen(0, 3, 130, "lift", 100, np.inf),
        seen(0, 4, 2.5, "lift", 0, 5),
        seen(0, 5, 0, "lift"),
    )

    assert out.kind.tolist() == [0, 1, 1, 1, 2]
    assert np.exp(out.low[1:3]) * 0.25 == pytest.approx([23.5, 99.5])
    assert np.exp(out.high[1:4]) * 0.25 == pytest.approx([100.5, 400.5, 5.5])
    assert np.isneginf(out.low[3:]).all()


def test_about_is_wider_than_exact():
    out, _ = observed(seen(0, 1, 50, "sort"), seen(0, 1, 50, "sort", 35, 65))

    assert out.variance[1] - out.variance[0] == pytest.approx((np.log(65 / 35) / 2.5631) ** 2, rel=1e-4)


def test_counts_that_say_nothing_are_left_out_and_places_kept():
    _, places = observed(
        seen(0, 1, NAN, "lift", 0, np.inf),
        seen(0, 1, NAN, "lift", NAN, NAN),
        seen(0, 1, 12),
        seen(0, 1, -4),
        seen(0, 1, np.inf),
        seen(0, 1, 12, "sort", 20, 10),
        seen(0, 1, NAN, "lift", 5, np.inf),
    )

    assert places.tolist() == [2, 6]
