import datetime as dt

import pytest

from tools.rows import amount, bin_row, day, log_row, ml, number, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.checks import CHECKS, check

ON = dt.date(2026, 3, 10)
SOUND = (
    bin_row("A1", started="2025-06-01", founders=number(20), volume=amount(6, "l")),
    log_row("2026-02-01", "A1", "water", amount=ml(40), weekday="Sun"),
    log_row("2026-02-01", "A1", "feed", amount=amount(1, "g")),
    log_row("2026-02-08", "A1", "count", number=number(60)),
    log_row("2026-02-09", "A1", "animals_out", number=number(15)),
    log_row("2026-02-09", "", "room", temperature=amount(21, "degC"), humidity=amount(55, "percent")),
)


def found(*rows):
    ledger, _ = build_ledger(rows, settings(), on=ON)
    return [(str(problem.where), problem.code) for problem in check(ledger, ON)]


def test_sound_log_has_no_problems():
    assert found(*SOUND) == []


def test_every_check_is_run():
    assert len(CHECKS) == len(set(CHECKS))


def test_entry_in_the_future_is_named_by_the_cell_of_its_date():
    assert found(bin_row("A1"), log_row("2027-02-01", "A1", "water", at=9)) == [("Log!A9", "entries.future")]


def test_entries_in_the_future_are_one_problem_with_all_cells():
    ledger, _ = build_ledger(
        [bin_row("A1"), *(log_row("2027-02-01", "A1", "water+feed", at=at) for at in (9, 10, 11))], settings(), on=ON
    )
    (problem,) = [p for p in check(ledger, ON) if p.code == "entries.future"]
    assert [str(cell) for cell in problem.cells] == ["Log!A9", "Log!A10", "Log!A11"]


def test_vague_date_that_holds_the_day_is_not_in_the_future():
    assert found(bin_row("A1"), log_row("2026-03", "A1", "water")) == []


@pytest.mark.parametrize(
    ("started", "when", "expected"),
    [
        ("2026-02-10", "2026-02-09", [("Log!A9", "entries.before_start")]),
        ("2026-02-10", "2026-02-10", []),
        ("2026-02", "2026-02-01", []),
        ("2026-02-10", "2026-02", []),
    ],
)
def test_entry_before_the_bin_began(started, when, expected):
    assert found(bin_row("A1", started=started), log_row(when, "A1", "water", at=9)) == expected


def test_care_after_the_end_is_named_and_later_start_is_not():
    rows = [bin_row("A1", status=words("gone")), log_row("2026-02-01", "A1", "end")]
    assert found(*rows, log_row("2026-02-03", "A1", "water", at=9)) == [("Log!A9", "entries.after_end")]
    assert found(*rows, log_row("2026-02-03", "A1", "discard", at=9)) == []


def test_status_that_the_log_overrules():
    rows = [bin_row("A1", status=words("active"), at=4), log_row("2026-02-01", "A1", "end")]
    assert found(*rows) == [("Bins!B4", "entries.status_differs")]


def test_start_of_the_log_that_is_not_that_of_the_list():
    rows = [bin_row("A1", started="2025-06-01"), log_row("2026-02-01", "A1", "start", at=9)]
    assert found(*rows) == [("Log!A9", "entries.start_differs")]


def test_same_row_twice_names_the_second():
    rows = [log_row("2026-02-01", "A1", "water", at=at, amount=ml(40), note="x") for at in (5, 9)]
    assert found(bin_row("A1"), *rows) == [("Log!9", "entries.same_row_twice")]


@pytest.mark.parametrize(
    "other",
    [
        {"amount": ml(50)},
        {"amount": ml(40), "note": "again"},
        {"amount": ml(40), "time": dt.time(18)},
    ],
    ids=str,
)
def test_rows_that_differ_in_anything_are_not_the_same(other):
    rows = [log_row("2026-02-01", "A1", "water", amount=ml(40)), log_row("2026-02-01", "A1", "water", **other)]
    assert found(bin_row("A1"), *rows) == []


@pytest.mark.parametrize(
    ("did", "fields"),
    [
        ("water", {"amount": ml(4000)}),
        ("feed", {"amount": amount(500, "g")}),
        ("leaf", {"leaf": amount(60, "l")}),
        ("count", {"number": number(50000)}),
        ("room", {"temperature": amount(70, "degC")}),
        ("room", {"humidity": amount(0.5, "percent")}),
    ],
    ids=str,
)
def test_amount_far_out_is_named_by_its_cell(did, fields):
    assert found(bin_row("A1"), log_row("2026-02-01", "A1", did, at=9, **fields)) == [("Log!D9", "entries.far_out")]


def test_volume_far_out():
    assert found(bin_row("A1", at=4, volume=amount(5700, "l"))) == [("Bins!B4", "entries.far_out")]


def test_amount_on_several_bins_is_named_once():
    rows = [bin_row("A1"), bin_row("A2"), log_row("2026-02-01", "A1+A2", "water", amount=ml(4000))]
    assert [code for _, code in found(*rows)] == ["entries.far_out"]


@pytest.mark.parametrize(
    ("weekday", "expected"),
    [
        ("Sun", []),
        ("Sonntag", []),
        ("su", []),
        ("whenever", []),
        ("Fri", [("Log!D9", "entries.weekday_differs")]),
    ],
)
def test_weekday_is_compared_with_the_date(weekday, expected):
    assert found(bin_row("A1"), log_row("2026-03-01", "A1", "water", at=9, weekday=weekday)) == expected


def test_no_check_raises_on_a_date_alone():
    assert found(bin_row("A1", started="2026-01"), log_row("2026-02-01", "A1", look_again=day("2026-02-03"))) == []


def test_names_bins_that_begin_after_the_day_of_the_report():
    ledger, _ = build_ledger(
        [bin_row("A1", started="2026-04-01"), bin_row("A2", started="2026-03-01")], settings(), on=ON
    )
    assert [(p.code, p.facts["bin"]) for p in check(ledger, ON)] == [("entries.begins_later", "A1")]
