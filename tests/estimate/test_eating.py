import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from workbook_tools.estimate.eating import GONE, MOST, MOULDY, SOME, Feedings, fit_eating, spans_of, worth

HUNDRED = np.full(1, 100.0)


def feedings(rows, **more):
    """Rows of (bin, day, grams, days out, left, number)."""
    columns = [np.array(part, dtype=float) for part in zip(*rows, strict=True)] if rows else [np.zeros(0)] * 6
    which = [columns[at].astype(np.int64) for at in (0, 1, 4)]
    return Feedings(which[0], which[1], columns[2], columns[3], which[2], columns[5], **more)


def fit(seen, bins=1, number=HUNDRED, now=400, **more):
    which = np.zeros(bins, dtype=np.int64)
    return fit_eating(seen, bins=bins, species=which, appetite=which + 1, number=number, now=now, **more)


def share_eaten(worth_of):
    """Of a portion, by animals that could eat so many of it in the time, were it ample; the last is found slowly."""
    return 1 - np.maximum(1 - 0.65 * worth_of, 0) ** (1 / 0.65)


def test_the_grams_a_day_are_found_and_the_portion_is_gone_as_often_as_wanted():
    chance = np.random.default_rng(21)
    usual, rows = np.geomspace(0.05, 2.0, 10), []
    given_now = np.full(10, 0.3)
    for turn in range(60):
        eaten = usual * np.exp(0.35 * chance.normal(size=10))
        share = share_eaten(eaten / given_now)
        left = np.where(share > 0.95, GONE, np.where(share > 0.4, SOME, MOST))
        rows += [(which, 5 * turn, given_now[which], 1, left[which], 100) for which in range(10)]
        given_now = given_now * np.where(left == GONE, 1.2, np.where(left == MOST, 0.7, 1.0))

    eating = fit(feedings(rows), 10, np.full(10, 100.0), now=300)

    assert np.abs(np.log(eating.quantile(0.5) / usual)).max() < 0.3
    portion = eating.portion(np.full(10, np.nan)).grams
    gone = share_eaten(usual * np.exp(0.35 * chance.normal(size=(500, 10))) / portion) > 0.95
    assert 0.72 < gone.mean() < 0.88


def test_without_a_feeding_it_is_the_prior_for_the_number_of_animals():
    few = fit(feedings([]), number=np.array([10.0])).quantile(0.5)
    many = fit(feedings([]), number=np.array([1000.0])).quantile(0.5)
    unknown = fit(feedings([]), number=np.array([np.nan])).quantile(0.5)

    assert few < unknown < many
    assert unknown == pytest.approx([0.12], rel=0.05)
    assert many / few == pytest.approx([100**0.85])


def test_always_gone_only_says_at_least_so_the_portion_grows_step_by_step():
    rows = [(0, 3 * turn, 0.2, 1, GONE, 100) for turn in range(20)]
    eating = fit(feedings(rows), now=60)
    portion = eating.portion(np.array([0.05]))

    assert eating.quantile(0.5) > 0.2
    assert portion.grams == pytest.approx([0.1]) and portion.limited == [1]
    assert eating.portion(np.array([0.05]), limit=False).grams == portion.wanted
    assert eating.quantile(0.9)[0] < 30


def test_always_mouldy_cuts_the_portion_by_half_at_most():
    rows = [(0, 3 * turn, 4.0, 3, MOULDY, 100) for turn in range(20)]
    portion = fit(feedings(rows), now=60).portion(np.array([4.0]))

    assert portion.limited == [-1] and portion.grams == pytest.approx([2.0])


def test_a_portion_for_two_days_is_twice_that_for_one_and_is_as_likely_gone():
    eating = fit(feedings([(0, 3, 0.2, 1, SOME, 100)]))
    one, two = (eating.portion(np.array([np.nan]), days=days).grams for days in (1.0, 2.0))

    assert two == pytest.approx(2 * one)
    assert eating.chance_gone(one) == pytest.approx([0.8], abs=1e-6)
    assert eating.chance_gone(two, 2.0) == pytest.approx([0.8], abs=1e-6)


def test_a_share_eaten_is_worth_more_time_than_eating_at_full_pace_would_take():
    """The share left x days' worth on is (1 - 0.65 x) ** (1 / 0.65), here undone."""
    eaten = np.array([0.0, 0.4, 0.95, 1.0])

    assert (1 - 0.65 * worth(eaten)) ** (1 / 0.65) == pytest.approx(1 - eaten, abs=1e-12)
    assert (worth(eaten)[1:] > eaten[1:]).all()


def test_what_each_look_bounds():
    rows = [(0, 9, 1.0, 2, left, 100) for left in (GONE, SOME, MOST, MOULDY)]
    spans = spans_of(feedings(rows), 10)

    gone, most, mouldy = worth(np.array([0.95, 0.40, 0.92])) / 2
    assert np.exp(spans.low) == pytest.approx([gone, most, 0.0, 0.0])
    assert np.exp(spans.high) == pytest.approx([np.inf, gone, most, mouldy])


def test_a_look_long_after_the_feeding_says_nothing():
    rows = [(0, 9, 1.0, days, GONE, 100) for days in (1, 4, 5, 30)]

    assert len(spans_of(feedings(rows), 10).bin) == 2


def test_a_written_share_stands_before_the_words_but_not_before_mould():
    rows = [(0, 9, 1.0, 1, left, 100) for left in (SOME, SOME, MOULDY)]
    spans = spans_of(feedings(rows, share_left=np.array([0.25, np.nan, 0.5])), 10)

    assert np.exp(spans.low) == pytest.approx([*worth(np.array([0.63, 0.4])), 0.0])
    assert np.exp(spans.high) == pytest.approx(worth(np.array([0.87, 0.95, 0.92])))


amounts = st.one_of(st.just(float("nan")), st.just(float("inf")), st.floats(-1, 1e6))
looks = st.tuples(st.integers(0, 2), st.integers(0, 500), amounts, amounts, st.integers(-1, 5), amounts)


@settings(max_examples=40, deadline=None)
@given(st.lists(looks, max_size=12), st.lists(amounts, min_size=3, max_size=3))
def test_no_feeding_whatever_gives_a_nan_or_a_step_beyond_the_limit(rows, number):
    eating = fit(feedings(rows), 3, np.array(number), size=60)
    last = np.array([0.5, np.nan, 0.0])
    portion = eating.portion(last)

    assert np.isfinite([portion.grams, portion.wanted, eating.quantile(0.1), eating.quantile(0.9)]).all()
    assert (portion.grams > 0).all()
    assert 0.25 <= portion.grams[0] <= 1.0
