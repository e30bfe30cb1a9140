"""The chance of a span with right-censored units, against a handbook's Weibull fit.

Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 8.4.1.3: 20 units, 10 failures, the rest still running
at 500 hours; shape 1.7207, scale 606.5280. The printed answers were taken from a public test that cites the page, not
from the page. Tolerance: half a unit of the last printed digit. No disagreement was found.

The handbook's scatter is a Weibull's, whose logarithm is a smallest extreme value, not a normal; `span_chance` takes
the law of the scatter, so that this fit runs through the same routine. An exact failure is a very short span.
"""

import numpy as np
import pytest
from scipy import optimize, stats

from workbook_tools.estimate._grid import span_chance

FAILED = np.array([54, 187, 216, 240, 244, 335, 361, 373, 375, 386], dtype=float)
RUNNING, STOPPED = 10, 500.0
SHORT = 1e-4


def surprise(place):
    centre, scale = place[0], np.exp(place[1])
    logs = np.log(FAILED)
    exact = span_chance(logs - SHORT / 2, logs + SHORT / 2, np.array(centre), scale, stats.gumbel_l)
    running = span_chance(np.log(STOPPED), np.array(np.inf), np.array(centre), scale, stats.gumbel_l)
    return -(np.log(exact / SHORT).sum() + RUNNING * np.log(running))


def test_shape_and_scale():
    options = {"xatol": 1e-9, "fatol": 1e-11, "maxiter": 5000}
    best = optimize.minimize(surprise, [6.0, 0.0], method="Nelder-Mead", options=options)

    assert best.success
    assert np.exp(-best.x[1]) == pytest.approx(1.7207, abs=0.00015)
    assert np.exp(best.x[0]) == pytest.approx(606.5280, abs=0.005)
