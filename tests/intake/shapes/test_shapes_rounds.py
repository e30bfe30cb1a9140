"""A census in rounds: one log, every row with the date of the title above it."""

import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.shapes.choose import ENOUGH
from workbook_tools.intake.shapes.records import Around
from workbook_tools.intake.shapes.rounds import date_in, likeness
from workbook_tools.problems import CellRef

AROUND = Around(Lexicon())
ON = dt.date(2026, 12, 1)
HEADS = "Box|Kind|Big|Mid|Tiny|Sum|Dead"
AGAIN = f"""Count of 14/9/2026
t:== Wood ==
{HEADS}
A1|Roller|3|4|5|12|
A2|Roller||||9|1
Subtotal|||||21|

t:== Desk ==
{HEADS}
B1|Runner|1|2|3|6|
Count of 20/10/2026
{HEADS}
A1|Roller|5|4|5|14|"""
ONCE = f"""{HEADS}
Count of 14/9/2026
WOOD
A1|Roller|3|4|5|12|
A2|Roller||||9|1
Subtotal|||||21|
DESK
B1|Runner|1|2|3|6|
Count of 20/10/2026
A1|Roller|5|4|5|14|"""


def counts(page):
    intake, problems = read_book(book(page), ON)
    rows = [
        (row.where.row, row.first("when").value.first, row.first("bins").value, row.first("number").value.best)
        for row in intake.rows
    ]
    return rows, problems


@pytest.mark.parametrize("text", [AGAIN, ONCE, f"ALL BOXES\n{ONCE}"])
def test_the_title_above_dates_every_count(text):
    rows, problems = counts(sheet("Census", text))
    september, october = dt.date(2026, 9, 14), dt.date(2026, 10, 20)
    assert [row[1:] for row in rows] == [
        (september, "A1", 12),
        (september, "A2", 9),
        (september, "B1", 6),
        (october, "A1", 14),
    ]
    lines = text.split("\n")
    assert all(lines[row[0] - 1].startswith(row[2]) for row in rows)
    assert {one.code for one in problems} <= {"tables.title", "tables.totals", "headings.guessed"}
    assert any("Subtotal" in one.value for one in problems)


def test_the_name_of_the_sheet_dates_counts_without_a_title():
    rows, _ = counts(sheet("Census 14 Sep 2026", f"{HEADS}\nA1|Roller|3|4|5|12|\nA2|Roller||||9|1"))
    assert [row[1] for row in rows] == [dt.date(2026, 9, 14)] * 2


@pytest.mark.parametrize(
    ("title", "date"),
    [
        ("Round of 6/9/2026", "6/9/2026"),
        ("== Count, 18 Oct 2026 ==", "18 Oct 2026"),
        ("Round 2: 18.10.26", "18.10.26"),
        ("week of 3/4", "3/4"),
        ("R1 counted 6/9/2026", ""),
        ("Census 2026", ""),
        ("Kitchen shelf", ""),
    ],
)
def test_the_date_in_a_title(title, date):
    found = date_in(Cell(CellRef("S", 1, 1), title, title))
    assert (found.text if found else "") == date


@pytest.mark.parametrize(
    "text",
    [
        f"Date|{HEADS}\n1.9.2026|A1|Roller|3|4|5|12|",
        f"{HEADS}\nA1|Roller|3|4|5|12|",
        "List of 6/9/2026\nBox|Species|Litres|Count|Dead\nA1|Roller|6|12|",
        f"Count of 14/9/2026\n{HEADS}\nA1|Roller|3|4|5|12|\n\nDate|Box|Done\n1.9.2026|A1|fed",
        "Round of 6/9/2026\nBox|Done|Water\nA1|fed|20 ml",
    ],
)
def test_other_sheets_are_left_alone(text):
    assert likeness(sheet("S", text), AROUND) < ENOUGH


def test_cells_outside_the_headings_are_named():
    _, problems = counts(sheet("Census", f"Count of 14/9/2026\n{HEADS}\nA1|Roller|3|4|5|12||again?\nA2|Roller||||9|1"))
    assert [str(one.where) for one in problems if one.code == "tables.outside"] == ["Census!H3"]
