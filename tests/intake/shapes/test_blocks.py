"""Lines of days with their bins and headings, and what is no such line."""

import pytest

from tools.sheets import sheet
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.shapes.blocks import find_blocks, known_heading, turned
from workbook_tools.intake.shapes.records import Around

AROUND = Around(Lexicon())


def blocks(text, name="Chart"):
    return [
        (one.top, one.line, one.last, one.bins, [cell.text for cell in one.days.values()])
        for one in find_blocks(sheet(name, text), AROUND)
    ]


def test_a_line_of_days_with_bins_below():
    assert blocks("Bin|Who|1/2|3/2|5\nC1|Pods|W|F|W") == [(1, 1, 2, 1, ["1 Feb", "3 Feb", "5 Feb"])]


def test_a_month_above_or_in_the_corner_or_in_the_name():
    assert blocks("|Feb||\nBin|1|3|5\nC1|W|F|W") == [(1, 2, 3, 1, ["1 Feb", "3 Feb", "5 Feb"])]
    assert blocks("Feb|1|3|5\nC1|W|F|W") == [(1, 1, 2, 1, ["1 Feb", "3 Feb", "5 Feb"])]
    assert blocks("Bin|1|3|5\nC1|W|F|W", "March 2025") == [(1, 1, 2, 1, ["1 Mar 2025", "3 Mar 2025", "5 Mar 2025"])]


def test_blocks_below_one_another():
    made = "Bin|1 Feb|2 Feb|3 Feb\nC1|W||W\n\n|March\nBin|1|2|3\nC1|W|F|W"
    assert [one[:4] for one in blocks(made)] == [(1, 1, 2, 1), (4, 5, 6, 1)]


@pytest.mark.parametrize(
    "text",
    [
        "Bin|1|3|5\nC1|W|F|W",
        "Bin|Species\nC1|scaber\nC2|laevis",
        "Bin|Last wet|Last fed|Last leaves\nC1|1/2|2/2|3/2\nC2|||x",
        "Bin|2/3|28/2|1/3\nC1|4/3|5/3|6/3",
        "Bin|1/2|3/2\nC1|W|F",
    ],
)
def test_what_is_no_grid(text):
    assert blocks(text) == []


def test_a_row_of_counts_is_no_line_of_days():
    assert [one[1] for one in blocks("Bin|1|8|15\nC1|12|14|17\nC2|3|4|9", "March 2025")] == [1]


def test_a_plain_table_below_ends_the_block():
    made = "Bin|1/2|3/2|5/2\nC1|W|F|W\n\nWhat else\nDate|Bin|Done\n1/2|C1|water"
    assert [one[:3] for one in blocks(made)] == [(1, 1, 2)]


def test_turning_keeps_the_keepers_cells():
    made = turned(sheet("S", "a|b\nc|d"))
    assert {at: str(cell.ref) for at, cell in made.cells.items()} == {
        (1, 1): "S!A1",
        (1, 2): "S!A2",
        (2, 1): "S!B1",
        (2, 2): "S!B2",
    }


def test_headings_known_for_sure():
    assert (known_heading("Tub", of_bins=True), known_heading("C1", of_bins=False)) == ("name", "")
