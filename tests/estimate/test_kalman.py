import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from workbook_tools.estimate._kalman import Doubts, predict, smooth, take_bounds, take_value

ONE = np.ones((1, 1))


def state(mean, variance):
    return np.array([[mean]]), np.array([[[variance]]])


def moments(likelihood, mean, sd):
    """Mean and variance of a normal times a likelihood, by quadrature."""

    def integral(power):
        return quad(
            lambda x: x**power * likelihood(x) * norm.pdf(x, mean, sd),
            mean - 12 * sd,
            mean + 12 * sd,
            points=[mean],
            limit=400,
        )[0]

    total, first, second = integral(0), integral(1), integral(2)
    return first / total, second / total - (first / total) ** 2, total


@pytest.mark.parametrize(("low", "high"), [(-np.inf, 1.0), (0.5, np.inf), (2.0, 2.5), (-3.0, -2.0), (4.0, np.inf)])
def test_bounds_give_the_moments_of_quadrature(low, high):
    taken = take_bounds(*state(0.3, 0.8), ONE, np.array([low]), np.array([high]), np.array([0.2]), Doubts())
    root = np.sqrt(0.2)
    mean, variance, total = moments(lambda x: norm.cdf((high - x) / root) - norm.cdf((low - x) / root), 0.3, 0.8**0.5)

    assert taken.mean[0, 0] == pytest.approx(mean, abs=1e-6)
    assert taken.cov[0, 0, 0] == pytest.approx(variance, abs=1e-6)
    assert taken.log_density[0] == pytest.approx(np.log(total), abs=1e-6)


@pytest.mark.parametrize("value", [0.0, 1.5, 4.0])
def test_a_doubtful_value_gives_the_moments_of_quadrature(value):
    doubts = Doubts(bad=0.1, bad_times=3, odd=0.04, odd_variance=2.0)
    taken = take_value(*state(0.3, 0.5), ONE, np.array([value]), np.array([0.2]), doubts)

    def likelihood(x):
        cases = ((0.86, 0.2), (0.1, 1.8), (0.02, 2.2))
        return sum(share * norm.pdf(value, x, np.sqrt(variance)) for share, variance in cases)

    mean, variance, total = moments(likelihood, 0.3, np.sqrt(0.5))
    jumped_mean, jumped_variance, jumped_total = moments(
        lambda x: 0.02 * norm.pdf(value, x, np.sqrt(0.2)), 0.3, np.sqrt(2.5)
    )
    chance = jumped_total / (total + jumped_total)
    both = (1 - chance) * mean + chance * jumped_mean
    wide = (1 - chance) * (variance + mean**2) + chance * (jumped_variance + jumped_mean**2) - both**2

    assert taken.mean[0, 0] == pytest.approx(both, abs=1e-6)
    assert taken.cov[0, 0, 0] == pytest.approx(wide, abs=1e-6)
    assert taken.jumped[0] == pytest.approx(chance, abs=1e-6)
    assert taken.log_density[0] == pytest.approx(np.log(total + jumped_total), abs=1e-6)


def test_a_bound_far_out_moves_the_state_to_it_and_stays_finite():
    taken = take_bounds(*state(0.0, 1.0), ONE, np.array([60.0]), np.array([np.inf]), np.array([1e-6]), Doubts())

    assert taken.mean[0, 0] == pytest.approx(60, rel=1e-3)
    assert np.isfinite(taken.log_density[0])
    assert taken.cov[0, 0, 0] >= 0


def test_smoothing_is_the_joint_normal_given_both_values():
    step, noise = np.array([[1.0, 0.5], [0.0, 0.9]])[:, :, None], np.diag([0.1, 0.02])[:, :, None]
    mean, cov = np.array([[1.0], [0.2]]), np.array([[0.5, 0.1], [0.1, 0.3]])[:, :, None]
    loading, variance = np.array([[1.0], [0.0]]), np.array([0.2])
    first = take_value(mean, cov, loading, np.array([1.4]), variance, Doubts())
    ahead = predict(first.mean, first.cov, step, noise)
    second = take_value(ahead[0], ahead[1], loading, np.array([0.7]), variance, Doubts())
    smoothed = smooth((first.mean, first.cov), ahead[:2], ahead[2], (second.mean, second.cov))

    f, p = step[:, :, 0], cov[:, :, 0]
    see = np.array([[1.0, 0.0], f[0]])
    spread = see @ p @ see.T + np.diag([0.2, 0.2 + 0.1])
    gain = p @ see.T @ np.linalg.inv(spread)
    expected = mean[:, 0] + gain @ (np.array([1.4, 0.7]) - see @ mean[:, 0])
    assert smoothed[0][:, 0] == pytest.approx(expected)
    assert smoothed[1][:, :, 0] == pytest.approx(p - gain @ see @ p)
