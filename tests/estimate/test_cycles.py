import numpy as np
import pytest
from scipy import integrate, stats

from workbook_tools.estimate._cycles import HABIT, HABIT_SPREAD, SURELY, CycleTable, cycles, left_alone

DRY, DRYING, DAMP, WET = range(4)
SHARE = np.array([0.3, 0.3, 0.2, 0.2])
CENTRE, SIGMA, FIRST, SECOND = 1.6, 0.3, 1.5, 2.7


@pytest.fixture
def sharp(monkeypatch):
    """The edge between damp and wet as sharp as the others, so that spans can be reckoned by hand."""
    monkeypatch.setattr("workbook_tools.estimate._cycles.WET_SD", 0.0)


def joined(looks):
    """Rows of (day, state, days since watering) of one bin."""
    day, state, since = (np.array(part) for part in zip(*looks, strict=True))
    return cycles(np.zeros(len(day), dtype=np.int64), day, state, since * 1.0, since * 1.0, FIRST, SECOND)


def chance(looks, missed=0.0):
    found = joined(looks)
    table = CycleTable(found.edges, np.arange(len(found.bin)), SHARE)
    return table.chance(np.array([CENTRE]), SIGMA, FIRST, SECOND, missed)[:, 0]


def between(low, high):
    return stats.norm.cdf((np.log(high) - CENTRE) / SIGMA) - stats.norm.cdf((np.log(low) - CENTRE) / SIGMA)


@pytest.mark.parametrize(
    ("state", "low", "high"), [(DRY, 1e-9, 4), (DRYING, 4, 6), (DAMP, 6, 10.8), (WET, 10.8, np.inf)]
)
def test_each_state_bounds_the_time_to_dry(sharp, state, low, high):
    assert chance([(4, state, 4)]) == pytest.approx([between(low, high)])


def test_looks_after_one_watering_are_put_together():
    """Damp on day 3 is 4.5 to 8.1 days, dry on day 6 is 6 at most."""
    assert chance([(3, DAMP, 3), (6, DRY, 6)]) == pytest.approx([between(4.5, 6)])


def test_each_watering_is_one_row():
    found = joined([(3, DRY, 3), (5, WET, 2), (7, DAMP, 4), (20, DRYING, 5)])

    assert found.day.tolist() == [3, 7, 20]


def test_when_looks_contradict_one_another_the_last_one_stands(sharp):
    assert chance([(2, DRYING, 2), (4, DAMP, 4)]) == pytest.approx([between(6, 10.8)])


def test_dry_looks_after_a_dry_one_say_nothing_more():
    assert chance([(3, DRY, 3), (7, DRY, 7)]) == pytest.approx(chance([(3, DRY, 3)]))


@pytest.mark.parametrize("looks", [[(3, DRY, 3), (7, WET, 7)], [(3, DRYING, 3), (6, WET, 6), (8, DAMP, 8)]])
def test_much_wetter_without_a_watering_is_one_that_nobody_logged(looks):
    """It can't be had without one, and no look after it is used."""
    assert chance(looks) == [0.0]
    assert chance(looks, 0.3)[0] > 0.0
    assert chance(looks, 0.3) == pytest.approx(chance(looks[:2], 0.3))


def test_the_order_of_the_rows_is_of_no_matter():
    looks = [(3, DAMP, 3), (6, DRY, 6), (9, WET, 3), (12, DRYING, 6)]

    assert chance(looks[::-1]) == pytest.approx(chance(looks))


def test_a_watering_nobody_logged_against_the_integral(sharp):
    """Over the day of that watering, by quadrature; the second one after it counts by the share of its state."""
    missed, passed = 0.4, 9.0

    def by(clock):
        return SURELY * stats.norm.cdf((np.log(clock) - CENTRE - np.log(HABIT)) / HABIT_SPREAD)

    def watered(day):
        rate = SURELY * stats.norm.pdf((np.log(day) - CENTRE - np.log(HABIT)) / HABIT_SPREAD) / HABIT_SPREAD / day
        ago = passed - day
        alone = (1 - by(ago)) / (1 - by(ago) + missed * by(ago))
        return rate * (alone * between(1.5 * ago, 2.7 * ago) + (1 - alone) * SHARE[DAMP])

    unlogged, _ = integrate.quad(watered, 1e-9, passed - 1e-9, limit=200)
    alone = 1 - by(passed)
    wanted = (alone * between(13.5, 24.3) + missed * unlogged) / (alone + missed * by(passed))
    assert chance([(9, DAMP, 9)], missed) == pytest.approx([wanted], abs=0.01)


def test_without_unlogged_waterings_nobody_watered_and_with_many_somebody_did():
    by = np.array([0.0, 0.5, 0.9])

    assert left_alone(0.0, by, 0.0) == pytest.approx([1, 1, 1])
    assert left_alone(0.0, by, 1.0) == pytest.approx(1 - by)


@pytest.mark.parametrize("missed", [0.0, 0.1, 0.9])
def test_the_chances_of_all_states_at_one_look_add_up_to_one(missed):
    assert sum(chance([(5, state, 5)], missed)[0] for state in range(4)) == pytest.approx(1.0)


def test_so_do_those_of_all_pairs_of_looks_that_can_be(sharp):
    """The second look after a dry one isn't used, so a dry first look is one case. Without unlogged waterings."""
    possible = [(DRY,)] + [(one, two) for one in (DRYING, DAMP, WET) for two in range(4) if two <= one]
    low = {DRY: 0, DRYING: 1, DAMP: 1.5, WET: 2.7}
    high = {DRY: 1, DRYING: 1.5, DAMP: 2.7, WET: np.inf}

    total = 0.0
    for states in possible:
        looks = [(day, state, day) for day, state in zip((3, 5), states, strict=False)]
        clash = max(day * low[s] for day, s, _ in looks) >= min(day * high[s] for day, s, _ in looks)
        total += 0.0 if clash else chance(looks)[0]
    assert total == pytest.approx(1.0)


def test_wet_bounds_the_time_to_dry_only_softly():
    """Where the moss is watered full or half full, the edge between damp and wet lies elsewhere."""
    slow = (np.log(10.8) - CENTRE) / np.hypot(SIGMA, 0.5)

    assert chance([(4, WET, 4)]) == pytest.approx([stats.norm.sf(slow)])


def test_no_look_gives_no_row():
    none = np.zeros(0, dtype=np.int64)

    assert len(cycles(none, none, none, np.zeros(0), np.zeros(0), FIRST, SECOND).bin) == 0
