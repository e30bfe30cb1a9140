import datetime as dt
import math

import pytest

from tools.rows import amount, bin_row, log_row, number, settings
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.numbers import method_of, number_series

ON = dt.date(2026, 3, 31)


def series(*rows, on=ON):
    return number_series(build_ledger(rows, settings(), on=on)[0], on)


def moves(made):
    return [(m.bin, m.change) if math.isfinite(m.change) else (m.bin, "share", m.share) for m in made.moves]


@pytest.mark.parametrize(
    ("way", "method"),
    [
        ("under bark", "hide lift"),
        ("Full sort", "hand sort"),
        ("sorted by hand, all", "hand sort"),
        ("sieved & sorted", "sieve"),
        ("potato trap", "trap"),
        ("all hides lifted", "all hides"),
        ("by weight", "weighing"),
        ("by eye", "guess"),
        ("count", "unsaid"),
        ("", "unsaid"),
    ],
)
def test_method_of_a_keepers_words(way, method):
    assert method_of(way) == method


def test_counts_with_method_and_range():
    made = series(
        bin_row("A"),
        log_row("2026-03-01", "A", "count", number=Number(50, 35, 65), way="under bark"),
        log_row("2026-03-02", "A", "count", number=number(40)),
    )
    assert [(c.value, c.low, c.high, c.method) for c in made.counts] == [
        (50, 35, 65, "hide lift"),
        (40, 40, 40, "unsaid"),
    ]


def test_a_count_of_two_bins_is_shared_out():
    made = series(bin_row("A"), bin_row("B"), log_row("2026-03-01", "A+B", "count", number=number(40)))
    assert [(c.bin, c.value, c.method) for c in made.counts] == [(0, 20, "guess"), (1, 20, "guess")]


def test_guess_of_the_list_is_of_the_last_day_of_the_log_and_not_known_before():
    rows = [bin_row("A", number_now=number(70)), log_row("2026-03-05", "A", "water")]
    (count,) = series(*rows).counts
    assert (count.day, count.method) == (dt.date(2026, 3, 5).toordinal(), "guess")
    assert series(*rows, on=dt.date(2026, 3, 4)).counts == ()


def test_founders_and_crowding_number():
    made = series(
        bin_row("A", started="2026-01-01", founders=number(20), target=amount(200, "count")), bin_row("B"), bin_row("C")
    )
    assert made.start_number[0] == 20
    assert made.start_sd[0] == pytest.approx(0.05)
    assert made.crowding[0] == 200
    assert math.isnan(made.start_number[1])
    assert math.isnan(made.crowding[1])
    assert made.start_day.tolist() == [dt.date(2026, 1, 1).toordinal(), 0, 0]


def test_animals_that_come_at_the_start_are_the_founders():
    arrive = log_row("2026-01-02", "A", "animals_in", number=number(15))
    made = series(bin_row("A", started="2026-01-01"), arrive)
    assert made.start_number[0] == 15
    assert made.moves == ()
    listed = series(bin_row("A", started="2026-01-01", founders=number(20)), arrive)
    assert listed.start_number[0] == 20
    assert listed.moves == ()


def test_in_out_and_dead():
    made = series(
        bin_row("A", started="2025-01-01"),
        log_row("2026-03-01", "A", "animals_in", number=number(5)),
        log_row("2026-03-02", "A", "animals_out", number=number(8)),
        log_row("2026-03-03", "A", dead=number(2)),
        log_row("2026-03-04", "A", "animals_out"),
    )
    assert moves(made) == [(0, 5), (0, -8), (0, -2)]
    assert [m.dead for m in made.moves] == [False, False, True]


def test_split_into_a_new_bin_gives_it_its_founders():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2026-03-02"),
        log_row("2026-03-02", "A", "split", number=number(30), to_bin="B"),
    )
    assert moves(made) == [(0, -30)]
    assert made.start_number[1] == 30


def test_split_into_a_bin_that_lives_already_adds_to_it_and_without_a_number_takes_half():
    bins = [bin_row("A", started="2025-01-01"), bin_row("B", started="2025-01-01")]
    made = series(*bins, log_row("2026-03-02", "A", "split", number=number(30), to_bin="B"))
    assert moves(made) == [(0, -30), (1, 30)]
    halved = series(*bins, log_row("2026-03-02", "A", "split"))
    assert moves(halved) == [(0, "share", 0.5)]
    both = series(*bins, log_row("2026-03-02", "A", "split", to_bin="B"))
    assert moves(both) == [(0, "share", 0.5), (1, "share", 0.5)]
    assert [move.source for move in both.moves] == [-1, 0]


def test_a_move_written_in_both_bins_counts_once():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2025-01-01"),
        log_row("2026-03-02", "A", "animals_out", number=number(30), to_bin="B"),
        log_row("2026-03-02", "B", "animals_in", number=number(30), from_bin="A"),
    )
    assert moves(made) == [(0, -30), (1, 30)]


def test_a_count_on_the_day_of_a_sale_was_made_before_it():
    made = series(
        bin_row("A", started="2025-01-01"),
        log_row("2026-03-02", "A", "animals_out", number=number(30)),
        log_row("2026-03-02", "A", "count", number=number(90)),
    )
    assert made.counts[0].day == made.moves[0].day - 1


def test_moving_up_within_the_bin_changes_no_number():
    assert series(bin_row("A"), log_row("2026-03-02", "A", "move_up")).moves == ()


def test_what_goes_to_a_bin_written_in_both_arrives_once_though_the_second_row_doesnt_say_from_where():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2025-01-01"),
        log_row("2026-03-02", "A", "animals_out", number=number(14), to_bin="B"),
        log_row("2026-03-03", "B", "animals_in", number=number(14)),
    )
    assert sorted(moves(made)) == [(0, -14), (1, 14)]


def test_two_parents_of_a_new_bin_both_give_it_founders():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2025-01-01"),
        bin_row("C"),
        log_row("2026-03-02", "A", "split", number=number(9), to_bin="C"),
        log_row("2026-03-07", "B", "split", number=number(16), to_bin="C"),
    )
    assert moves(made) == [(0, -9), (1, -16)]
    assert made.start_number[2] == 25


def test_what_comes_from_another_bin_about_a_start_leaves_that_bin():
    rows = [
        bin_row("A", started="2025-01-01"),
        log_row("2026-03-03", "B", "animals_in", number=number(13), from_bin="A"),
    ]
    made = series(*rows, bin_row("B", started="2026-03-01"))
    assert moves(made) == [(0, -13)]
    assert made.start_number[1] == 13
    listed = series(*rows, bin_row("B", started="2026-03-01", founders=number(13)))
    assert moves(listed) == [(0, -13)]
    assert listed.start_number[1] == 13


def test_a_bin_set_up_from_another_takes_its_founders_from_there():
    made = series(
        bin_row("A", started="2025-01-01"),
        log_row("2026-03-03", "B", "start", number=number(18), from_bin="A"),
    )
    assert moves(made) == [(0, -18)]
    assert made.start_number[1] == 18


def test_two_like_rows_of_one_bin_are_two_moves():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2025-01-01"),
        log_row("2026-03-02", "A", "animals_out", number=number(7), to_bin="B"),
        log_row("2026-03-03", "A", "animals_out", number=number(7), to_bin="B"),
    )
    assert moves(made) == [(0, -7), (1, 7), (0, -7), (1, 7)]


def test_founders_the_keeper_wrote_hold_what_came_as_far_as_it_fits():
    rows = [
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2025-01-01"),
        log_row("2026-03-02", "A", "split", number=number(12), to_bin="C"),
        log_row("2026-03-06", "B", "split", number=number(10), to_bin="C"),
    ]
    both = series(*rows, bin_row("C", started="2026-03-02", founders=number(22)))
    assert (moves(both), both.start_number[2]) == ([(0, -12), (1, -10)], 22)
    first = series(*rows, bin_row("C", started="2026-03-02", founders=number(12)))
    assert (moves(first), first.start_number[2]) == ([(0, -12), (1, -10), (2, 10)], 12)


def test_a_split_without_a_number_gives_the_founders_the_keeper_wrote():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2026-03-02", founders=number(17)),
        log_row("2026-03-02", "A", "split", to_bin="B"),
    )
    assert (moves(made), made.start_number[1]) == ([(0, -17)], 17)


def test_a_new_bin_that_gets_a_number_of_one_and_a_share_of_another_gets_both_at_its_start():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2025-01-01"),
        bin_row("C"),
        log_row("2026-03-02", "A", "split", to_bin="C"),
        log_row("2026-03-03", "B", "split", number=number(5), to_bin="C"),
    )
    assert moves(made) == [(0, "share", 0.5), (2, "share", 0.5), (2, 5), (1, -5)]
    assert math.isnan(made.start_number[2])


def test_a_bin_of_which_nothing_else_is_known_began_when_animals_came():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B"),
        log_row("2026-03-02", "A", "animals_out", number=number(5), to_bin="B"),
        log_row("2026-03-20", "B", "water"),
    )
    assert made.start_day[1] == dt.date(2026, 3, 2).toordinal()
    assert moves(made) == [(0, -5), (1, 5)]


def test_what_leaves_a_bin_about_its_start_leaves_it_after_its_founders_came():
    rows = [bin_row("A", started="2025-01-01"), bin_row("B", started="2026-03-02"), bin_row("C", started="2025-01-01")]
    came = log_row("2026-03-01", "A", "split", number=number(20), to_bin="B")
    left = log_row("2026-03-01", "B", "animals_out", number=number(6), to_bin="C")
    made = series(*rows, came, left)
    assert made.start_number[1] == 20
    days = {(m.bin, m.change): dt.date.fromordinal(m.day).day for m in made.moves}
    assert days == {(0, -20): 1, (2, 6): 1, (1, -6): 3}


def test_what_came_beside_the_founders_on_the_first_day_is_there_the_day_after():
    made = series(
        bin_row("A", started="2025-01-01"),
        bin_row("B", started="2026-03-02", founders=number(15)),
        log_row("2026-03-02", "A", "animals_out", number=number(15), to_bin="B"),
        log_row("2026-03-02", "B", "animals_in", number=number(9), from_bin="the fair"),
    )
    assert [(m.bin, m.change, dt.date.fromordinal(m.day).day) for m in made.moves] == [(0, -15, 2), (1, 9, 3)]
