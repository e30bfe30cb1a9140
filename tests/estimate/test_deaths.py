import numpy as np
import pytest
from scipy import stats

from workbook_tools.estimate.deaths import ALARM, LOOK, at_risk, follow_deaths, poisson_limits, so_many

BINS, DAYS = 30, 400


def quiet_bins(animals=100.0, a_month=1.0, seed=5):
    """Looks every third day, deaths singly at a rate for each hundred animals a month."""
    looked = np.zeros((BINS, DAYS), dtype=bool)
    for bin in range(BINS):
        looked[bin, bin % 3 :: 3] = True
    number = np.full((BINS, DAYS), animals)
    risk = at_risk(looked, number, np.zeros(BINS, dtype=np.int64))
    found = np.random.default_rng(seed).poisson(risk * a_month / 30.4).astype(float)
    return found, risk, number


def test_a_look_covers_the_days_since_the_last_one_but_no_more_than_a_dead_animal_lies():
    looked = np.zeros((1, 60), dtype=bool)
    looked[0, [4, 6, 40]] = True
    risk = at_risk(looked, np.full((1, 60), 50.0), np.array([0]))

    assert np.flatnonzero(risk[0]).tolist() == [4, 6, 40]
    assert risk[0, [4, 6, 40]] == pytest.approx([2.5, 1.0, 5.0])


def test_one_or_two_deaths_never_alarm_in_a_bin_of_many():
    found, risk, number = quiet_bins(a_month=0.0)
    found[3, 300] = 2

    assert not follow_deaths(found, risk, number).raised.any()


def test_two_deaths_among_a_few_animals_are_raised():
    found, risk, number = quiet_bins(animals=10.0, a_month=0.0)
    found[3, 300] = 2

    assert follow_deaths(found, risk, number).raised[3, 300] in (LOOK, ALARM)
    assert not follow_deaths(found, risk, number + 10).raised.any(), "of twenty it is no matter"


def test_a_die_off_is_an_alarm_and_is_raised_once():
    found, risk, number = quiet_bins()
    found[7, 304] += 5
    found[7, 307] += 5
    raised = follow_deaths(found, risk, number).raised

    assert ALARM in raised[7, 304:308]
    assert (raised[7, 304:330] == ALARM).sum() == 1


def test_a_few_too_many_are_worth_a_look_only():
    found, risk, number = quiet_bins()
    found[7, 290:320] = 0
    found[7, 304] = 5
    watch = follow_deaths(found, risk, number)

    assert watch.raised[7, 304] == LOOK
    assert 0.0003 < watch.chance[7, 304] < 0.004


def test_nothing_later_changes_what_was_raised_before():
    found, risk, number = quiet_bins()
    found[7, 200] += 12
    whole = follow_deaths(found, risk, number)
    part = follow_deaths(found[:, :260], risk[:, :260], number[:, :260])

    assert np.array_equal(whole.raised[:, :260], part.raised)
    assert np.array_equal(whole.chance[:, :260], part.chance)


def test_rates_are_learned_and_come_from_like_bins_where_little_is_known():
    found, risk, number = quiet_bins(a_month=4.0)
    risk[0], found[0] = 0.0, 0.0
    rate = 30.4 * follow_deaths(found, risk, number).rate[:, -1]

    assert np.median(rate[1:]) == pytest.approx(4.0, rel=0.15)
    assert rate[0] == pytest.approx(4.0, rel=0.15), "a bin never opened has what the others have"


def test_a_bin_that_always_loses_more_is_no_alarm_for_it():
    found, risk, number = quiet_bins(a_month=1.0)
    found[4] = np.random.default_rng(6).poisson(risk[4] * 6 / 30.4)
    watch = follow_deaths(found, risk, number)

    assert 30.4 * watch.rate[4, -1] > 4
    assert not (watch.raised[4, 200:] == ALARM).any()


def test_bunched_deaths_are_learned():
    found, risk, number = quiet_bins(a_month=4.0)
    single = follow_deaths(found, risk, number).bunched
    chance = np.random.default_rng(7)
    often = np.repeat(chance.gamma(0.6, 1 / 0.6, (BINS, DAYS // 14 + 1)), 14, axis=1)[:, :DAYS]
    together = follow_deaths(chance.poisson(risk * 4 / 30.4 * often).astype(float), risk, number).bunched

    assert together < 1.2 < 3 < single


def test_chances_are_those_of_the_negative_binomial():
    found, mean, size = np.array([3.0, 1.0, 0.0, 2.9]), np.array([1.2, 0.4, 0.4, 1.2]), np.array([0.8, 2.0, 2.0, 0.8])
    expected = [stats.nbinom.sf(x - 1, n, n / (n + m)) for x, m, n in zip((3, 1, 0, 2), mean, size, strict=True)]

    assert so_many(found, mean, size) == pytest.approx(expected)
    assert so_many(np.array([3.0]), np.array([1.2]), np.array([np.inf]))[0] == pytest.approx(stats.poisson.sf(2, 1.2))


def test_a_log_without_looks_says_nothing():
    none = np.zeros((2, 40))
    watch = follow_deaths(none, none, np.full((2, 40), 50.0))

    assert not watch.raised.any()
    assert np.isfinite(watch.rate).all()
    assert follow_deaths(np.zeros((0, 40)), np.zeros((0, 40)), np.zeros((0, 40))).raised.shape == (0, 40)


def test_limits_refuse_what_is_no_number_found():
    with pytest.raises(ValueError):
        poisson_limits(-1)


@pytest.mark.parametrize("found", [0, 1, 2, 5, 15, 50, 100])
def test_limits_of_a_number_found_are_those_at_which_it_is_just_unlikely(found):
    low, high = poisson_limits(found)

    assert stats.poisson.cdf(found, high) == pytest.approx(0.025)
    assert low == 0 if found == 0 else stats.poisson.sf(found - 1, low) == pytest.approx(0.025)


def test_none_found_one_sided_is_the_rule_of_three():
    assert poisson_limits(0, 0.90)[1] == pytest.approx(-np.log(0.05))
