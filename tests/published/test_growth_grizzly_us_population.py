"""Growth of numbers against two published series.

Yellowstone grizzly bears 1959-1997 (data: R package popbio, ``grizzly``; answers of Morris & Doak 2002, Quantitative
Conservation Biology, table 3.1, from memory, recomputed): mean growth 0.02134 and variance 0.01305 a year, by the
method of Dennis, Munholland & Scott 1991 (Ecological Monographs 61, 115-143). Their own 1991 answers were not found.

Population of the United States (Pearl & Reed 1920, from memory, recomputed): the logistic curve through 3.929 million
in 1790, 23.192 in 1850 and 91.972 in 1910 has a limit of 197.27 and a rate of 0.0313395 a year.
"""

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from workbook_tools.estimate._grid import MONTH
from workbook_tools.estimate._growth import Growth
from workbook_tools.estimate._kalman import Doubts, predict, take_value

BEARS = np.array(
    "44 47 46 44 46 45 46 40 39 39 42 39 41 40 33 36 34 39 35 34 38 36 37 41 39 51 47 57 48 60 65 74 69 65 57 70 81 99 "
    "99".split(),
    dtype=float,
)
LOADING = np.array([[1.0], [0.0]])


def follow(variance):
    """Drift of exactly known log numbers, nothing known of it before, and the log density of all later years."""
    mean = np.array([[np.log(BEARS[0])], [0.0]])
    cov = np.diag([1e-12, 1e4])[:, :, None]
    total = 0.0
    for number in BEARS[1:]:
        mean, cov, _ = predict(mean, cov, np.array([[1.0, 1], [0, 1]])[:, :, None], np.diag([variance, 0.0])[..., None])
        taken = take_value(mean, cov, LOADING, np.array([np.log(number)]), np.array([1e-12]), Doubts())
        mean, cov, total = taken.mean, taken.cov, total + taken.log_density[0]
    return mean[1, 0], np.sqrt(cov[1, 1, 0]), total


def test_growth_of_the_bears():
    growth, sd, _ = follow(0.01305)

    assert growth == pytest.approx(0.02134, abs=5e-6)
    assert abs(growth) < 1.96 * sd, "from 44 to 99, and yet no clear trend"


def test_the_slope_of_a_line_is_another_number():
    assert np.polyfit(np.arange(39), np.log(BEARS), 1)[0] == pytest.approx(0.01720, abs=5e-6)


def test_variance_of_the_bears_growth_has_the_highest_likelihood():
    best = minimize_scalar(lambda log: -follow(np.exp(log))[2], bounds=(-6, -3), method="bounded")

    assert np.exp(best.x) == pytest.approx(0.01305, abs=5e-6)


def test_crowded_growth_is_the_logistic_curve_of_pearl_and_reed():
    # A step of the program, a day, stands for a hundredth of a year. The limit is printed to 5 digits and steps are not
    # quite a curve, so 4 digits are left.
    step = 0.01
    rate = np.array([0.0313395 * step * MONTH])
    law = Growth(np.array([197.27]), rate, rate)
    mean, cov = np.array([[np.log(3.929)], rate, [0.0]]), np.eye(3)[:, :, None] * 1e-12
    found = {}
    for year in range(1, 121):
        for _ in range(round(1 / step)):
            mean, _, _ = law.day(mean, cov, np.zeros(1))
        found[1790 + year] = np.exp(mean[0, 0])

    assert found[1850] == pytest.approx(23.192, rel=5e-4)
    assert found[1910] == pytest.approx(91.972, rel=5e-4)
