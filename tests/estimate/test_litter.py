from dataclasses import replace

import numpy as np
import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._eaten import Eaten
from workbook_tools.estimate.litter import LITTER, Sights, TopUps, Visits, follow_litter
from workbook_tools.estimate.runout import LONGEST

HEARTY, MEDIUM = 2, 1


def top_ups(*rows):
    bin_of, day, litres = zip(*rows, strict=True) if rows else ((), (), ())
    return TopUps(np.array(bin_of, int), np.array(day, int), np.array(litres, float))


def sights(*rows, after=False):
    bin_of, day, low, high = zip(*rows, strict=True) if rows else ((), (), (), ())
    return Sights(
        np.array(bin_of, int), np.array(day, int), np.array(low, float), np.array(high, float),
        np.full(len(rows), after),
    )  # fmt: skip


def litter(given=(), seen=(), *, animals=100.0, days=120, bins=1, appetite=MEDIUM, full=1.5, **more):
    exposure = np.broadcast_to((np.asarray(animals, float) / 100) ** 0.85, (bins, days))
    found = follow_litter(
        top_ups(*given),
        seen if isinstance(seen, Sights) else sights(*seen),
        exposure=exposure,
        first_day=0,
        species=np.zeros(bins, int),
        appetite=np.full(bins, appetite),
        full=np.full(bins, full),
        **more,
    )
    for part in (found.left, found.week, found.runs_out, found.path, found.full):
        assert np.isfinite(part).all() and (part >= 0).all()
    for part in (found.left, found.week, found.runs_out, found.path):
        assert (np.diff(part, axis=0) >= 0).all()
    assert found.runs_out.max() <= LONGEST
    return found


def test_no_note_gives_the_usual_use_of_its_appetite():
    for place, name in enumerate(("slow", "medium", "hearty")):
        found = litter(appetite=place)
        assert found.week[1, 0] == pytest.approx(DEFAULTS[f"litter.use.{name}"].value, rel=0.03)
        assert found.notes.tolist() == [0]


def test_a_steady_keeper_is_learned():
    """Half a litre a week, always seen a third full before: that is what is used, rot and all."""
    weeks = range(0, 364, 7)
    found = litter(
        [(0, day, 0.5) for day in weeks],
        [(0, day, 0.25, 0.45) for day in weeks],
        days=365,
        animals=400,
        appetite=HEARTY,
    )

    assert found.week[1, 0] == pytest.approx(0.5, rel=0.25)
    assert found.week[0, 0] < 0.5 < found.week[2, 0]
    assert 3 < found.runs_out[1, 0] < 14
    assert found.notes.tolist() == [104]


def test_a_common_hearty_bin_needs_litter_every_one_or_two_weeks_and_a_young_one_not_for_months():
    """Common practice, no source; from the defaults alone."""
    full = {"seen": [(0, 119, 0.95, 1.0)], "appetite": HEARTY}

    assert 7 <= litter(animals=600, **full).runs_out[1, 0] <= 31
    assert litter(animals=15, seen=[(0, 119, 0.95, 1.0)]).runs_out[1, 0] > 120


def test_never_any_animals_and_nothing_rots_is_beyond():
    found = litter(seen=[(0, 100, 0.8, 1.0)], animals=0, settings=replace(LITTER, rot=0.0))

    assert found.beyond.all()
    assert found.week[1, 0] == 0


def test_refilled_after_dying_out():
    animals = np.concatenate([np.full(100, 200.0), np.zeros(60), np.full(200, 20.0)])
    found = litter([(0, 10, 1.0), (0, 165, 1.0)], [(0, 100, 0.0, 0.1)], animals=animals, days=360)

    assert 0.15 < found.left[1, 0] < 0.7


def test_never_counted():
    assert litter([(0, 10, 0.5), (0, 60, 0.5)], animals=np.nan).week[1, 0] > 0


def test_litter_that_grows_without_a_top_up_is_followed():
    grows = [(0, 20, 0.0, 0.1), (0, 50, 0.3, 0.5), (0, 60, 0.5, 0.7), (0, 70, 0.9, 1.0), (0, 80, 0.9, 1.0)]
    found = litter(seen=grows, days=82)

    assert found.left[1, 0] > 0.9


def test_contradictory_looks_are_survived():
    litter(seen=[(0, day, *((0.0, 0.05) if day % 2 else (0.95, 1.0))) for day in range(8)])


def test_a_top_up_of_unknown_amount_leaves_more_in_doubt():
    seen = [(0, 110, 0.3, 0.4)]
    known = litter([(0, 110, 0.75)], seen)
    unknown = litter([(0, 110, np.nan)], seen)

    assert unknown.left[2, 0] - unknown.left[0, 0] > 1.5 * (known.left[2, 0] - known.left[0, 0])


def test_a_top_up_without_a_word_says_that_there_was_no_full_layer():
    silent = litter([(0, 110, 0.5)])
    spoken = litter([(0, 110, 0.5)], [(0, 110, 0.9, 1.0)])

    assert silent.left[1, 0] < spoken.left[1, 0]
    assert silent.notes.tolist() == [1]
    assert spoken.notes.tolist() == [2]


def test_a_look_after_the_top_up_sees_it():
    found = litter([(0, 119, 0.9)], sights((0, 119, 0.9, 1.0), after=True))

    assert found.left[1, 0] > 0.9 * 1.5


def test_a_new_bin_begins_with_what_is_first_given_to_it():
    new = litter([(0, 100, 0.5)], start_day=np.array([100]), days=101)
    old = litter([(0, 100, 0.5)], start_day=np.array([-500]), days=101)

    assert new.left[1, 0] == pytest.approx(0.5, abs=0.1)
    assert old.left[1, 0] > new.left[1, 0] + 0.1


def test_things_outside_the_days_are_left_out():
    found = litter([(0, -5, 0.5), (0, 500, 0.5)], [(0, 500, 0.1, 0.2)])

    assert found.notes.tolist() == [0]


def test_past_is_given_when_asked_for():
    found = litter([(0, 60, 1.0)], [(0, 60, 0.0, 0.1)], history=True)

    assert found.past.shape == (3, 1, 120)
    assert found.past[0, 0, 60] == pytest.approx(1.0, abs=0.25)
    assert found.path[1, 0, 0] == pytest.approx(found.left[1, 0], rel=1e-6)


def test_clock_and_stock_are_each_others_inverse():
    use = Eaten(np.array([[1.5]]), 0.06, 0.0)
    stock = np.array([[0.01, 0.1, 1.0, 5.0]])

    assert use.left(use.clock(stock)[0]) == pytest.approx(stock, rel=1e-9)


@pytest.mark.parametrize(("rot", "amount"), [(0.0, 0.02), (0.003, 0.02), (0.003, 0.0)])
def test_day_steps_last_as_long_as_reckoned(rot, amount):
    use = Eaten(np.array([[1.5]]), 0.06, rot)
    end = np.array([[0.3]])
    stock, days = np.array([[1.2]]), 0
    lasts, _, part = use.lasts(stock, end, np.array([[amount]]))
    while stock[0, 0] > 0.3:
        stock, _ = use.step(stock, np.zeros((1, 1)), np.array([[amount]]))
        days += 1

    assert lasts[0, 0] == pytest.approx(days, abs=1.0)
    assert (part[0, 0] == pytest.approx(1.0)) == (rot == 0)


def test_day_steps_agree_with_the_clock():
    use = Eaten(np.array([[1.5]]), 0.06, 0.0)
    stock, variance = np.array([[1.2]]), np.array([[0.0]])
    start = use.clock(stock)[0]
    for _ in range(50):
        stock, variance = use.step(stock, variance, np.array([[0.02]]))

    assert (start - use.clock(stock)[0])[0, 0] == pytest.approx(1.0, rel=0.01)


def test_a_bin_looked_after_and_not_topped_up_is_not_bare():
    given = [(0, 0, 0.75), (0, 20, 0.75), (0, 40, 0.75)]
    alone = litter(given)
    passed = litter(given, visits=Visits(np.array([0, 0]), np.array([90, 118])))

    assert passed.left[1, 0] > alone.left[1, 0]
    assert passed.runs_out[1, 0] > alone.runs_out[1, 0]
    assert passed.notes.tolist() == alone.notes.tolist() == [3]
    early = litter(given, visits=Visits(np.array([0]), np.array([41])))
    assert early.runs_out[1, 0] == pytest.approx(alone.runs_out[1, 0], rel=0.2)
