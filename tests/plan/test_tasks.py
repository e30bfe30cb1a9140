import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tools.losses_sample import alarm
from tools.rows import amount, bin_row, day, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.changes import next_changes, substrate_changes
from workbook_tools.plan.history import History
from workbook_tools.plan.losses.records import Losses
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.rounds import round_days
from workbook_tools.plan.tasks import ALL_BINS, due_tasks, moss_days
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 10)  # a Tuesday
ALL = "water+feed+leaf+calcium+substrate_look+hides+leftovers"


def plan(*rows, on=ON, horizon_days=7, **values):
    ledger, _ = build_ledger([*rows], settings(**values), on=on)
    past, rhythm = History.of(ledger, on), Rhythm(ledger.settings)
    expected = next_changes(past, substrate_changes(ledger), rhythm, Wording())
    return due_tasks(past, expected, rhythm, Wording(), horizon_days)


def tasks(*rows, **more):
    return {(task.bin, task.task): task for task in plan(*rows, **more)[0]}


def kinds(bin, found):
    return {task for name, task in found if name == bin}


def test_every_kind_is_due_its_interval_after_the_last_time():
    found = tasks(
        bin_row("A1", species="Porcellio scaber", place="top"), log_row("2026-03-01", "A1", ALL, at=9), horizon_days=400
    )
    due = {key: task.due - dt.date(2026, 3, 1) for (_, key), task in found.items()}
    assert {key: days.days for key, days in due.items()} == {
        "moss": 7,
        "food": 3,
        "leaf": 14,
        "look": 7,
        "calcium": 30,
        "substrate": 60,
        "hides": 180,
    }
    task = found["A1", "moss"]
    assert (task.species, task.place, task.label) == ("Porcellio scaber", "top", "Look at moss corner")
    assert (task.days, task.last) == (2, dt.date(2026, 3, 1))
    assert task.why == "Last watered 1 Mar 2026; every 7 days."
    assert [str(cell) for cell in task.rests_on] == ["Log!9"]


def test_horizon_ends_the_list():
    rows = [bin_row("A1"), log_row("2026-03-09", "A1", "water")]
    assert ("A1", "moss") in tasks(*rows, horizon_days=6)
    assert ("A1", "moss") not in tasks(*rows, horizon_days=5)


def test_bins_follow_the_shelves_and_then_the_keepers_order_and_stand_together():
    found, _ = plan(
        bin_row("Z"),
        bin_row("C", place="Shelf 10"),
        bin_row("B", place="Shelf 2"),
        bin_row("A", place="shelf 2"),
        log_row("2026-03-01", "A+B+C+Z", "water+feed"),
        log_row("2026-02-01", "A+B+C+Z", "leaf"),
        log_row("2026-03-09", "A+B+C+Z", "look"),
    )
    late = [(task.bin, task.task) for task in found if task.days > 0]
    assert late == [(name, task) for name in "BACZ" for task in ("leaf", "food", "moss")]
    assert [task.days for task in found] == [(ON - task.due).days for task in found]


def test_change_of_substrate_is_the_last_of_its_bin():
    rows = [bin_row(name, started="2024-06-01", place="low") for name in ("A1", "A2")]
    rows += [bin_row("B", status=words("gone")), log_row("2024-06-01", "B", "substrate_change")]
    found, _ = plan(*rows, log_row("2024-06-01", "A1+A2", "look"), log_row("2026-03-01", "A1+A2", "water"))
    late = [(task.bin, task.task) for task in found if task.days > 0]
    assert late == [(name, task) for name in ("A1", "A2") for task in ("moss", "look", "change")]


def test_overdue_come_before_today_and_today_before_what_is_to_come():
    found, _ = plan(
        bin_row("A", place="1"),
        bin_row("B", place="2"),
        log_row("2026-03-07", "A", "feed"),
        log_row("2026-03-01", "B", "feed"),
        log_row("2026-03-08", "A+B", "water"),
    )
    groups = [(task.days > 0) - (task.days < 0) for task in found]
    assert groups == sorted(groups, reverse=True)
    assert {*groups} == {-1, 0, 1}


def test_deaths_stand_above_all_else_that_is_overdue():
    ledger, _ = build_ledger(
        [
            *(bin_row(name, place=place) for name, place in (("A", "1"), ("B", "2"), ("C", "3"))),
            log_row("2026-02-01", "A+B+C", "feed+water+look"),
        ],
        settings(),
        on=ON,
    )
    past = History.of(ledger, ON)
    losses = Losses(ON, alarms=(alarm(ON, "C"), alarm(ON, "B")))
    found, _ = due_tasks(past, [], Rhythm(ledger.settings), Wording(), losses=losses)
    assert [(task.bin, task.task) for task in found[:3]] == [("B", "losses"), ("C", "losses"), ("A", "food")]


def test_look_at_leftovers_is_a_line_of_its_own_only_between_feedings():
    fed = log_row("2026-03-08", "A1", "feed")
    assert kinds("A1", tasks(bin_row("A1"), fed)) >= {"leftovers", "food"}
    both = tasks(bin_row("A1"), fed, on=dt.date(2026, 3, 11))
    assert ("A1", "leftovers") not in both
    assert both["A1", "food"].days == 0
    assert both["A1", "food"].why.endswith("Look at what is left first.")


@pytest.mark.parametrize("status", ["resting", "gone"])
def test_nothing_for_a_bin_that_rests_or_is_gone(status):
    found = tasks(bin_row("A1", status=words(status)), log_row("2026-01-01", "A1", ALL))
    assert kinds("A1", found) == set()


def test_nothing_for_a_bin_that_begins_later():
    assert kinds("A1", tasks(bin_row("A1", started="2026-03-12"))) == set()


def test_straggler_tub_has_only_its_moss_and_its_trap():
    found = tasks(bin_row("A1", status=words("straggler tub")), log_row("2026-01-01", "A1", f"{ALL}+trap"))
    assert kinds("A1", found) == {"moss", "trap"}


def test_new_bin_has_first_tasks_from_its_start():
    rows = [bin_row("A1"), bin_row("N", started="2026-03-08"), log_row("2026-03-01", "A1", ALL)]
    found = tasks(*rows)
    assert found["N", "look"].due == dt.date(2026, 3, 9)
    assert found["N", "food"].due == dt.date(2026, 3, 10)
    assert found["N", "moss"].due == dt.date(2026, 3, 15)
    assert found["N", "food"].last is None
    assert found["N", "food"].why == "Not logged yet; set up 8 Mar 2026; first after 2 days."


def test_bin_of_which_nothing_is_logged_has_one_line():
    rows = [bin_row("A1"), bin_row("N"), bin_row("O", started="2024-01-01"), log_row("2026-03-01", "A1", ALL)]
    found = tasks(*rows)
    for name in ("N", "O"):
        assert {key for bin, key in found if bin == name and key != "change"} == {"look"}
        assert found[name, "look"].due == ON
        assert "No care is logged" in found[name, "look"].why


def test_list_of_bins_alone_gives_one_line_a_bin():
    found, problems = plan(*(bin_row(f"A{n}") for n in range(5)))
    assert [(task.bin, task.task) for task in found] == [(f"A{n}", "look") for n in range(5)]
    assert problems == []


def test_kind_first_logged_late_counts_from_then_for_bins_without_it():
    rows = [bin_row("A1", started="2024-01-01"), bin_row("A2", started="2024-01-01")]
    found = tasks(*rows, log_row("2025-01-01", "A1+A2", "feed"), log_row("2026-03-02", "A2", "leaf"), horizon_days=30)
    assert found["A1", "leaf"].due == dt.date(2026, 3, 16)
    assert "first logged for another 2 Mar 2026" in found["A1", "leaf"].why


def test_what_was_never_logged_for_a_bin_is_not_called_late():
    rows = [bin_row("A1", started="2024-01-01"), bin_row("A2", started="2024-01-01")]
    found = tasks(*rows, log_row("2025-01-01", "A1+A2", "feed"), log_row("2025-03-02", "A2", "leaf"))
    assert found["A1", "leaf"].days == 0
    assert found["A2", "leaf"].days > 300


def test_essential_care_never_logged_is_one_line_for_all_bins_and_other_care_a_note():
    found, problems = plan(bin_row("A1"), bin_row("A2"), log_row("2026-03-09", "A1+A2", "feed"))
    whole = {task.task for task in found if task.bin == ALL_BINS}
    assert whole == {"moss", "leaf"}
    assert {task.task for task in found if task.bin == "A1"} == {"food", "look", "leftovers"}
    assert [problem.code for problem in problems] == ["plan.never_logged"]
    assert "'Give calcium'" in problems[0].says
    assert "'Count'" in problems[0].says


def test_care_never_logged_but_set_by_the_keeper_is_listed():
    found, problems = plan(
        bin_row("A1", started="2026-01-01"), log_row("2026-02-01", "A1", "feed"), every__calcium=20.0, horizon_days=20
    )
    assert ("A1", "calcium") in {(task.bin, task.task) for task in found}
    assert "'Give calcium'" not in problems[0].says


def test_setting_for_a_species_is_used_and_said():
    rows = [bin_row("A1", species="Porcellio scaber"), bin_row("A2"), log_row("2026-03-01", "A1+A2", "water")]
    found = tasks(*rows, **{"every__moss_for_Porcellio scaber": 5.0})
    assert found["A1", "moss"].due == dt.date(2026, 3, 6)
    assert "(your setting for Porcellio scaber)" in found["A1", "moss"].why
    assert found["A2", "moss"].due == dt.date(2026, 3, 8)


def test_vague_last_day_counts_from_its_first():
    found = tasks(bin_row("A1"), log_row("2026-03", "A1", "water"))
    assert found["A1", "moss"].due == dt.date(2026, 3, 8)
    assert "says only March 2026)" in found["A1", "moss"].why


def test_entries_to_come_are_not_used():
    found = tasks(bin_row("A1"), log_row("2026-03-01", "A1", "water"), log_row("2026-03-11", "A1", "water"))
    assert found["A1", "moss"].due == dt.date(2026, 3, 8)


def test_wet_moss_means_no_water_and_dry_moss_without_water_is_due_the_next_day():
    watered = log_row("2026-03-01", "A1", "water")
    wet = tasks(bin_row("A1"), watered, log_row("2026-03-05", "A1", "moss", moss=words("soaked")))["A1", "moss"]
    assert wet.due == dt.date(2026, 3, 12)
    assert "give no water" in wet.why
    dry = tasks(bin_row("A1"), watered, log_row("2026-03-05", "A1", "moss", moss=words("dry")))["A1", "moss"]
    assert dry.due == dt.date(2026, 3, 6)
    assert "no water is logged since" in dry.why
    both = tasks(bin_row("A1"), watered, log_row("2026-03-05", "A1", "water", moss=words("dry")))["A1", "moss"]
    assert both.due == dt.date(2026, 3, 12)


def test_overdue_feeding_says_to_look_at_what_is_left():
    found = tasks(bin_row("A1"), log_row("2026-03-01", "A1", "feed"))
    assert found["A1", "food"].why.endswith("Look at what is left first.")
    assert ("A1", "leftovers") not in found


def test_rounds_move_a_due_day_back_to_the_round():
    found = tasks(bin_row("A1"), log_row("2026-03-07", "A1", "water"), rounds=(3,))
    assert found["A1", "moss"].due == dt.date(2026, 3, 12)
    assert found["A1", "moss"].why.endswith("Moved to your round on Thu 12 Mar 2026.")


def test_nothing_is_overdue_while_its_interval_runs():
    found = tasks(bin_row("A1"), log_row("2026-03-04", "A1", "water"), rounds=(0,))
    assert found["A1", "moss"].due == dt.date(2026, 3, 11)
    assert "on Mon 9 Mar 2026, has passed" in found["A1", "moss"].why


def test_next_change_of_substrate_and_looks_asked_for_are_tasks():
    found = tasks(
        bin_row("A1", appetite=words("hearty"), started="2025-06-01"),
        log_row("2025-06-02", "A1", "look"),
        log_row("2026-03-09", "A1", "look", look_again=day("2026-03-11")),
    )
    assert found["A1", "change"].due == dt.date(2026, 3, 2)
    assert found["A1", "look_again"].due == dt.date(2026, 3, 11)


def test_bin_in_quarantine_has_its_tasks_and_the_end():
    found = tasks(bin_row("A1", status=words("quarantine"), started="2026-02-01"), log_row("2026-03-01", "A1", "water"))
    assert found["A1", "quarantine"].due == dt.date(2026, 3, 15)
    assert ("A1", "moss") in found


def test_bin_that_may_be_a_slip_of_the_pen_has_one_line():
    listed = [bin_row("A1"), log_row("2026-03-01", "A1", "water+feed")]
    once = log_row("2026-03-02", "Z9", "water+feed")
    found = tasks(*listed, once)
    assert kinds("Z9", found) == {"look"}
    assert "add it to the list" in found["Z9", "look"].why
    often = [log_row(f"2026-03-0{n}", "Z9", "water+feed") for n in (3, 4)]
    assert {"moss", "food"} <= kinds("Z9", tasks(*listed, once, *often))


def test_bin_not_known_to_be_new_is_not_called_late_for_what_was_never_logged_for_it():
    rows = [bin_row("A1"), bin_row("R2"), log_row("2025-06-01", "A1", "water+feed")]
    found = tasks(*rows, log_row("2026-02-20", "R2", "water"))
    assert found["R2", "food"].days == 0
    assert found["R2", "food"].why == ("Never logged for this bin; its first entry is of 20 Feb 2026; every 3 days.")


def test_what_was_never_logged_since_a_bin_was_set_up_is_not_called_late():
    rows = [bin_row("A1"), bin_row("B2", started="2025-09-01"), log_row("2025-06-01", "A1", ALL)]
    found = tasks(*rows, log_row("2026-03-01", "B2", "water"))
    assert found["B2", "food"].days == found["B2", "leaf"].days == 0
    assert found["B2", "moss"].days == 2


def test_what_the_list_says_of_a_day_before_the_log_began_is_not_called_late():
    rows = [bin_row("A1", last_feed=day("2025-06-01")), bin_row("A2", last_feed=day("2026-03-01"))]
    found = tasks(*rows, log_row("2026-01-01", "A1+A2", "water"), log_row("2026-03-01", "A1", "water"))
    assert (found["A1", "food"].days, found["A2", "food"].days) == (0, 6)
    assert found["A1", "food"].last == dt.date(2025, 6, 1)
    assert found["A1", "food"].why.endswith("That was before your log began, so it isn't called late.")


def test_a_book_of_animals_in_and_out_has_one_line_for_each_kind_of_care():
    rows = [bin_row(name, started="2024-06-01") for name in ("A1", "A2", "A3")]
    rows += [log_row("2024-06-01", "A1+A2+A3", "animals_in"), log_row("2025-07-01", "A1+A2", "animals_out")]
    found, _ = plan(*rows)
    assert {(task.bin, task.task) for task in found} == {
        (ALL_BINS, task) for task in ("moss", "food", "leaf", "look", "change")
    }
    assert all(task.days == 0 for task in found)
    change = next(task for task in found if task.task == "change")
    assert change.why == (
        "No change of substrate and no look at it is logged for any bin. Counted from their starts it would be due in "
        "3 bins; Changes says when for each."
    )


def test_trap_never_logged_for_any_bin_is_not_called_late():
    rows = [bin_row("S", status=words("straggler tub"), started=day("2025-01")), log_row("2026-03-01", "S", "water")]
    found = tasks(*rows)
    assert found["S", "trap"].days == 0
    assert "set up January 2025 (counted from its first day)" in found["S", "trap"].why


def test_days_of_moss_corners_are_those_of_their_tasks():
    rows = [bin_row("A1"), bin_row("A2"), log_row("2026-03-01", "A1", "water"), log_row("2026-03-09", "A2", "moss")]
    ledger, _ = build_ledger(rows, settings(), on=ON)
    days = moss_days(History.of(ledger, ON), Rhythm(ledger.settings), Wording())
    found = tasks(*rows, horizon_days=30)
    assert days == {name: found[name, "moss"].due for name in ("A1", "A2")}
    assert days["A2"] == dt.date(2026, 3, 16)


def test_no_bins_no_tasks():
    assert plan() == ([], [])


ENTRIES = st.lists(
    st.tuples(st.sampled_from(["water", "feed", "leaf", "look", "count"]), st.integers(0, 60)), min_size=1, max_size=6
)
ROUNDS = st.sets(st.integers(0, 6)).map(lambda days: tuple(sorted(days)))


def logged(entries):
    return [log_row((ON - dt.timedelta(days=ago)).isoformat(), "A1", did, amount=amount(1, "")) for did, ago in entries]


@given(ENTRIES, ROUNDS)
def test_due_day_is_never_past_the_ceiling_unless_no_round_lies_between(entries, rounds):
    ceilings = {"moss": 7, "food": 3, "leaf": 14, "look": 7, "count": 90}
    for (_, key), task in tasks(bin_row("A1"), *logged(entries), horizon_days=400, rounds=rounds).items():
        if key not in ceilings or task.last is None:
            continue
        latest = task.last + dt.timedelta(days=ceilings[key])
        assert task.due > task.last
        if task.due > latest:
            assert round_days(rounds, task.last + dt.timedelta(days=1), latest) == ()
        if task.days > 0 and not rounds:
            assert latest < ON


@given(ENTRIES, st.sampled_from(["water", "feed", "leaf"]), st.integers(0, 60), ROUNDS)
def test_another_entry_never_makes_its_task_earlier(entries, did, ago, rounds):
    key = {"water": "moss", "feed": "food", "leaf": "leaf"}[did]
    entries = [*entries, (did, 30)]
    before = tasks(bin_row("A1"), *logged(entries), horizon_days=400, rounds=rounds)["A1", key]
    after = tasks(bin_row("A1"), *logged([*entries, (did, ago)]), horizon_days=400, rounds=rounds)["A1", key]
    assert after.due >= before.due


@given(ENTRIES, ROUNDS)
def test_every_task_says_why_and_rests_on_rows(entries, rounds):
    for task in plan(bin_row("A1"), *logged(entries), horizon_days=400, rounds=rounds)[0]:
        assert task.why.endswith(".")
        assert task.days == (ON - task.due).days
        assert task.rests_on or task.last is None


@given(ENTRIES)
def test_same_log_gives_the_same_plan(entries):
    rows = [bin_row("A1"), *logged(entries)]
    assert plan(*rows) == plan(*rows)
