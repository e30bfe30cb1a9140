import numpy as np
import pytest

from estimate.numbers_made import NAN, follow, move, seen


def today(population, bin=0):
    return [float(points[bin]) for points in population.today]


def test_a_bin_never_counted_is_a_guess_and_says_so():
    population = follow()
    low, middle, high = today(population)

    assert (low, middle, high) == pytest.approx((14, 50, 180), rel=0.02)
    assert not population.counted[0]
    assert population.notes[0] == 0


def test_a_bin_never_counted_leans_on_the_number_that_crowds_it():
    low, middle, high = today(follow(crowding=400))

    assert (low, middle, high) == pytest.approx((48, 160, 520), rel=0.05)


def test_a_start_number_alone_grows_wide():
    population = follow(number=20)
    low, middle, high = today(population)

    assert population.counted[0] and population.notes[0] == 0
    assert np.exp(population.log_mean[0, 0]) == pytest.approx(20, rel=0.02)
    assert low < 20 < middle < high
    assert high / low > 8


def test_one_full_sort_says_the_number():
    low, middle, high = today(follow([seen(0, 365, 100)]))

    assert middle == pytest.approx(100 / 0.85, rel=0.08)
    assert high / low < 2


def test_other_ways_of_counting_dont_look_like_growth():
    alone = follow([seen(0, 357, 160)])
    both = follow([seen(0, 350, 30, "lift"), seen(0, 357, 160)])

    assert today(both)[1] == pytest.approx(today(alone)[1], rel=0.06)
    assert both.growth[0][0] == pytest.approx(alone.growth[0][0], abs=0.02)
    assert both.odd[1] < 0.1


def test_many_counts_of_one_way_tell_growth_but_hardly_the_number():
    few = follow([seen(0, day, 30, "lift") for day in (120, 240, 360)])
    many = follow([seen(0, day, 30, "lift") for day in range(0, 361, 10)])

    assert np.sqrt(many.cov[0, 0, 0]) > 0.35
    assert np.sqrt(many.cov[0, 0, 0]) > 0.6 * np.sqrt(few.cov[0, 0, 0])
    assert many.growth[0][0] == pytest.approx(0, abs=0.04)


def test_growth_is_found():
    days = np.arange(0, 361, 30)
    rising = follow([seen(0, day, round(40 * np.exp(0.2 * day / 30.4))) for day in days])
    falling = follow([seen(0, day, round(400 * np.exp(-0.2 * day / 30.4))) for day in days])

    for population, true in ((rising, 0.2), (falling, -0.2)):
        growth, sd = (value[0] for value in population.growth)
        assert abs(growth - true) < 1.2816 * sd
        assert abs(growth) > sd and np.sign(growth) == np.sign(true)
    assert today(rising)[1] == pytest.approx(40 * np.exp(0.2 * 360 / 30.4) / 0.85, rel=0.15)


def test_words_alone_stay_within_the_words():
    population = follow([seen(0, day, NAN, "words", 24, 100) for day in (50, 150, 250, 350)])
    low, middle, high = today(population)

    assert 24 < middle < 110
    assert low < 60 < high


def test_a_lower_bound_isnt_taken_for_thousands():
    low, middle, high = today(follow([seen(0, day, 130, "sort", 100, np.inf) for day in (150, 250, 350)]))

    assert 110 < low < middle < high < 600


def test_a_split_halves_it_and_the_other_half_goes_on():
    population = follow(
        [seen(0, 199, 200)],
        [move(0, 200, share=0.5), move(1, 200, share=0.5, source=0)],
        bins=2,
        start=[0, 200],
        days=201,
    )
    before = np.exp(population.log_mean[0, 199])

    assert before == pytest.approx(200 / 0.85, rel=0.1)
    assert np.exp(population.log_mean[:, 200]) == pytest.approx([before / 2, before / 2], rel=0.05)
    assert (population.log_sd[:, 200] > population.log_sd[0, 199]).all()
    assert population.counted.all()


def test_a_sale_takes_its_number():
    population = follow([seen(0, 199, 200)], [move(0, 200, -60)], days=200)

    assert np.exp(population.log_mean[0, 199]) - np.exp(population.log_mean[0, 200]) == pytest.approx(60, abs=4)
    assert not population.oversold[0]


def test_a_sale_of_all_that_can_be_there_is_told_and_leaves_a_few():
    population = follow([seen(0, 199, 50)], [move(0, 200, -400)], days=230)
    low, middle, high = today(population)

    assert population.oversold[0]
    assert 0 < low < middle < 40
    assert high / low > 5


def test_a_sale_that_shows_there_were_more_moves_the_number_up():
    plain = follow([seen(0, 100, 30, "lift")], days=200)
    sold = follow([seen(0, 100, 30, "lift")], [move(0, 200, -200)], days=200)

    assert not sold.oversold[0]
    assert np.exp(sold.log_mean[0, 199]) > 1.3 * np.exp(plain.log_mean[0, 199])


def test_died_out_and_refilled():
    died = follow([seen(0, 100, 200), seen(0, 200, 0)], days=290)
    refilled = follow([seen(0, 100, 200), seen(0, 200, 0)], [move(0, 300, 20)], days=330)

    assert died.gone[0] > 0.9 and today(died)[1] < 3
    assert refilled.gone[0] == 0
    assert today(refilled)[1] == pytest.approx(21, rel=0.15)
    assert np.exp(refilled.log_mean[0, 150]) > 150, "what was there before stays as it was"


def test_an_empty_hide_isnt_an_empty_bin():
    population = follow([seen(0, 100, 200), seen(0, 130, 0, "lift")], days=130)

    assert population.gone[0] < 0.3
    assert today(population)[2] > 100


def test_emptied_by_the_keeper():
    population = follow([seen(0, 100, 50)], [move(0, 200, share=1.0)], days=260)

    assert population.gone[0] == 1
    assert population.forecast(60)[1][0] < 3


def test_a_crash_is_believed_at_the_second_count():
    once = follow([seen(0, 100, 200), seen(0, 200, 210), seen(0, 300, 20)], days=300)
    twice = follow([seen(0, 100, 200), seen(0, 200, 210), seen(0, 300, 20), seen(0, 310, 22)], days=310)

    assert once.odd[2] > 0.5
    assert today(once)[2] / today(once)[0] > 5
    assert today(twice)[1] == pytest.approx(26, rel=0.2)
    assert np.exp(twice.log_mean[0, 200]) > 150


def test_contradictory_counts_leave_it_open():
    population = follow([seen(0, 30 * i, value) for i, value in enumerate([200, 15] * 6)])
    low, _, high = today(population)

    assert low < 30 and high > 150
    assert (population.odd[1::2] > 0.5).all()


def test_what_came_on_the_first_day_is_the_start_number():
    unknown = follow(moves=[move(0, 0, 24)], days=0)
    given = follow(moves=[move(0, 0, 24)], days=0, number=30)

    assert today(unknown)[1] == pytest.approx(24)
    assert today(given)[1] == pytest.approx(30)


def test_before_its_start_a_bin_stands_as_at_its_start():
    population = follow([seen(0, 300, 90)], start=200, number=40)

    assert np.ptp(population.log_mean[0, :201]) == 0
    assert np.exp(population.log_mean[0, 0]) == pytest.approx(40, rel=0.1)


def test_notes_of_other_days_are_left_out():
    population = follow([seen(0, -5, 90), seen(0, 500, 90), seen(0, 20, 90)], start=10, number=80)

    assert population.notes[0] == 1


def test_two_counts_of_a_day_both_count():
    one, two = follow([seen(0, 365, 100)]), follow([seen(0, 365, 100), seen(0, 365, 100)])

    assert two.notes[0] == 2
    assert two.log_sd[0, -1] < one.log_sd[0, -1]


def test_bins_dont_touch_each_other():
    alone = follow([seen(0, 50, 40, "lift")], [move(0, 100, -5)], crowding=300)
    together = follow(
        [seen(1, 60, 0), seen(0, 50, 40, "lift"), seen(1, 60, 500)],
        [move(1, 100, 30), move(0, 100, -5)],
        bins=2,
        crowding=[300, NAN],
        appetite=[1, 2],
    )

    assert together.log_mean[0] == pytest.approx(alone.log_mean[0], abs=1e-12)
    assert together.log_sd[0] == pytest.approx(alone.log_sd[0], abs=1e-12)


def test_days_the_wrong_way_round_are_refused():
    with pytest.raises(ValueError, match="before"):
        follow(days=-1)
