"""The plain control charts that the watch over deaths is compared with, against printed examples.

Sources: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.1 (counts chart, wafers) and 6.3.2.3 (tabular CUSUM);
SAS/QC User's Guide, SHEWHART procedure, CCHART statement (paint defects); Lucas, J. M. (1985). Counted data CUSUM's.
Technometrics 27, 129-144, tables 2-5, as the documentation of the R package spc prints them; and the documentation of
the R package IAcsSPCR. The wafers come from a public test that cites the page; the CUSUM's data too, its slack, limit
and table of sums from memory. Tolerance: half a unit of the last printed digit.

Where they disagree: Lucas signals when the sum reaches the limit, others only when it passes it. With mean 0.25 and
limit 10 the latter gives another run length, which the last test shows. The alpha that SAS prints (0.002902622) is
0.0029013 by the exact distribution: it holds to three digits only.
"""

import pytest
from scipy import stats

from simulator.charts import c_limit, c_signals, run_length, tabular_cusum

WAFERS = [16, 14, 28, 16, 12, 20, 10, 12, 10, 17, 19, 17, 14, 16, 15, 13, 14, 16, 11, 20, 11, 19, 16, 31, 13]
PAINT = [5, 4, 4, 8, 7, 12, 3, 11, 8, 4, 9, 13, 5, 4, 9, 15, 8, 9, 10, 8]
NEW_PAINT = [7, 3, 3, 14, 7, 9, 3, 11, 6, 8, 3, 10, 9, 4, 7, 7, 18, 3, 11, 5]
GROUPS = """324.925 324.675 324.725 324.350 325.350 325.225 324.125 324.525 325.225 324.600
            324.625 325.150 328.325 327.250 327.825 328.500 326.675 327.775 326.875 328.350"""


def test_wafers_of_the_handbook():
    mean = sum(WAFERS) / len(WAFERS)

    assert mean == 16
    assert c_limit(mean) == (4, 28)
    assert c_signals(WAFERS, mean) == [24], "wafer 3 lies on the limit, not beyond it"


def test_paint_defects_of_the_guide():
    mean = sum(PAINT) / len(PAINT)
    low, high = c_limit(mean)

    assert mean == pytest.approx(7.8, abs=0.05)
    assert low == 0
    assert high == pytest.approx(16.1785, abs=0.00005)
    assert stats.poisson.sf(16, mean) == pytest.approx(0.00290, abs=0.000005)
    assert c_signals(NEW_PAINT, mean) == [17]


def test_sums_of_the_handbook():
    above, below = tabular_cusum([float(x) for x in GROUPS.split()], target=325, slack=0.3175)

    assert above[12:] == pytest.approx([3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.00, 19.04], abs=0.00501)
    assert next(place for place, value in enumerate(above, start=1) if value > 4.1959) == 14
    assert max(below) == pytest.approx(0.72, abs=0.00501)
    assert below.index(max(below)) == 7


@pytest.mark.parametrize(
    ("start", "upper", "printed"), [(0, True, 438), (20, True, 333), (0, False, 437), (20, False, 318)]
)
def test_run_lengths_of_lucas(start, upper, printed):
    assert run_length(0.25, 4, 1, 40, start=start, upper=upper) == pytest.approx(printed, abs=0.5)


@pytest.mark.parametrize(
    ("mean", "start", "printed", "within"),
    [(1.88, 0, 37.2, 0.05), (1.88, 3, 29.19, 0.005), (3.20, 0, 5.49, 0.005), (3.20, 3, 3.33, 0.005)],
)
def test_run_lengths_of_a_package(mean, start, printed, within):
    shifted = mean if mean == 1.88 else 1.88 + 0.9627 * 1.88**0.5

    assert run_length(shifted, 1, 2, 6, start=start) == pytest.approx(printed, abs=within)


def test_reaching_the_limit_is_a_signal_and_passing_it_is_another_rule():
    reached, passed = run_length(0.25, 4, 1, 40), run_length(0.25, 4, 1, 41)

    assert reached == pytest.approx(438, abs=0.5)
    assert passed > reached + 1, "with whole numbers, more than 40 is 41 or more"
