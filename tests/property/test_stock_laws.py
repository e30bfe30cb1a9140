"""Laws of litter and substrate that hold whatever a keeper writes."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from workbook_tools.estimate.litter import Sights, TopUps, follow_litter
from workbook_tools.estimate.substrate import Changes, Looks, follow_substrate

DAYS = 40
NEVER = np.zeros(0, int)
bounds = st.tuples(st.floats(0, 1), st.floats(0, 1)).map(sorted)
seen = st.lists(st.tuples(st.integers(0, DAYS - 1), bounds), max_size=5)
given_litres = st.lists(st.tuples(st.integers(0, DAYS - 2), st.floats(0, 3) | st.just(np.nan)), max_size=4)
animals = st.floats(0, 3000)
quick = settings(max_examples=40, deadline=None)


def litter(sights, litres, past, ahead):
    spoken = [*sights]
    return follow_litter(
        TopUps(np.zeros(len(litres), int), np.array([d for d, _ in litres], int), np.array([x for _, x in litres])),
        Sights(
            np.zeros(len(spoken), int),
            np.array([day for day, _ in spoken], int),
            np.array([low for _, (low, _) in spoken]),
            np.array([high for _, (_, high) in spoken]),
            np.zeros(len(spoken), bool),
        ),
        exposure=np.full((1, DAYS), (past / 100) ** 0.85),
        first_day=0,
        species=np.zeros(1, int),
        appetite=np.ones(1, int),
        full=np.array([1.5]),
        ahead=np.array([[(ahead / 100) ** 0.85]]),
    )


def substrate(looks, changed, past, ahead):
    return follow_substrate(
        Changes(np.zeros(len(changed), int), np.array([d for d, _ in changed], int), np.array([x for _, x in changed])),
        Looks(
            np.zeros(len(looks), int),
            np.array([day for day, _ in looks], int),
            np.array([low for _, (low, _) in looks]),
            np.array([high for _, (_, high) in looks]),
            np.zeros(len(looks), bool),
        ),
        exposure=np.full((1, DAYS), (past / 100) ** 0.8),
        first_day=0,
        species=np.zeros(1, int),
        appetite=np.ones(1, int),
        ahead=np.array([[(ahead / 100) ** 0.8]]),
    )


@quick
@given(seen, given_litres, animals, animals, animals)
def test_more_animals_never_run_out_of_litter_later(sights, litres, past, some, others):
    few, many = sorted((some, others))

    assert (litter(sights, litres, past, many).runs_out <= litter(sights, litres, past, few).runs_out + 1e-6).all()


@quick
@given(seen, st.lists(st.tuples(st.integers(0, DAYS - 1), st.floats(0, 1)), max_size=3), animals, animals, animals)
def test_more_animals_never_spend_substrate_later(looks, changed, past, some, others):
    few, many = sorted((some, others))

    assert (substrate(looks, changed, past, many).spent <= substrate(looks, changed, past, few).spent + 1e-6).all()


@quick
@given(seen, animals, st.floats(0, 3))
def test_a_top_up_never_brings_the_run_out_forward(sights, number, litres):
    """Where the keeper said that day what was there before it; without a word it also tells that litter was low."""
    last = DAYS - 1
    told = [*sights, (last, (0.2, 0.8))]
    before = litter(told, [(0, 0.75)] * 4, number, number)
    after = litter(told, [(0, 0.75)] * 4 + [(last, litres)], number, number)

    if after.full[0] == before.full[0]:
        assert (after.runs_out >= 0.998 * before.runs_out).all()


@quick
@given(seen, given_litres, animals)
def test_litter_is_always_finite_and_in_order(sights, litres, number):
    found = litter(sights, litres, number, number)

    for part in (found.left, found.week, found.runs_out, found.path):
        assert np.isfinite(part).all() and (part >= 0).all()
        assert (np.diff(part, axis=0) >= 0).all()


@quick
@given(seen, animals)
def test_a_full_change_resets_and_none_changes_nothing(looks, number):
    last = DAYS - 1
    untouched = substrate(looks, [], number, number)

    assert np.allclose(substrate(looks, [(last, 0.0)], number, number).share, untouched.share, atol=1e-9)
    assert abs(substrate(looks, [(last, 1.0)], number, number).share[1, 0] - 0.9) < 0.03


@quick
@given(seen, animals, st.floats(0, 1), st.floats(0, 1))
def test_renewing_more_leaves_more_recognisable(looks, number, one, other):
    less, more = sorted((one, other))
    last = DAYS - 1
    low = substrate(looks, [(last, less)], number, number).share[1, 0]
    high = substrate(looks, [(last, more)], number, number).share[1, 0]

    assert high >= low - 0.02
