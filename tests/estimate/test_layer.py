import numpy as np
import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._layer import guess_full


def test_size_of_a_full_layer_weighs_the_first_guess_against_the_top_ups():
    full = guess_full(np.array([1, 1, 1, 2]), np.array([3.0, 1.0, 2.0, 1.0]), np.array([2.0, np.nan, 8.0, np.nan]))

    # One top-up of a litre says 2 litres against a guess of 8, a quarter. Half of that, in the log, is put down
    # to the keeper, so all guesses are halved; of the rest 0.09 / (0.09 + 0.16) is put down to the bin.
    third = 4.0 * 2**-0.36
    assert full == pytest.approx([1.0, 4.0, third, third])
    assert guess_full(np.array([], int), np.array([]), np.array([np.nan]))[0] == DEFAULTS["litter.full"].value
