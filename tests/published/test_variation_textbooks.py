"""Loss of variation in small lines, by the formula of population-genetics textbooks.

The formula is Wright's (S. Wright 1931, Evolution in Mendelian populations, Genetics 16: 97-159): expected
heterozygosity falls by 1 / (2 Ne) in each generation; with numbers that change, Ne is their harmonic mean. All values
here are from memory of textbooks (D. S. Falconer and T. F. C. Mackay, Introduction to Quantitative Genetics; D. L.
Hartl and A. G. Clark, Principles of Population Genetics), not looked up.
"""

import numpy as np
import pytest

from workbook_tools.estimate.variation import in_effect, kept

YEAR = 365.0


@pytest.mark.parametrize(("breeders", "lost_percent"), [(50, 1.0), (10, 5.0), (2, 25.0), (1, 50.0)])
def test_one_generation_loses_one_in_twice_the_breeders(breeders, lost_percent):
    """From memory: 1 % a generation at Ne 50, 5 % at 10; a single pair loses a quarter, selfing half."""
    assert 100 * (1 - kept(np.full(366, float(breeders)), YEAR)) == pytest.approx(lost_percent, abs=0.05)


def test_bottleneck_of_one_generation():
    """From memory (Hartl and Clark): numbers of 1000, 10 and 1000 in three generations act as 29.4 would."""
    assert in_effect(np.array([1000.0, 10.0, 1000.0])) == pytest.approx(29.4, abs=0.05)


def test_ten_generations_of_ten_keep_three_fifths():
    """From memory: 0.95 ** 10 = 0.599."""
    assert kept(np.full(3651, 10.0), YEAR) == pytest.approx(0.599, abs=0.0005)
