"""Labels with a value beside them."""

import pytest

from tools.sheets import sheet
from workbook_tools.intake.shapes.pairs import has_field, pairs_of


def found(line):
    pairs = pairs_of({col: cell for (_, col), cell in sheet("S", line).cells.items()})
    return pairs and [(pair.label.text, pair.value and pair.value.text) for pair in pairs]


@pytest.mark.parametrize(
    ("line", "pairs"),
    [
        ("Box: D-09|Kind: Runner", [("Box", "D-09"), ("Kind", "Runner")]),
        ("Box:|D-09|Kind:|Runner", [("Box", "D-09"), ("Kind", "Runner")]),
        ("Box:||D-09||Litres:|11", [("Box", "D-09"), ("Litres", "11")]),
        ("Goal:|Kind:|Runner", [("Goal", None), ("Kind", "Runner")]),
        ("Litres|11", [("Litres", "11")]),
        ("From: shop: back door", [("From", "shop: back door")]),
    ],
)
def test_pairs_in_one_cell_and_in_two(line, pairs):
    assert found(line) == pairs


@pytest.mark.parametrize(
    "line", ["Box D-09", "fed at 8:30", "2025-01-02|water", "carrot|2", "Box: D-09|fed", "http://a.b|x", "Kind|Litres"]
)
def test_what_is_no_pair_makes_the_row_none(line):
    assert found(line) is None


def test_a_value_keeps_the_cell_it_stands_in():
    pair = pairs_of({1: sheet("S", "Box: D-09").cells[1, 1]})[0]
    assert (str(pair.label.ref), str(pair.value.ref)) == ("S!A1", "S!A1")


def test_headings_of_a_log_are_known_by_their_fields():
    cells = {col: cell for (_, col), cell in sheet("S", "When|Did|Moss").cells.items()}
    assert has_field(cells, "when")
    assert not has_field(cells, "bins")
