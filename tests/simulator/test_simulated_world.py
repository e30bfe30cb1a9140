"""The simulated world keeps its books: nothing comes from nowhere, nothing falls below nothing."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from simulator.room import Room, liveliness
from simulator.truths import AHEAD, play_on
from simulator.world import DRY, YOUNG, State, World, bitten, litter, make_world, number, pass_day, worn_since


@pytest.fixture(scope="module", params=[False, True], ids=["well", "mis"])
def world(request: pytest.FixtureRequest) -> World:
    return make_world(4, bins=40, days=300, wrong=request.param)


def some_food(state: State) -> State:
    state.food[:] = 0.3
    return state


def test_what_goes_is_what_was_taken(world: World) -> None:
    state = some_food(world.start.copy())
    for day in range(200):
        before = state.copy()
        gone = pass_day(world, state, day)
        np.testing.assert_allclose(before.water - state.water, gone.dried, atol=1e-9)
        np.testing.assert_allclose(before.food - state.food, gone.eaten, atol=1e-9)
        lost = before.loose + before.settled - state.loose - state.settled
        np.testing.assert_allclose(lost, gone.leaf_eaten + gone.leaf_rotted, atol=1e-9)
        grown = state.animals.sum(1) - before.animals.sum(1)
        np.testing.assert_array_equal(grown, gone.born - gone.deaths.sum(1))
        assert (state.good <= before.good).all()


def test_nothing_falls_below_nothing(world: World) -> None:
    state = some_food(world.start.copy())
    for day in range(world.days):
        pass_day(world, state, day)
        for what in (state.water, state.food, state.loose, state.settled, state.good, state.animals):
            assert np.isfinite(what).all()
            assert (what >= 0).all()


def test_what_would_have_come_is_what_comes_when_nobody_does_anything(world: World) -> None:
    state = world.start.copy()
    for day in range(31):
        pass_day(world, state, day)
    full = np.minimum(state.water / world.traits.moss, 1)
    truth = play_on(world, state, 30, full)
    wet = np.empty((AHEAD + 1, len(full)))
    wet[0] = full
    for ahead in range(1, AHEAD + 1):
        pass_day(world, state, 30 + ahead)
        wet[ahead] = state.water / world.traits.moss
    np.testing.assert_array_equal(number(state), truth.later)
    soon = truth.dry < AHEAD
    assert soon.sum() > 20
    for bin in np.flatnonzero(soon & (wet[0] > DRY)):
        dry = int(np.ceil(truth.dry[bin]))
        assert wet[dry, bin] <= DRY < wet[dry - 1, bin]


def test_a_truth_is_a_number_for_every_bin(world: World) -> None:
    truth = play_on(world, world.start, 10, np.full(40, 0.9))
    for answer in (truth.dry, truth.out, truth.spent, truth.eaten, truth.now, truth.later):
        assert np.isfinite(answer).all()
        assert (answer >= 0).all()
        assert (answer <= np.maximum(truth.limit, 1e5)).all()


def test_dry_air_dries_moss_sooner(world: World) -> None:
    room = world.room
    drier = replace(world, room=Room(room.warmth, room.damp, room.pull * 2))
    usual = play_on(world, world.start, 0, np.full(40, 0.9))
    sooner = play_on(drier, world.start, 0, np.full(40, 0.9))
    assert (sooner.dry < usual.dry).all()


def test_more_animals_leave_litter_and_substrate_for_less_long(world: World) -> None:
    many = world.start.copy()
    many.animals *= 5
    fill = np.full(40, 0.9)
    few_truth, many_truth = play_on(world, world.start, 0, fill), play_on(world, many, 0, fill)
    assert (many_truth.out <= few_truth.out).mean() > 0.95
    assert (many_truth.spent <= few_truth.spent).mean() > 0.95
    assert (many_truth.eaten > few_truth.eaten).all()


def test_a_dish_is_eaten_more_slowly_as_it_empties() -> None:
    able = np.array([1.0])
    eaten = [float(bitten(np.array([dish]), able)[0]) for dish in (0.2, 0.8, 1.0, 5.0)]
    assert eaten == sorted(eaten)
    assert eaten[0] > 0.19
    assert eaten[2] < 0.95
    assert eaten[3] == pytest.approx(1.0, abs=0.05)


def test_animals_live_faster_when_warm_but_not_when_hot() -> None:
    paces = [float(liveliness(warmth)) for warmth in (15.0, 21.0, 26.0, 34.0)]
    assert paces[1] == pytest.approx(1)
    assert paces[0] < paces[1] < paces[2]
    assert paces[3] == 0


def test_bins_grow_stand_still_and_decline() -> None:
    change = []
    for seed in range(4):
        world = make_world(seed, days=240)
        state = world.start.copy()
        at = {}
        for day in range(240):
            pass_day(world, state, day)
            at[day] = number(state)
        change.append(np.log((at[239] + 1) / (at[119] + 1)))
    share = np.concatenate(change)
    assert (share < -0.1).mean() > 0.2
    assert (share > 0.1).mean() > 0.3


def test_litter_is_seen_by_its_volume(world: World) -> None:
    state = world.start.copy()
    volume = litter(state)
    state.settled, state.loose = state.settled + state.loose, np.zeros(40)
    assert (litter(state) < volume).all()


def test_substrate_wore_at_the_rate_of_its_own_bin(world: World) -> None:
    days = worn_since(world)
    hungrier = replace(world, traits=replace(world.traits, dig=2 * world.traits.dig, rot=2 * world.traits.rot))
    sooner = worn_since(hungrier)

    assert (days < 1500).all()
    assert np.abs(sooner - days / 2).max() <= 1.5
    young = number(world.start) < YOUNG
    assert young.any()
    assert (days[young] < days[~young].mean() / 2).all()
