"""Turned on its side: rows and columns are changed about."""

import pytest

from tools.sheets import sheet
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.shapes.choose import ENOUGH
from workbook_tools.intake.shapes.records import Around
from workbook_tools.intake.shapes.turned import likeness, unfolded

AROUND = Around(Lexicon())
BINS = "field|A1|A2\nspecies|Runner|=\nlitres|6|11\nlast wet|1/3|2/3"


def test_bins_across_become_rows_that_keep_their_cells():
    laid = unfolded(sheet("S", BINS), AROUND)
    [turned] = laid.sheets
    assert [turned.cells[1, col].text for col in range(1, 5)] == ["Bin", "species", "litres", "last wet"]
    assert [turned.cells[row, 1].text for row in (2, 3)] == ["A1", "A2"]
    assert str(turned.cells[3, 3].ref) == "S!C3"
    assert [str(turned.rows_at[row]) for row in (2, 3)] == ["S!B1", "S!C1"]


def test_a_row_that_names_the_bins_need_not_be_the_first():
    laid = unfolded(sheet("S", "My woodlice\nspecies|Runner|Roller\nname on lid|A1|A2\nlitres|6|11"), AROUND)
    assert [cell.text for (row, _), cell in laid.sheets[0].cells.items() if row == 1] == [
        "species",
        "name on lid",
        "litres",
    ]
    assert [str(ref) for ref in laid.passed] == ["S!A1"]


def test_labels_over_several_field_names_are_passed_over():
    laid = unfolded(
        sheet("S", "|field|A1|A2\nWho|species|Runner|Roller\n|line|x|y\nBox|litres|6|11\n|shelf|t|b"), AROUND
    )
    assert [laid.sheets[0].cells[1, col].text for col in (1, 2, 3)] == ["Bin", "species", "line"]
    assert set(laid.passed.values()) == {"a label over several rows"}


@pytest.mark.parametrize("text", [BINS, BINS.replace("field", ""), "Box|A1|A2|A3\nkind|x|y|z\nsize|1|2|3\nodd|4|5|6"])
def test_field_names_down_the_left_are_known(text):
    assert likeness(sheet("S", text), AROUND) >= ENOUGH


@pytest.mark.parametrize(
    "text",
    [
        "Bin|Species|Litres\nA1|Runner|6\nA2|Roller|6\nA3|Roller|6\nA4|Roller|6",
        "Date|Bin|Done\n1.2.2025|A1|water\n2.2.2025|A1|fed\n3.2.2025|A1|leaf\n4.2.2025|A1|look",
        "Done|Date|Bin\nwater|1.2.2025|A1\nfood|2.2.2025|A1\nleaf|3.2.2025|A1\ncount|4.2.2025|A1",
        "Box|D-09\nKind|Runner\nLitres|11",
        "Shopping|how many|price\noak leaves|3|4\nflake|2|8\nchalk|1|1",
    ],
)
def test_plain_lists_and_cards_are_left_alone(text):
    assert likeness(sheet("S", text), AROUND) < ENOUGH
