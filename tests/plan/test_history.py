import datetime as dt

from tools.rows import bin_row, day, log_row, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.history import History

ON = dt.date(2026, 3, 10)


def history(*rows):
    ledger, _ = build_ledger(rows, settings(), on=ON)
    return History.of(ledger, ON)


def test_latest_is_the_latest_of_several_acts_and_none_to_come():
    past = history(
        bin_row("A1"),
        log_row("2026-03-01", "A1", "moss"),
        log_row("2026-03-03", "A1", "water"),
        log_row("2026-04-01", "A1", "moss"),
    )
    assert past.latest("A1", ("moss", "water")).act == "water"
    assert past.latest("A1", ("feed",)) is None
    assert past.latest("B9", ("water",)) is None


def test_of_one_day_the_act_named_first_is_taken():
    past = history(bin_row("A1"), log_row("2026-03-01", "A1", "moss+water"))
    assert past.latest("A1", ("water", "moss")).act == "water"


def test_birth_is_the_start_else_the_first_entry():
    past = history(
        bin_row("A1", started="2025-03"), bin_row("A2"), bin_row("A3"), log_row("2026-03-01", "A1+A2", "water")
    )
    birth = {name: past.birth(bin) for name, bin in past.ledger.bins.items()}
    assert birth == {"A1": dt.date(2025, 3, 1), "A2": dt.date(2026, 3, 1), "A3": None}


def test_arrival_alone_is_no_care():
    past = history(
        bin_row("A1"), bin_row("A2"), log_row("2026-03-01", "A1", "animals_in"), log_row("2026-03-01", "A2", "look")
    )
    assert past.cared_for == {"A2"}


def test_first_logged_looks_at_all_bins():
    past = history(
        bin_row("A1"), bin_row("A2"), log_row("2026-03-03", "A1", "feed"), log_row("2026-03-01", "A2", "feed")
    )
    assert past.first_logged(("feed",)) == dt.date(2026, 3, 1)
    assert past.first_logged(("hides",)) is None


def test_reminders_are_kept_by_bin():
    past = history(bin_row("A1"), log_row("2026-03-01", "A1", "look", look_again=day("2026-03-09")))
    assert [entry.act for entry in past.reminders["A1"]] == ["look"]
