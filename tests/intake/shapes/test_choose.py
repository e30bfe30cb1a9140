"""The likeliest shape that is sure enough is chosen; a near tie is told."""

import pytest

from tools import sheets
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.shapes.choose import told, unfold
from workbook_tools.intake.shapes.records import PLAIN, Around, Shape, Unfolded

AROUND = Around(Lexicon())


def shape(name, score):
    return Shape(name, lambda sheet, around: score, lambda sheet, around: Unfolded((sheet,), why=f"made by {name}"))


@pytest.fixture
def sheet():
    return sheets.sheet("Log", "Bin|Date\nA1|2025-03-01")


def test_nothing_sure_enough_stays_a_plain_list(sheet):
    laid = unfold(sheet, AROUND, [shape("a card", 0.59)])
    assert (laid.shape, laid.sheets, laid.others) == (PLAIN, (sheet,), (("a card", 0.59),))


def test_the_likeliest_is_taken_and_the_others_are_told(sheet):
    laid = unfold(sheet, AROUND, [shape("a card", 0.65), shape("a grid", 0.9)])
    assert (laid.shape, laid.score, laid.problems) == ("a grid", 0.9, ())
    assert told(laid) == "a grid, 90% sure: made by a grid; it might also be a card, 65%"


def test_a_near_tie_is_told_and_the_first_used(sheet):
    laid = unfold(sheet, AROUND, [shape("a card", 0.85), shape("a grid", 0.9)])
    assert laid.shape == "a grid"
    assert [(one.code, one.facts) for one in laid.problems] == [
        ("shapes.near_tie", {"shape": "a grid", "other": "a card"})
    ]


def test_a_rival_below_the_threshold_is_no_tie(sheet):
    assert unfold(sheet, AROUND, [shape("a card", 0.58), shape("a grid", 0.62)]).problems == ()
