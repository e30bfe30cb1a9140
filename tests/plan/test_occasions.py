import datetime as dt

import pytest

from tools.rows import bin_row, day, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.due import Due
from workbook_tools.plan.history import History
from workbook_tools.plan.occasions import leftovers, leftovers_unseen, look_again, looks_within_feedings, quarantine_end
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
    assert due.why == ("Fed courgette 9 Mar 2026; to be looked at 1 day after.")
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


def quarantine(*rows):
    bin, past = past_of(*rows)
    (due,) = quarantine_end(bin, past, Rhythm(), Wording())
    return due


def test_end_of_quarantine_counts_from_its_entry():
    due = quarantine(bin_row("A1", started="2026-01-01"), log_row("2026-02-01", "A1", "quarantine"))
    assert due.due == dt.date(2026, 2, 1) + dt.timedelta(days=42)
    assert due.why.startswith("In quarantine since 1 Feb 2026;")


def test_quarantine_without_a_day_is_not_over_before_the_bin_is_old_enough():
    due = quarantine(bin_row("A1", started="2026-02-20", status=words("quarantine")))
    assert due.due == dt.date(2026, 2, 20) + dt.timedelta(days=42)
    assert due.why.startswith("Set up 20 Feb 2026, in quarantine by your list;")


@pytest.mark.parametrize("known", [{}, {"started": "2026-01-01"}, {"started": day("2024-03")}], ids=str)
def test_quarantine_since_nobody_knows_when_asks_for_the_day_and_is_never_late(known):
    due = quarantine(bin_row("A1", status=words("quarantine"), **known))
    assert due.due == ON
    assert not due.moves
    assert "Log the day it went into quarantine" in due.why


def placed(*jobs):
    return [(day, "Why.", Due("A1", task, task, day, "Why.")) for task, day in jobs]


@pytest.mark.parametrize(
    ("look", "feeding", "lines"),
    [(-1, 0, 1), (-2, -1, 1), (0, 0, 1), (3, 3, 1), (-1, 2, 2), (0, 1, 2), (2, 3, 2)],
)
def test_look_at_leftovers_on_the_round_of_a_feeding_is_part_of_it(look, feeding, lines):
    jobs = placed(*((task, ON + dt.timedelta(days=n)) for task, n in (("leftovers", look), ("food", feeding))))
    kept = looks_within_feedings(jobs, ON)
    assert [due.task for _, _, due in kept] == ["leftovers", "food"][-lines:]
    assert kept[-1][1] == ("Why. Look at what is left first." if lines == 1 else "Why.")


def test_look_at_leftovers_stays_where_another_bin_is_fed():
    jobs = [*placed(("leftovers", ON)), (ON, "Why.", Due("B1", "food", "Feed", ON, "Why."))]
    assert looks_within_feedings(jobs, ON) == jobs


@pytest.mark.parametrize(("food", "said"), [("x", "Fed 9 Mar"), ("✓", "Fed 9 Mar"), ("oats", "Fed oats 9 Mar")])
def test_a_tick_is_no_food(food, said):
    (due,) = left(log_row("2026-03-09", "A1", "feed", food=food))
    assert due.why.startswith(said)
