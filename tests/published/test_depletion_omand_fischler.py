"""Leslie's line against printed examples.

Smallmouth bass (Omand 1951, Journal of Wildlife Management 15, 88-98; Ricker 1975, example 6.1, p. 151) and blue crab
(Fischler 1965, Transactions of the American Fisheries Society 94, 287-310; Seber 2002, example 7.2, p. 300), as carried
by R packages FSA and FSAdata, which print the digits below.
"""

import pytest

from workbook_tools.estimate.depletion import leslie

BASS = (131, 69, 99, 78, 56, 76, 49, 42, 63, 47)
CRAB = (33541, 47326, 36460, 33157, 29207, 33125, 14191, 9503, 13115, 13663, 10865, 9887)
CRAB_EFFORT = (194, 248, 243, 301, 357, 352, 269, 244, 256, 258, 234, 227)


def test_smallmouth_bass():
    found = leslie(BASS, (7,) * 10)

    assert found.number == pytest.approx(1060.296, abs=5e-4)
    assert found.number_se == pytest.approx(169.2676, abs=5e-5)
    assert found.catchability == pytest.approx(0.01484403, abs=5e-9)
    assert found.catchability_se == pytest.approx(0.003520491, abs=5e-10)
    assert found.intercept == pytest.approx(15.73905467, abs=5e-9)


def test_smallmouth_bass_with_half_of_what_the_pass_took():
    found = leslie(BASS, (7,) * 10, half=True)

    assert found.number == pytest.approx(1077.571, abs=5e-4)
    assert found.number_se == pytest.approx(177.8035, abs=5e-5)
    assert found.catchability == pytest.approx(0.01525078, abs=5e-9)
    assert found.catchability_se == pytest.approx(0.003911632, abs=5e-10)
    # Ricker 1975, example 6.1
    assert found.number == pytest.approx(1078, abs=0.5)
    assert found.catchability * 7 == pytest.approx(0.10676, abs=5e-6)


def test_blue_crab():
    found = leslie(CRAB, CRAB_EFFORT)

    assert found.catchability == pytest.approx(0.00056, abs=5e-6)
    # Seber prints 330300, worked out with a rounded slope; the line itself gives 329426.
    assert found.number == pytest.approx(330300, rel=0.003)
