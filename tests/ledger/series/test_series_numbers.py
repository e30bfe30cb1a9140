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
