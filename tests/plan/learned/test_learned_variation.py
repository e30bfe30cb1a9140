import datetime as dt

import pytest

from tools.rows import bin_row, log_row, number, words
from tools.rows import settings as made_settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.numbers import forecast_numbers, numbers_of
from workbook_tools.plan.learned.totals import added
from workbook_tools.plan.learned.variation import forecast_lines

ON = dt.date(2026, 3, 31)


def lines(*rows):
    frame = Frame.of(build_ledger([*rows], made_settings(), on=ON)[0], ON)
    return forecast_lines(frame, numbers_of(frame))


def a_bin(name="A", species="Porcellio scaber", line="Grey", **more):
    return bin_row(name, species=species, line=line, **({"started": "2025-03-31", "founders": number(20)} | more))


def test_line_is_all_bins_of_one_species_and_name():
    made = lines(a_bin(), a_bin("B", line="grey "), a_bin("C", line="Rust"), a_bin("D", species=""))
    assert [line.bins for line in made] == [("A", "B"), ("C",)]
    assert made[0].founders == 20
    assert made[0].now > made[1].now


def test_animals_of_a_line_are_added_as_on_the_sheet_of_numbers():
    rows = [a_bin(), a_bin("B"), a_bin("C", founders=""), a_bin("R", status=words("resting"))]
    frame = Frame.of(build_ledger(rows, made_settings(), on=ON)[0], ON)
    numbers = numbers_of(frame)
    known, _ = forecast_numbers(frame, numbers)
    assert forecast_lines(frame, numbers)[0].now == pytest.approx(added(one.now for one in known.values()).middle)


def test_few_founders_lose_more_than_many_and_the_ends_are_in_order():
    few, many = (lines(a_bin(founders=number(n)))[0] for n in (6, 60))
    assert few.kept.middle < many.kept.middle < 1
    assert few.kept.low < few.kept.middle < few.kept.high
    assert few.generations == pytest.approx(365 / (9 * 30.4375))
    assert few.breeders < many.breeders


def test_steady_numbers_lose_what_the_formula_says():
    counts = [
        log_row(f"2025-{month:02d}-15", "A", "count", number=number(40), way="full sort") for month in range(4, 13)
    ]
    (line,) = lines(a_bin(founders=number(40), appetite=words("hearty")), *counts)
    assert line.kept.middle == pytest.approx((1 - 1 / (2 * 0.3 * 45)) ** 2, abs=0.02)


def test_line_that_is_gone_keeps_its_history_and_has_no_animals():
    (line,) = lines(a_bin(), log_row("2025-10-01", "A", "end"))
    assert (line.alive, line.now) == (0, 0)
    assert line.generations < 1.4


def test_line_of_which_no_number_is_written_is_left_out_and_so_is_a_tub():
    assert lines(a_bin(founders="")) == ()
    assert lines(a_bin(status=words("straggler tub"))) == ()
    assert lines(a_bin(started="2026-05-01")) == ()
