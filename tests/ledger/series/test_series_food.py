import datetime as dt

import pytest

from tools.rows import amount, bin_row, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.food import food_series, kind_of

ON = dt.date(2026, 3, 31)


def series(*rows, on=ON):
    return food_series(build_ledger(rows, settings(), on=on)[0], on)


def fed(when, grams, food="flakes", **more):
    return log_row(when, more.pop("bins", "A"), food=food, amount=amount(grams, "g"), **more)


def left(when, word, **more):
    return log_row(when, "A", leftovers=words(word), **more)


def arrays(made):
    return list(zip(made.grams.tolist(), made.days_out.tolist(), made.left.tolist(), strict=True))


def test_leftovers_are_those_of_the_feeding_before():
    made = series(
        bin_row("A"),
        fed("2026-03-01", 1.0),
        left("2026-03-02", "gone"),
        fed("2026-03-04", 2.0),
        fed("2026-03-07", 0.5, leftovers=words("most")),
        left("2026-03-09", "mouldy"),
    )
    assert arrays(made) == [(1.0, 1, 0), (2.0, 3, 2), (0.5, 2, 3)]


def test_only_the_first_look_counts_and_a_feeding_not_looked_at_says_nothing():
    made = series(bin_row("A"), fed("2026-03-01", 1.0), fed("2026-03-03", 2.0), left("2026-03-04", "some"))
    assert arrays(made) == [(2.0, 1, 1)]
    again = series(bin_row("A"), fed("2026-03-01", 1.0), left("2026-03-02", "some"), left("2026-03-03", "gone"))
    assert arrays(again) == [(1.0, 1, 1)]
    assert series(bin_row("A"), left("2026-03-02", "gone")).size == 0


def test_two_foods_of_one_day_are_two_feedings_and_one_food_twice_is_one():
    made = series(
        bin_row("A"),
        fed("2026-03-01", 1.0),
        fed("2026-03-01", 4.0, "courgette"),
        fed("2026-03-01", 0.5),
        left("2026-03-02", "gone"),
    )
    assert arrays(made) == [(1.5, 1, 0), (4.0, 1, 0)]
    assert made.kind.tolist() == [0, 1]
    assert made.last(0).food == "courgette"
    assert made.last(0, 0).grams == 1.5
    assert made.last(1) is None


def test_a_feeding_without_grams_is_known_but_tells_no_rate():
    made = series(bin_row("A"), log_row("2026-03-01", "A", food="flakes"), left("2026-03-02", "gone"))
    assert made.size == 0
    assert made.last(0).left == 0


def test_several_bins_get_the_amount_each():
    made = series(bin_row("A"), bin_row("B"), fed("2026-03-01", 1.0, bins="A+B"))
    assert [(f.bin, f.grams) for f in made.feedings] == [(0, 1.0), (1, 1.0)]


@pytest.mark.parametrize(
    ("food", "kind"),
    [
        ("courgette", 1),
        ("Mushrooms", 1),
        ("dried mushroom", 0),
        ("carrot powder", 0),
        ("fish flakes", 0),
        ("", 0),
        ("mystery", 0),
        ("slice of cucumber", 1),
    ],
)
def test_kind_of_food(food, kind):
    assert kind_of(food) == kind
