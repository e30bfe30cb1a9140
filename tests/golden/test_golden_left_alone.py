"""A reading workbook left as it was written changes nothing, whatever the layout; every line of it can be corrected."""

import datetime as dt
from pathlib import Path

import pytest

from tools import reading as listing
from tools.drawn import reopened
from tools.grid import workbook_from_text
from workbook_tools import pipeline
from workbook_tools.intake.reading_book import AT_FIRST, read_corrections
from workbook_tools.intake.workbook import open_book

ON = dt.date(2025, 3, 20)
CASES = sorted(path.parent for path in Path(__file__).parent.glob("*/workbook.txt"))


@pytest.fixture(params=CASES, ids=lambda case: case.name)
def checked(request, tmp_path):
    text = (request.param / "workbook.txt").read_text(encoding="utf-8")
    workbook = workbook_from_text(text, tmp_path / "workbook.xlsx")
    reading = pipeline.check_reading(workbook, ON, lambda line: None)
    return reading, workbook, pipeline.reading_name(workbook)


def test_left_alone_it_changes_nothing(checked):
    first, workbook, book = checked
    found, problems = read_corrections(open_book(book)[0])
    assert (found.all, found.decimal, problems) == ((), "", [])
    again = pipeline.read(workbook, ON)
    assert listing.text(again) == listing.text(first)
    assert listing.problems(again) == listing.problems(first)


def facts(reading):
    """Fields of every row; a guess keeps the keeper's own words as a note, which what is said needn't."""
    return [(row.where, row.role, row.act, sorted({*row.facts} - {"note"})) for row in reading.intake.rows]


def test_saying_that_all_of_it_is_right_changes_no_row_and_fits(checked):
    _, workbook, book = checked
    written = reopened(book.read_bytes())
    for page in written.worksheets[:3]:
        rows = [*page.iter_rows()]
        top = next(row for row in rows if AT_FIRST in [cell.value for cell in row])
        surely = next(cell.column for cell in top if cell.value == "How surely")
        for row in rows[top[0].row :]:
            known = row[surely].value not in ("not known", "not shown", None)
            if known:
                row[surely - 1].value = "as you said"
    written.save(book)
    moved = book.rename(book.with_name("elsewhere.xlsx"))
    without = pipeline.read(workbook, ON)
    after = pipeline.read(workbook, ON, corrected=moved)
    assert facts(after) == facts(without)
    assert [str(p) for p in after.problems if p.code.startswith("corrections.")] == []
