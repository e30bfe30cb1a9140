"""The tools of the golden tests: a grid of text becomes the workbook it shows, and a workbook is listed whole."""

import datetime as dt

import openpyxl
import pytest

from tools.grid import dump, typed, workbook_from_text

GRID = """\
# sheet One
Title | | other
# merge A1:B1

7 | 2.5 | t:007
d:2025-03-01 | =1+1 | "
# a remark
# sheet Two
½ | ~50 | 12/3
"""


@pytest.mark.parametrize(
    ("text", "value"),
    [("7", 7), ("-2.50", -2.5), ("t:7", "7"), ("d:2025-03-01", dt.date(2025, 3, 1)), ("21,5", "21,5"), ("", None)],
)
def test_typed_gives_the_value_a_cell_holds(text, value):
    assert typed(text) == value


def test_grid_becomes_the_workbook_it_shows(tmp_path):
    book = openpyxl.load_workbook(workbook_from_text(GRID, tmp_path / "a.xlsx"))
    one = book["One"]
    assert [one.cell(3, col).value for col in (1, 2, 3)] == [7, 2.5, "007"]
    assert one["A4"].is_date
    assert one["B4"].data_type == "f"
    assert one["C4"].value == '"'
    assert one["A2"].value is None
    assert [str(area) for area in one.merged_cells.ranges] == ["A1:B1"]
    assert book["Two"]["C1"].value == "12/3"


def test_dump_lists_every_cell(tmp_path):
    lines = dump(workbook_from_text(GRID, tmp_path / "a.xlsx")).splitlines()
    assert "A4: 2025-03-01" in lines
    assert "merged A1:B1" in lines
    assert sum(": " in line for line in lines) == 11


def test_cells_before_a_sheet_are_refused(tmp_path):
    with pytest.raises(ValueError, match="# sheet"):
        workbook_from_text("a | b\n", tmp_path / "a.xlsx")
