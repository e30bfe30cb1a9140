import math

import numpy as np
import pytest

from workbook_tools.estimate.depletion import leslie


def test_a_line_without_noise_is_found_again():
    catches, left = [], 1000.0
    for minutes in (30, 20, 25, 20):
        catches.append(left * 0.01 * minutes)
        left -= catches[-1]
    found = leslie(catches, (30, 20, 25, 20))

    assert found.number == pytest.approx(1000)
    assert found.catchability == pytest.approx(0.01)
    assert found.number_se == pytest.approx(0, abs=1e-6)


def test_shorter_passes_are_not_taken_for_fewer_animals():
    assert leslie((40, 20, 10), (40, 20, 10)).number == math.inf
    assert leslie((40, 20, 10), (1, 1, 1)).number < 100


def test_finds_that_rise_have_no_number():
    assert leslie((5, 7, 8), (1, 1, 1)).number == math.inf
    assert leslie((0, 0, 0), (1, 1, 1)).number == math.inf


def test_two_passes_have_no_error():
    found = leslie((77, 37), (1, 1))

    assert found.number == pytest.approx(148.225)
    assert np.isnan(found.number_se) and np.isnan(found.catchability_se)


def test_one_pass_is_no_line():
    with pytest.raises(ValueError, match="two passes"):
        leslie((3,), (1,))
