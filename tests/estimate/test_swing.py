import numpy as np
import pytest

from workbook_tools.estimate import _swing
from workbook_tools.estimate._grid import span_chance, with_slips
from workbook_tools.estimate._swing import LASTS, OWN, WINDOW, find_swings, steps_of

GRID = np.linspace(-3, 3, 121)
SPACING = 0.05
SCALE = 0.4
USUAL = 0.3


def find(bin_of, age, value, bins=None):
    """Swings by notes of values known to a tenth, of bins whose usual is known to be 0."""
    bin_of, age, value = np.asarray(bin_of), np.asarray(age, dtype=float), np.asarray(value, dtype=float)
    bins = int(bin_of.max()) + 1 if bins is None else bins
    reach = SPACING * np.arange(-steps_of(SPACING), len(GRID) + steps_of(SPACING)) + GRID[0]
    table = np.exp(with_slips(span_chance(value[:, None] - 0.05, value[:, None] + 0.05, reach, SCALE), 0.01))
    weight = np.zeros((bins, len(GRID)))
    weight[:, np.abs(GRID).argmin()] = 1.0
    return find_swings(table, np.arange(len(value)), bin_of, age, weight, spacing=SPACING, usual=USUAL)


def every(days, bins, chance, of=lambda age: 0.0):
    """Every bin noted every second day."""
    age = np.repeat(np.arange(0, days, 2), bins)
    value = np.array([of(one) for one in age]) + chance.normal(0, SCALE, len(age))
    return np.tile(np.arange(bins), len(age) // bins), age, value


def test_the_swing_is_that_of_a_regression_on_all_windows():
    chance = np.random.default_rng(5)
    bin_of, age, value = every(40, 20, chance, lambda age: -0.5 if age < 16 else 0.1)
    found = find(bin_of, age, value)

    place = age // WINDOW
    windows = int(place.max()) + 1
    mean = np.array([value[place == at].mean() for at in range(windows)])
    error = np.array([SCALE**2 / (place == at).sum() + OWN**2 / 20 for at in range(windows)])
    apart = np.abs(np.arange(windows)[:, None] - np.arange(windows)) * WINDOW
    before = USUAL**2 * np.exp(-apart / LASTS)
    gain = before @ np.linalg.inv(before + np.diag(error))
    assert found.shift == pytest.approx(gain @ mean, abs=0.02)
    assert found.sd == pytest.approx(np.sqrt(np.diag(before - gain @ before)), rel=0.08)
    assert found.bins.tolist() == [20] * windows


def test_it_is_found_when_it_began_and_how_many_tell_so():
    found = find(*every(60, 30, np.random.default_rng(6), lambda age: -0.8 if age < 12 else 0.0))

    assert found.shift[0] == pytest.approx(-0.8, abs=0.2)
    assert found.since() in (12, 16)
    assert found.told(12) == 30
    assert found.at(np.array([0.0, 3.9, 50.0, 1e4])) == pytest.approx(
        [found.shift[0], found.shift[0], found.shift[50 // WINDOW], 0.0]
    )


def test_what_one_bin_does_is_not_what_all_do():
    bin_of, age, value = every(40, 30, np.random.default_rng(7))
    value[bin_of == 3] -= 1.2

    assert np.abs(find(bin_of, age, value).shift).max() < 0.15


def test_one_bin_alone_says_little():
    found = find(*every(40, 1, np.random.default_rng(8), lambda age: -1.0 if age < 8 else 0.0))

    assert found.sd[0] > 0.15
    assert -0.8 < found.shift[0] < -0.1


def test_without_a_recent_note_a_swing_is_as_usual_but_not_known():
    found = find([0, 1], [400.0, 500.0], [1.0, 1.0])

    assert found.shift[0] == pytest.approx(0.0, abs=1e-9)
    assert found.sd[0] == pytest.approx(USUAL, rel=0.02)
    assert not found.bins.any()


def test_a_swing_beyond_reach_stays_within_it():
    found = find(*every(20, 30, np.random.default_rng(9), lambda age: -2.9))

    assert -_swing.REACH - 1e-9 <= found.shift[0] < -1.2
