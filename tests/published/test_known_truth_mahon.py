"""What is said to be left of a pool whose fish were counted afterwards.

Mahon 1980 (Environmental Biology of Fishes 4, 343-363), as carried by R package FSAdata (``DarterMahon``): seven passes
of equal effort found 180, 115, 94, 84, 75, 58 and 60 darters. Rotenone then showed that there had been 1151. No method
can be asked to hit that number; what is asked is that the answer doesn't rule it out and doesn't sound sure.
"""

from workbook_tools.estimate.removal import carle_strub, zippin
from workbook_tools.estimate.sifting import sift_left
from workbook_tools.plan.sift_advice import Next, advise

CATCHES = (180, 115, 94, 84, 75, 58, 60)
LEFT = 1151 - sum(CATCHES)


def test_the_interval_is_wide_enough_for_the_truth_and_says_something():
    left = sift_left(CATCHES)

    assert left.low < LEFT < left.high
    assert left.high > 3 * left.low, "seven such passes don't tell more"
    assert left.low > 100 and left.chance_none < 0.001


def test_the_wording_is_a_lower_bound_and_asks_for_more():
    advice = advise(sift_left(CATCHES))

    assert advice.act is Next.PASS
    assert "likely lower bound" in advice.paragraph and "less than 1 %" in advice.found


def test_classic_ways_are_too_sure_of_too_few():
    # Ours, not printed anywhere: 900 with limits of 823 and 1021, and 897. The truth lies outside.
    assert zippin(CATCHES).high < 1151
    assert carle_strub(CATCHES).high < 1151
