"""Units against the factors printed by a standards body.

Source: A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units (SI), NIST Special
Publication 811, 2008 edition, appendix B.8 and B.9. The factors weren't read on the printed page. They stand, as taken
from it, in the file other_units.hpp of the C++ quantity library by M. S. Kenniston and M. Moene, but for the cubic
foot, which is there only as a hundredth of the register ton. They are in m3, kg and m. The tolerance is half a unit
of the last printed digit. No disagreement was found.
"""

import pytest

from workbook_tools.intake.units import Measures, celsius, factor, find_unit

PRINTED = [
    ("gallon", "l", 1e-3, "3.785412E-03"),
    ("quart", "l", 1e-3, "9.463529E-04"),
    ("dry_quart", "l", 1e-3, "1.101221E-03"),
    ("pint", "l", 1e-3, "4.731765E-04"),
    ("cup", "l", 1e-3, "2.365882E-04"),
    ("fluid_ounce", "l", 1e-3, "2.957353E-05"),
    ("tablespoon", "l", 1e-3, "1.478676E-05"),
    ("teaspoon", "l", 1e-3, "4.928922E-06"),
    ("imperial_gallon", "l", 1e-3, "4.54609E-03"),
    ("imperial_fluid_ounce", "l", 1e-3, "2.841306E-05"),
    ("ounce", "g", 1e-3, "2.834952E-02"),
    ("cubic_foot", "l", 1e-3, "2.831685E-02"),
]


def half_a_digit(printed):
    digits, _, power = printed.partition("E")
    return 0.5 * 10.0 ** (int(power) - len(digits.partition(".")[2]))


@pytest.mark.parametrize(("unit", "kept_in", "si", "printed"), PRINTED)
def test_factors_nist_sp811_appendix_b8(unit, kept_in, si, printed):
    assert factor(unit, kept_in) * si == pytest.approx(float(printed), rel=0, abs=half_a_digit(printed))


def test_the_inch_is_exact():
    """One inch is 2.54 cm exactly; the printed row, 2.54 E-02, is given from memory."""
    assert factor("inch", "cm") == 2.54


def test_a_us_cup_without_a_setting_is_the_cup_printed():
    """The printed 2.365882 E-04 m3."""
    found = find_unit("cup", "ml", Measures())
    assert found is not None
    assert found[0].factor * 1e-6 == pytest.approx(2.365882e-04, rel=0, abs=0.5e-10)


@pytest.mark.parametrize(
    ("fahrenheit", "degrees"), [(32.0, 0), (50.0, 10), (77.0, 25), (98.6, 37), (212.0, 100), (-40.0, -40)]
)
def test_temperature_nist_sp811_appendix_b9(fahrenheit, degrees):
    """The printed relation is t/C = (t/F - 32)/1.8; the pairs that it gives exactly were worked out by hand."""
    assert celsius(fahrenheit) == pytest.approx(degrees, abs=1e-9)
