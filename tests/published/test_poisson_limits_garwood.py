"""Limits of a mean behind a number found, against Garwood's.

Source: Garwood, F. (1936). Fiducial limits for the Poisson distribution. Biometrika 28, 437-442. The limits for none
found and for nine are as other public documentation prints them (epitools: 3.689; FSA: 4.1154 and 17.0848). The rest
were worked out from the formula with the chi-square distribution, not read from Garwood's own table.
Tolerance: half a unit of the last digit shown. No disagreement was found.

The rule of three is that formula, one-sided, for none found: -ln 0.05 = 2.9957.
"""

import pytest

from workbook_tools.estimate.deaths import poisson_limits

LIMITS = {
    0: ("0", "3.689"),
    1: (".0253", "5.572"),
    2: (".2422", "7.225"),
    3: (".6187", "8.767"),
    4: ("1.0899", "10.242"),
    5: ("1.6235", "11.668"),
    6: ("2.2019", "13.059"),
    7: ("2.8144", "14.423"),
    8: ("3.4538", "15.763"),
    9: ("4.1154", "17.085"),
    10: ("4.7954", "18.390"),
    15: ("8.3954", "24.740"),
    20: ("12.217", "30.888"),
    25: ("16.179", "36.905"),
    50: ("37.111", "65.919"),
    100: ("81.364", "121.627"),
}


def half_unit(printed):
    return 0.5 * 10 ** -len(printed.partition(".")[2]) * (1 + 1e-9)


@pytest.mark.parametrize("found", LIMITS)
def test_limits_of_95_percent(found):
    for limit, printed in zip(poisson_limits(found), LIMITS[found], strict=True):
        assert limit == pytest.approx(float(printed), abs=half_unit(printed) if float(printed) else 1e-12)


def test_none_found_one_sided_is_the_rule_of_three():
    assert poisson_limits(0, 0.90)[1] == pytest.approx(2.9957, abs=0.00005)
