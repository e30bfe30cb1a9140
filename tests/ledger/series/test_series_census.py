import datetime as dt

import pytest

from tools.rows import amount, bin_row, log_row, number, settings
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.census import census_series
from workbook_tools.ledger.series.numbers import number_series

ON = dt.date(2026, 3, 31)
FULL = {"share": amount(1, "share")}


def day(at):
    return f"2026-03-{at:02d}"


def series(*rows, bins=("A", "B"), on=ON):
    ledger, _ = build_ledger([*map(bin_row, bins), *rows], settings(), on=on)
    return census_series(ledger, on, number_series(ledger, on).moves)


def mark(at, count, bin="A"):
    return log_row(day(at), bin, "mark", **({} if count is None else {"number": number(count)}))


def again(at, caught, marked, bin="A", did="recapture"):
    return log_row(day(at), bin, did, number=number(caught), marked=number(marked))


def codes(made):
    return [problem.code for problem in made.problems]


def met(made):
    """Bin, caught, again and marked there of every catch, census by census."""
    return [[(c.bin, one.caught, one.again, round(one.marked, 2)) for one in c.catches] for c in made.censuses]


def test_one_marking_and_one_catch():
    made = series(mark(1, 40), again(8, 60, 12))
    assert met(made) == [[(0, 60, 12, 40)]]
    assert made.censuses[0].catches[0].marks == ((7, 40.0),)
    assert made.problems == ()


def test_animals_marked_at_each_catch_meet_the_next_one():
    # the second marking isn't numbered: all that had no mark got one
    made = series(mark(1, 20), again(5, 30, 4), mark(5, None), again(9, 25, 8), mark(9, 17), again(13, 30, 15))
    assert met(made) == [[(0, 30, 4, 20), (0, 25, 8, 46), (0, 30, 15, 63)]]


def test_the_first_catch_of_a_census_whose_animals_are_marked_then_has_nothing_to_meet():
    made = series(again(1, 30, 0), mark(1, 30), again(5, 30, 6))
    assert met(made) == [[(0, 30, 6, 30)]]
    assert made.problems == ()


def test_a_count_that_says_how_many_were_marked_is_a_catch_in_place():
    made = series(mark(1, 40), again(8, 60, 12, did="count"))
    assert [one.in_place for one in made.censuses[0].catches] == [True]
    without = series(log_row(day(2), "A", "count", number=number(60), marked=number(0)))
    assert (without.censuses, without.problems) == ((), ())


def test_marked_ones_that_died_or_left_are_not_there_to_be_met():
    dead = log_row(day(3), "A", "dead", dead=number(5), marked=number(4))
    sold = log_row(day(4), "A", "animals_out", number=number(10), marked=number(6))
    assert met(series(mark(1, 40), dead, sold, again(8, 60, 12))) == [[(0, 60, 12, 30)]]


def test_unsaid_marks_of_those_that_left_are_as_many_as_among_the_next_catch():
    # 30 left, a fifth of the catch is marked: 6 of them probably were
    sold = log_row(day(4), "A", "animals_out", number=number(30))
    assert met(series(mark(1, 40), sold, again(8, 60, 12))) == [[(0, 60, 12, 34)]]
    # what was marked after they left stays whole
    assert met(series(mark(1, 40), sold, mark(5, 10), again(8, 60, 12))) == [[(0, 60, 12, 44)]]


def test_a_split_takes_its_share_of_marks_along():
    split = log_row(day(4), "A", "split", to_bin="B")
    made = series(mark(1, 40), split, again(8, 30, 6), again(8, 20, 5, bin="B"))
    assert met(made) == [[(0, 30, 6, 20)], [(1, 20, 5, 20)]]


def test_a_bin_that_moved_up_whole_keeps_its_marks_in_the_new_one():
    up = log_row(day(4), "A", "move_up", to_bin="B")
    made = series(mark(1, 40), up, again(8, 30, 6, bin="B"), again(9, 5, 1))
    assert met(made) == [[(1, 30, 6, 40)]]
    assert codes(made) == ["census.no_marking"]


@pytest.mark.parametrize("row", [log_row(day(9), "A", "animals_in", number=number(20)), None])
def test_a_census_ends_where_animals_come_or_a_fortnight_passes(row):
    later = 10 if row else 25
    made = series(mark(1, 40), again(8, 30, 6), *([row] if row else []), again(later, 30, 5))
    assert [len(census.catches) for census in made.censuses] == [1, 1]


@pytest.mark.parametrize(
    ("rows", "code"),
    [
        ([again(8, 60, 12)], "census.no_marking"),
        ([again(8, 60, 0)], "census.no_marking"),
        ([mark(1, 10), again(8, 60, 12)], "census.more_marked"),
        (
            [mark(1, 40), log_row(day(2), "A", "dead", dead=number(30), marked=number(30)), again(8, 60, 12)],
            "census.more_marked",
        ),
        ([mark(1, 40), again(8, 5, 12)], "census.more_than_caught"),
        ([mark(1, 40), log_row(day(8), "A", "recapture", number=number(30))], "census.not_told"),
        ([mark(1, 40), log_row(day(8), "A", "recapture", marked=number(30))], "census.not_told"),
        ([mark(1, 40), again(8, 0, 0)], "census.none_caught"),
        ([mark(1, 40), log_row(day(8), "A", "count", number=number(0), marked=number(0))], "census.none_caught"),
        (
            [mark(1, 40), log_row(day(8), "A", "recapture", amount=amount(60, "l"), marked=number(12))],
            "census.not_told",
        ),
        ([mark(1, None)], "census.mark_unnumbered"),
        ([log_row(day(1), "A+B", "mark", number=number(30))], "census.several_bins"),
    ],
)
def test_what_cant_be_is_a_problem_and_no_catch(rows, code):
    made = series(*rows)
    assert codes(made) == [code]
    assert made.censuses == ()


def test_marks_of_another_bin_dont_count():
    made = series(mark(1, 40, bin="B"), again(8, 60, 12))
    assert codes(made) == ["census.no_marking"]


def test_later_entries_are_not_known():
    rows = mark(1, 40), again(8, 60, 12)
    assert series(*rows, on=dt.date(2026, 3, 7)).censuses == ()


def test_a_count_by_passes_in_one_row_or_in_several():
    parts = Number(76, 76, 76, (41, 22, 9, 4))
    one = series(log_row(day(3), "A", "count", number=parts, way="whole bin in passes"))
    assert [(p.bin, p.catches, p.changed) for p in one.passes] == [(0, (41, 22, 9, 4), False)]
    rows = [
        log_row(day(at), "A", "count", number=number(n), way="passes") for at, n in ((3, 41), (3, 22), (4, 9), (9, 5))
    ]
    made = series(*rows)
    assert [p.catches for p in made.passes] == [(41, 22, 9)]
    assert [(c.value, c.method) for c in made.counts] == [(5, "hand sort")]


def test_counts_by_passes_are_no_plain_counts_too():
    rows = [log_row(day(3), "A", "count", number=number(n), way="passes") for n in (41, 22)]
    ledger, _ = build_ledger([bin_row("A"), *rows], settings(), on=ON)
    assert number_series(ledger, ON).counts == ()


def sift(at, found, **more):
    return log_row(day(at), "A", "sift", number=number(found), **more)


def test_sifting_what_a_full_change_took_out_is_a_count_of_the_bin():
    change = log_row(day(3), "A", "substrate_change", **FULL)
    made = series(change, sift(3, 41), sift(3, 22), sift(5, 9), log_row(day(9), "A", "trap", number=number(2)))
    assert [(p.day, p.catches, p.trapped, p.changed) for p in made.passes] == [
        (dt.date(2026, 3, 3).toordinal(), (41, 22, 9), (2,), True)
    ]


@pytest.mark.parametrize("more", [{}, {"share": amount(1 / 3, "share")}], ids=["unsaid", "a third"])
def test_sifting_of_a_change_not_said_to_be_of_all_is_no_count(more):
    made = series(log_row(day(3), "A", "substrate_change", **more), sift(3, 41), sift(3, 22))
    assert (made.passes, made.counts) == ((), ())


def test_one_pass_of_a_full_change_is_a_sieved_count_of_the_day_before():
    made = series(log_row(day(3), "A", "substrate_change", **FULL), sift(3, 41))
    (count,) = made.counts
    assert (count.day, count.value, count.method) == (dt.date(2026, 3, 2).toordinal(), 41, "sieve")


def test_sift_of_which_nobody_knows_what_was_sifted_is_named():
    made = series(log_row(day(3), "A", "sift", number=number(12)))
    assert codes(made) == ["census.sift_of_what"]
    assert "its 12 tells nothing" in made.problems[0].says
    assert codes(series(log_row(day(3), "A+B", "sift", number=number(12)))) == ["census.sift_of_what"]


@pytest.mark.parametrize("more", [{"way": "old substrate"}, {"way": "whole bin"}])
def test_sift_that_says_what_was_sifted_is_not_named(more):
    assert codes(series(log_row(day(3), "A", "sift", number=number(12), **more))) == []
    change = log_row(day(2), "A", "substrate_change", **FULL)
    assert codes(series(change, log_row(day(3), "A", "sift", number=number(12)))) == []


def test_sift_of_several_whole_bins_at_once_is_named():
    made = series(log_row(day(3), "A+B", "sift", number=number(12), way="whole bins"))
    assert codes(made) == ["census.several_bins"]


def test_sifting_without_a_change_counts_the_bin_only_where_it_says_so():
    assert series(sift(3, 41), sift(3, 22)).passes == ()
    said = series(sift(3, 41, way="whole bin"), sift(3, 22, way="whole bin"))
    assert [(p.catches, p.changed) for p in said.passes] == [((41, 22), False)]
