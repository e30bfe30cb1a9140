import datetime as dt
import math
from dataclasses import replace

import pytest

from tools.rows import amount, bin_row, day, log_row, number, settings, words
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.changes import substrate_changes
from workbook_tools.plan.happenings import WHAT, happenings
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 10)
SINCE = dt.date(2026, 2, 10)


def what(*rows, since=SINCE):
    ledger, _ = build_ledger([*rows], settings(), on=ON)
    return [(h.bin, h.what, h.detail) for h in happenings(ledger, substrate_changes(ledger), since, ON, Wording())]


def test_new_bin_with_its_founders():
    assert what(bin_row("A1", started="2026-02-20", founders=number(15))) == [
        ("A1", "New bin", "Set up 20 Feb 2026 with 15 animals.")
    ]


@pytest.mark.parametrize(("when", "seen"), [("2026-02-09", 0), ("2026-02-10", 1), ("2026-03-10", 1), ("2026-03-11", 0)])
def test_both_days_belong_to_the_time(when, seen):
    assert len(what(bin_row("A1"), log_row(when, "A1", "dead", dead=number(2)))) == seen


def test_vague_date_counts_if_any_of_it_lies_in_the_time():
    assert what(bin_row("A1"), log_row("2026-02", "A1", "end")) == [
        ("A1", "Closed", "The log says only February 2026.")
    ]


@pytest.mark.parametrize("did", sorted(set(WHAT) - {"dead"}))
def test_every_turn_of_a_bin_is_told(did):
    assert what(bin_row("A1"), log_row("2026-03-01", "A1", did))[0][:2] == ("A1", WHAT[did])


def test_split_is_told_for_both_bins():
    rows = [bin_row("A1"), bin_row("A2"), log_row("2026-03-01", "A1", "split", to_bin="A2", number=number(12))]
    assert what(*rows) == [
        ("A1", "Split", "12 animals, to A2."),
        ("A2", "New bin", "Set up 1 Mar 2026."),
        ("A2", "Animals in", "12 split off A1."),
    ]


@pytest.mark.parametrize("did", ["split", "animals_in"])
def test_a_move_written_in_the_bin_it_went_to_is_told_for_both(did):
    bins = [bin_row("A1"), bin_row("A2", started="2025-01-01")]
    row = log_row("2026-03-01", "A2", did, from_bin="A1", number=number(12))
    own = "12 split off A1." if did == "split" else "12 animals, from A1."
    assert what(*bins, row) == [
        ("A1", "Split" if did == "split" else "Animals out", "12 animals, to A2."),
        ("A2", "Animals in", own),
    ]


def test_a_move_written_in_both_bins_is_told_once_in_each():
    rows = [
        bin_row("A1"),
        bin_row("A2", started="2025-01-01"),
        log_row("2026-03-01", "A1", "animals_out", to_bin="A2", number=number(12)),
        log_row("2026-03-02", "A2", "animals_in", number=number(12)),
    ]
    assert what(*rows) == [("A1", "Animals out", "12 animals, to A2."), ("A2", "Animals in", "12 animals.")]


def test_animals_out_to_a_person_are_told_for_one_bin():
    assert what(bin_row("A1"), log_row("2026-03-01", "A1", "animals_out", to_bin="Tom", number=number(5))) == [
        ("A1", "Animals out", "5 animals, to Tom.")
    ]


def test_substrate_and_deaths():
    rows = [
        bin_row("A1"),
        log_row("2026-03-02", "A1", "dead", dead=number(3)),
        log_row("2026-03-01", "A1", "substrate_change", share=amount(0.5, "share"), way="one side", old_went="freezer"),
    ]
    assert what(*rows) == [
        ("A1", "Substrate changed", "50 % replaced, one side, the old went to: freezer."),
        ("A1", "Deaths", "3 dead."),
    ]


def written(act, field, text, value):
    row = log_row("2026-03-01", "A1", act, **{field: value})
    (fact,) = row.facts[field]
    return replace(row, facts={**row.facts, field: (replace(fact, cell=Cell(fact.cell.ref, text, text)),)})


@pytest.mark.parametrize(
    ("row", "detail"),
    [
        (written("dead", "number", "W D2? ", Number(2, 2, 2)), "2 dead; you wrote: 'W D2?'."),
        (
            written("animals_out", "number", "Sold 20, 15 eur", Number(20, 20, 20)),
            "20 animals; you wrote: 'Sold 20, 15 eur'.",
        ),
        (written("animals_in", "number", "30+", Number(30, 30, math.inf)), "30 animals or more."),
        (written("animals_in", "number", "~50", Number(50, 40, 60)), "About 50 animals, 40 to 60."),
        (written("animals_in", "number", "40-60", Number(50, 40, 60)), "About 50 animals, 40 to 60."),
        (written("animals_out", "number", "1", Number(1, 1, 1)), "1 animal."),
        (written("animals_out", "amount", "3 L", amount(3, "l")), "You wrote: '3 L'."),
    ],
)
def test_numbers_stand_as_numbers_and_words_beside_them(row, detail):
    assert what(bin_row("A1"), row)[0][2] == detail


def test_what_says_no_more_is_told_plainly():
    rows = [log_row("2026-03-01", "A1", "dead"), log_row("2026-03-02", "A1", "end")]
    assert [detail for _, _, detail in what(bin_row("A1"), *rows)] == [
        "How many isn't written.",
        "Nothing more is written.",
    ]


def test_care_is_no_change():
    assert what(bin_row("A1"), log_row("2026-03-01", "A1", "water+feed+leaf+look", moss=words("dry"))) == []


def test_several_bins_at_once_say_so():
    rows = [bin_row("A1"), bin_row("A2"), log_row("2026-03-01", "A1+A2", "animals_out", number=number(9))]
    assert [detail for _, _, detail in what(*rows)] == ["9 animals, logged for A1 and A2 together."] * 2


def test_order_is_that_of_the_bins_and_then_of_days():
    rows = [bin_row("B"), bin_row("A"), log_row("2026-03-02", "B", "split"), log_row("2026-03-01", "A+B", "move_up")]
    assert [(bin, said) for bin, said, _ in what(*rows)] == [
        ("B", "Moved up a size"),
        ("B", "Split"),
        ("A", "Moved up a size"),
    ]


def test_start_known_to_the_month_is_new():
    assert what(bin_row("A1", started=day("2026-02")))[0][2] == "Set up February 2026."
