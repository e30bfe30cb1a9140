import datetime as dt
import math

import numpy as np
import pytest

from tools.rows import amount, bin_row, log_row, number, settings, words
from workbook_tools.estimate.eating import Feedings, spans_of
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.backtest.seen import Seen, at_day
from workbook_tools.plan.estimates import estimate_all
from workbook_tools.plan.learned.records import Point

ON = dt.date(2026, 3, 31)
THEN = dt.date(2026, 2, 1)
OLD = bin_row("A", started="2025-01-01", founders=number(30))


def compared(*rows):
    ledger, _ = build_ledger([*rows], settings(), on=ON)
    return {one.quantity: one for one in Seen.of(ledger, ON).beside(estimate_all(ledger, THEN, history=False))}


def moss(when, word, did=""):
    return log_row(when, "A", did, moss=words(word))


def test_moss_lies_between_the_last_look_not_dry_and_the_first_dry_after_the_next_watering():
    rows = [
        log_row("2026-01-10", "A", "water"),
        moss("2026-01-14", "dry", "water"),
        log_row("2026-01-19", "A", "water"),
        log_row("2026-01-26", "A", "water"),
        moss("2026-02-03", "dry", "water"),
        moss("2026-02-07", "damp"),
        moss("2026-02-10", "dry", "water"),
    ]
    one = compared(OLD, *rows)["moss"]
    assert (one.low, one.high, one.seen_on) == (4, 7, dt.date(2026, 2, 10))
    assert one.rules == {"usual": 5, "last": 7, "three": pytest.approx(16 / 3)}
    never_dry = compared(OLD, *rows[:-1])["moss"]
    assert (never_dry.low, never_dry.high) == (4, math.inf)


def fed(when, grams, left="", food="flakes"):
    more = {"leftovers": words(left)} if left else {}
    return log_row(when, "A", food=food, amount=amount(grams, "g"), **more)


def test_food_is_bounded_by_what_was_left_of_the_next_feeding():
    rows = [
        fed("2026-01-01", 1.0),
        log_row("2026-01-02", "A", leftovers=words("gone")),
        fed("2026-02-04", 2.0),
        log_row("2026-02-06", "A", leftovers=words("some")),
    ]
    one = compared(OLD, *rows)["food"]
    # Some left is 40 to 95 % eaten; as (1 - 0.65 x)^(1 / 0.65) is left after x portions' worth of ample eating:
    assert (one.low, one.high) == pytest.approx(((1 - 0.6**0.65) / 0.65, (1 - 0.05**0.65) / 0.65))
    assert one.rules["last"] == 1.0
    assert "three" not in one.rules
    assert one.where is not None


def test_leftovers_mean_to_the_look_back_what_they_mean_to_the_estimates():
    for place, word in enumerate(("gone", "some", "most", "mouldy")):
        look = [fed("2026-02-04", 2.0), log_row("2026-02-06", "A", leftovers=words(word))]
        one = compared(OLD, fed("2026-01-01", 1.0), *look)["food"]
        two_days = Feedings(*(np.array([value]) for value in (0, 10, 2.0, 2.0, place, 100.0)))
        spans = spans_of(two_days, now=10)
        assert (one.low, one.high) == pytest.approx((np.exp(spans.low[0]), np.exp(spans.high[0])))


def test_a_look_at_food_after_a_week_tells_nothing():
    rows = [fed("2026-01-01", 1.0), fed("2026-02-04", 2.0), log_row("2026-02-11", "A", leftovers=words("some"))]
    assert "food" not in compared(OLD, *rows)


def test_leaf_is_what_the_next_top_ups_brought_a_week():
    days = [
        "2025-12-01",
        "2025-12-15",
        "2026-01-01",
        "2026-01-15",
        "2026-02-05",
        "2026-02-12",
        "2026-02-19",
        "2026-02-26",
    ]
    rows = [log_row(when, "A", leaf=amount(0.5, "l")) for when in days]
    one = compared(OLD, *rows)["leaf"]
    assert one.low == one.high == pytest.approx(0.5)
    assert one.rules["last"] == pytest.approx(0.25)
    assert one.rules["three"] == pytest.approx(1.5 / 45 * 7)
    assert "leaf" not in compared(OLD, *rows[:-1])


def test_substrate_is_compared_with_the_next_look_unless_it_was_changed_before():
    looks = [
        log_row("2026-01-01", "A", substrate=words("good")),
        log_row("2026-03-01", "A", substrate=words("part frass")),
    ]
    one = compared(OLD, *looks)["substrate"]
    assert (one.low, one.high) == (0.35, 0.65)
    assert one.rules["last"] == pytest.approx(0.74)
    assert one.rules["three"] == pytest.approx(0.9 - 0.16 / 365 * 424)
    changed = log_row("2026-02-15", "A", "substrate_change")
    assert "substrate" not in compared(OLD, *looks, changed)


def count(when, value, way):
    return log_row(when, "A", "count", number=number(value), way=way)


def test_numbers_are_turned_into_the_way_of_the_next_count():
    one = compared(OLD, count("2026-01-01", 85, "full sort"), count("2026-03-01", 20, "under bark"))["numbers"]
    assert (one.low, one.high) == (20, 20)
    assert one.rules["last"] == pytest.approx(25)
    assert one.estimate.low < one.estimate.middle < one.estimate.high
    assert one.estimate.middle < 60
    sold = log_row("2026-02-15", "A", "animals_out", number=number(10))
    assert "numbers" not in compared(OLD, count("2026-03-01", 20, "under bark"), sold)


def test_a_path_between_its_points():
    path = (Point(ON, 0, 1, 2), Point(ON + dt.timedelta(days=10), 10, 11, 12))
    assert at_day(path, ON + dt.timedelta(days=5)).middle == 6
    assert at_day(path, ON + dt.timedelta(days=99)).high == 12
