"""Numbers worked out from marks, against what books print.

Read second hand: the test files and documentation of the R package FSA, which name the book and page of each number.
Books: Ricker 1975, Bulletin of the Fisheries Research Board of Canada 191; Seber 2002 (1982), The Estimation of Animal
Abundance, tables 3.7 and 3.8; Krebs 1989, Ecological Methodology, box 2.1, table 2.4 and page 33; Pine and others 2013,
box 11.2. Sunfish of an Indiana lake: Gerking 1953, in Ricker's table 4.4 and Krebs' table 2.4.

Disagreements. For 948 marked, 421 caught, 167 again Krebs prints an upper limit of 2685, which neither that package nor
this one gets. Limits of Schnabel's method are printed as 310-720 (Krebs) and 302-697 (Ricker), both from rounded tables
of Poisson's distribution; worked out exactly they are 300.8-698.4. Ricker's limits of Schumacher & Eschmeyer's method,
304-696, take other degrees of freedom; Krebs' take two fewer than there are catches, the first of which met no marks.
Seber's normal limits are those of numbers and errors rounded beforehand. Of Bailey's form no printed number was found.
"""

from dataclasses import replace

import numpy as np
import pytest

from workbook_tools.estimate.recapture import chapman, schnabel, schumacher_eschmeyer

CAUGHT = (10, 27, 17, 7, 1, 5, 6, 15, 9, 18, 16, 5, 7, 19)
AGAIN = (0, 0, 0, 0, 0, 0, 2, 1, 5, 5, 4, 2, 2, 3)
RELEASED = (10, 27, 17, 7, 1, 5, 6, 15, 9, 18, 14, 5, 6, 0)
MARKED = tuple(np.concatenate([[0], np.cumsum(np.subtract(RELEASED, AGAIN))[:-1]]).tolist())


@pytest.mark.parametrize(
    ("marked", "caught", "again", "number"),
    [
        (948, 421, 167, 2383),  # Krebs box 2.1
        (109, 177, 57, 337),  # Ricker 1975
        (421, 332, 88, 1578),  # Pine and others box 11.2
        (500, 149, 7, 9393),  # Seber tables 3.7 and 3.8
        (1000, 243, 21, 11101),  # the same
        (346, 184, 49, 1283),  # FSA's documentation
    ],
)
def test_chapman(marked, caught, again, number):
    assert chapman(marked, caught, again).number == pytest.approx(number, abs=0.5)


@pytest.mark.parametrize(
    ("catch", "error", "digits"),
    [((500, 149, 7), 3022, 0.5), ((1000, 243, 21), 2184, 0.5), ((346, 184, 49), 142.1, 0.05)],
)
def test_error_of_chapmans_number(catch, error, digits):
    assert chapman(*catch).sd == pytest.approx(error, abs=digits)


def test_normal_limits():
    assert chapman(421, 332, 88).normal() == pytest.approx((1330, 1826), abs=0.5)


@pytest.mark.parametrize(
    ("catch", "limits"), [((500, 149, 7), (3470, 15316)), ((1000, 243, 21), (6820, 15382))], ids=["3.7", "3.8"]
)
def test_normal_limits_of_seber_go_by_rounded_numbers(catch, limits):
    # not rounded first they are 3469.4-15316.1 and 6821.0-15381.0
    found = chapman(*catch)
    assert replace(found, number=round(found.number), sd=round(found.sd)).normal() == pytest.approx(limits, abs=0.5)


def test_sums_of_the_sunfish():
    # Ricker's table 4.4
    n, m, there = np.array(CAUGHT), np.array(AGAIN), np.array(MARKED)
    assert [m.sum(), (n * there).sum(), (n * there**2).sum(), (m * there).sum()] == [24, 10740, 970296, 2294]
    assert (m**2 / n).sum() == pytest.approx(7.745, abs=5e-4)


def test_schnabel():
    assert schnabel(MARKED, CAUGHT, AGAIN, added=0).number == pytest.approx(447.5, abs=0.05)
    assert schnabel(MARKED, CAUGHT, AGAIN).number == pytest.approx(429.6, abs=0.05)


def test_limits_of_schnabel_are_those_of_a_poisson_number():
    found = schnabel(MARKED, CAUGHT, AGAIN)
    assert (found.low, found.high) == pytest.approx((300.8, 698.4), abs=0.05)
    # one catch, bluegill of FSA's documentation: Petersen's 1960 with the exact Poisson limits
    one = schnabel([196], [90], [9], added=0)
    assert (one.number, one.low, one.high) == pytest.approx((1960, 1032, 4286), abs=0.5)


def test_schumacher_and_eschmeyer():
    found = schumacher_eschmeyer(MARKED, CAUGHT, AGAIN)
    assert found.number == pytest.approx(423, abs=0.5)
    assert (found.low, found.high) == pytest.approx((300, 719), abs=0.5)
