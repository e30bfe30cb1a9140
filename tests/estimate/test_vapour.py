import numpy as np
import pytest

from workbook_tools.estimate.vapour import USUAL, room_air, saturation, vpd


def air(days, temperature, humidity, first=0, last=40):
    return room_air(
        np.array(days), np.array(temperature, float), np.array(humidity, float), first_day=first, last_day=last
    )


def test_saturated_and_oversaturated_air_has_no_deficit():
    assert vpd(20.0, 100.0) == 0.0
    assert vpd(20.0, 104.0) == 0.0
    assert vpd(20.0, 0.0) == saturation(20.0)


def test_between_readings_the_deficit_is_drawn_straight_and_far_from_them_it_is_the_mean():
    room = air([5, 15], [20, 20], [50, 30])

    half, dry = vpd(20, 50), vpd(20, 30)
    assert room.deficit[5] == pytest.approx(half)
    assert room.deficit[10] == pytest.approx((half + dry) / 2)
    assert room.deficit[40] == pytest.approx((half + dry) / 2)
    assert room.known[:26].all() and not room.known[26:].any()


def test_readings_of_one_day_are_averaged_as_deficits():
    room = air([3, 3], [10, 30], [50, 50], last=6)

    assert room.deficit[3] == pytest.approx((vpd(10, 50) + vpd(30, 50)) / 2)


def test_the_clock_adds_up_the_days_and_goes_on_beyond_the_ends():
    room = air([0], [20], [50], last=10)
    a_day = float(vpd(20, 50)) / USUAL

    assert room.clock(np.array([2, -4, 9]), np.array([5, 2, 14])) == pytest.approx([3 * a_day, 6 * a_day, 5 * a_day])
    assert room.pace(8) == pytest.approx(a_day)


def test_readings_that_are_none_are_left_out_and_without_any_there_is_no_clock():
    assert air([1, 2, 3], [np.nan, 20, 300], [50, 140, 50]) is None
    assert air([], [], []) is None
    assert np.isfinite(air([1, 2], [np.nan, 20], [50, 100]).deficit).all()


def test_a_fog_still_dries_a_little():
    assert air([0], [12], [100], last=3).deficit == pytest.approx(np.full(4, USUAL / 10))
