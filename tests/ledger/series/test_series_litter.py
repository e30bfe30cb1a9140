import datetime as dt
import math

import pytest

from tools.rows import amount, bin_row, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.litter import LEFT, floor_of, litter_series

ON = dt.date(2026, 3, 31)


def ledger(*rows):
    return build_ledger(rows, settings(), on=ON)[0]


def top(when, value=0.5, unit="l", **more):
    return log_row(when, "A", leaf=amount(value, unit), **more)


def test_top_ups_of_a_day_are_one_and_grams_become_litres():
    made = litter_series(
        ledger(bin_row("A"), top("2026-03-01"), top("2026-03-01", 10, "g"), top("2026-03-09", 40, "g")), ON
    )
    assert made.litres.tolist() == [1.0, 2.0]
    days, litres = made.given(0)
    assert [day - days[0] for day in days] == [0, 8]
    assert litres.tolist() == [1.0, 2.0]


def test_a_top_up_without_a_word_is_no_look():
    made = litter_series(ledger(bin_row("A"), top("2026-03-01"), top("2026-03-09")), ON)
    assert made.seen_bin.size == 0


def test_top_up_of_unknown_amount_is_kept():
    made = litter_series(ledger(bin_row("A"), log_row("2026-03-01", "A", "leaf")), ON)
    assert math.isnan(made.litres[0])
    assert made.full[0] > 0


@pytest.mark.parametrize(
    ("facts", "floor"),
    [
        ({}, 5.5),
        ({"floor": amount(12, "dm2")}, 12),
        ({"volume": amount(5.5, "l")}, 5.5),
        ({"volume": amount(44, "l")}, 22),
        ({"volume": amount(0, "l")}, 5.5),
    ],
)
def test_floor_is_as_written_or_that_of_a_box_of_its_volume(facts, floor):
    assert floor_of(ledger(bin_row("A", **facts)).bins["A"]) == pytest.approx(floor)


def test_a_full_layer_holds_at_least_the_larger_top_ups():
    made = litter_series(ledger(bin_row("A"), *(top(f"2026-03-0{n}", 5) for n in range(1, 6))), ON)
    assert made.full[0] == 5
    assert litter_series(ledger(bin_row("A")), ON).full[0] == pytest.approx(1.65)


def test_what_was_left_is_seen_before_the_top_up_of_its_day():
    rows = [top("2026-03-01"), top("2026-03-09", leaf_left=words("little"))]
    made = litter_series(ledger(bin_row("A"), *rows, log_row("2026-03-12", "A", leaf_left=words("plenty"))), ON)
    assert list(zip(made.low, made.high, strict=True)) == [LEFT["little"], LEFT["plenty"]]


def test_last_visit_after_the_last_word_on_litter_is_one_that_passed_it_over():
    made = litter_series(
        ledger(
            bin_row("A"),
            bin_row("B"),
            bin_row("C"),
            top("2026-03-01"),
            log_row("2026-03-05", "A", "feed"),
            log_row("2026-03-09", "A", "water"),
            log_row("2026-03-09", "B", "feed"),
            log_row("2026-03-10", "C", leaf=amount(0.5, "l")),
            log_row("2026-03-08", "C", "feed"),
        ),
        ON,
    )
    assert made.passed_bin.tolist() == [0]
    assert made.passed_day.tolist() == [dt.date(2026, 3, 9).toordinal()]
