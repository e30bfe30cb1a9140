from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from workbook_tools.estimate.rate import RatePrior, Spans, fit_rates

VAGUE = RatePrior(
    mean=1.0,
    sd_top=20.0,
    sd_between=20.0,
    sd_species=20.0,
    sigma=0.5,
    grid_low=-2.0,
    grid_high=4.0,
    outlier=0.0,
    half_life=1e9,
)
USUAL = replace(VAGUE, sd_top=0.5, sd_between=0.3, sd_species=0.3, outlier=0.02, half_life=100.0)


def spans(low, high, bin_of=None, age=None):
    low = np.asarray(low, dtype=float)
    bins = np.zeros(len(low), dtype=np.int64) if bin_of is None else np.asarray(bin_of)
    return Spans(bins, low, np.asarray(high, dtype=float), np.zeros(len(low)) if age is None else np.asarray(age))


def fit(seen, bins=1, prior=USUAL, **more):
    which = np.zeros(bins, dtype=np.int64)
    return fit_rates(seen, bins=bins, species=which, appetite=which, prior=prior, **more)


def test_with_a_vague_prior_the_rate_and_the_scatter_are_those_of_scipys_censored_fit():
    chance = np.random.default_rng(3)
    values = np.exp(chance.normal(1.3, 0.45, 400))
    edges = np.array([1.0, 2.0, 3.0, 4.0, 6.0])
    at = np.digitize(values, edges)
    low, high = np.concatenate([[0.0], edges])[at], np.concatenate([edges, [np.inf]])[at]
    data = stats.CensoredData(left=high[at == 0], interval=np.c_[low, high][(at > 0) & (at < 5)], right=low[at == 5])
    sigma, _, scale = stats.lognorm.fit(data, floc=0)

    with np.errstate(divide="ignore"):
        seen = spans(np.log(low), np.log(high))
    rates = fit(seen, prior=replace(VAGUE, sigma=sigma), fit_scatter=False)
    assert rates.mean_log == pytest.approx([np.log(scale)], abs=0.003)
    assert fit(seen, prior=VAGUE).sigma == pytest.approx(sigma, rel=0.1)


def in_words(chance, values, edge=0.0, slips=0.0):
    """Each value put into one of four words, about a place of its own; some are slips, and an edge may wander."""
    at = np.round(chance.uniform(0.2, 1.8, (len(values), 1)), 1) + np.array([-0.5, 0.0, 0.5])
    word = (values[:, None] > at + edge * chance.normal(size=at.shape)).sum(axis=1)
    word = np.where(chance.random(len(values)) < slips, chance.integers(0, 4, len(values)), word)
    ends = np.column_stack([np.full(len(at), -np.inf), at, np.full(len(at), np.inf)])
    rows = np.arange(len(at))
    return ends[rows, word], ends[rows, word + 1]


@pytest.mark.parametrize("share", [0.0, 0.3])
def test_notes_of_something_else_are_told_from_scatter(share):
    chance = np.random.default_rng(11)
    bins = np.repeat(np.arange(30), 80)
    usual = chance.normal(1.0, 0.3, 30)
    seen = in_words(chance, chance.normal(usual[bins], 0.3), slips=share)

    rates = fit(spans(*seen, bins), bins=30, prior=replace(USUAL, outlier=0.05, sigma=0.4))

    assert rates.sigma == pytest.approx(0.3, rel=0.2)
    assert np.abs(rates.mean_log - usual).max() < 0.3


def test_the_wandering_of_the_eye_is_no_scatter_of_the_values():
    chance = np.random.default_rng(12)
    bins = np.repeat(np.arange(30), 80)
    seen = spans(*in_words(chance, chance.normal(1.0, 0.3, 2400), edge=0.3), bins)

    assert fit(seen, bins=30).sigma == pytest.approx(np.hypot(0.3, 0.3), rel=0.15)
    assert fit(seen, bins=30, eye=0.3).sigma == pytest.approx(0.3, rel=0.2)


def test_without_a_note_the_answer_is_the_prior():
    rates = fit(spans([], []))

    assert rates.mean_log == pytest.approx([1.0], abs=0.01)
    assert rates.quantile(0.5) == pytest.approx([np.e], rel=0.02)
    assert rates.notes == pytest.approx([0.0])


def test_the_quantile_and_the_chance_undo_each_other():
    rates = fit(spans([0.5, 0.2], [1.5, np.inf]))

    for p in (0.1, 0.5, 0.9):
        assert rates.chance_below(rates.quantile(p)) == pytest.approx([p], abs=1e-6)
    assert rates.chance_below(np.zeros(1)) == pytest.approx([0.0])
    with pytest.raises(ValueError, match="between 0 and 1"):
        rates.quantile(1.0)


def test_old_notes_count_less():
    low = fit(spans([0.0] * 9 + [2.0] * 9, [0.1] * 9 + [2.1] * 9, age=np.array([400.0] * 9 + [0.0] * 9)))
    even = fit(spans([0.0] * 9 + [2.0] * 9, [0.1] * 9 + [2.1] * 9))

    assert low.mean_log[0] > even.mean_log[0] + 0.2
    assert low.notes[0] == pytest.approx(9 + 9 / 16)


def test_spans_that_say_nothing_are_left_out():
    seen = spans([1.0, -np.inf, np.nan, 0.5], [0.5, np.inf, 1.0, 1.5])

    assert fit(seen).notes == pytest.approx([1.0])


def test_only_notes_of_more_than_move_the_rate_up_but_not_to_the_end_of_the_grid():
    rates = fit(spans([1.5] * 30, [np.inf] * 30))

    assert 1.5 < rates.mean_log[0] < 3.5


@given(st.lists(st.tuples(st.integers(0, 3), st.floats(-9, 9), st.floats(-1, 9), st.integers(0, 900)), max_size=12))
def test_nothing_that_is_seen_gives_a_nan(rows):
    bin_of, low, width, age = (np.array(part) for part in zip(*rows, strict=True)) if rows else [np.zeros(0)] * 4
    seen = Spans(bin_of.astype(np.int64), low.astype(float), (low + width).astype(float), age.astype(float))

    rates = fit(seen, bins=4, size=60)

    for found in (rates.quantile(0.1), rates.quantile(0.9), rates.sd_log, rates.notes):
        assert np.isfinite(found).all()
    assert (rates.quantile(0.1) < rates.quantile(0.9)).all()


def test_rounding_very_many_spans_hardly_moves_the_rate(monkeypatch):
    chance = np.random.default_rng(5)
    low = chance.normal(1.0, 0.5, 3000)
    seen = spans(low, low + 0.4, bin_of=np.arange(3000) % 5)
    exact = fit(seen, bins=5, fit_scatter=False).mean_log

    monkeypatch.setattr("workbook_tools.estimate.rate.MANY_KINDS", 100)
    assert fit(seen, bins=5, fit_scatter=False).mean_log == pytest.approx(exact, abs=0.003)


def noted(usual, chance, days=60, every=3, drop=0.0, since=12):
    """Values in words for each bin every so many days; the last days all bins are lower by ``drop``."""
    age = np.tile(np.arange(0.0, days, every), len(usual))
    bins = np.repeat(np.arange(len(usual)), len(age) // len(usual))
    values = chance.normal(usual[bins] - drop * (age < since), 0.3)
    return spans(*in_words(chance, values), bins, age)


def test_what_moves_all_bins_at_once_is_in_the_rates_of_now_and_not_in_the_usual_ones():
    chance = np.random.default_rng(21)
    usual = chance.normal(1.0, 0.3, 30)
    seen = noted(usual, chance, drop=0.7)
    still, moved = fit(seen, bins=30), fit(seen, bins=30, swing=0.3)

    assert np.abs(moved.mean_log - (usual - 0.7)).mean() < 0.6 * np.abs(still.mean_log - (usual - 0.7)).mean()
    assert np.abs(moved.pooled.own_mean - usual).mean() < 0.25
    assert moved.swings.shift[0] == pytest.approx(-0.7, abs=0.2)
    assert still.swings is None


def test_looking_for_swings_where_there_are_none_changes_little():
    chance = np.random.default_rng(22)
    usual = chance.normal(1.0, 0.3, 30)
    seen = noted(usual, chance)
    still, moved = fit(seen, bins=30), fit(seen, bins=30, swing=0.3)

    assert moved.mean_log == pytest.approx(still.mean_log, abs=0.15)
    assert moved.sigma == pytest.approx(still.sigma, rel=0.25)


def test_a_bin_noted_often_forgets_sooner_when_rates_wander():
    walking = replace(USUAL, walk=0.2, half_life=90.0)
    chance = np.random.default_rng(23)
    often, seldom = (noted(np.array([1.0]), chance, days=240, every=every) for every in (2, 20))

    # the steady filter of a random walk: memory grows with the root of the time between notes
    memory = [np.log(2) * np.sqrt(60 / np.ceil(61 / every) * 30.4) * 0.5 / 0.2 for every in (2, 20)]
    for seen, half_life in zip((often, seldom), memory, strict=True):
        assert fit(seen, prior=walking).notes == pytest.approx([np.exp2(-seen.age / min(half_life, 90.0)).sum()])
    assert memory[0] < 15 < 35 < memory[1]
