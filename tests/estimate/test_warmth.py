import numpy as np
import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.warmth import pace, yearly_warmth

USUAL, HOT = DEFAULTS["substrate.warmth"].value, DEFAULTS["substrate.hot"].value
YEAR = np.arange(366)


def test_without_readings_every_day_is_as_usual():
    none = np.zeros(0)
    assert yearly_warmth(none.astype(int), none, YEAR) == pytest.approx(np.full(366, USUAL))


def test_a_year_of_readings_gives_the_wave_of_the_next():
    def true(day):
        return 19 + 4 * np.cos(2 * np.pi * (day - 200) / 365.25)

    weeks = np.arange(0, 365, 7)
    coming = yearly_warmth(weeks, true(weeks), 365 + YEAR)
    assert np.abs(coming - true(365 + YEAR)).max() < 0.5


def test_a_cold_month_says_little_of_the_summer():
    winter = yearly_warmth(np.arange(0, 30, 7), np.full(5, 15.0), np.array([15, 197]))
    assert 15 < winter[0] < 17
    assert winter[1] > winter[0] + 2
    assert winter[1] < USUAL + 1


def test_twice_as_fast_for_ten_degrees_and_no_faster_in_heat():
    assert pace(np.array([USUAL - 10, USUAL])) == pytest.approx([0.5, 1.0])
    assert pace(np.array([HOT + 5])) == pace(np.array([HOT]))
