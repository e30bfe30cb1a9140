import datetime as dt

from tools.rows import bin_row, day, log_row, number, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.entries import entries_table, last_done

ON = dt.date(2026, 3, 10)


def table(*rows, until=None):
    ledger, _ = build_ledger(rows, settings(), on=ON)
    return ledger, entries_table(ledger, until=until)


def test_table_has_a_row_for_each_bin_of_each_dated_entry():
    _, made = table(
        bin_row("A1", number_now=number(5)),
        bin_row("A2"),
        log_row("2026-03-01", "A1+A2", "water+feed"),
        log_row("2026-03-01", "", "house"),
    )
    assert sorted(zip(made["bin"], made["act"], strict=True)) == [
        ("A1", "feed"),
        ("A1", "water"),
        ("A2", "feed"),
        ("A2", "water"),
    ]


def test_entries_to_come_are_left_out():
    _, made = table(bin_row("A1"), log_row("2026-03-01", "A1", "water"), log_row("2026-04-01", "A1", "water"), until=ON)
    assert list(made["first"]) == [dt.date(2026, 3, 1)]


def test_last_done_is_the_latest_by_the_first_day_it_can_have_been():
    ledger, made = table(
        bin_row("A1", last_water=day("2026-03")),
        log_row("2026-02-20", "A1", "water"),
        log_row("2026-02-10", "A1", "feed"),
        log_row("2026-02-12", "A1", "feed"),
    )
    found = last_done(made)
    assert found["A1", "water"][0] == dt.date(2026, 3, 1)
    assert found["A1", "feed"][0] == dt.date(2026, 2, 12)
    assert ledger.entries[found["A1", "feed"][1]].day == dt.date(2026, 2, 12)


def test_nothing_logged_is_an_empty_table():
    _, made = table(bin_row("A1"))
    assert len(made) == 0
    assert last_done(made) == {}
