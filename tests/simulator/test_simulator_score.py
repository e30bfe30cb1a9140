"""The score says what it should of forecasts whose quality is known."""

from __future__ import annotations

from functools import partial

import numpy as np
import pytest

from simulator.keeper import Diary
from simulator.run import judge, keep
from simulator.score import LOG, QUANTITIES, Forecast, Score, figures, gone, late, table
from simulator.truths import play_on
from simulator.world import World

SPREAD = 0.3
TENTH = 1.2816


def knowing(world: World, diary: Diary, day: int, *, sd: float = SPREAD, bias: float = 0.0) -> Forecast:
    """An engine that peeks at the truth and blurs it by a known spread, which its intervals state."""
    truth = play_on(world, diary.stood[day], day, diary.fill)
    chance = np.random.default_rng(day)
    said = {}
    for name in QUANTITIES:
        true = np.maximum(getattr(truth, name), 1e-3 if name in LOG else 0)
        middle = true * np.exp(chance.normal(bias, sd, len(true)))
        said[name] = middle * np.exp(np.outer([-TENTH, 0, TENTH], np.full(len(true), SPREAD)))
    return Forecast(said, check=truth.dry * 0.99, portion=truth.able * 0.5, step=truth.able)


@pytest.fixture(scope="module")
def score() -> Score:
    return judge(1, knowing, wrong=False, density="sparse", bins=60)


@pytest.mark.parametrize("name", QUANTITIES)
def test_intervals_that_state_their_spread_hold_four_of_five(score: Score, name: str) -> None:
    result = figures(name, score.kept[name])
    by_chance = 2.6 * np.sqrt(0.8 * 0.2 / result.counted)
    assert result.coverage == pytest.approx(0.8, abs=by_chance)
    assert set(result.by_keeper) == {1}


def test_error_and_bias_are_those_put_in() -> None:
    score = judge(1, partial(knowing, bias=0.5), wrong=False, density="sparse")
    for name in LOG:
        result = figures(name, score.kept[name])
        assert result.bias == pytest.approx(0.5, abs=0.08), name
        assert result.coverage < 0.6, name


def test_the_truth_itself_beats_every_simple_rule() -> None:
    score = judge(2, partial(knowing, sd=0.0), wrong=True, density="sparse")
    for name in QUANTITIES:
        for rule, ratio in figures(name, score.kept[name]).ratios.items():
            assert ratio[2] < 0.02, (name, rule)


def test_a_check_just_before_the_moss_is_dry_is_never_late(score: Score) -> None:
    assert late(score)[0] == 0
    quarters = late(score)[2]
    assert quarters == sorted(quarters, reverse=True)


def test_half_of_what_they_could_eat_is_gone_by_next_day(score: Score) -> None:
    assert gone(score)[0] == 1
    assert gone(score, 2)[0] == 0


def test_a_missing_answer_is_never_left_out() -> None:
    world, diary = keep(3, wrong=False, density="sparse", bins=24, days=61)
    good = knowing(world, diary, 60)
    for bad in (np.nan, np.inf):
        said = {name: values.copy() for name, values in good.said.items()}
        said["out"][2, 5] = bad
        with pytest.raises(ValueError, match="out holds 1"):
            Forecast(said, good.check, good.portion, good.step)
    with pytest.raises(ValueError, match="portion holds 24"):
        Forecast(good.said, good.check, good.portion * np.nan, good.step)


def test_every_quantity_is_in_the_table(score: Score) -> None:
    text = table(score)
    assert text.count("80 % interval holds") == len(QUANTITIES)
    assert "nan" not in text
