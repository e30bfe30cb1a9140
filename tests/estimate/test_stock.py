import numpy as np
import pytest
from scipy.stats import truncnorm

from workbook_tools.estimate.stock import CHANGED, SEEN, SEEN_AFTER, START, TAKEN, Events, follow, see, truncated
from workbook_tools.estimate.substrate import Grazed

STILL = Grazed(fresh=1.0, scarce=np.inf)


def ints(*values):
    return np.array(values, dtype=np.int64)


def sight(low, high, noise=0.05, slip=0.05, jump=0.4, bins=1):
    return Events.of(
        np.arange(bins), np.zeros(bins, int), SEEN, np.full(bins, low), np.full(bins, high), noise=noise, slip=slip,
        jump=jump,
    )  # fmt: skip


def run(events, days=30, bins=1, rates=(0.001, 0.01, 0.1), **more):
    options = {"walk": 0.0, "started": (np.full(bins, 0.8), np.full(bins, 0.1)), **more}
    rate = np.repeat(np.array(rates)[None, :], bins, axis=0)
    return follow(STILL, events, rate=rate, exposure=np.ones((bins, days)), first_day=0, spacing=2.3, **options)


@pytest.mark.parametrize(("below", "above"), [(-1.0, 0.5), (1.0, 3.0), (-3.0, -1.0), (4.0, 6.0), (-np.inf, 0.3)])
def test_truncated_normal_is_that_of_scipy(below, above):
    chance, shift, shrink = truncated(np.array([below]), np.array([above]))
    law = truncnorm(below, above)

    assert shift[0] == pytest.approx(law.mean(), rel=1e-6)
    assert 1 - shrink[0] == pytest.approx(law.var(), rel=1e-5)
    assert 0 < chance[0] < 1


@pytest.mark.parametrize(("below", "above"), [(50.0, 60.0), (-60.0, -50.0), (-np.inf, np.inf), (9.0, np.inf)])
def test_truncated_normal_is_finite_far_out(below, above):
    chance, shift, shrink = truncated(np.array([below]), np.array([above]))

    assert np.isfinite([chance, shift, shrink]).all()
    assert 0 <= shrink[0] <= 1


def test_a_narrow_sight_is_a_kalman_update():
    mean, variance, noise = 0.5, 0.04, 0.1
    _, now, spread = see(
        np.ones((1, 1)), np.array([[mean]]), np.array([[variance]]), sight(0.6999, 0.7001, noise, slip=0.0, jump=0.0)
    )
    gain = variance / (variance + noise**2)

    assert now[0, 0] == pytest.approx(mean + gain * (0.7 - mean), abs=1e-4)
    assert spread[0, 0] == pytest.approx(variance * (1 - gain), abs=1e-4)


def test_a_sight_far_below_is_taken_for_a_slip():
    weight, now, _ = see(np.ones((1, 2)) / 2, np.array([[0.9, 0.85]]), np.full((1, 2), 1e-4), sight(0.0, 0.1))

    assert now[0] == pytest.approx([0.9, 0.85], abs=0.01)
    assert weight[0] == pytest.approx([0.5, 0.5], abs=1e-3)


def test_a_sight_far_above_that_is_seen_again_is_taken_for_a_refill():
    twice = Events.joined(sight(0.8, 1.0), sight(0.8, 1.0))
    end = run(twice, days=1, started=(np.full(1, 0.1), np.full(1, 0.01)))

    assert end.mean[0] == pytest.approx([0.9] * 3, abs=0.12)


def test_rates_that_explain_what_was_seen_weigh_more():
    start = Events.of(ints(0), ints(0), START, np.array([0.9]), np.array([0.02]))
    seen = Events.of(ints(0), ints(29), SEEN, np.array([0.6]), np.array([0.75]), noise=0.05, slip=0.05, jump=0.4)
    end = run(Events.joined(start, seen))

    assert end.weight[0].argmax() == 1
    assert end.weight[0].sum() == pytest.approx(1)


def test_without_a_sight_all_rates_stay_as_likely_even_when_they_wander():
    end = run(sight(0.1, 0.2).within(5, 9), walk=0.5)

    assert end.weight[0] == pytest.approx([1 / 3] * 3)


@pytest.mark.parametrize(("order", "least", "most"), [(SEEN, 1.0, 1.0), (SEEN_AFTER, 0.9, 0.97)])
def test_a_look_before_a_change_of_its_day_sees_the_old_and_one_after_it_the_new(order, least, most):
    changed = Events.of(ints(0), ints(0), CHANGED, np.array([1.0]), np.array([0.0]))
    seen = Events.of(ints(0), ints(0), order, np.array([0.9]), np.array([0.95]), noise=0.02)
    end = run(Events.joined(seen, changed), days=1)

    assert least <= end.mean[0, 0] <= most


def test_several_looks_of_one_day_all_count():
    once, thrice = sight(0.5, 0.6), Events.joined(*[sight(0.5, 0.6)] * 3)

    assert run(thrice, days=1).variance[0, 0] < run(once, days=1).variance[0, 0]


def test_bins_do_not_touch_each_other_and_the_order_of_events_does_not_matter():
    chance = np.random.default_rng(3)
    low = chance.uniform(0, 0.8, 40)
    events = Events.of(
        chance.integers(0, 4, 40), chance.integers(0, 30, 40), SEEN, low, low + 0.2, noise=0.05, slip=0.05, jump=0.4
    )
    _, first = np.unique(events.bin * 100 + events.day, return_index=True)
    pick = np.zeros(40, bool)
    pick[first] = True

    def part(keep):
        names = ("bin", "day", "order", "low", "high", "noise", "slip", "jump", "source")
        return Events(*(getattr(events, name)[keep] for name in names))

    alone = run(part(np.flatnonzero(pick & (events.bin == 2))), bins=4, walk=0.2)
    whole = run(part(np.flatnonzero(pick)), bins=4, walk=0.2)
    turned = run(part(np.flatnonzero(pick)[::-1]), bins=4, walk=0.2)

    assert alone.mean[2] == pytest.approx(whole.mean[2])
    assert (turned.mean == whole.mean).all()


def test_contradictory_sights_leave_finite_numbers():
    events = Events.joined(*[sight(0.0, 0.02, 0.01), sight(0.98, 1.0, 0.01)] * 8)
    end = run(events, history=True)

    assert all(np.isfinite(part).all() for part in (end.weight, end.mean, end.variance, end.path))


def test_a_bin_filled_in_part_from_another_begins_with_what_that_one_held_that_morning():
    starts = Events.of(ints(0, 1), ints(0, 20), START, np.array([0.9, 1.0]), np.array([0.02, 0.02]))
    filled = Events.of(ints(1), ints(20), TAKEN, np.array([0.6]), np.array([0.2]), source=ints(0))
    renewed = Events.of(ints(0), ints(20), CHANGED, np.array([1.0]), np.array([0.0]))
    end = run(Events.joined(starts, filled, renewed), days=21, bins=2, rates=(0.02, 0.02))
    worn = 0.9 * np.exp(-0.02 * 20)

    assert end.mean[0] == pytest.approx([1.0, 1.0])
    assert end.mean[1] == pytest.approx([0.4 * worn + 0.6 * 1.0] * 2, rel=1e-6)
    assert end.variance[1].min() > (0.2 * (1.0 - worn)) ** 2
