import numpy as np
import pytest
from scipy.stats import norm

from workbook_tools.estimate.runout import LONGEST, Exposure, Outlook, mixture_quantile
from workbook_tools.estimate.stock import Followed
from workbook_tools.estimate.substrate import Grazed


def outlook(rate=0.01, share=0.9, sd=1e-4, daily=1.0, daily_sd=0.0, walk=0.0, scarce=np.inf):
    one = np.ones((1, 1))
    stock = Followed(one, share * one, sd**2 * one, None)
    exposure = Exposure(daily * one, daily_sd * one)
    return Outlook(stock, rate * one, Grazed(0.9, scarce), exposure, walk)


def test_middle_day_is_that_of_the_decay():
    days, beyond = outlook().out_by(np.array([[0.2]]))

    assert days[1, 0] == pytest.approx(np.log(0.9 / 0.2) / 0.01, rel=0.03)
    assert not beyond.any()


@pytest.mark.parametrize("scarce", [np.inf, 0.4])
def test_path_meets_the_threshold_on_the_middle_day(scarce):
    one = outlook(scarce=scarce)
    days, _ = one.out_by(np.array([[0.2]]))

    assert one.path((round(days[1, 0]),))[1, 0, 0] == pytest.approx(0.2, abs=0.01)


def test_already_out_is_day_nought():
    days, beyond = outlook(share=0.1).out_by(np.array([[0.2]]))

    assert days[:, 0].tolist() == [0, 0, 0]
    assert not beyond.any()


def test_nobody_eats_is_beyond_and_never_a_date_in_the_far_future():
    days, beyond = outlook(daily=0.0).out_by(np.array([[0.2]]))

    assert days[:, 0].tolist() == [LONGEST] * 3
    assert beyond.all()


@pytest.mark.parametrize("doubt", [{"sd": 0.1}, {"daily_sd": 0.4}, {"walk": 0.4}])
def test_every_doubt_widens_the_interval(doubt):
    sure, _ = outlook().out_by(np.array([[0.2]]))
    unsure, _ = outlook(**doubt).out_by(np.array([[0.2]]))

    assert unsure[2, 0] - unsure[0, 0] > 1.2 * (sure[2, 0] - sure[0, 0])


def test_exposure_goes_on_as_on_its_last_day():
    total, error = Exposure(np.array([[1.0, 2.0]]), np.array([[0.0, 0.3]])).until(4)

    assert total[0, 0] == 7
    assert error[0, 0] == pytest.approx(0.3 * 6 / 7)


def test_quantile_of_a_mixture_is_where_its_shares_add_up():
    weight, mean, sd = np.array([[0.3, 0.7]]), np.array([[0.0, 4.0]]), np.array([[1.0, 0.5]])
    at = mixture_quantile(weight, mean, sd, 0.4)

    assert (weight * norm.cdf((at[:, None] - mean) / sd)).sum() == pytest.approx(0.4, abs=1e-6)


def test_a_doubtful_pace_makes_the_days_log_normal():
    days, beyond = outlook(daily_sd=0.8).out_by(np.array([[0.2]]))

    middle = np.log(0.9 / 0.2) / 0.01
    factor = np.exp(norm.ppf(0.9) * np.sqrt(np.log1p(0.8**2 + 8 * 0.15**2 / middle)))
    assert days[:, 0] == pytest.approx([middle / factor, middle, middle * factor], rel=0.04)
    assert not beyond.any()
