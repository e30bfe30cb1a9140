import datetime as dt

import numpy as np

from tools.rows import bin_row, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.learned.frame import Frame, range_of
from workbook_tools.plan.learned.records import DateRange, Range

ON = dt.date(2026, 3, 31)


def frame(*rows):
    return Frame.of(build_ledger([*rows], settings(), on=ON)[0], ON)


def test_like_bins_share_a_species_and_appetite_is_medium_unless_given():
    made = frame(
        bin_row("A", species="Porcellio scaber", appetite=words("slow")),
        bin_row("B", species="porcellio  Scaber"),
        bin_row("C", species="Oniscus asellus", appetite=words("hearty")),
        bin_row("D"),
    )
    assert made.species.tolist() == [0, 0, 1, 2]
    assert made.appetite.tolist() == [0, 1, 2, 1]


def test_bins_that_live_are_wanted():
    made = frame(
        bin_row("A"),
        bin_row("B", status=words("gone")),
        bin_row("C", status=words("resting")),
        bin_row("D", status=words("quarantine")),
        bin_row("E", status=words("straggler tub")),
        bin_row("F", started="2026-05-01"),
        log_row("2026-03-01", "A", "water"),
    )
    assert [made.wanted(place) for place in range(6)] == [True, False, False, True, False, False]
    assert made.wanted(4, tub=True)
    assert not made.wanted(1, tub=True)


def test_from_three_notes_it_is_learned():
    made = frame(bin_row("A"))
    two, three = (made.basis(0, np.array([notes])) for notes in (2, 3))
    assert two.said == "common practice, not yet learned here"
    assert not two.learned
    assert three.said == "learned from 3 notes"


def test_days_beyond_ten_years_are_no_date():
    made = frame(bin_row("A"))
    days = made.dates(np.array([0.9, 40.0, 3650.0]), np.array([False, False, True]))
    assert days == DateRange(ON, ON + dt.timedelta(days=40), None)
    assert made.ahead(float("inf")) is None
    assert made.ahead(float("nan")) is None
    assert range_of(np.array([1.0, 2.0, 3.0])) == Range(1, 2, 3)


def test_a_name_that_may_be_a_slip_of_the_log_is_not_wanted():
    made = frame(bin_row("A"), log_row("2026-03-01", "A", "water"), log_row("2026-03-02", "Z9", "water"))
    assert [made.wanted(place) for place in range(2)] == [True, False]


def test_the_parent_is_the_bin_of_its_like_that_it_was_split_off():
    made = frame(
        bin_row("A", species="Oniscus asellus", appetite=words("slow")),
        bin_row("B"),
        bin_row("C", appetite=words("hearty")),
        log_row("2026-03-01", "A", "split", to_bin="B"),
        log_row("2026-03-01", "A", "split", to_bin="C"),
    )
    assert made.parent.tolist() == [-1, 0, -1]
    notes = np.array([4, 1, 0])
    assert made.basis(1, notes, inherits=True).said == "learned from A, which it was split off, not yet here"
    assert made.basis(1, notes).said == made.basis(2, notes, inherits=True).said
    assert not made.basis(1, notes, inherits=True).learned
    assert made.basis(1, np.array([4, 3, 0]), inherits=True).said == "learned from 3 notes"
