"""The estimates on two small simulated keepers, from their rows on: bounds wide enough to catch breaks only.

What is measured on many keepers comes from ``run.py``.
"""

from __future__ import annotations

from functools import partial

import numpy as np
import pytest

from simulator.engine import forecast
from simulator.run import judge, keep
from simulator.score import QUANTITIES, Score, figures, gone, late

DENSE, SPARSE = 41, 42
BINS = 30


@pytest.fixture(scope="module")
def scores() -> dict[str, Score]:
    one = partial(judge, engine=forecast, wrong=False, bins=BINS)
    return {
        "dense": one(DENSE, density="dense", days=200),
        "sparse": one(SPARSE, density="sparse", days=125),
    }


@pytest.mark.parametrize(
    ("density", "name", "rule", "most"),
    [
        ("dense", "dry", "mean of last 3", 0.85),
        ("dense", "eaten", "mean of last 3", 1.15),
        ("dense", "later", "last count", 0.6),
        ("sparse", "later", "last count", 0.7),
    ],
)
def test_errors_are_smaller_than_those_of_simple_rules(
    scores: dict[str, Score], density: str, name: str, rule: str, most: float
) -> None:
    assert figures(name, scores[density].kept[name]).ratios[rule][0] < most


@pytest.mark.parametrize("density", ["dense", "sparse"])
@pytest.mark.parametrize("name", QUANTITIES)
def test_intervals_hold_many_truths(scores: dict[str, Score], density: str, name: str) -> None:
    result = figures(name, scores[density].kept[name])
    assert result.rows > 5
    if result.rows > 50:
        assert 0.5 <= result.coverage <= 1


@pytest.mark.parametrize("density", ["dense", "sparse"])
def test_few_moss_corners_dry_before_they_are_looked_at(scores: dict[str, Score], density: str) -> None:
    assert late(scores[density])[0] < 0.15


@pytest.mark.parametrize("density", ["dense", "sparse"])
def test_portions_are_neither_crumbs_nor_heaps(scores: dict[str, Score], density: str) -> None:
    assert 0.3 < gone(scores[density])[0] < 0.97
    assert gone(scores[density], 2)[0] > 0.3


@pytest.mark.parametrize("given", ["numbers", "future"])
def test_true_numbers_change_what_is_said_of_litter_and_substrate_and_of_nothing_else(given: str) -> None:
    world, diary = keep(SPARSE, wrong=False, density="sparse", bins=12, days=70)
    day = max(diary.stood)
    by_log, by_truth = forecast(world, diary, day), forecast(world, diary, day, given=given)
    for name in QUANTITIES:
        same = np.array_equal(by_log.said[name], by_truth.said[name])
        assert same == (name not in ("out", "spent"))
