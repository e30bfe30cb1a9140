import datetime as dt

import numpy as np
import pytest

from workbook_tools.plan.learned.records import Point, Range
from workbook_tools.plan.learned.totals import EIGHTY, added, added_paths

DAY = dt.date(2026, 3, 14)


def log_normal(middle, sd):
    return Range(middle * np.exp(-EIGHTY * sd), middle, middle * np.exp(EIGHTY * sd))


@pytest.mark.parametrize(("bins", "sd"), [(2, 0.3), (12, 0.6), (58, 0.4)])
def test_a_sum_has_the_quantiles_that_drawing_gives(bins, sd):
    middles = np.geomspace(20, 400, bins)
    total = added(log_normal(middle, sd) for middle in middles)
    drawn = np.random.default_rng(7).lognormal(np.log(middles), sd, (200_000, bins)).sum(axis=1)
    assert [total.low, total.middle, total.high] == pytest.approx(np.quantile(drawn, [0.1, 0.5, 0.9]), rel=0.02)


def test_one_bin_stays_as_it_is_and_none_is_nothing():
    one = Range(3.0, 5.0, 6.0)
    assert added([one]) == one
    assert added([one, Range(0.0, 0.0, 0.0)]) == one
    assert added([]) == Range(0.0, 0.0, 0.0)


def test_odd_ranges_give_a_finite_sum_in_order():
    total = added([Range(0.0, 2.0, 9.0), Range(5.0, 5.0, 5.0), Range(0.0, 0.0, 4.0), Range(1.0, 0.5, 0.4)])
    assert 0 < total.low <= total.middle <= total.high < 30


def test_a_path_counts_a_bin_from_its_first_point():
    week = dt.timedelta(weeks=1)
    old = [Point(DAY + i * week, 10.0, 10.0, 10.0) for i in range(3)]
    young = [Point(DAY + 2 * week, 5.0, 5.0, 5.0)]
    path = added_paths([young, old])
    assert [point.day for point in path] == [DAY, DAY + week, DAY + 2 * week]
    assert [point.middle for point in path] == pytest.approx([10, 10, 15])
