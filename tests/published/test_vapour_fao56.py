"""Saturation vapour pressure and the deficit of air.

Source: R. G. Allen, L. S. Pereira, D. Raes and M. Smith, Crop evapotranspiration, FAO Irrigation and Drainage Paper
56, 1998: equation 11, examples 3 and 5, table 2.3. The printed numbers were taken from public transcriptions of the
paper, not from the printed page. The tolerance is half a unit of the last printed digit. No disagreement was found.
"""

import numpy as np
import pytest

from workbook_tools.estimate.vapour import saturation, vpd


@pytest.mark.parametrize(
    ("celsius", "printed"), [(15.0, 1.705), (24.5, 3.075), (18.0, 2.064), (25.0, 3.168), (20.0, 2.338)]
)
def test_saturation_examples_3_and_5_and_table_2_3(celsius, printed):
    assert saturation(celsius) == pytest.approx(printed, abs=0.0005)


def test_mean_saturation_example_3():
    """2.39 kPa is the mean of the two ends; at the mean temperature it would be 2.30."""
    assert saturation(np.array([15.0, 24.5])).mean() == pytest.approx(2.39, abs=0.005)
    assert saturation(19.75) < 2.385


def test_actual_vapour_pressure_example_5():
    """1.70 kPa, from 18 degrees at 82 % and 25 degrees at 54 %: saturation less deficit."""
    celsius, humidity = np.array([18.0, 25.0]), np.array([82.0, 54.0])
    actual = saturation(celsius) - vpd(celsius, humidity)
    assert actual.mean() == pytest.approx(1.70, abs=0.005)


def test_deficit_at_25_degrees_and_60_percent():
    """1.267 kPa, as two public texts give it after the same equation."""
    assert vpd(25.0, 60.0) == pytest.approx(1.267, abs=0.0005)


@pytest.mark.parametrize(
    ("celsius", "hectopascal"), [(10.0, 12.2603), (20.0, 23.3260), (25.0, 31.6006), (30.0, 42.3372)]
)
def test_another_formula_agrees_within_four_in_a_thousand(celsius, hectopascal):
    """WMO No. 8 (2008): 6.112 exp(17.62 t / (243.12 + t)) hPa; its answers here were worked out from that formula."""
    assert saturation(celsius) * 10 == pytest.approx(hectopascal, rel=0.004)
