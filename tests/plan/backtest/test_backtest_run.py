import datetime as dt

from tools.rows import bin_row, log_row, number, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.backtest.run import look_back, past_days

ON = dt.date(2026, 12, 31)
FIRST = dt.date(2026, 1, 1)


def ledger_of(*rows):
    return build_ledger([*rows], settings(), on=ON)[0]


def visits(until=ON, first=FIRST):
    """Every five days a moss corner found dry and watered."""
    rows = []
    day = first
    while day <= until:
        rows.append(log_row(day.isoformat(), "A", "water", moss=words("dry")))
        day += dt.timedelta(days=5)
    return rows


def test_days_are_monthly_from_the_warm_up_to_shortly_before_the_last_entry():
    days = past_days(ledger_of(bin_row("A"), *visits()), ON)
    assert days[0] == dt.date(2026, 4, 6)
    assert days[1] == dt.date(2026, 5, 6)
    assert days[-1] == dt.date(2026, 12, 6)


def test_a_log_too_short_has_nothing_to_look_back_to():
    made = look_back(ledger_of(bin_row("A"), *visits(dt.date(2026, 3, 1))), ON)
    assert (made.days, made.comparisons, made.scores) == ((), (), ())
    assert past_days(ledger_of(), ON) == ()


def test_a_steady_bin_is_foretold():
    told = []
    made = look_back(ledger_of(bin_row("A", started="2026-01-01", founders=number(20)), *visits()), ON, told.append)
    assert tuple(told) == made.days
    (moss,) = (score for score in made.scores if score.quantity == "moss")
    assert moss.number == 9
    assert moss.error < 0.5
    assert moss.held == 1


def test_only_what_was_written_by_then_is_used():
    rows = [bin_row("A", started="2026-01-01"), *visits()]
    first = look_back(ledger_of(*rows), ON).comparisons[0]
    later = [log_row(f"2026-12-{day}", "A", "water", moss=words("wet")) for day in range(10, 30)]
    assert look_back(ledger_of(*rows, *later), ON).comparisons[0].estimate == first.estimate
