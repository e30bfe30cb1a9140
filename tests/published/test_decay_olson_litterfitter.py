"""Litter decay: Olson's model through the steps of the stock filter, and a published decay series through the filter.

Olson, J. S. (1963). Energy storage and the balance of producers and decomposers in ecological systems. Ecology 44:
322-331. dX/dt = L - kX. The loss rates k and the steady states L/k are those he gives for four forests; shares left
follow from the model by arithmetic.
"""

import numpy as np
import pytest
from scipy.optimize import curve_fit

from workbook_tools.estimate.litter import Eaten
from workbook_tools.estimate.stock import CHANGED, SEEN, Events, follow
from workbook_tools.estimate.substrate import Grazed

YEAR = 365
DECAY = Grazed(fresh=1.0, scarce=np.inf)


def left_after(k: float, years: int) -> float:
    days = years * YEAR + 1
    none = Events.of(np.zeros(0, int), np.zeros(0, int), SEEN, np.zeros(0), np.zeros(0))
    end = follow(
        DECAY,
        none,
        rate=np.array([[k / YEAR]]),
        exposure=np.ones((1, days)),
        first_day=0,
        walk=0.0,
        spacing=1.0,
        started=(np.ones(1), np.zeros(1)),
    )
    return float(end.mean[0, 0])


@pytest.mark.parametrize(
    ("k", "years", "left", "half_unit"),
    [
        (4, 1, 0.01832, 5e-6),  # African tropical forest
        (1, 1, 0.36788, 5e-6),  # Colombian Andes
        (1, 5, 0.00674, 5e-6),
        (1 / 4, 1, 0.77880, 5e-6),  # pine of the south-eastern United States
        (1 / 4, 5, 0.28650, 5e-6),
        (1 / 16, 1, 0.93941, 5e-6),  # pine of Minnesota
        (1 / 16, 5, 0.73162, 5e-6),
    ],
)
def test_share_left_by_olson_1963(k, years, left, half_unit):
    assert left_after(k, years) == pytest.approx(left, abs=half_unit)


@pytest.mark.parametrize(
    ("k", "half", "half_unit", "rule_of_95"),
    [(4, 0.1733, 5e-5, 0.75), (1, 0.6931, 5e-5, 3), (1 / 4, 2.7726, 5e-5, 12), (1 / 16, 11.090, 5e-4, 48)],
)
def test_time_to_half_and_to_a_twentieth_by_olson_1963(k, half, half_unit, rule_of_95):
    """The clock of the stock, from which dates are reckoned. 3/k is his rule of thumb for 95 %, exact to 0.15 %."""
    clock = DECAY.clock(np.array([1.0, 0.5, 0.05]))[0]

    assert (clock[0] - clock[1]) / k == pytest.approx(half, abs=half_unit)
    assert (clock[0] - clock[2]) / k == pytest.approx(rule_of_95, rel=0.0015)


@pytest.mark.parametrize(
    ("k", "steady", "half_unit", "steps", "years"),
    [(4, 0.25, 0.005, 365, 3), (1, 1, 0.05, 52, 8), (1 / 4, 4, 0.5, 52, 30), (1 / 16, 16, 0.5, 12, 100)],
)
def test_steady_state_by_olson_1963(k, steady, half_unit, steps, years):
    """Litter falls evenly, one part a year, and rots: rotting and topping up of the litter model, with no animals."""
    days = steps * years
    use = Eaten(full=np.ones((1, 1)), scarce=0.06, rot=k / steps)
    falls = Events.of(np.zeros(days, int), np.arange(days), CHANGED, np.full(days, 1 / steps), np.zeros(days))
    end = follow(
        use,
        falls,
        rate=np.ones((1, 1)),
        exposure=np.zeros((1, days)),
        first_day=0,
        walk=0.0,
        spacing=1.0,
        started=(np.zeros(1), np.zeros(1)),
    )

    assert end.mean[0, 0] == pytest.approx(steady, abs=half_unit)


def test_rate_of_decay_of_pine_needles_as_fitted_by_scipy():
    """Mass left of pine needles, data set ``pineneedles`` of the R package litterfitter (Cornwell and Weedon 2014).

    Methods in Ecology and Evolution 5, 10.1111/2041-210X.12138; data of Hobbie and others. The reference is the
    least-squares fit by scipy on the mass scale (0.278 a year, standard error 0.022); the filter must land within one
    standard error of it. A fit through the logarithms would give quite another rate.
    """
    years = np.array([0.3616, 0.8384, 1.8384, 2.8356, 3.8329, 4.8301])
    mass = np.array([0.97369, 0.8496, 0.58362, 0.37805, 0.34254, 0.3073])
    (fitted,), ((square,),) = curve_fit(lambda t, k: np.exp(-k * t), years, mass, p0=[0.3])
    grid = np.log(np.geomspace(0.05, 1.5, 300))
    steps = 100
    at = np.rint(years * steps).astype(int)
    seen = Events.of(np.zeros(6, int), at, SEEN, mass - 0.005, mass + 0.005, noise=0.06, slip=0.0, jump=0.0)
    end = follow(
        DECAY,
        seen,
        rate=np.exp(grid)[None, :] / steps,
        exposure=np.ones((1, int(at[-1]) + 1)),
        first_day=0,
        walk=0.0,
        spacing=float(grid[1] - grid[0]),
        started=(np.ones(1), np.full(1, 1e-3)),
    )
    best = float(np.exp((end.weight[0] * grid).sum()))

    assert best == pytest.approx(fitted, abs=np.sqrt(square))
