"""The key of a sheet, wherever it stands."""

import pytest

from tools.sheets import sheet
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.shapes.legend import find_legend, pairs_in
from workbook_tools.problems import CellRef

LEXICON = Lexicon()


@pytest.mark.parametrize(
    "text",
    [
        "W = water, F = food",
        "W=water; F=food",
        "Key: W = water / F = food",
        "W = water\nF = food",
        "W = water F = food",
        "W: water, F: food",
        "key: W water F food",
        "Round 2025: W water, F food (any)",
    ],
)
def test_pairs_of_a_line(text):
    assert pairs_in(text, LEXICON) == [("W", "water"), ("F", "food")]


@pytest.mark.parametrize(
    "text",
    [
        "too wet = water less",
        "Fed at 10:30, water: later",
        "note: the lid is cracked",
        "A1 -> A2",
        "W",
        "I watered, I fed",
    ],
)
def test_other_lines_are_no_key(text):
    assert pairs_in(text, LEXICON) == []


def test_words_of_more_than_one_word_stay_whole():
    assert pairs_in("LL = leaf litter, K = count", LEXICON) == [("LL", "leaf litter"), ("K", "count")]


def test_a_row_that_begins_with_key():
    legend, means = find_legend(sheet("S", "A1|W|F\nKEY|W wet F food d dead"), LEXICON)
    assert means == {"W": "Water", "F": "food", "d": "dead"}
    assert {str(ref) for ref in legend.cells} == {"S!A2", "S!B2"}
    assert [(one.code, one.facts["words"]) for one in legend.problems] == [("grid.key_guessed", "wet")]


def test_codes_and_words_in_cells_of_their_own():
    _, means = find_legend(sheet("S", "legend|W|water|F|food"), LEXICON)
    assert means == {"W": "water", "F": "food"}


def test_two_columns_with_a_title_and_what_is_inside_the_grid_left_alone():
    made = sheet("S", "A1|x||Key\nA2|W||W|water\nA3|F||F|fed")
    legend, means = find_legend(made, LEXICON)
    assert means == {"W": "water", "F": "fed"}
    assert CellRef("S", 1, 4) in legend.cells
    inside = frozenset(cell.ref for cell in made.cells.values())
    assert find_legend(made, LEXICON, inside)[1] == {}


def test_a_code_explained_in_two_ways_is_not_used():
    legend, means = find_legend(sheet("S", "W = water, F = food\nW = count, K = count"), LEXICON)
    assert means == {"F": "food", "K": "count"}
    assert [(one.code, str(one.where)) for one in legend.problems] == [("grid.key_twice", "S!A2")]


def test_a_code_explained_twice_alike_is_used():
    legend, means = find_legend(sheet("S", "S = soil, F = food\nS=substrate, C=count"), LEXICON)
    assert means == {"S": "Change substrate", "F": "food", "C": "count"}
    assert [one.code for one in legend.problems] == ["grid.key_guessed"]


def test_signs_that_part_pairs_keep_words_of_one_letter_together():
    _, means = find_legend(sheet("S", "A1|W|E\nKEY|E food given; W gave a drink; L leaf top up"), LEXICON)

    assert means["W"] == "gave a drink"
    assert "A" not in means
