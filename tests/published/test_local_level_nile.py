"""The filter and the smoother against the local level model of the Nile's flow at Aswan, 1871-1970.

Data and variances: Durbin & Koopman, Time Series Analysis by State Space Methods, as kept in the statsmodels data set
``nile`` and its tests (15099 and 1469.1). Log likelihoods: the R package KFAS, as quoted in the documentation of
another package that compares itself with it (second hand): -641.5856 with a start of 0 and variance 1e7, -632.5456 with
an exact diffuse start. The reference library for the path of the level is statsmodels itself.

Programs disagree on the diffuse start: statsmodels' exact one gives -633.4646, which is KFAS less half the log of 2 pi.
Only the sum over the second and later years is common to both, and that is what is checked here.
"""

import numpy as np
import pytest
import statsmodels.api as sm

from workbook_tools.estimate._kalman import Doubts, predict, smooth, take_value

EPS, ETA = 15099.0, 1469.1
FLOW = np.asarray(sm.datasets.nile.load_pandas().data["volume"], dtype=float)
ONE = np.ones((1, 1))


def run(start, variance, values=FLOW, observed=None):
    """Filtered means and variances, smoothed ones, and the log density of each year."""
    mean, cov = np.full((1, 1), start), np.full((1, 1, 1), variance)
    noise, step = np.full((1, 1, 1), ETA), np.ones((1, 1, 1))
    filtered, logs = [], []
    for year, value in enumerate(values):
        if year:
            mean, cov, _ = predict(mean, cov, step, noise)
        if observed is None or observed[year]:
            taken = take_value(mean, cov, ONE, np.array([value]), np.array([EPS]), Doubts())
            mean, cov = taken.mean, taken.cov
            logs.append(taken.log_density[0])
        filtered.append((mean, cov))
    later = filtered[-1]
    smoothed = [later]
    for here in reversed(filtered[:-1]):
        ahead = predict(*here, step, noise)
        later = smooth(here, ahead[:2], ahead[2], later)
        smoothed.append(later)
    smoothed.reverse()

    def flat(states):
        return np.array([(m[0, 0], c[0, 0, 0]) for m, c in states]).T

    return *flat(filtered), *flat(smoothed), np.array(logs)


def exact():
    """A diffuse start: after the first year the level is that year's flow, with the variance of one reading."""
    return run(FLOW[0], EPS, FLOW, np.arange(100) > 0)


def test_log_likelihood_with_a_wide_start_is_that_of_kfas():
    assert run(0.0, 1e7)[-1].sum() == pytest.approx(-641.5856, abs=5e-5)


def test_log_likelihood_with_an_exact_start_is_that_of_kfas():
    assert exact()[-1].sum() == pytest.approx(-632.5456, abs=5e-5)


def test_level_is_that_of_statsmodels():
    model = sm.tsa.UnobservedComponents(FLOW, "llevel", use_exact_diffuse=True)
    reference = model.smooth([EPS, ETA])
    mean, variance, smooth_mean, smooth_variance, logs = exact()

    assert mean == pytest.approx(reference.filtered_state[0], abs=1e-6)
    assert variance == pytest.approx(reference.filtered_state_cov[0, 0], abs=1e-5)
    assert smooth_mean == pytest.approx(reference.smoothed_state[0], abs=1e-6)
    assert smooth_variance == pytest.approx(reference.smoothed_state_cov[0, 0], abs=1e-5)
    assert logs == pytest.approx(reference.llf_obs[1:], abs=1e-8)


def test_level_over_missing_years_is_that_of_statsmodels():
    years = np.arange(1871, 1971)
    seen = ~(((years >= 1891) & (years <= 1910)) | ((years >= 1931) & (years <= 1950)))
    gaps = np.where(seen, FLOW, np.nan)
    reference = sm.tsa.UnobservedComponents(gaps, "llevel", use_exact_diffuse=True).smooth([EPS, ETA])
    mean, variance, smooth_mean, _, _ = run(FLOW[0], EPS, gaps, seen & (years > 1871))

    assert mean == pytest.approx(reference.filtered_state[0], abs=1e-6)
    assert variance == pytest.approx(reference.filtered_state_cov[0, 0], abs=1e-5)
    assert smooth_mean == pytest.approx(reference.smoothed_state[0], abs=1e-6)
