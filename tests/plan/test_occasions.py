import datetime as dt

import pytest

from tools.rows import bin_row, day, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.history import History
from workbook_tools.plan.occasions import leftovers, leftovers_unseen, look_again, quarantine_end
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 10)


def past_of(*rows, on=ON):
    ledger, _ = build_ledger([*rows], settings(), on=on)
    past = History.of(ledger, on)
    return ledger.bins["A1"], past


def left(*rows, on=ON):
    bin, past = past_of(bin_row("A1"), *rows, on=on)
    return list(leftovers(bin, past, Rhythm(), Wording()))


def test_leftovers_are_due_the_day_after_a_feeding():
    (due,) = left(log_row("2026-03-09", "A1", "feed", food="courgette", at=9))
    assert due.due == dt.date(2026, 3, 10)
    assert due.why == (
        "Fed courgette 9 Mar 2026 (yesterday); leftovers are due for a look 1 day after (common practice)."
    )
    assert [str(cell) for cell in due.rests_on] == ["Log!9"]
    assert due.last is None


@pytest.mark.parametrize("did", ["leftovers", "look"])
def test_a_look_on_a_later_day_settles_them(did):
    fed = log_row("2026-03-08", "A1", "feed")
    assert left(fed, log_row("2026-03-09", "A1", did)) == []
    assert len(left(fed, log_row("2026-03-08", "A1", did))) == 1


def test_only_the_last_feeding_counts():
    (due,) = left(log_row("2026-03-07", "A1", "feed"), log_row("2026-03-09", "A1", "feed"))
    assert due.due == dt.date(2026, 3, 10)


def test_when_the_next_feeding_is_overdue_they_are_no_job_of_their_own():
    fed = log_row("2026-03-06", "A1", "feed")
    assert len(left(fed, on=dt.date(2026, 3, 9))) == 1
    assert left(fed, on=dt.date(2026, 3, 10)) == []
    bin, past = past_of(bin_row("A1"), fed)
    assert leftovers_unseen(bin, past) is not None


def again(*rows):
    bin, past = past_of(bin_row("A1"), *rows)
    return list(look_again(bin, past, Wording()))


def test_a_look_asked_for_is_due_on_its_day():
    (due,) = again(log_row("2026-03-01", "A1", "look", look_again=day("2026-03-09"), note="lid", at=7))
    assert due.due == dt.date(2026, 3, 9)
    assert due.why == "On 1 Mar 2026 you noted to look again on 9 Mar 2026."
    assert due.last == dt.date(2026, 3, 1)
    assert not due.moves


@pytest.mark.parametrize(("opened", "left_over"), [("2026-03-08", 1), ("2026-03-09", 0), ("2026-03-10", 0)])
def test_opening_the_bin_that_day_or_later_settles_it(opened, left_over):
    asked = log_row("2026-03-01", "A1", "look", look_again=day("2026-03-09"))
    assert len(again(asked, log_row(opened, "A1", "water"))) == left_over


def test_end_of_quarantine_counts_from_its_entry_else_from_the_start():
    bin, past = past_of(bin_row("A1", started="2026-01-01"), log_row("2026-02-01", "A1", "quarantine"))
    (due,) = quarantine_end(bin, past, Rhythm(), Wording())
    assert due.due == dt.date(2026, 2, 1) + dt.timedelta(days=42)
    bin, past = past_of(bin_row("A1", started="2026-01-01", status=words("quarantine")))
    (due,) = quarantine_end(bin, past, Rhythm(), Wording())
    assert due.due == dt.date(2026, 1, 1) + dt.timedelta(days=42)


def test_quarantine_since_nobody_knows_when_has_no_end():
    bin, past = past_of(bin_row("A1", status=words("quarantine")))
    assert list(quarantine_end(bin, past, Rhythm(), Wording())) == []
