import math

import numpy as np
import pytest

from workbook_tools.estimate.recapture import bailey, chapman, schnabel
from workbook_tools.estimate.sifting import sift_left
from workbook_tools.ledger.series.census import Catch, Census, CensusSeries, Passes
from workbook_tools.ledger.series.numbers import Count, Move
from workbook_tools.plan.learned.census import NO_LIMIT, kept, worked_out
from workbook_tools.problems import CellRef

ROW = CellRef("Log", 9)


def catch(day, caught, again, marked, after=0, **more):
    return Catch(100 + day, caught, again, ((after, float(marked)),), ROW, **more)


def work(*catches, passes=(), moves=(), counts=()):
    censuses = (Census(0, tuple(catches)),) if catches else ()
    return worked_out(CensusSeries(censuses, tuple(passes), tuple(counts), ()), ["A"], moves)


def codes(made):
    return [problem.code for problem in made.problems]


def test_one_catch_is_chapmans_number_with_its_limits():
    (count,) = work(catch(0, 60, 12, 40)).counts
    known = chapman(40, 60, 12, level=0.8)
    assert (count.value, count.low, count.high) == pytest.approx((known.number, known.low, known.high))
    assert (count.method, count.day, count.where) == ("marks", 100, ROW)


def test_animals_counted_where_they_sat_may_be_met_twice():
    (count,) = work(catch(0, 60, 12, 40, in_place=True)).counts
    assert count.value == pytest.approx(bailey(40, 60, 12).number)


def test_several_catches_are_one_number_on_the_day_that_most_of_it_comes_from():
    made = work(catch(0, 30, 4, 20), catch(4, 30, 8, 46), catch(8, 30, 12, 68))
    (count,) = made.counts
    assert count.value == pytest.approx(schnabel([20, 46, 68], [30, 30, 30], [4, 8, 12]).number)
    assert 104 < count.day < 108
    assert made.problems == ()


def test_marks_lost_at_a_moult_lower_the_number_and_widen_its_limits():
    (fresh,), (later,) = (work(catch(0, 60, 12, 40, after=days)).counts for days in (0, 10))
    assert later.value < fresh.value
    assert later.high / later.low > fresh.high / fresh.low
    assert kept(0) == (1, 1, 1)
    shares = np.array([kept(days) for days in range(80)])
    assert (np.diff(shares, axis=0) <= 0).all()
    assert (np.diff(shares, axis=1) >= 0).all()


def test_a_catch_weeks_after_marking_is_doubtful_and_one_after_a_moult_is_not_used():
    late = work(catch(0, 60, 6, 40, after=18))
    assert codes(late) == ["census.late"]
    assert len(late.counts) == 1
    gone = work(catch(0, 60, 6, 40, after=30))
    assert codes(gone) == ["census.marks_gone"]
    assert gone.counts == ()
    # marked anew since: the old marks count for little, the new ones in full
    both = Catch(100, 60, 12, ((30, 40.0), (3, 40.0)), ROW)
    assert codes(work(both)) == []
    (count,) = work(both).counts
    assert count.value < chapman(50, 60, 12).number


def test_none_caught_again_is_a_lower_limit_only():
    (count,) = work(catch(0, 30, 0, 30)).counts
    assert count.low == count.value == chapman(30, 30, 0, level=0.8).low
    assert count.high == NO_LIMIT


def test_catches_that_dont_hang_together_are_named():
    made = work(catch(0, 40, 24, 30), catch(4, 40, 4, 46), catch(8, 40, 3, 80), catch(9, 40, 2, 110))
    assert codes(made) == ["census.uneven"]


def test_passes_are_what_was_found_and_what_is_left():
    passes = Passes(0, 100, (41, 22, 9, 4), (), False, ROW)
    (count,) = work(passes=[passes]).counts
    left = sift_left((41, 22, 9, 4))
    assert (count.value, count.low, count.high) == (76 + left.middle, 76 + left.low, 76 + left.high)
    assert (count.method, count.day) == ("passes", 100)


def test_what_was_never_found_left_the_bin_with_its_old_substrate():
    passes = Passes(0, 100, (41, 22, 9, 4), (2, 0, 1), True, ROW)
    made = work(passes=[passes])
    left = sift_left((41, 22, 9, 4), (2, 0, 1)).middle
    assert [(m.day, m.change, m.dead) for m in made.moves] == [(100, -left, False)]
    # so what was there is the number of the day before
    assert [(c.day, c.value) for c in made.counts] == [(99, 79 + left)]


def test_finds_that_dont_fall_are_a_lower_limit_and_named():
    made = work(passes=[Passes(0, 100, (5, 7, 8), (), True, ROW)])
    assert codes(made) == ["census.no_fall"]
    (count,) = made.counts
    assert (count.value, count.high) == (count.low, NO_LIMIT)
    assert count.low >= 20
    assert made.moves == ()


def test_what_is_caught_on_a_day_is_caught_before_animals_leave():
    sold = Move(0, 100, -10, math.nan, False, ROW)
    assert [c.day for c in work(catch(0, 60, 12, 40), moves=[sold]).counts] == [99]


def test_single_passes_go_on_as_counts():
    one = Count(0, 90, 41, 41, 41, "sieve", ROW)
    assert work(counts=[one]).counts == (one,)
