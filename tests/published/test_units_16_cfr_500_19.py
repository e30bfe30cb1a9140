"""Units against the factors by which United States law has labels converted: 16 CFR 500.19 (a).

Read at law.cornell.edu/cfr/text/16/500.19. The tolerance is half a unit of the last printed digit, nothing where the
text says that a factor is exact. Two disagreements were found, both slips of the text, which aren't checked against: a
cubic foot "=2.83 168 dm3", ten times less than its own 0.028 316 8 m3; and a liquid pint of 473.177 mL, though an
eighth of a gallon of 231 cubic inches is 473.1765 mL, and its own quart is 946.353 mL.
"""

import pytest

from workbook_tools.intake.units import Measures, find_unit


def holds(word, kept_in):
    found = find_unit(word, kept_in, Measures())
    assert found is not None
    unit, rest = found
    assert (unit.unit, rest) == (kept_in, "")
    return unit.factor


def half_a_digit(printed):
    return 0.5 * 10.0 ** -len(printed.partition(".")[2])


@pytest.mark.parametrize(
    ("word", "kept_in", "printed"),
    [
        ("cubic inch", "ml", "16.3871"),
        ("fl oz", "ml", "29.5735"),
        ("quart", "ml", "946.353"),
        ("quart", "l", "0.946353"),
        ("gallon", "l", "3.78541"),
        ("dry quart", "l", "1.101221"),
        ("ounce", "g", "28.3495"),
        ("lb", "g", "453.592"),
    ],
)
def test_factors_16_cfr_500_19(word, kept_in, printed):
    assert holds(word, kept_in) == pytest.approx(float(printed), rel=0, abs=half_a_digit(printed))


@pytest.mark.parametrize(
    ("word", "kept_in", "exact"),
    [
        ("inch", "cm", 2.54),
        ("foot", "cm", 30.48),
        ("square inch", "dm2", 0.064516),  # printed: 6.4516 cm2
        ("square foot", "dm2", 9.290304),
    ],
)
def test_exact_factors_16_cfr_500_19(word, kept_in, exact):
    assert holds(word, kept_in) == pytest.approx(exact, rel=1e-14)


@pytest.mark.parametrize(
    ("larger", "smaller", "kept_in", "printed"),
    [
        ("m3", "cubic foot", "l", "35.3147"),
        ("dm3", "cubic foot", "l", "0.0353147"),
        ("cm3", "cubic inch", "ml", "0.0610237"),
        ("liter", "quart", "l", "1.05669"),
        ("liter", "gallon", "l", "0.264172"),
        ("milliliter", "fl oz", "ml", "0.0338140"),
        ("kilogram", "lb", "g", "2.20462"),
        ("m2", "square foot", "dm2", "10.7639"),
    ],
)
def test_metric_in_inch_and_pound_16_cfr_500_19(larger, smaller, kept_in, printed):
    ratio = holds(larger, kept_in) / holds(smaller, kept_in)
    assert ratio == pytest.approx(float(printed), rel=0, abs=half_a_digit(printed))
