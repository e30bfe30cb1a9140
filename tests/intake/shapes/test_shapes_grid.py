"""How surely a sheet is a grid of dates, and what it is unfolded into."""

import pytest

from tools.sheets import sheet
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.shapes.choose import ENOUGH
from workbook_tools.intake.shapes.grid import likeness, unfolded
from workbook_tools.intake.shapes.records import Around

AROUND = Around(Lexicon())
ACROSS = "Bin|1/2|3/2|5|8\nC1|W|F|W|\nC2|.|W||WF\nW = water, F = fed"
DOWN = "W = water, F = fed\nDate|C1|C2\n1/2|W|\n3/2|F|W\n5|W|\n8||WF"


def entries(laid):
    log = next(part for part in laid.sheets if part.cells[1, 1].text == "Date")
    return {
        (log.cells[row, 1].text, log.cells[row, 2].text, log.cells[row, 3].text, str(at))
        for row, at in log.rows_at.items()
    }


@pytest.mark.parametrize("text", [ACROSS, DOWN])
def test_grids_are_surely_grids(text):
    assert likeness(sheet("Chart", text), AROUND) > 0.85


@pytest.mark.parametrize(
    "text",
    [
        "Date|Bin|Done|Amount\n1/2|C1|water|20\n3/2|C2|feed|\n5/2|C1|water|\n8/2|C2|water|",
        "Date|Water|Fed|Leaves\n1/2|20|x|\n3/2||x|\n5/2|20||x",
        "date|what I did|moss (0-3)|ml|grub\n1/2|poured|0|60|-\n3/2|leaf|1|50|egg\n5/2|count|2||",
        "Bin|Species|Started|Last fed\nC1|scaber|1/2|3/3\nC2|laevis|3/2|4/3\nC3|scaber|5/2|5/3",
        "field|Fog|Fog 2|Plum\ngot it|1/2|3/2|5/2\nbox l|12|6|17\nair|med|low|lots",
        "No|Date|In|Out|Until|Frozen\n1|1/2|12||1/3|2/3\n2|3/2||4|5/3|6/3\n3|5/2|2||8/3|9/3",
    ],
)
def test_other_layouts_are_no_grids(text):
    assert likeness(sheet("Sheet", text), AROUND) < ENOUGH


@pytest.mark.parametrize(("text", "cells"), [(ACROSS, "B2 C2 D2 C3 E3"), (DOWN, "B3 B4 B5 C4 C6")])
def test_each_cell_becomes_an_entry_at_its_place(text, cells):
    laid = unfolded(sheet("Chart", text), AROUND)
    said = [
        ("1 Feb", "C1", "Water"),
        ("3 Feb", "C1", "Feed"),
        ("5 Feb", "C1", "Water"),
        ("3 Feb", "C2", "Water"),
        ("8 Feb", "C2", "Water; Feed"),
    ]
    assert entries(laid) == {(*one, f"Chart!{at}") for one, at in zip(said, cells.split(), strict=True)}
    assert laid.order is None
    assert laid.problems == ()


def test_the_rest_of_the_sheet_stays_in_its_place():
    laid = unfolded(sheet("Chart", f"{ACROSS}\n\nTub|Species\nC1|scaber\nC2|laevis"), AROUND)
    rest = laid.sheets[-1]
    assert not rest.rows_at
    assert [cell.text for cell in rest.cells.values()] == ["Tub", "Species", "C1", "scaber", "C2", "laevis"]
