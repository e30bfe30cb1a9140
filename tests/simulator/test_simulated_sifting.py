"""What is said to be left, on simulated sifts. More seeds: ``python tests/simulator/sifting.py --seeds 1000-1499``."""

import numpy as np
import pytest

from simulator.sifting import KINDS, TUBS, Animals, Trap, clear, coverage, holds, sift
from workbook_tools.estimate.sifting import sift_left

SEEDS = range(100)
GOOD, POOR = Trap(0.4, 0.8), Trap(0.02, 0.8)


@pytest.mark.parametrize("animals", KINDS, ids=lambda one: one.says)
@pytest.mark.parametrize("tub", [tub for tub in TUBS[:3]], ids=str)
def test_interval_holds_what_is_left_seven_times_in_ten(tub, animals):
    got = coverage(tub, animals, SEEDS)

    assert got.share >= 0.7
    assert got.limited >= 0.7, "an interval without an upper limit holds nearly everything"
    assert got.endless <= 0.3 * got.runs


def test_an_interval_for_equal_animals_misses_unequal_ones():
    """What the spread of chances is good for: the trial can tell."""
    from workbook_tools.estimate.sifting import HAND, Ease

    alike = Ease(HAND.mean, HAND.mean_weight, np.array([0.0]), np.array([1.0]))
    held = 0
    for seed in range(60):
        finds = sift(150, 0.45, 5, Animals("", sd=1.3), np.random.default_rng(seed))
        held += holds(sift_left(finds, hand_ease=alike), 150 - sum(finds))

    assert held < 20


def test_called_empty_with_a_good_trap_is_mostly_empty():
    ends = [clear(40, 0.45, GOOD, seed) for seed in range(40)]
    called = [left for empty, left, _ in ends if empty]

    assert len(called) >= 10
    assert sum(left == 0 for left in called) >= 0.9 * len(called)


def test_a_poor_trap_hardly_ever_calls_a_tub_empty():
    ends = [clear(40, 0.45, POOR, seed) for seed in range(40)]

    assert sum(empty for empty, _, _ in ends) <= 4


def test_the_same_seed_gives_the_same_sift():
    first, again = (sift(40, 0.6, 4, KINDS[1], np.random.default_rng(3)) for _ in range(2))

    assert first == again and sum(first) <= 40
