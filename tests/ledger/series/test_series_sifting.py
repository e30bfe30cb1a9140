import datetime as dt
import math
from dataclasses import replace

import pytest

from tools.rows import bin_row, log_row, number, words
from tools.rows import settings as made_settings
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.numbers import number_series
from workbook_tools.ledger.series.sifting import old_substrate

ON = dt.date(2026, 3, 31)
TUB = bin_row("Tub", status=words("straggler tub"))
CHANGE = log_row("2026-03-01", "A", "substrate_change", old_went="straggler tub")


def ledger_of(*rows):
    return build_ledger([*rows], made_settings(), on=ON)[0]


def sifted(*rows):
    return old_substrate(ledger_of(bin_row("A"), bin_row("B"), TUB, *rows), ON)


def sift(day, found, bins="A", **more):
    return log_row(day, bins, "sift", number=number(found), **more)


def trap(day, found, bins="A", **more):
    return log_row(day, bins, "trap", number=number(found), **more)


def moves(*rows):
    made = number_series(ledger_of(bin_row("A"), bin_row("B"), TUB, *rows), ON)
    return [(m.bin, dt.date.fromordinal(m.day).isoformat(), m.change) for m in made.moves]


def told(lot):
    return [one.found for one in lot.passes], [one.found for one in lot.traps]


def test_passes_and_checks_after_a_change_are_one_lot():
    made = sifted(CHANGE, *(sift("2026-03-01", n) for n in (41, 22, 9)), trap("2026-03-04", 2), trap("2026-03-08", 0))
    (lot,) = made.lots
    assert told(lot) == ([41, 22, 9], [2, 0])
    assert (lot.bin, lot.tub, lot.changed, lot.closed, lot.found) == ("A", "Tub", True, None, 74)
    assert dt.date.fromordinal(lot.begun) == dt.date(2026, 3, 1)
    assert made.problems == ()


def test_change_to_a_tub_opens_a_lot_before_any_pass_and_one_to_the_freezer_none():
    assert [told(lot) for lot in sifted(CHANGE).lots] == [([], [])]
    assert sifted(log_row("2026-03-01", "A", "substrate_change", old_went="freezer")).lots == ()
    assert sifted(log_row("2026-03-01", "A", "substrate_change")).lots == ()


def test_old_substrate_in_a_corner_of_the_bin_waits_in_no_tub():
    (lot,) = sifted(log_row("2026-03-01", "A", "substrate_change", old_went="straggler corner")).lots
    assert (lot.tub, lot.closed) == ("", None)


@pytest.mark.parametrize("act", ["freeze", "discard"])
def test_freeze_or_discard_closes_it_and_the_next_change_opens_another(act):
    made = sifted(
        CHANGE, trap("2026-03-04", 0), log_row("2026-03-10", "A", act), log_row("2026-03-20", "A", "trap"), CHANGE
    )
    lot = made.lots[0]
    assert (dt.date.fromordinal(lot.closed), lot.ended) == (dt.date(2026, 3, 10), act)
    again = sifted(
        CHANGE,
        log_row("2026-03-10", "A", act),
        log_row("2026-03-20", "A", "substrate_change", old_went="tub"),
        trap("2026-03-25", 3),
    )
    assert [told(lot) for lot in again.lots] == [([], []), ([], [3])]
    assert again.lots[1].closed is None


def test_freezing_the_tub_closes_all_that_waits_in_it():
    other = log_row("2026-03-02", "B", "substrate_change", old_went="Tub")
    made = sifted(CHANGE, other, log_row("2026-03-10", "Tub", "freeze"))
    assert [lot.ended for lot in made.lots] == ["freeze", "freeze"]


def test_sifted_before_it_went_to_the_freezer_is_closed_by_the_change():
    (lot,) = sifted(log_row("2026-03-01", "A", "substrate_change", old_went="freezer"), sift("2026-03-01", 5)).lots
    assert (lot.ended, lot.closed) == ("went", lot.begun)


def test_a_pass_written_before_the_change_belongs_to_it():
    (lot,) = sifted(sift("2026-02-28", 5), CHANGE).lots
    assert told(lot) == ([5], [])


def test_a_pass_without_a_change_is_of_old_substrate_only_if_it_says_so():
    assert sifted(sift("2026-03-01", 5)).lots == ()
    (lot,) = sifted(sift("2026-03-01", 5, way="old soil")).lots
    assert (told(lot), lot.changed) == (([5], []), False)


def test_a_count_by_sifting_long_after_a_change_is_no_pass_of_the_old_substrate():
    (lot,) = sifted(CHANGE, sift("2026-03-01", 5), sift("2026-03-29", 80)).lots
    assert told(lot) == ([5], [])


def test_pass_without_a_number_is_named_and_not_taken_for_none():
    made = sifted(CHANGE, log_row("2026-03-02", "A", "sift"))
    assert told(made.lots[0]) == ([], [])
    assert [problem.code for problem in made.problems] == ["entries.finds_not_written"]


def test_empty_check_of_a_tub_is_one_for_all_that_waits_in_it():
    other = log_row("2026-03-05", "B", "substrate_change", old_went="Tub")
    made = sifted(CHANGE, other, trap("2026-03-04", 0, "Tub"), trap("2026-03-08", 0, "Tub"))
    assert [told(lot) for lot in made.lots] == [([], [0, 0]), ([], [0])]


def test_tub_that_was_only_baited_tells_nothing():
    made = sifted(CHANGE, log_row("2026-03-04", "Tub", "trap"))
    assert told(made.lots[0]) == ([], [])
    assert made.problems == ()


def test_finds_in_a_tub_are_of_the_bin_named_or_of_the_only_one():
    other = log_row("2026-03-05", "B", "substrate_change", old_went="Tub")
    made = sifted(
        CHANGE,
        other,
        trap("2026-03-04", 2, "Tub"),
        trap("2026-03-08", 3, "Tub", to_bin="B"),
        trap("2026-03-09", 4, "Tub"),
    )
    assert [told(lot) for lot in made.lots] == [([], [2]), ([], [3])]
    (problem,) = made.problems
    assert problem.says == (
        "The 4 found here in Tub could be of more than one bin's old substrate, so they were given to none, "
        "and empty checks count anew from here."
    )


def days(lot):
    return [dt.date.fromordinal(day).isoformat() for day in lot.doubtful]


def test_finds_of_a_tub_that_can_not_be_told_are_noted_on_all_that_waits_there():
    other = log_row("2026-03-05", "B", "substrate_change", old_went="Tub")
    made = sifted(CHANGE, other, trap("2026-03-08", 4, "Tub"), trap("2026-03-09", 2, "Tub", to_bin="B, A"))
    assert [days(lot) for lot in made.lots] == [["2026-03-08"], ["2026-03-08"]]
    apart = sifted(CHANGE, trap("2026-03-03", 1, "Tub"), bin_row("C"), other, trap("2026-03-08", 3, "Tub", to_bin="C"))
    assert [days(lot) for lot in apart.lots] == [["2026-03-08"], ["2026-03-08"]]
    assert [one.back for one in apart.loose] == ["C"]


def test_finds_of_a_tub_only_written_as_animals_in_elsewhere_are_noted_too():
    made = sifted(CHANGE, log_row("2026-03-05", "B", "animals_in", number=number(2), from_bin="Tub"))
    assert days(made.lots[0]) == ["2026-03-05"]


def test_check_without_a_number_is_noted_and_named_once_the_trap_is_watched():
    rows = CHANGE, log_row("2026-03-02", "Tub", "trap"), trap("2026-03-04", 0, "Tub")
    assert sifted(*rows).problems == ()
    made = sifted(*rows, log_row("2026-03-06", "Tub", "trap"))
    assert days(made.lots[0]) == ["2026-03-02", "2026-03-06"]
    assert [problem.code for problem in made.problems] == ["entries.finds_not_written"]


def test_bait_renewed_on_the_day_of_a_check_is_no_check_without_a_number():
    made = sifted(CHANGE, trap("2026-03-04", 0, "Tub"), log_row("2026-03-04", "Tub", "trap"))
    assert (days(made.lots[0]), made.problems) == ([], ())


def test_finds_of_two_bins_in_one_row_are_noted_on_both_and_none_found_is_none_in_both():
    other = log_row("2026-03-01", "B", "substrate_change", old_went="corner")
    made = sifted(CHANGE, other, trap("2026-03-03", 0, "A+B"), trap("2026-03-06", 3, "A+B"))
    assert [(told(lot), days(lot)) for lot in made.lots] == [(([], [0]), ["2026-03-06"])] * 2
    assert {problem.code for problem in made.problems} == {"entries.whose_stragglers"}


def test_corner_with_a_capital_is_no_tub():
    (lot,) = sifted(log_row("2026-03-01", "A", "substrate_change", old_went="Corner of the bin")).lots
    assert lot.tub == ""


# --- passes in one cell ---


def passes(day, *finds, written="", **more):
    total = float(sum(finds))
    row = log_row(day, "A", "sift", number=Number(total, total, total, tuple(map(float, finds))), **more)
    fact = row.facts["number"][0]
    row.facts["number"] = (replace(fact, cell=replace(fact.cell, text=written or "+".join(map(str, finds)))),)
    return row


def test_passes_in_one_cell_are_passes():
    minutes = Number(60.0, 60.0, 60.0, (30.0, 20.0, 10.0))
    (lot,) = sifted(CHANGE, passes("2026-03-01", 41, 22, 9, minutes=minutes)).lots
    assert told(lot) == ([41, 22, 9], [])
    assert [one.minutes for one in lot.passes] == [30, 20, 10]
    (lot,) = sifted(CHANGE, passes("2026-03-01", 41, 22, 9, minutes=number(60))).lots
    assert all(math.isnan(one.minutes) for one in lot.passes), "how they share an hour isn't known"


def test_males_and_females_are_one_pass():
    (lot,) = sifted(CHANGE, passes("2026-03-01", 8, 3, written="8.3")).lots
    assert told(lot) == ([11], [])


def test_passes_in_one_cell_that_are_written_as_animals_in_too_come_back_once():
    back = log_row("2026-03-04", "A", "animals_in", number=number(12), from_bin="Tub")
    rows = CHANGE, passes("2026-03-03", 9, 3), back
    assert [(one.found, one.arrived) for one in sifted(*rows).lots[0].passes] == [(9, True), (3, True)]
    assert sum(change for bin, _, change in moves(*rows) if bin == 0) == 0


# --- sifts of nothing ---


def test_sift_near_no_change_is_kept_for_those_that_know_more_of_it():
    made = sifted(sift("2026-03-01", 5), sift("2026-03-02", 5, way="old soil"), log_row("2026-03-01", "B", "sift"))
    assert [(one.bin, one.day) for one in made.apart] == [(0, dt.date(2026, 3, 1).toordinal())]


# --- what finds do to the numbers ---


def test_finds_on_the_day_of_the_change_were_never_away():
    assert moves(CHANGE, sift("2026-03-01", 41)) == []


def test_later_finds_left_with_the_old_substrate_and_came_back():
    assert moves(CHANGE, trap("2026-03-04", 2), trap("2026-03-08", 1)) == [
        (0, "2026-03-01", -3),
        (0, "2026-03-04", 2),
        (0, "2026-03-08", 1),
    ]


def test_finds_put_elsewhere_are_gone_from_the_bin():
    assert moves(CHANGE, sift("2026-03-01", 4, to_bin="B")) == [(0, "2026-03-01", -4), (1, "2026-03-01", 4)]
    assert moves(CHANGE, trap("2026-03-04", 4, to_bin="a friend")) == [(0, "2026-03-01", -4)]


@pytest.mark.parametrize("arrival", [{"from_bin": "Tub"}, {}])
def test_a_find_that_is_written_as_animals_in_too_comes_back_once(arrival):
    back = log_row("2026-03-05", "A", "animals_in", number=number(2), **arrival)
    made = moves(CHANGE, trap("2026-03-04", 2), back)
    assert sum(change for bin, _, change in made if bin == 0) == 0
    assert [move for move in made if move[0] == 0 and move[2] > 0] == [(0, "2026-03-05", 2)]


def test_find_in_the_tub_written_only_as_animals_in_is_a_find():
    rows = CHANGE, log_row("2026-03-05", "A", "animals_in", number=number(2), from_bin="Tub")
    assert told(sifted(*rows).lots[0]) == ([], [2])
    assert sum(change for bin, _, change in moves(*rows) if bin == 0) == 0


def test_animals_bought_are_no_stragglers():
    rows = CHANGE, log_row("2026-03-05", "A", "animals_in", number=number(2), from_bin="B")
    assert told(sifted(*rows).lots[0]) == ([], [])


def test_finds_of_a_tub_put_into_a_bin_that_has_no_old_substrate_there_come_in():
    assert moves(trap("2026-03-04", 3, "Tub", to_bin="B")) == [(1, "2026-03-04", 3)]
    back = log_row("2026-03-04", "B", "animals_in", number=number(3), from_bin="Tub")
    assert [m for m in moves(trap("2026-03-04", 3, "Tub", to_bin="B"), back) if m[0] == 1] == [(1, "2026-03-04", 3)]


def test_count_of_a_bin_and_what_is_found_later_add_up():
    rows = CHANGE, log_row("2026-03-02", "A", "count", number=number(50), way="full sort"), trap("2026-03-09", 7)
    made = number_series(ledger_of(bin_row("A", started="2025-01-01", founders=number(60)), *rows), ON)
    after = [move.change for move in made.moves if move.day > made.counts[0].day]
    assert (made.counts[0].value, after) == (50, [7])
