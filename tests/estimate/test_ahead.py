import numpy as np
import pytest

from estimate.numbers_made import follow, seen
from workbook_tools.estimate._ahead import nodes
from workbook_tools.estimate._growth import Growth


def test_the_fan_is_a_standard_normal_in_each_direction():
    z = nodes()

    assert z.mean(axis=0) == pytest.approx(0, abs=1e-12)
    assert z.std(axis=0) == pytest.approx(1)
    assert np.corrcoef(z.T) == pytest.approx(np.eye(4), abs=1e-9)
    assert np.array_equal(z, nodes())


@pytest.mark.parametrize("days", [7, 60, 365])
def test_the_fan_agrees_with_the_filter_where_that_is_exact(days):
    population = follow([seen(0, day, 90, "hides") for day in (100, 200, 300)])
    mean, cov = population.mean, population.cov
    for _ in range(days):
        mean, cov, _ = population.law.day(mean, cov, np.zeros(1))
    low, middle, high = (np.log(points[0]) for points in population.forecast(days))

    assert middle == pytest.approx(mean[0, 0], abs=0.02)
    assert (high - low) / 2.5631 == pytest.approx(np.sqrt(cov[0, 0, 0]), rel=0.06)


def test_a_forecast_of_no_days_is_today():
    population = follow([seen(0, 365, 90, "hides")], crowding=200)

    for ahead, now in zip(population.forecast(0), population.today, strict=True):
        assert ahead == pytest.approx(now, rel=0.03)


def test_a_forecast_of_many_days_is_that_of_each():
    population = follow([seen(0, 300, 90, "hides"), seen(1, 300, 20, "lift")], bins=2)
    middle = population.forecast(np.array([14.0, 28.0]))[1]

    assert middle.shape == (2, 2)
    assert middle[:, 1] == pytest.approx(population.forecast(28)[1])


def test_doubling_of_sure_growth_is_ln_2_over_growth():
    law = Growth(np.array([np.inf]), np.array([0.2]), np.array([0.2]))
    population = follow([seen(0, 365, 90)])
    sure = type(population)(
        **{
            **{name: getattr(population, name) for name in population.__dataclass_fields__},
            "law": law,
            "mean": np.array([[np.log(90.0)], [0.2], [0.0]]),
            "cov": np.eye(3)[:, :, None] * 1e-12,
        }
    )
    until = sure.doubling()

    assert until.middle[0] == pytest.approx(30.4 * np.log(2) / 0.2, rel=0.05)
    assert until.low[0] < until.middle[0] < until.high[0]
    assert not until.already[0]


def test_a_bin_that_falls_doesnt_double():
    until = follow([seen(0, day, round(4000 * np.exp(-0.3 * day / 30.4))) for day in range(0, 366, 15)]).doubling()

    assert until.beyond[2, 0] and until.high[0] == until.horizon


def test_crowding_days_are_flagged_instead_of_infinite():
    population = follow(
        [seen(0, 365, 90), seen(1, 365, 90), seen(2, 365, 90), seen(3, 365, 90)],
        bins=4,
        crowding=[np.nan, 60, 150, 100000],
    )
    until = population.crowding_day()

    assert until.known.tolist() == [False, True, True, True]
    assert until.already.tolist() == [False, True, False, False]
    assert until.beyond[1].tolist() == [True, False, False, True]
    assert 30 < until.middle[2] < 700
    for days in (until.low, until.middle, until.high):
        assert ((days >= 0) & (days <= until.horizon)).all()


def test_crowding_holds_numbers_down():
    free, held = follow([seen(0, 365, 90)], number=60), follow([seen(0, 365, 90)], number=60, crowding=80)

    assert held.forecast(900)[1][0] < 260
    assert held.growth[0][0] < free.growth[0][0]
