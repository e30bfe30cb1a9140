"""The chance of a span, exact, right-censored and between two looks, against published survival curves.

With no scatter the chance of a span is 1 where the time lies in (low, high] and 0 elsewhere. Mixed over times by the
self-consistent rule it must then give the product-limit curve from exact and right-censored times, and Turnbull's
masses from times known only to lie between two looks.

Sources:
- E. A. Gehan, Biometrika 52 (1965) 203-223, remission in weeks under 6-MP (data as in the R package MASS). The curve
  and the Weibull fit with treatment are as textbooks and reference software print them, from memory.
- D. M. Finkelstein and R. A. Wolfe, Biometrics 41 (1985) 933-945, cosmetic deterioration in months; masses printed by
  M. P. Fay and P. A. Shaw, Journal of Statistical Software 36(2), 2010, read there.
Tolerance: half a unit of the last printed digit, and the error of stopping the iteration. Disagreement: some sources
print other pages for Finkelstein and Wolfe.
"""

import numpy as np
import pytest
from scipy import optimize, stats

from workbook_tools.estimate._grid import span_chance

NEVER = np.inf
REMISSION = "6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+"
PLACEBO = "1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23"
RT = (
    "45 . ; 25 37; 37 . ; 6 10; 46 . ; 0 5; 0 7; 26 40; 18 . ; 46 . ; 46 . ; 24 . ; 46 . ; 27 34; 36 . ; 7 16; 36 44;"
    "5 11; 17 . ; 46 . ; 19 35; 7 14; 36 48; 17 25; 37 44; 37 . ; 24 . ; 0 8; 40 . ; 32 . ; 4 11; 17 25; 33 . ; 15 . ;"
    "46 . ; 19 26; 11 15; 11 18; 37 . ; 22 . ; 38 . ; 34 . ; 46 . ; 5 12; 36 . ; 46 ."
)
RCT = (
    "8 12; 0 5; 30 34; 0 22; 5 8; 13 . ; 24 31; 12 20; 10 17; 17 27; 11 . ; 8 21; 17 23; 33 40; 4 9; 24 30; 31 . ;"
    "11 . ; 16 24; 13 39; 14 19; 13 . ; 19 32; 4 8; 11 13; 34 . ; 34 . ; 16 20; 13 . ; 30 36; 18 25; 16 24; 18 24;"
    "17 26; 35 . ; 16 60; 32 . ; 15 22; 35 39; 23 . ; 11 17; 21 . ; 44 48; 22 32; 11 20; 14 17; 10 35; 48 ."
)
RT_MASSES = {
    (4, 5): 0.0463,
    (6, 7): 0.0334,
    (7, 8): 0.0887,
    (11, 12): 0.0708,
    (24, 25): 0.0926,
    (33, 34): 0.0818,
    (38, 40): 0.1209,
    (46, 48): 0.4656,
}
RCT_MASSES = {
    (4, 5): 0.0433,
    (5, 8): 0.0433,
    (11, 12): 0.0692,
    (16, 17): 0.1454,
    (18, 19): 0.1411,
    (19, 20): 0.1157,
    (24, 25): 0.0999,
    (30, 31): 0.0709,
    (35, 36): 0.1608,
    (44, 48): 0.0552,
    (48, 60): 0.0552,
}


def times(text):
    """Exact times and right-censored ones."""
    seen = [(float(word.rstrip("+")), word.endswith("+")) for word in text.split()]
    return np.array([time for time, going_on in seen if not going_on]), np.array(
        [t for t, going_on in seen if going_on]
    )


def looks(text):
    """Bounds in months; the last look of those that never came is open above."""
    pairs = [part.split() for part in text.split(";")]
    return np.array([(float(low), NEVER if high == "." else float(high)) for low, high in pairs])


def masses(spans, points):
    """Self-consistent masses at the points, from spans (low, high]."""
    with np.errstate(divide="ignore"):
        low, high = np.log(spans[:, 0])[:, None], np.log(spans[:, 1])[:, None]
    likely = span_chance(low, high, np.log(points), 1e-7)
    weight = np.full(len(points), 1 / len(points))
    for _ in range(20_000):
        share = likely * weight
        before, weight = weight, (share / share.sum(axis=1, keepdims=True)).mean(axis=0)
        if np.abs(weight - before).max() < 1e-9:
            break
    return weight


@pytest.mark.parametrize(("text", "printed"), [(RT, RT_MASSES), (RCT, RCT_MASSES)])
def test_turnbull_masses_of_cosmetic_deterioration(text, printed):
    spans = looks(text)
    edges = np.unique(np.concatenate([spans[np.isfinite(spans)], [100.0]]))
    weight = masses(spans, (edges[1:] + edges[:-1]) / 2)

    left = weight.copy()
    for (low, high), mass in printed.items():
        inside = (edges[:-1] >= low) & (edges[1:] <= (100 if (low, high) == (46, 48) else high))
        assert weight[inside].sum() == pytest.approx(mass, abs=0.00006)
        left[inside] = 0
    assert left.sum() == pytest.approx(0, abs=1e-4)


@pytest.mark.parametrize(
    ("week", "printed"),
    [(6, 0.8571), (7, 0.8067), (10, 0.7529), (13, 0.6902), (16, 0.6275), (22, 0.5378), (23, 0.4482)],
)
def test_product_limit_curve_of_remission_under_6mp(week, printed):
    exact, going_on = times(REMISSION)
    # An exact time is a short span about it; one still going on lies above its week, and above the exact ones of it.
    spans = np.concatenate([np.c_[exact - 0.01, exact + 0.01], np.c_[going_on + 0.02, np.full(len(going_on), NEVER)]])
    points = np.unique(np.concatenate([exact, [100.0]]))

    assert masses(spans, points)[points > week].sum() == pytest.approx(printed, abs=0.00006)


def test_weibull_fit_of_remission_with_treatment():
    """Shape 1.36576 and effect 1.2673, intercept 2.2483, as R's survreg prints them, from memory."""
    groups = [(times(PLACEBO), 0.0), (times(REMISSION), 1.0)]
    short = 1e-4

    def surprise(place):
        total = 0.0
        for (exact, going_on), treated in groups:
            centre, scale = np.array(place[0] + place[1] * treated), np.exp(place[2])
            logs = np.log(exact)
            seen = span_chance(logs - short / 2, logs + short / 2, centre, scale, stats.gumbel_l) / short
            still = span_chance(np.log(going_on), np.full(len(going_on), np.inf), centre, scale, stats.gumbel_l)
            total += np.log(seen / exact).sum() + np.log(still).sum()
        return -total

    options = {"xatol": 1e-6, "fatol": 1e-7, "maxiter": 5000}
    best = optimize.minimize(surprise, [2.0, 1.0, 0.0], method="Nelder-Mead", options=options)

    assert best.success
    assert best.x[0] == pytest.approx(2.2483, abs=0.00006)
    assert best.x[1] == pytest.approx(1.2673, abs=0.00006)
    assert np.exp(-best.x[2]) == pytest.approx(1.36576, abs=0.00002)
    assert best.fun == pytest.approx(106.5795, abs=0.00006)
