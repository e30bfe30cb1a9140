import numpy as np

from tools.losses_sample import event
from workbook_tools.estimate.deaths import at_risk, follow_deaths
from workbook_tools.plan.losses.together import ALL_BINS, Lost, clusters

BINS, DAYS, FIRST = 24, 300, 738_000
GROUPS = {f"at shelf {at}": tuple(range(6 * at, 6 * at + 6)) for at in range(4)}


def lost(extra=(), seed=11):
    """Looks every third day at 100 animals, a death a month; more dead by bin and day."""
    looked = np.zeros((BINS, DAYS), dtype=bool)
    for bin in range(BINS):
        looked[bin, bin % 3 :: 3] = True
    animals = np.full((BINS, DAYS), 100.0)
    risk = at_risk(looked, animals, np.zeros(BINS, dtype=np.int64))
    found = np.random.default_rng(seed).poisson(risk / 30.4).astype(float)
    for bin, day, number in extra:
        found[bin, day] += number
    return Lost(tuple(f"X{bin}" for bin in range(BINS)), FIRST, found, risk, follow_deaths(found, risk, animals))


def happened(day, **changes):
    made = lost()
    return event(made.day(day), day=made.day(day), **changes)


SHELF = [(bin, 290 + bin % 3, 4) for bin in GROUPS["at shelf 1"]]


def test_nothing_wrong_is_no_cluster():
    assert all(clusters(lost(seed=seed), GROUPS, [happened(285)]) == () for seed in range(8))


def test_one_bin_alone_is_no_cluster():
    assert clusters(lost([(7, 290, 30)]), GROUPS, [happened(285)]) == ()


def test_bins_of_a_shelf_are_found_without_an_event():
    (cluster,) = clusters(lost(SHELF), GROUPS, [])

    assert cluster.shares == "at shelf 1"
    assert set(cluster.bins) == {f"X{bin}" for bin in GROUPS["at shelf 1"]}
    assert cluster.events == ()
    assert cluster.found > 20 > 10 > cluster.expected
    assert cluster.luck < 1e-4


def test_the_event_before_is_named_and_one_long_before_is_not():
    (cluster,) = clusters(lost(SHELF), GROUPS, [happened(250), happened(287, says="paint")])

    assert [one.says for one in cluster.events] == ["paint"]


def test_an_event_of_other_bins_is_not_named():
    (cluster,) = clusters(lost(SHELF), GROUPS, [happened(287, bins=("X0",))])

    assert cluster.events == ()


def test_after_an_event_less_is_enough():
    few = [(bin, 290 + bin % 3, 2) for bin in GROUPS["at shelf 2"]]
    without, after = clusters(lost(few), GROUPS, []), clusters(lost(few), GROUPS, [happened(288)])

    assert after
    assert after[0].luck < (without[0].luck if without else 1)


def test_bins_everywhere_are_named_as_all():
    everywhere = [(bin, 290 + bin % 3, 2) for bin in range(0, BINS, 2)]
    found = clusters(lost(everywhere), {}, [happened(288)])

    assert [one.shares for one in found] == [ALL_BINS]


def test_what_is_long_past_is_not_shown():
    past = [(bin, 200 + bin % 3, 4) for bin in GROUPS["at shelf 1"]]

    assert clusters(lost(past), GROUPS, [happened(198)]) == ()
