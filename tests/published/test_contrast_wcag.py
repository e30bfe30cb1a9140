"""Contrast of colours against WCAG 2.2 and the values published with it.

Sources: WCAG 2.2, "contrast ratio" (range 1 to 21) and success criterion 1.4.3 (4.5 for text); the W3C's ACT rule
afw4f7 "Text has minimum contrast", Passed Example 1 (#333 on white, 12.6:1); the pairs #767676 and #777777 on white are
printed by common contrast checkers as 4.54 (passes) and 4.48 (fails), seen second-hand. Values from memory of those
pages, each worked out again.
"""

import pytest

from workbook_tools.report.styles import LEAST_CONTRAST, contrast


@pytest.mark.parametrize(
    ("colour", "behind", "printed", "half_a_digit"),
    [
        ("#000000", "#FFFFFF", 21, 0.5),
        ("#FFFFFF", "#FFFFFF", 1, 0.5),
        ("#333333", "#FFFFFF", 12.6, 0.05),
        ("#767676", "#FFFFFF", 4.54, 0.005),
        ("#777777", "#FFFFFF", 4.48, 0.005),
    ],
)
def test_contrast_wcag_22_published_pairs(colour, behind, printed, half_a_digit):
    assert contrast(colour, behind) == pytest.approx(printed, abs=half_a_digit)
    assert contrast(behind, colour) == contrast(colour, behind)


def test_the_limit_is_held_unrounded():
    assert LEAST_CONTRAST == 4.5
    assert contrast("#767676", "#FFFFFF") >= LEAST_CONTRAST
    assert contrast("#777777", "#FFFFFF") < LEAST_CONTRAST
    assert round(contrast("#777777", "#FFFFFF"), 1) == 4.5
