import datetime as dt

from tools.rows import bin_row, day, log_row, number, settings
from workbook_tools.intake.values import Number, When
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.noted import best, day_of, last_day, noted

ON = dt.date(2026, 3, 10)


def ledger(*rows):
    return build_ledger(rows, settings(), on=ON)[0]


def test_entries_come_once_for_each_bin_by_day_and_none_after_the_day():
    made = ledger(
        bin_row("A"),
        bin_row("B"),
        log_row("2026-03-04", "A+B", "water"),
        log_row("2026-03-02", "B", "water"),
        log_row("2026-03-11", "A", "water"),
        log_row("2026-03-03", "A", "feed"),
    )
    found = [(one.bin, one.day - ON.toordinal(), one.among) for one in noted(made, ON, frozenset({"water"}))]
    assert found == [(1, -8, 1), (0, -6, 2), (1, -6, 2)]
    assert last_day(made) == dt.date(2026, 3, 11)
    assert last_day(ledger(bin_row("A"))) is None


def test_vague_dates_stand_at_their_middle_and_are_passed_over_where_they_must_be_sharp():
    made = ledger(bin_row("A"), log_row("2026-02", "A", "water"))
    assert [one.day for one in noted(made, ON, frozenset({"water"}))] == [dt.date(2026, 2, 14).toordinal()]
    assert list(noted(made, ON, frozenset({"water"}), sharp=True)) == []
    assert day_of(day("2026-03"), ON) == ON.toordinal()
    assert day_of(When.on(ON), ON) == ON.toordinal()


def test_best_of_a_number():
    assert best(number(3)) == 3
    assert best(None, 7.0) == 7.0
    assert best(Number(float("inf"), 1, float("inf")), 0.0) == 0.0
