"""The simulated keeper: the same seed writes the same log, and the log is one that a ledger can be built of."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from simulator.keeper import Diary, Keeper
from simulator.log import rows_of
from simulator.world import World, make_world
from workbook_tools.intake.settings import Settings
from workbook_tools.ledger.build import build_ledger


def kept(seed: int, *, dense: bool, wrong: bool = False, days: int = 240) -> tuple[World, Diary]:
    world = make_world(seed, bins=24, days=days, wrong=wrong)
    return world, Keeper(world, dense, np.random.default_rng((seed, 9))).live((days - 1,))


def test_the_same_seed_writes_the_same_log() -> None:
    first, again, other = (rows_of(*kept(seed, dense=True, days=90)) for seed in (5, 5, 6))
    assert first == again
    assert first != other


@pytest.mark.parametrize("wrong", [False, True])
def test_animals_are_born_die_or_are_moved(wrong: bool) -> None:
    world, diary = kept(7, dense=True, wrong=wrong)
    came = sum(int(move.came.sum()) for move in diary.moves)
    left = sum(int(move.left.sum()) for move in diary.moves)
    stands = diary.stood[world.days - 1].animals
    assert stands.sum() == world.start.animals.sum() + diary.born - diary.died + came - left
    assert left > 0
    assert (stands >= 0).all()


def test_a_sparse_keeper_writes_a_quarter_of_the_visits() -> None:
    def share(dense: bool) -> float:
        world, diary = kept(8, dense=dense)
        return sum("moss" in note.facts for note in diary.notes) / diary.visits / len(world.traits.kind)

    assert 0.6 < share(True) < 0.95
    assert 0.12 < share(False) < 0.3


def test_what_is_noted_of_the_moss_follows_the_moss() -> None:
    world = make_world(9, bins=24, days=120)
    keeper = Keeper(world, True, np.random.default_rng(9))
    diary = keeper.live(tuple(range(120)))
    wet: dict[str, list[float]] = {}
    for note in diary.notes:
        if "moss" in note.facts and "water" not in note.facts:
            share = diary.stood[note.day].water[note.bin] / world.traits.moss[note.bin]
            wet.setdefault(note.facts["moss"], []).append(share)
    for word, low, high in (("damp", 0.3, 0.85), ("wet", 0.6, 1.0)):
        shares = np.array(wet[word])
        assert len(shares) > 20
        assert ((shares > low) & (shares < high)).mean() > 0.95, word


@pytest.mark.parametrize("dense", [True, False])
def test_every_note_of_the_log_reaches_the_ledger(dense: bool) -> None:
    world, diary = kept(10, dense=dense)
    rows = rows_of(world, diary)
    ledger, problems = build_ledger(rows, Settings(), on=dt.date.fromordinal(world.first + world.days))
    assert {problem.code for problem in problems} <= {"bins.unlisted", "bins.begun"}
    assert ledger.rows_used == ledger.rows_read == len(rows)
    acts = [entry.act for entry in ledger.entries if entry.when is not None]
    for act, key in (("moss", "moss"), ("feed", "food"), ("count", "count"), ("leaf", "leaf"), ("water", "water")):
        assert acts.count(act) == sum(key in note.facts for note in diary.notes), act
