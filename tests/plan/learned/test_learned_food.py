import datetime as dt

import pytest

from tools.rows import amount, bin_row, log_row, number, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.learned.food import forecast_food
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.numbers import numbers_of

ON = dt.date(2026, 3, 31)
OLD = bin_row("A", started="2025-01-01", founders=number(60))


def ago(days):
    return (ON - dt.timedelta(days=days)).isoformat()


def forecast(*rows):
    frame = Frame.of(build_ledger([OLD, *rows], settings(), on=ON)[0], ON)
    return {one.kind: one for one in forecast_food(frame, numbers_of(frame)).get("A", ())}


def fed(grams, word, food="flakes", times=12):
    rows = []
    for n in range(times, 0, -1):
        rows.append(log_row(ago(4 * n), "A", food=food, amount=amount(grams, "g")))
        rows.append(log_row(ago(4 * n - 1), "A", leftovers=words(word)))
    return rows


def test_all_gone_asks_for_more_and_much_left_for_less_but_never_twice_or_half():
    gone, most = forecast(*fed(1.0, "gone"))["dry"], forecast(*fed(1.0, "most"))["dry"]
    assert gone.portion > 1.0 > most.portion
    assert gone.portion <= 2.0
    assert most.portion >= 0.5
    assert most.limited == -1
    assert most.wanted < 0.5
    assert (gone.last_grams, gone.last_food, gone.left, gone.basis.notes) == (1.0, "flakes", "gone", 12)
    assert gone.last_day == ON - dt.timedelta(days=4)


def test_simple_reckoning_is_the_mean_of_the_last_three():
    rows = [*fed(1.0, "gone", times=2), *fed(0.4, "gone", times=1)]
    assert "dry" in forecast(*rows)
    assert forecast(*fed(1.0, "gone", times=3))["dry"].simple == pytest.approx(1.0)
    assert forecast(*fed(1.0, "some", times=3))["dry"].simple == pytest.approx(0.7)
    assert forecast(*fed(1.0, "gone", times=2))["dry"].simple is None


def test_fresh_and_dry_food_are_kept_apart():
    made = forecast(*fed(8.0, "some", "courgette"), *fed(0.5, "some"))
    assert made["fresh"].a_day.middle > 4 * made["dry"].a_day.middle
    assert forecast() == {}


def test_food_given_by_no_weight_has_no_last_portion_to_keep_to():
    one = forecast(log_row(ago(3), "A", food="carrot"))["fresh"]
    assert (one.last_grams, one.limited, one.basis.notes) == (None, 0, 0)
    assert one.portion > 0
