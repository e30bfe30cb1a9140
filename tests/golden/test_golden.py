"""Text in, text out: what is read from each workbook.txt, against read.txt and problems.txt beside it.

``REWRITE=1 pytest tests/golden`` writes what comes out; read it line by line before committing it.
"""

import datetime as dt
import os
from pathlib import Path

import openpyxl
import pytest

from tools import reading as listing
from tools.grid import workbook_from_text
from workbook_tools import pipeline
from workbook_tools.problems import CellRef

ON = dt.date(2025, 3, 20)
CASES = sorted(path.parent for path in Path(__file__).parent.glob("*/workbook.txt"))


@pytest.fixture(params=CASES, ids=lambda case: case.name)
def case(request):
    return request.param


@pytest.fixture
def workbook(case, tmp_path):
    return workbook_from_text((case / "workbook.txt").read_text(encoding="utf-8"), tmp_path / "workbook.xlsx")


def test_reading_is_what_was_agreed(case, workbook):
    reading = pipeline.read(workbook, ON)
    found = {"read.txt": listing.text(reading), "problems.txt": listing.problems(reading)}
    if os.environ.get("REWRITE"):
        for name, text in found.items():
            (case / name).write_text(text, encoding="utf-8", newline="\n")
        pytest.fail("Rewritten. Read the difference, then run without REWRITE.")
    for name, text in found.items():
        assert text == (case / name).read_text(encoding="utf-8"), name


def test_every_cell_is_understood_or_named(workbook):
    reading = pipeline.read(workbook, ON)
    lost = [
        f"{CellRef(sheet.title, cell.row, cell.column)} '{cell.value}'"
        for sheet in openpyxl.load_workbook(workbook).worksheets
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
        and not listing.accounted_for(reading, CellRef(sheet.title, cell.row, cell.column), str(cell.value))
    ]
    assert lost == []


def test_reading_leaves_the_workbook_as_it_was(workbook):
    before = workbook.read_bytes()
    pipeline.read(workbook, ON)
    assert workbook.read_bytes() == before
