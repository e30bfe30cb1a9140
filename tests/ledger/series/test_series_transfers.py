import datetime as dt

import pytest

from tools.rows import bin_row, log_row, number, settings
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.transfers import ELSEWHERE, UNSAID, transfers

ON = dt.date(2026, 6, 30)
A, B, C = 0, 1, 2


def moved(*rows):
    bins = [bin_row(name, started="2024-01-01") for name in ("A1", "B2", "C3")]
    found = transfers(build_ledger([*bins, *rows], settings(), on=ON)[0], ON)
    return [(t.source, t.target, t.number.best if t.number else round(t.share, 2)) for t in found]


def out(day, bin, count, to="", did="animals_out"):
    told = {"to_bin": to} if to else {}
    return log_row(f"2026-05-{day:02}", bin, did, **({"number": number(count)} if count else {}), **told)


def into(day, bin, count, source="", did="animals_in"):
    told = {"from_bin": source} if source else {}
    return log_row(f"2026-05-{day:02}", bin, did, **({"number": number(count)} if count else {}), **told)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (out(4, "A1", 11, "B2"), into(4, "B2", 11, "A1")),
        (out(4, "A1", 11, "B2"), into(6, "B2", 11, "A1")),
        (out(4, "A1", 11, "B2"), into(2, "B2", 11)),
        (out(4, "A1", 11), into(4, "B2", 11, "A1")),
        (out(4, "A1", 11, "B2", "split"), into(4, "B2", 11, "A1", "split")),
        (out(4, "A1", 11, "B2", "split"), into(4, "B2", 0, "A1", "start")),
        (out(4, "A1", 0, "B2", "split"), into(5, "B2", 11, "A1")),
        (out(4, "A1", 0, "B2"), into(4, "B2", 11)),
    ],
)
def test_a_row_of_each_bin_is_one_move_seen_from_both_sides(one, other):
    assert moved(one, other) == moved(other, one) == [(A, B, 11)]


@pytest.mark.parametrize(
    ("one", "other", "made"),
    [
        (out(4, "A1", 11, "B2"), out(5, "A1", 11, "B2"), [(A, B, 11), (A, B, 11)]),
        (into(4, "B2", 11, "A1"), into(4, "B2", 11, "A1"), [(A, B, 11), (A, B, 11)]),
        (out(4, "A1", 11, "B2"), into(8, "B2", 11, "A1"), [(A, B, 11), (A, B, 11)]),
        (out(4, "A1", 11, "B2"), into(4, "B2", 30, "A1"), [(A, B, 11), (A, B, 30)]),
        (out(4, "A1", 11, "B2"), into(4, "B2", 11, "C3"), [(A, B, 11), (C, B, 11)]),
        (out(4, "A1", 11, "B2"), into(4, "B2", 11, "Ines"), [(ELSEWHERE, B, 11), (A, B, 11)]),
        (out(4, "A1", 11), into(4, "B2", 11), [(UNSAID, B, 11), (A, UNSAID, 11)]),
        (out(4, "A1", 11, "Ines"), into(4, "B2", 11, "A1"), [(A, ELSEWHERE, 11), (A, B, 11)]),
        (out(4, "A1", 11, "B2"), out(4, "B2", 11, "A1"), [(A, B, 11), (B, A, 11)]),
    ],
)
def test_other_rows_are_moves_of_their_own(one, other, made):
    assert moved(one, other) == moved(other, one) == made


def test_both_sides_of_two_like_moves_are_two():
    rows = [out(4, "A1", 6, "B2"), into(5, "B2", 6, "A1"), out(5, "A1", 6, "B2"), into(6, "B2", 6, "A1")]
    assert moved(*rows) == moved(*rows[::-1]) == [(A, B, 6), (A, B, 6)]


def test_several_rows_of_one_side_may_add_up_to_one_of_the_other():
    assert moved(out(4, "A1", 6, "B2"), out(4, "A1", 9, "B2"), into(4, "B2", 15, "A1")) == [(A, B, 6), (A, B, 9)]
    assert moved(out(4, "A1", 15), into(4, "B2", 6, "A1"), into(4, "C3", 9, "A1")) == [(A, B, 6), (A, C, 9)]
    assert moved(out(4, "A1", 6, "B2"), out(4, "C3", 9, "B2"), into(5, "B2", 15)) == [(A, B, 6), (C, B, 9)]


def test_what_one_side_tells_of_a_number_of_several_bins_leaves_the_rest_to_the_others():
    split = out(4, "A1", 20, "B2+C3", "split")
    assert moved(split) == [(A, B, 10), (A, C, 10)]
    assert moved(split, into(4, "B2", 14, "A1")) == [(A, B, 14), (A, C, 6)]
    assert moved(split, into(4, "B2", 14, "A1"), into(4, "C3", 6, "A1")) == [(A, B, 14), (A, C, 6)]


def test_a_miscount_within_one_day_is_one_move():
    assert moved(out(4, "A1", 30, "B2"), into(4, "B2", 29, "A1")) == [(A, B, 30)]
    assert moved(out(4, "A1", 30, "B2"), into(5, "B2", 29, "A1")) == [(A, B, 30), (A, B, 29)]


def test_the_sharper_number_of_one_move_is_taken():
    rough = log_row("2026-05-04", "A1", "split", number=Number(20, 15, 25), to_bin="B2")
    assert moved(rough, into(4, "B2", 18, "A1")) == [(A, B, 18)]


def test_two_words_for_one_move_in_a_row_move_once():
    both = log_row("2026-05-04", "A1", "split+animals_out", number=number(12), to_bin="B2")
    assert moved(both) == [(A, B, 12)]


def test_without_a_number_a_split_shares_out_evenly_and_a_move_up_takes_all():
    assert moved(out(4, "A1", 0, "B2+C3", "split")) == [(A, B, 0.33), (A, C, 0.33)]
    assert moved(out(4, "A1", 0, "", "split")) == [(A, UNSAID, 0.5)]
    assert moved(into(4, "B2", 0, "A1", "split")) == [(A, B, 0.5)]
    assert moved(out(4, "A1", 0, "B2", "move_up")) == [(A, B, 1.0)]
    assert moved(out(4, "A1", 0, "B2")) == []


def test_a_split_of_none_moves_none():
    assert moved(log_row("2026-05-04", "A1", "split", number=number(0), to_bin="B2")) == []
