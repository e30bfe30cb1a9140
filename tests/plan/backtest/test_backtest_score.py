import datetime as dt
import math

import pytest

from workbook_tools.plan.backtest.records import Comparison
from workbook_tools.plan.backtest.score import score, scores, scores_by_day
from workbook_tools.plan.learned.records import Range

ON = dt.date(2026, 1, 1)


def one(low, high, middle, quantity="moss", bin="A", on=ON, spread=1.0, **rules):
    estimate = Range(middle - spread, middle, middle + spread)
    return Comparison(quantity, bin, on, on + dt.timedelta(days=5), low, high, estimate, True, rules)


def test_off_is_the_distance_to_what_was_seen():
    assert one(4, 6, 5).off(5) == 0
    assert one(4, 6, 5).off(3) == -1
    assert one(4, 6, 5).off(8) == 2
    assert one(4, math.inf, 5).off(100) == 0
    assert one(2, 2, 5, "food").off(4) == pytest.approx(math.log(2))


def test_an_answer_that_is_no_number_fails_loudly():
    with pytest.raises(ValueError, match="aren't numbers"):
        one(4, 6, 5).off(math.nan)
    with pytest.raises(ValueError, match="aren't numbers"):
        score("moss", [one(4, 6, math.nan)])
    with pytest.raises(ValueError, match="aren't numbers"):
        score("moss", [one(4, 6, 5, usual=math.inf)])


def test_held_is_whether_it_fits_the_interval():
    assert one(4, 6, 5).held
    assert one(6, 9, 5).held
    assert not one(6.5, 9, 5).held
    assert not one(0, 3, 5).held


def test_score_sets_the_estimates_beside_each_rule_where_it_could_say_anything():
    made = score("moss", [one(4, 4, 5, usual=7), one(4, 4, 2, usual=4, last=9), one(1, 1, 4, quantity="leaf")])
    assert (made.number, made.bins, made.error, made.bias, made.held) == (2, 1, 1.5, -0.5, 0.5)
    assert made.rules == {"usual": (1.5, 1.5, 2), "last": (5.0, 2.0, 1)}
    assert score("numbers", []) is None


def test_scores_in_all_and_by_day():
    later = ON + dt.timedelta(days=31)
    rows = [one(4, 4, 5), one(4, 4, 6, on=later), one(0.2, 0.3, 0.2, "substrate", on=later, spread=0.1)]
    assert [(s.quantity, s.number) for s in scores(rows)] == [("moss", 2), ("substrate", 1)]
    assert [(day, s.quantity, s.error) for day, s in scores_by_day(rows)] == [
        (ON, "moss", 1.0),
        (later, "moss", 2.0),
        (later, "substrate", 0.0),
    ]
