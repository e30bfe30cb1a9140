"""Limits of a mean behind a number found, against Garwood's.

Source: Garwood, F. (1936). Fiducial limits for the Poisson distribution. Biometrika 28, 437-442. The limits for none
found and for nine are as other public documentation prints them (epitools: 3.689; FSA: 4.1154 and 17.0848); Garwood's
own table wasn't seen. Tolerance: half a unit of the last digit printed. No disagreement was found.
"""

import pytest

from workbook_tools.estimate.deaths import poisson_limits


def test_limits_of_95_percent():
    assert poisson_limits(0)[1] == pytest.approx(3.689, abs=0.0005)
    assert poisson_limits(9)[0] == pytest.approx(4.1154, abs=0.00005)
    assert poisson_limits(9)[1] == pytest.approx(17.0848, abs=0.00005)
