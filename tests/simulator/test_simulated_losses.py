"""The simulated keepers of losses.py in small: the figures in full are printed by that script."""

from dataclasses import replace

import numpy as np

from simulator.losses import BINS, DAYS, FROM, HIT, Tally, chart_alarms, die_off, keep, window_alarms
from workbook_tools.estimate.deaths import ALARM

SEEDS = range(40, 44)


def test_the_same_seed_is_the_same_keeper():
    assert np.array_equal(keep(3).found, keep(3).found)
    assert not np.array_equal(keep(3).found, keep(4).found)


def test_dead_are_found_only_at_looks():
    kept = keep(3)

    assert kept.found[~kept.looked].sum() == 0
    assert kept.found.sum() > 200


def test_a_die_off_adds_what_it_says():
    kept = keep(3)
    before = kept.found.sum()
    hits = die_off(kept, 3, 10)

    assert kept.found.sum() - before == 10 * HIT
    assert len({bin for bin, _ in hits}) == HIT


def test_false_alarms_are_few_and_far_fewer_than_of_a_chart():
    alarm, chart = Tally(), Tally()
    for seed in SEEDS:
        kept = keep(seed)
        alarm.quiet_keeper(window_alarms(kept) == ALARM)
        chart.quiet_keeper(chart_alarms(kept))

    assert alarm.bins_years == len(SEEDS) * BINS * (DAYS - FROM) / 365
    assert alarm.a_year < 2.5
    assert chart.a_year > 20 * alarm.a_year


def test_a_large_die_off_is_mostly_found_in_time():
    tally = Tally()
    for seed in SEEDS:
        kept = keep(seed)
        hits = die_off(kept, seed, 15)
        tally.struck(window_alarms(kept) == ALARM, hits)

    assert tally.hits == HIT * len(SEEDS)
    assert tally.share >= 0.75
    assert tally.delay <= 8


def test_numbers_that_grow_unknown_cry_wolf():
    known, unknown = Tally(), Tally()
    for seed in SEEDS:
        known.quiet_keeper(window_alarms(keep(seed, 0.12)) == ALARM)
        unknown.quiet_keeper(window_alarms(replace(keep(seed, 0.12, known=False))) == ALARM)

    assert unknown.a_year > 3 * known.a_year
