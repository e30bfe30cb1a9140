import datetime as dt

import pytest

from tools.rows import amount, bin_row, log_row, number, settings
from workbook_tools.ledger.at_most import too_many_out
from workbook_tools.ledger.build import build_ledger

ON = dt.date(2026, 3, 10)


def found(*rows):
    ledger, _ = build_ledger(rows, settings(), on=ON)
    return [(str(problem.where), problem.code) for problem in too_many_out(ledger, ON)]


@pytest.mark.parametrize(("out", "expected"), [(60, []), (500, [("Log!D9", "entries.too_many_out")])])
def test_more_out_than_can_be_there_since_the_start(out, expected):
    rows = [
        bin_row("A1", started="2026-01-01", founders=number(20)),
        log_row("2026-03-01", "A1", "animals_out", at=9, number=number(out)),
    ]
    assert found(*rows) == expected


def test_more_out_than_the_bin_can_hold():
    rows = [
        bin_row("A1", started="2020-01-01", founders=number(20), volume=amount(2, "l")),
        log_row("2026-03-01", "A1", "animals_out", at=9, number=number(5000)),
    ]
    assert found(*rows) == [("Log!D9", "entries.too_many_out")]


def test_a_count_or_animals_in_make_more_possible():
    out = log_row("2026-03-01", "A1", "animals_out", at=9, number=number(500))
    listed = bin_row("A1", started="2026-01-01", founders=number(20))
    assert found(listed, log_row("2026-02-28", "A1", "count", number=number(60)), out) == []
    assert found(listed, log_row("2026-02-28", "A1", "animals_in", number=number(600)), out) == []


def test_taking_out_twice_adds_up():
    rows = [log_row("2026-01-02", "A1", "animals_out", at=at, number=number(15)) for at in (9, 10)]
    rows[1] = log_row("2026-01-03", "A1", "animals_out", at=10, number=number(15))
    listed = bin_row("A1", started="2026-01-01", founders=number(20))
    assert found(listed, *rows) == [("Log!D10", "entries.too_many_out")]


def test_animals_into_a_bin_of_unknown_number_leave_it_unknown():
    into = log_row("2026-02-28", "A1", "animals_in", number=number(5))
    out = log_row("2026-03-01", "A1", "animals_out", at=9, number=number(40))
    assert found(bin_row("A1", started="2024-01-01"), into, out) == []
    assert found(bin_row("A1", started="2026-02-28"), into, out) == [("Log!D9", "entries.too_many_out")]


def test_what_went_to_another_bin_is_animals_only_when_animals_were_moved():
    listed = (bin_row("A1"), bin_row("A2", started="2026-02-28"))
    out = log_row("2026-03-01", "A2", "animals_out", at=9, number=number(40))
    changed = log_row("2026-02-28", "A1", "substrate_change", amount=amount(2, "l"), to_bin="A2")
    assert found(*listed, changed, out) == []
    poured = log_row("2026-02-28", "A1", "split", amount=amount(2, "l"), to_bin="A2")
    assert found(*listed, poured, out) == []
    split = log_row("2026-02-28", "A1", "split", amount=amount(2, "count"), to_bin="A2")
    assert found(*listed, split, out) == [("Log!D9", "entries.too_many_out")]


def test_a_split_into_an_old_bin_of_unknown_number_leaves_it_unknown():
    listed = (bin_row("A1"), bin_row("A2", started="2024-01-01"))
    split = log_row("2026-02-28", "A1", "split", number=number(2), to_bin="A2")
    assert found(*listed, split, log_row("2026-03-01", "A2", "animals_out", number=number(40))) == []


def test_one_wrong_number_is_named_once():
    listed = bin_row("A1", started="2026-01-01", founders=number(20))
    rows = [
        log_row("2026-01-02", "A1", "animals_out", at=9, number=number(400)),
        log_row("2026-01-03", "A1", "animals_out", at=10, number=number(5)),
    ]
    assert found(listed, *rows) == [("Log!D9", "entries.too_many_out")]


def test_nothing_known_of_numbers_is_no_problem():
    assert found(bin_row("A1"), log_row("2026-03-01", "A1", "animals_out", number=number(500))) == []
