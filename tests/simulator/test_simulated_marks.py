"""Numbers by marks against a simulated bin: fresh seeds, animals unlike each other, marks lost at moults."""

import numpy as np
import pytest

from simulator.marks import SEVERAL, SINGLE, SPARSE, held


@pytest.mark.parametrize("unlike", [0, 0.8, 1.3])
@pytest.mark.parametrize(
    ("days", "easy"),
    [(SINGLE, (0.1, 0.4)), (SEVERAL, (0.05, 0.25)), (SPARSE, (0.05, 0.15))],
    ids=["one", "more", "few"],
)
def test_the_interval_holds_the_truth_where_animals_moult(unlike, days, easy):
    found = held(2003, unlike=unlike, days=days, easy=easy, runs=120)
    assert found.runs > 80
    assert found.held >= 0.7


def test_numbers_fall_short_the_more_unlike_animals_are():
    errors = [np.nanmedian(held(2004, unlike=unlike, moult=0, runs=120).errors) for unlike in (0, 0.8, 1.3)]
    assert errors[0] > errors[1] > errors[2]
