"""What the codes in the cells of a grid say."""

import pytest

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.shapes.codes import Codes, Said, looks_coded
from workbook_tools.problems import CellRef

LEXICON = Lexicon()
KEY = {"W": "water", "F": "food", "L": "leaf", "S": "Change substrate", "C": "count", "d": "dead", "LL": "leaf litter"}


def cell(value):
    return Cell(CellRef("S", 1, 1), value, str(value))


def said(value, means=KEY, act="", unit=""):
    return Codes(means, LEXICON, act, unit).read(cell(value))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("W", "Water"),
        ("w", "Water"),
        ("WF", "Water; Feed"),
        ("w, f", "Water; Feed"),
        ("W+L", "Water; Top up leaf litter"),
        ("LL", "Top up leaf litter"),
        ("d2", "Dead 2"),
        ("C41", "Count 41"),
        ("C 41", "Count 41"),
        ("C~40", "Count ~40"),
        ("C ~40", "Count ~40"),
        ("WC40", "Water; Count 40"),
        ("W50ml", "Water 50ml"),
        ("(W)", "Water"),
        ("START 25", "START 25"),
        ("fed", "fed"),
        ("skip", "skip"),
        ("W?", "Water?"),
        ("d2?", "Dead? 2"),
        ("C40?", "Count 40?"),
        ("found mould", "found mould"),
    ],
)
def test_codes_and_words(text, words):
    assert said(text) == Said(words)


@pytest.mark.parametrize("mark", [".", "-", "–", "/", "?"])
def test_marks_for_nothing(mark):
    assert said(mark) == Said(nothing="a mark for nothing")


def test_marks_beside_codes_are_set_aside():
    assert said("S!") == Said("Change substrate", marks="!")
    assert said("W*") == Said("Water", marks="*")


def test_a_code_that_stands_twice_is_told():
    assert said("WFF") == Said("Water; Feed", twice="F")


def test_what_keepers_write_of_themselves_is_a_note():
    assert said("away") == Said("away", note=True)
    assert said("Holiday").note


def test_without_a_key_only_letters_known_to_the_lexicon_are_taken_as_guesses():
    assert said("W", {}) == Said("Water", guessed=(("W", "Water"),))
    assert said("WF", {}).guessed == (("W", "Water"), ("F", "Feed"))
    for text in ("S", "C", "D2", "zz", "L"):
        assert said(text, {}).unknown and not said(text, {}).text, text


def test_a_cell_with_a_code_outside_the_key_is_left_open():
    assert said("WQ") == Said(unknown=("Q",))
    assert said("Q3").unknown == ("Q",)


def test_case_counts_where_the_key_has_both():
    means = {"D": "dirt change", "d": "dead"}
    assert said("D", means).text == "Change substrate"
    assert said("d", means).text == "Dead"


def test_numbers_and_ticks_alone_need_a_title():
    assert said(41).bare == "number"
    assert said("x").bare == "tick"
    assert said(41, act="count") == Said("Count 41")
    assert said("30 ml", act="water") == Said("Water 30 ml")
    assert said(30, act="water", unit="ml") == Said("Water 30 ml")
    assert said("x", act="feed") == Said("Feed")


def test_words_in_brackets_are_a_note_unless_they_deny():
    assert said("F (carrot)") == Said("Feed", aside=True)
    assert not said("F (forgot)").aside


def test_what_was_given_on_a_grid_of_one_kind_of_work():
    assert said("2 slices", act="feed") == Said("Feed 2 slices")
    assert said("carrot", act="feed") == Said("Feed", aside=True, taken="carrot")
    assert said("skipped", act="feed") == Said("skipped")
    assert said("carrot", act="water") == Said("carrot")


def test_what_may_stand_in_a_grid():
    codes = Codes(KEY, LEXICON)
    assert all(looks_coded(cell(value), codes) for value in ("W", "C41", "away", "START 25", "."))
    assert not any(looks_coded(cell(value), codes) for value in ("Porcellio scaber", "rack by the door"))


def test_a_death_in_doubt_is_not_taken_and_a_count_in_doubt_is():
    dead, counted = LEXICON.read_acts(said("d2?").text), LEXICON.read_acts(said("C40?").text)

    assert (dead.keys, dead.undone) == ((), ("Dead? 2",))
    assert counted.keys == ("count",)
