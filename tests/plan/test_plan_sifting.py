import datetime as dt

import pytest

from tools.rows import bin_row, log_row, number, words
from tools.rows import settings as made_settings
from workbook_tools.estimate.sifting import sift_left
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.history import History
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.sift_advice import Next
from workbook_tools.plan.sifting import CLOSED, LAPSED, OPEN, batches, straggler_tasks
from workbook_tools.plan.tasks import due_tasks
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 31)
BINS = bin_row("A", species="Porcellio scaber"), bin_row("B"), bin_row("Tub", status=words("straggler tub"))


def past_of(*rows, on=ON, **values):
    ledger = build_ledger([*BINS, *rows], made_settings(**values), on=on)[0]
    return History.of(ledger, on), Rhythm(ledger.settings)


def found(*rows, **more):
    return batches(*past_of(*rows, **more))


def due(*rows, **more):
    past, rhythm = past_of(*rows, **more)
    return straggler_tasks(batches(past, rhythm), past, rhythm, Wording())


def tasks(*rows, **more):
    past, rhythm = past_of(*rows, **more)
    return due_tasks(past, (), rhythm, Wording(), batches=batches(past, rhythm))[0]


def change(day, bins="A", went="straggler corner"):
    return log_row(day, bins, "substrate_change", old_went=went)


def sift(day, *finds, bins="A", **more):
    return [log_row(day, bins, "sift", number=number(n), **more) for n in finds]


def trap(day, n, bins="A"):
    return log_row(day, bins, "trap", number=number(n))


def test_what_is_left_goes_by_passes_and_checks():
    (one,) = found(
        change("2026-03-20"), *sift("2026-03-20", 41, 22, 9, 4), trap("2026-03-24", 1), trap("2026-03-27", 0)
    )
    assert (one.passes, one.traps, one.found, one.state) == ((41, 22, 9, 4), (1, 0), 77, OPEN)
    assert one.left == sift_left((41, 22, 9, 4), (1, 0))
    assert one.advice.act is Next.DECIDE
    assert (one.last, one.next_check) == (dt.date(2026, 3, 27), dt.date(2026, 3, 30))


def test_a_find_by_hand_between_checks_begins_the_silence_anew():
    days = [dt.date(2026, 1, 5) + dt.timedelta(days=n) for n in range(61)]
    rows = [change("2026-01-01"), *sift("2026-01-01", 12, 4), trap("2026-01-03", 3), trap("2026-01-04", 1)]
    rows += [trap(day.isoformat(), 0) for day in days]
    (silent,) = found(*rows)
    (one,) = found(*rows, *sift("2026-03-10", 5, way="old soil"), trap("2026-03-11", 0))

    assert silent.left.empty_checks == 61 and "Probably empty" in silent.advice.found
    assert (one.passes, one.left.empty_checks) == ((12, 4, 5), 1)
    assert "Probably empty" not in one.advice.found


def test_a_find_in_a_tub_that_can_not_be_told_ends_the_silence_for_all_that_waits_there():
    rows = [change("2026-02-01", name, "Tub") for name in ("A", "B")]
    rows += [line for name in ("A", "B") for line in sift("2026-02-01", 12, 4, bins=name)]
    rows += [log_row("2026-02-03", "Tub", "trap", number=number(3), from_bin=name) for name in ("A", "B")]
    days = [dt.date(2026, 2, 5) + dt.timedelta(days=n) for n in range(50)]
    rows += [trap(day.isoformat(), 0, "Tub") for day in days]
    doubtful = *rows, trap("2026-03-20", 1, "Tub")

    assert [one.left.empty_checks for one in found(*rows)] == [50, 50]
    assert all("Probably empty" in one.advice.found for one in found(*rows))
    assert [one.left.empty_checks for one in found(*doubtful)] == [6, 6]
    assert [one.doubtful for one in found(*doubtful)] == [dt.date(2026, 3, 20)] * 2
    assert not any("Probably empty" in one.advice.found for one in found(*doubtful))
    (*_, last) = days
    again = [last + dt.timedelta(days=n) for n in range(1, 5)]
    assert all(
        "Probably empty" in one.advice.found for one in found(*doubtful, *(trap(str(d), 0, "Tub") for d in again))
    )


def test_nothing_is_said_to_be_left_where_no_number_is_logged():
    (one,) = found(change("2026-03-30"))
    assert (one.left, one.advice, one.state) == (None, None, OPEN)


def test_minutes_a_find_are_those_of_the_last_pass_that_found_any():
    rows = [*sift("2026-03-30", 10, minutes=number(30)), *sift("2026-03-30", 4, minutes=number(20))]
    (one,) = found(change("2026-03-30"), *rows, *sift("2026-03-30", 0, minutes=number(25)))
    assert one.minutes == 5


def test_frozen_is_closed_with_what_was_left_then_and_has_no_task():
    rows = change("2026-03-01"), *sift("2026-03-01", 20, 9), log_row("2026-03-20", "A", "freeze")
    (one,) = found(*rows)
    assert (one.state, one.ended, one.how) == (CLOSED, dt.date(2026, 3, 20), "frozen")
    assert one.left == sift_left((20, 9))
    assert (one.advice, one.next_check) == (None, None)
    assert due(*rows) == []


def test_what_was_not_written_of_for_long_is_neither_open_nor_closed():
    (one,) = found(change("2025-11-01"))
    assert (one.state, one.next_check) == (LAPSED, None)
    assert due(change("2025-11-01")) == []
    assert found(change("2026-01-01"))[0].state == OPEN


def test_open_ones_stand_first_by_their_next_look_then_the_latest_ended():
    rows = [
        change("2026-01-10"),
        log_row("2026-01-20", "A", "freeze"),
        change("2026-03-29"),
        change("2026-02-01", "B"),
        log_row("2026-02-20", "B", "freeze"),
        change("2026-03-27", "B"),
    ]
    assert [(one.bin, one.state) for one in found(*rows)] == [("B", OPEN), ("A", OPEN), ("B", CLOSED), ("A", CLOSED)]


# --- tasks ---


def test_next_look_is_due_a_few_days_after_the_last_with_what_to_do():
    (one,) = due(change("2026-03-27"), *sift("2026-03-27", 41, 22, 9, 4), trap("2026-03-29", 0))
    assert (one.bin, one.task, one.due) == ("A", "trap", dt.date(2026, 4, 1))
    assert one.why.startswith(
        "Old substrate of the change on 27 Mar 2026 waits; last looked at 29 Mar 2026; every 3 days"
    )
    assert "Trap on with fresh bait or in another spot, 9 more times" in one.why


def test_checks_ahead_are_as_far_apart_as_the_keeper_looks():
    rows = change("2026-03-01"), *sift("2026-03-01", 60, 20, 5, 0, 0), trap("2026-03-20", 5)
    rows += trap("2026-03-23", 0), trap("2026-03-26", 0), trap("2026-03-29", 0)

    assert found(*rows)[0].advice.act is Next.KEEP
    assert found(*rows, every__straggler=10)[0].advice.act is Next.DECIDE


def test_what_would_take_too_long_is_a_decision_on_due():
    rows = change("2026-03-20"), *sift("2026-03-20", 41, 22, 9, 4), trap("2026-03-24", 1), trap("2026-03-27", 0)
    (one,) = due(*rows)

    assert one.label == "Decide on old substrate"
    assert "another pass by hand, or freeze the lot now and accept what may be left" in one.why


def test_without_a_pass_it_is_to_be_sifted():
    (one,) = due(change("2026-03-30"))
    assert (one.task, one.label) == ("sift", "Sift old substrate")


def test_keeper_sets_the_days():
    (one,) = due(change("2026-03-30"), every__straggler=5)
    assert one.due == dt.date(2026, 4, 4)
    assert "every 5 days (your setting)" in one.why


def test_a_tub_has_one_task_for_all_that_waits_in_it_and_that_one_goes_before_its_rhythm():
    rows = change("2026-03-20", went="Tub"), change("2026-03-26", "B", "Tub"), log_row("2026-03-21", "Tub", "trap")
    (one,) = [task for task in tasks(*rows) if task.task == "trap"]
    assert (one.bin, one.due) == ("Tub", dt.date(2026, 3, 24))
    assert one.why.startswith("Old substrate of A and B waits in it; last looked at 21 Mar 2026; every 3 days")
    (rhythm,) = [task for task in tasks(log_row("2026-03-21", "Tub", "trap")) if task.task == "trap"]
    assert rhythm.due == dt.date(2026, 4, 4)


def test_look_at_the_tub_without_a_number_puts_the_next_look_off_but_is_no_empty_check():
    rows = change("2026-03-20", went="Tub"), log_row("2026-03-30", "Tub", "trap")
    (one,) = found(*rows)
    assert (one.traps, one.next_check) == ((), dt.date(2026, 4, 2))


@pytest.mark.parametrize("status", ["gone", "resting"])
def test_old_substrate_of_a_bin_that_is_gone_still_waits(status):
    act = {"gone": "end", "resting": "rest"}[status]
    made = tasks(change("2026-03-27"), trap("2026-03-28", 1), log_row("2026-03-29", "A", act))
    assert [task.task for task in made if task.bin == "A"] == ["trap"]


def test_a_check_of_one_bins_old_substrate_is_a_look_at_all_of_the_tub():
    rows = [change(day, name, "Tub") for day, name in (("2026-03-10", "A"), ("2026-03-20", "B"))]
    rows += [trap("2026-03-13", 2), trap("2026-03-29", 0, "B")]
    (task,) = due(*rows)
    assert (task.bin, task.due, task.last) == ("Tub", dt.date(2026, 4, 1), dt.date(2026, 3, 29))


def test_fresh_old_substrate_in_a_tub_is_no_look_at_what_waits_there():
    rows = [change("2026-03-10", "A", "Tub"), trap("2026-03-13", 2), change("2026-03-28", "B", "Tub")]
    (task,) = due(*rows)
    assert task.due == dt.date(2026, 3, 16)
