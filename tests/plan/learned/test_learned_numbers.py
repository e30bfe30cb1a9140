import datetime as dt
import math
from itertools import pairwise

import numpy as np
import pytest

from tools.rows import amount, bin_row, log_row, number, settings, words
from workbook_tools.estimate.recapture import chapman
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.numbers import Count
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.numbers import AHEAD, counted_as, forecast_numbers, numbers_of
from workbook_tools.problems import CellRef

ON = dt.date(2026, 3, 31)


def ago(days):
    return (ON - dt.timedelta(days=days)).isoformat()


def frame(*rows):
    return Frame.of(build_ledger([*rows], settings(), on=ON)[0], ON)


def forecast(*rows):
    made = frame(*rows)
    return forecast_numbers(made, numbers_of(made))


def count(days, value, way="full sort"):
    return log_row(ago(days), "A", "count", number=number(value), way=way)


OLD = bin_row("A", started="2025-01-01", founders=number(30), target=amount(400, "count"))


def test_census_by_marks_is_kept_beside_later_counts():
    rows = (
        log_row(ago(40), "A", "mark", number=number(60)),
        log_row(ago(36), "A", "recapture", number=number(50), marked=number(11)),
    )
    (found,) = forecast(OLD, *rows, count(8, 114))[0].values()
    known = chapman(60, 50, 11, level=0.8)
    assert (found.last_count, found.last_method) == (114, "hand sort")
    assert found.marks.day == ON - dt.timedelta(days=36)
    assert known.number * 0.8 < found.marks.number < known.number
    assert found.marks.low < found.marks.number < found.marks.high
    assert forecast(OLD, count(8, 114))[0]["A"].marks is None


def test_census_by_marks_stands_on_its_own_day_though_animals_left_on_it():
    rows = (
        log_row(ago(40), "A", "mark", number=number(60)),
        log_row(ago(36), "A", "recapture", number=number(50), marked=number(11)),
        log_row(ago(36), "A", "animals_out", number=number(10)),
    )
    assert forecast(OLD, *rows)[0]["A"].marks.day == ON - dt.timedelta(days=36)


def test_marks_of_which_none_came_back_have_no_upper_limit():
    rows = (
        log_row(ago(40), "A", "mark", number=number(60)),
        log_row(ago(36), "A", "recapture", number=number(50), marked=number(0)),
    )
    found = forecast(OLD, *rows)[0]["A"].marks
    assert found.high is None and found.number == found.low


def test_a_hide_lift_and_a_full_sort_a_week_apart_are_no_growth():
    found, _ = forecast(OLD, count(15, 40, "under bark"), count(8, 160))
    one = found["A"]
    assert 140 < one.now.middle < 240
    assert -0.2 < one.growth.middle < 0.4
    assert (one.last_count, one.last_method, one.basis.notes) == (160, "hand sort", 2)


def test_growing_bin_doubles_and_is_crowded_on_a_day():
    one = forecast(OLD, *(count(300 - 60 * n, 40 * 1.4**n) for n in range(6)))[0]["A"]
    assert one.growth.low < one.growth.middle < one.growth.high
    assert ON < one.crowded.middle < ON + dt.timedelta(days=400)
    assert one.crowding == 400
    assert not one.already
    assert one.doubles.middle is not None


def test_points_of_the_chart_are_weekly_from_the_past_to_half_a_year_ahead():
    path = forecast(OLD, count(30, 90))[0]["A"].path
    assert path[-1].day == ON + dt.timedelta(days=182)
    assert {(after.day - before.day).days for before, after in pairwise(path)} == {7}
    assert all(point.low <= point.middle <= point.high for point in path)
    new = forecast(bin_row("A", started=ago(20), founders=number(10)))[0]["A"].path
    assert new[0].day >= ON - dt.timedelta(days=20)


def test_nothing_known_says_so():
    one = forecast(bin_row("A"), log_row(ago(200), "A", "water"))[0]["A"]
    assert not one.counted
    assert (one.crowded, one.crowding, one.last_count, one.last_day) == (None, None, None, None)
    assert one.now.low < 50 < one.now.high


def test_a_closed_bin_eats_nothing():
    made = frame(bin_row("A", started="2025-01-01", status=words("gone")), bin_row("B"))
    numbers = numbers_of(made)
    assert numbers.exposure(ON.toordinal() - 9, 0.85)[0].tolist() == [0.0] * 10
    ahead, error = numbers.exposure_ahead(0.85)
    assert ahead.shape == error.shape == (2, AHEAD)
    assert (ahead[0] == 0).all()
    assert (ahead[1] > 0).all()


def test_numbers_on_any_day_lie_within_what_was_followed():
    made = frame(OLD, count(30, 90))
    numbers = numbers_of(made)
    asked = numbers.at(np.array([0, 0, 0]), np.array([1, ON.toordinal() - 30, ON.toordinal() + 500]))
    assert np.isfinite(asked).all()
    assert asked[2] == pytest.approx(numbers.now[0])


@pytest.mark.parametrize(
    ("method", "low", "high", "key"),
    [
        ("unsaid", 40, 40, "unsaid"),
        ("unsaid", 100, 500, "words"),
        ("unsaid", 100, math.inf, "words"),
        ("hide lift", 100, math.inf, "lift"),
        ("weighing", 100, 120, "weight"),
    ],
)
def test_way_of_counting_by_which_the_estimates_take_a_count(method, low, high, key):
    assert counted_as(Count(0, 1, low, low, high, method, CellRef("Log", 2))) == key


def test_a_bin_older_than_is_followed_is_taken_up_later():
    numbers = numbers_of(frame(bin_row("A", started="2012-01-01", founders=number(8)), count(30, 90)))
    assert ON.toordinal() - numbers.population.first_day == 5 * 365
    assert 60 < numbers.now[0] < 160


def test_a_count_on_the_day_of_a_sale_keeps_its_own_day():
    sold = log_row(ago(8), "A", "animals_out", number=number(20))
    assert forecast(OLD, count(8, 160), sold)[0]["A"].last_day == ON - dt.timedelta(days=8)


def test_a_lower_bound_stands_as_it_was_written():
    at_least = log_row(ago(8), "A", "count", number=Number(299, 230, math.inf), way="full sort")
    assert forecast(OLD, at_least)[0]["A"].last_count == 230
