from dataclasses import replace

import numpy as np
import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import MONTH
from workbook_tools.estimate.runout import LONGEST
from workbook_tools.estimate.substrate import (
    RENEWABLE,
    SUBSTRATE,
    Changes,
    Grazed,
    Looks,
    follow_substrate,
    looks_at_depth,
    share_error,
)


def changes(*rows):
    bin_of, day, share = zip(*rows, strict=True) if rows else ((), (), ())
    return Changes(np.array(bin_of, int), np.array(day, int), np.array(share, float))


def looks(*rows, after=False):
    bin_of, day, low, high = zip(*rows, strict=True) if rows else ((), (), (), ())
    return Looks(
        np.array(bin_of, int), np.array(day, int), np.array(low, float), np.array(high, float),
        np.full(len(rows), after),
    )  # fmt: skip


def substrate(changed=(), seen=(), *, animals=150.0, days=200, appetite=1, start_day=0, **more):
    exposure = np.broadcast_to((np.asarray(animals, float) / 100) ** 0.8, (1, days))
    found = follow_substrate(
        changes(*changed),
        seen if isinstance(seen, Looks) else looks(*seen),
        exposure=exposure,
        first_day=0,
        species=np.zeros(1, int),
        appetite=np.full(1, appetite),
        start_day=None if start_day is None else np.array([start_day]),
        **more,
    )
    for part in (found.share, found.spent, found.path):
        assert np.isfinite(part).all() and (part >= 0).all()
        assert (np.diff(part, axis=0) >= 0).all()
    assert found.spent.max() <= LONGEST
    assert found.share.max() <= 1
    return found


@pytest.mark.parametrize(("appetite", "name"), [(0, "slow"), (1, "medium"), (2, "hearty")])
def test_fresh_substrate_lasts_the_months_of_the_defaults(appetite, name):
    animals = DEFAULTS[f"substrate.animals.{name}"].value
    found = substrate(animals=animals, days=1, appetite=appetite)

    # Half of them last longer still: a wandering rate is now above its mean, but more often below it.
    assert found.spent[1, 0] == pytest.approx(DEFAULTS[f"substrate.life.{name}"].value * MONTH, rel=0.07)
    assert found.notes.tolist() == [0]


def test_looks_teach_the_rate():
    fast = substrate(seen=[(0, 60, 0.5, 0.6), (0, 120, 0.25, 0.3)], days=121)
    slow = substrate(seen=[(0, 60, 0.85, 0.9), (0, 120, 0.8, 0.85)], days=121)

    assert fast.spent[1, 0] < 60
    assert slow.spent[1, 0] > 3 * fast.spent[1, 0]


def test_a_full_change_resets_whatever_was_before():
    one = substrate([(0, 199, 1.0)], [(0, 190, 0.1, 0.2)])
    other = substrate([(0, 199, 1.0)], [(0, 190, 0.7, 0.8)])

    assert one.share[1, 0] == pytest.approx(0.9, abs=0.02)
    assert one.share[1, 0] == pytest.approx(other.share[1, 0], abs=1e-6)


def test_nothing_renewed_changes_nothing():
    seen = [(0, 100, 0.5, 0.6)]

    assert substrate([(0, 150, 0.0)], seen).share == pytest.approx(substrate([], seen).share, abs=1e-12)


def test_a_part_that_isnt_known_lies_between_and_is_in_doubt():
    seen = [(0, 199, 0.2, 0.25)]
    third, half = substrate([(0, 199, 1 / 3)], seen), substrate([(0, 199, 1 / 2)], seen)
    unknown = substrate([(0, 199, np.nan)], seen)

    assert third.share[1, 0] < unknown.share[1, 0] < half.share[1, 0]
    assert np.ptp(unknown.share[:, 0]) > 1.3 * np.ptp(half.share[:, 0])


@pytest.mark.parametrize(
    ("share", "left"),
    [
        (1 / 4, (0.75, 0.5625, 0.4219, 0.3164, 0.2373)),
        (1 / 3, (0.6667, 0.4444, 0.2963, 0.1975, 0.1317)),
        (1 / 2, (0.5, 0.25, 0.125, 0.0625, 0.03125)),
    ],
)
def test_what_is_left_of_the_old_after_partial_changes(share, left):
    """Plain arithmetic: (1 - share) to the power of the number of changes. New substrate counts 0, the old 1."""
    use, mean = Grazed(fresh=0.0, scarce=0.4), np.ones((1, 1))
    for expected in left:
        mean, _ = use.change(np.zeros(1, int), mean, np.zeros((1, 1)), np.array([share]), np.zeros(1))
        assert mean[0, 0] == pytest.approx(expected, abs=5e-5)


def test_nobody_eats_and_no_microbes_is_beyond():
    found = substrate(animals=0, settings=replace(SUBSTRATE, microbes=0.0))

    assert found.beyond.all()
    assert found.smallest_share(24).tolist() == [pytest.approx(1 / 3)]


def test_never_counted_and_without_a_start():
    found = substrate(animals=np.nan, start_day=None)

    assert 0.2 < found.share[1, 0] < 0.7


def test_spent_already():
    found = substrate(seen=[(0, day, 0.0, 0.05) for day in (150, 170, 199)])

    assert found.spent[1, 0] == 0


def test_smallest_share_is_larger_for_longer_and_none_for_ever():
    found = substrate(seen=[(0, 100, 0.45, 0.5), (0, 199, 0.2, 0.25)], animals=250, appetite=2)
    answers = [found.smallest_share(months)[0] for months in (0.5, 1, 2, 3, 4, 6, 60)]
    known = [answer for answer in answers if np.isfinite(answer)]

    assert np.isnan(answers[-1])
    assert known == sorted(known) and len(set(known)) > 1
    assert all(np.isclose(answer, RENEWABLE).any() for answer in known)


def test_a_partial_change_of_a_hearty_bin_lasts_some_months():
    """Common practice, no source: a third to three quarters renewed every three to five months keeps it going."""
    found = substrate(seen=[(0, day, 0.2, 0.4) for day in (180, 199)], animals=250, appetite=2)
    share = found.smallest_share(3, assurance=0.5)[0]

    assert 1 / 3 <= share <= 3 / 4


def test_a_depth_that_sinks_is_a_vague_look():
    seen = looks_at_depth(np.zeros(3, int), np.arange(3), np.array([1.0, 0.7, np.nan]))

    assert seen.high[0] > 0.9 and seen.low[0] == pytest.approx(0.7)
    assert seen.low[1] < 0.3 < seen.high[1] < 0.6
    assert (seen.low[2], seen.high[2]) == (0, 1)
    assert substrate(seen=seen).notes.tolist() == [2]


def test_the_error_of_a_share_is_nothing_for_none_and_all():
    assert share_error(np.array([0.0, 0.5, 1.0])).tolist() == [0.0, 0.04, 0.0]


@pytest.mark.parametrize("scarce", [0.4, np.inf])
def test_clock_and_share_are_each_others_inverse(scarce):
    use, share = Grazed(0.9, scarce), np.array([[0.05, 0.4, 0.9]])

    assert use.left(use.clock(share)[0]) == pytest.approx(share, rel=1e-9)


@pytest.mark.parametrize("scarce", [0.4, np.inf])
def test_day_steps_agree_with_the_clock(scarce):
    use, share, variance = Grazed(0.9, scarce), np.array([[0.9]]), np.array([[0.0]])
    start = use.clock(share)[0]
    for _ in range(200):
        share, variance = use.step(share, variance, np.array([[0.004]]))

    assert (start - use.clock(share)[0])[0, 0] == pytest.approx(0.8, rel=0.01)


def test_a_pace_of_half_all_along_is_a_rate_twice_as_high_and_lasts_as_long():
    seen = [(0, 60, 0.6, 0.8), (0, 120, 0.45, 0.6), (0, 190, 0.3, 0.5)]
    plain = substrate(seen=seen)
    cold = substrate(seen=seen, pace=np.full(200, 0.5), pace_ahead=np.full(1, 0.5))
    assert cold.supply.rate_quantiles()[1, 0] > 1.3 * plain.supply.rate_quantiles()[1, 0]
    assert cold.spent[1, 0] == pytest.approx(plain.spent[1, 0], rel=0.25)


def test_a_warm_season_ahead_brings_the_date_nearer():
    seen = [(0, 60, 0.6, 0.8), (0, 120, 0.45, 0.6), (0, 190, 0.3, 0.5)]
    days = [substrate(seen=seen, pace_ahead=np.array([pace])).spent[1, 0] for pace in (0.7, 1.0, 1.4)]
    assert days[0] > 1.2 * days[1] > 1.2**2 * days[2]
    assert days[1] == substrate(seen=seen).spent[1, 0]
