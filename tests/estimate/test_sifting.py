import math
from itertools import product

import numpy as np
import pytest

from workbook_tools.estimate.sifting import HAND, TRAP, Ease, sift_left

ALIKE = Ease(HAND.mean, HAND.mean_weight, np.array([0.0]), np.array([1.0]))


def by_hand(catches, most=3000):
    """The posterior of the number left, number by number, of animals that are all alike."""
    total, logs = sum(catches), []
    for left in range(most):
        ways = math.lgamma(left + total + 1) - math.lgamma(left + 1) - math.log(left + total + 1)
        for p in HAND.mean:
            found = sum(c * (math.log(p) + i * math.log1p(-p)) for i, c in enumerate(catches))
            logs.append(ways + found + left * len(catches) * math.log1p(-p) + math.log(p * (1 - p)))
    chance = np.exp(np.array(logs) - max(logs)).reshape(most, -1).sum(axis=1)
    return chance / chance.sum()


def test_equal_animals_are_worked_out_number_by_number():
    want = by_hand((41, 22, 9, 4))
    left = sift_left((41, 22, 9, 4), hand_ease=ALIKE)

    assert left.chance_none == pytest.approx(want[0], rel=1e-6)
    reached = np.cumsum(want)
    assert (left.low, left.middle, left.high) == tuple(int(np.searchsorted(reached, at)) for at in (0.1, 0.5, 0.9))


def test_many_left_are_worked_out_on_a_coarse_grid_as_well():
    want = np.cumsum(by_hand((180, 150, 130, 120), most=6000))
    left = sift_left((180, 150, 130, 120), hand_ease=ALIKE)

    assert left.middle == pytest.approx(int(np.searchsorted(want, 0.5)), rel=0.01)
    assert left.high == pytest.approx(int(np.searchsorted(want, 0.9)), rel=0.01)


def test_animals_that_differ_leave_more_than_equal_ones():
    unequal, equal = sift_left((41, 22, 9, 4)), sift_left((41, 22, 9, 4), hand_ease=ALIKE)

    assert unequal.middle > equal.middle and unequal.high > equal.high


def test_chances_are_those_of_a_beta_spread():
    mean, rho = 0.4, 0.2
    a, b = mean * (1 / rho - 1), (1 - mean) * (1 / rho - 1)
    chance, _ = Ease(np.array([mean]), np.ones(1), np.array([rho]), np.ones(1)).found(3)

    want = [a / (a + b), a / (a + b + 1), a / (a + b + 2), a / (a + b + 3)]
    assert chance[:, 0] == pytest.approx(want)


@pytest.mark.parametrize("catches", [(5, 7, 8), (10, 10, 10), (3,), (0, 0, 0), (0, 0, 2)])
def test_finds_that_do_not_fall_give_no_upper_limit(catches):
    left = sift_left(catches)

    assert not left.depletes
    assert left.middle is None and left.high is None


@pytest.mark.parametrize("catches", [(1, 0, 0), (2, 0), (4, 1), (1, 0, 0, 0, 0)])
def test_few_finds_that_level_ones_often_look_like_do_not_fall(catches):
    assert sift_left(catches).high is None
    assert sift_left((), catches).high is None


@pytest.mark.parametrize("catches", [(4, 0), (3, 0, 0), (3, 1, 0), (1, *(0,) * 9), (11, 4), (60_000, 59_000)])
def test_finds_that_level_ones_seldom_look_like_fall(catches):
    assert sift_left(catches).depletes


def test_level_finds_are_taken_for_falling_once_in_ten():
    """Every way in which six finds can lie in three passes, by its chance."""
    fall = sum(
        math.factorial(6) / math.prod(map(math.factorial, finds)) / 3**6
        for finds in product(range(7), repeat=3)
        if sum(finds) == 6 and sift_left(finds).depletes
    )
    assert 0.03 < fall <= 0.1


def test_trap_whose_finds_rise_takes_the_upper_limit_away():
    falling = (30, 12, 5)
    assert sift_left(falling).depletes
    assert sift_left(falling, (1, 2, 4, 8)).high is None
    assert sift_left(falling, (2, 1, 0)).depletes and sift_left(falling, (0, 0)).depletes


def test_a_pass_without_finds_lowers_what_is_left():
    before, after = sift_left((41, 22, 9, 4)), sift_left((41, 22, 9, 4, 0))

    assert after.high < before.high and after.chance_none > before.chance_none and after.next_pass < before.next_pass


def test_an_unproven_trap_tells_less_than_one_that_caught():
    silent, proven = sift_left((30, 12, 5), (0,) * 10), sift_left((30, 12, 5), (2, 1, *(0,) * 10))

    assert not silent.trap_proven and proven.trap_proven
    assert silent.chance_none < proven.chance_none
    assert silent.empty_needed is None or silent.empty_needed > (proven.empty_needed or 0)


def test_empty_checks_are_counted_from_the_last_find():
    assert sift_left((30, 12, 5), (2, 0, 1, 0, 0)).empty_checks == 2
    assert sift_left((30, 12, 5), (0, 0)).empty_checks == 2
    assert sift_left((30, 12, 5)).empty_checks == 0


def test_a_find_by_hand_breaks_the_silence_of_the_trap():
    trap = (3, 1, *(0,) * 60, 0)
    before, after = sift_left((12, 4, 5), trap), sift_left((12, 4, 5), trap, checks_before=(0, 0, 62))

    assert (before.empty_checks, after.empty_checks) == (61, 1)
    assert after.chance_none < 0.5 < before.chance_none
    assert after.empty_needed != 0 == before.empty_needed


def test_a_find_in_doubt_breaks_the_silence_of_the_trap():
    assert sift_left((30, 12, 5), (2, 1, *(0,) * 20), doubted=12).empty_checks == 10
    assert sift_left((30, 12, 5), (2, 1, 0, 0), doubted=0).empty_checks == 2


def test_order_of_passes_and_checks_counts_as_animal_by_animal():
    """Against the chance of every animal's own history, with one mean and animals all alike."""
    hand, trap = (Ease(np.array([p]), np.ones(1), np.array([0.0]), np.ones(1)) for p in (0.4, 0.3))
    logs = []
    for number in range(3, 60):
        there, log = number, -math.log(number + 1)
        for p, found in ((0.4, 2), (0.3, 0), (0.4, 1)):
            log += math.log(math.comb(there, found)) + found * math.log(p) + (there - found) * math.log1p(-p)
            there -= found
        logs.append(log)
    chance = np.exp(np.array(logs) - max(logs))
    left = sift_left((2, 1), (0,), checks_before=(0, 1), hand_ease=hand, trap_ease=trap)

    assert left.chance_none == pytest.approx(chance[0] / chance.sum(), rel=1e-6)


@pytest.mark.parametrize("before", [(0,), (1, 0), (0, 4), (-1, 0)])
def test_checks_before_passes_must_fit_them(before):
    with pytest.raises(ValueError, match="checks before"):
        sift_left((5, 2), (1, 0, 0), checks_before=before)


def test_needed_empty_checks_are_just_enough():
    left = sift_left((41, 22, 9, 4), (2, 1, 0, 0))

    assert left.empty_needed > 0
    enough = sift_left((41, 22, 9, 4), (2, 1, 0, 0, *(0,) * left.empty_needed))
    short = sift_left((41, 22, 9, 4), (2, 1, 0, 0, *(0,) * (left.empty_needed - 1)))
    assert short.chance_none < 0.9 <= enough.chance_none
    assert enough.empty_needed == 0


def test_substrate_may_only_be_trapped():
    left = sift_left((), (4, 2, 1, 0, 0))

    assert left.depletes and left.found == 7 and left.high >= 1


@pytest.mark.parametrize("catches", [(4000, 2200, 900, 400), (40_000, 22_000, 9_000, 4_000), (100_000, 50_000, 20_000)])
def test_large_finds_are_worked_out_as_finely_as_they_tell(catches):
    """Against finer beliefs, and numbers left close about what is left."""
    want = closely(catches)
    left = sift_left(catches)

    for got, at in zip((left.low, left.middle, left.high), want, strict=True):
        assert got == pytest.approx(at, rel=0.02)


def closely(catches, points=800):
    """The 10, 50 and 90 % points of the number left, all beliefs looked at one after the other."""
    total, passes = sum(catches), len(catches)
    means = np.linspace(HAND.mean[0], HAND.mean[-1], 1000)
    rough = sift_left(catches)
    left = np.linspace(rough.low / 2, 2 * rough.high, points)
    ways = np.array([math.lgamma(n + total + 1) - math.lgamma(n + 1) - math.log(n + total + 1) for n in left])
    whole, top = np.zeros(points), -math.inf
    for rho, weight in zip(HAND.alike, HAND.alike_weight, strict=True):
        before = np.arange(passes)[:, None]
        chance = means * (1 - rho) / (1 - rho + before * rho)
        missed = np.cumsum(np.log1p(-chance), axis=0)
        earlier = np.vstack([np.zeros_like(means), missed[:-1]])
        finds = (np.array(catches)[:, None] * (np.log(chance) + earlier)).sum(axis=0)
        log = ways[:, None] + finds + left[:, None] * missed[-1] + np.log(weight * means * (1 - means))
        new = max(top, log.max())
        whole, top = whole * math.exp(top - new) + np.exp(log - new).sum(axis=1), new
    return np.interp((0.1, 0.5, 0.9), np.cumsum(whole) / whole.sum(), left)


def test_one_huge_sift_stays_quick_and_finite():
    left = sift_left((40_000, 20_000, 10_000, 5_000))

    assert 3_000 < left.low < left.high < 100_000


@pytest.mark.parametrize("catches", [(), (-1, 3)])
def test_what_can_not_be_a_sift_is_refused(catches):
    with pytest.raises(ValueError, match=r"neither|below 0"):
        sift_left(catches)


def test_finer_beliefs_say_the_same():
    for ease in (HAND, TRAP):
        fine = ease.finer(4)
        assert len(fine.mean) > 3 * len(ease.mean)
        assert fine.mean_weight.sum() == pytest.approx(ease.mean_weight.sum())
        assert fine.mean @ fine.mean_weight == pytest.approx(ease.mean @ ease.mean_weight, rel=0.07)
    assert TRAP.finer(4).mean_weight[0] == TRAP.mean_weight[0], "the trap that hardly works is no more likely"


def test_beliefs_beforehand_are_as_long_as_their_weights():
    for ease in (HAND, TRAP):
        assert ease.mean.shape == ease.mean_weight.shape and ease.alike.shape == ease.alike_weight.shape
