import datetime as dt

import pytest

from tools.rows import bin_row, log_row, number, words
from tools.rows import settings as made_settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.history import History
from workbook_tools.plan.quarantine import apart_until, not_apart
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.tasks import due_tasks
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 31)
QUARANTINE = {"status": words("quarantine")}


def past_of(*rows, **values):
    ledger = build_ledger([*rows], made_settings(**values), on=ON)[0]
    return History.of(ledger, ON), Rhythm(ledger.settings)


def until(*rows, **values):
    past, rhythm = past_of(*rows, **values)
    return apart_until(past.ledger.bins["A"], past, rhythm)


def arrived(day="2026-03-20", **more):
    return log_row(day, "A", "animals_in", number=number(12), **more)


def named(*rows):
    return [problem.code for problem in not_apart(*past_of(*rows))]


def test_counts_from_the_day_the_log_put_it_there_else_from_the_arrival():
    put = log_row("2026-03-22", "A", "quarantine")
    assert until(bin_row("A", **QUARANTINE), arrived()) == dt.date(2026, 5, 1)
    assert until(bin_row("A", **QUARANTINE), arrived(), put) == dt.date(2026, 5, 3)
    assert until(bin_row("A", **QUARANTINE), arrived(), quarantine__days=28) == dt.date(2026, 4, 17)


def test_is_not_known_without_either_and_nothing_for_other_bins():
    assert until(bin_row("A", **QUARANTINE)) is None
    assert until(bin_row("A", **QUARANTINE), bin_row("B"), arrived(from_bin="B")) is None
    assert until(bin_row("A"), arrived()) is None


def test_bin_in_quarantine_is_looked_over_more_often():
    rows = log_row("2026-03-29", "A", "look"), log_row("2026-03-29", "B", "look")
    past, rhythm = past_of(bin_row("A", **QUARANTINE), bin_row("B"), *rows)
    looks = {task.bin: task for task in due_tasks(past, (), rhythm, Wording())[0] if task.task == "look"}
    assert (looks["A"].due, looks["B"].due) == (dt.date(2026, 4, 1), dt.date(2026, 4, 5))
    assert looks["A"].why == "Last looked over 29 Mar 2026; every 3 days in quarantine."


def test_a_shorter_rhythm_of_the_keeper_stands():
    rows = bin_row("A", **QUARANTINE), log_row("2026-03-29", "A", "look")
    past, rhythm = past_of(*rows, every__look=2)
    (look,) = [task for task in due_tasks(past, (), rhythm, Wording())[0] if task.task == "look"]
    assert look.due == dt.date(2026, 3, 31)


def test_arrivals_put_in_with_others_are_named_while_a_quarantine_would_last():
    old = bin_row("A", started="2025-01-01")
    assert named(old, arrived()) == ["entries.not_apart"]
    assert named(old, arrived("2026-01-20")) == []
    assert named(bin_row("A", started="2026-03-15"), arrived()) == []
    assert named(bin_row("A", started="2025-01-01", **QUARANTINE), arrived()) == []


@pytest.mark.parametrize(("source", "count"), [("B", 0), ("a friend", 1)])
def test_animals_of_an_own_bin_are_no_arrivals(source, count):
    assert len(named(bin_row("A", started="2025-01-01"), bin_row("B"), arrived(from_bin=source))) == count


def test_stragglers_that_come_back_are_no_arrivals():
    change = log_row("2026-03-10", "A", "substrate_change", old_went="corner")
    find = log_row("2026-03-20", "A", "trap", number=number(12))
    assert named(bin_row("A", started="2025-01-01"), change, find, arrived()) == []


def test_as_many_animals_long_after_stragglers_came_back_are_arrivals():
    change = log_row("2026-01-02", "A", "substrate_change", old_went="corner")
    find = log_row("2026-01-12", "A", "trap", number=number(12))
    back = log_row("2026-01-13", "A", "animals_in", number=number(12))
    assert named(bin_row("A", started="2025-01-01"), change, find, back, arrived()) == ["entries.not_apart"]


def test_what_the_other_bin_says_it_gave_is_no_arrival_from_outside():
    bins = bin_row("A", started="2025-01-01"), bin_row("B", started="2025-01-01")
    gave = log_row("2026-03-19", "B", "animals_out", number=number(12), to_bin="A")
    assert named(*bins, arrived()) == ["entries.not_apart"]
    assert named(*bins, arrived(), gave) == []
