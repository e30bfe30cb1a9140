import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book

ON = dt.date(2026, 11, 25)


def read(name, text):
    intake, problems = read_book(book(sheet(name, text)), ON)
    return intake, [(str(p.where), p.code, p.value) for p in problems if p.code != "dates.order_open"]


def days(intake):
    return [(row.facts["when"][0].value.first, row.facts["when"][0].value.last) for row in intake.rows]


@pytest.mark.parametrize(
    ("written", "day"),
    [
        ("Saturday 7 November 2026", 7),
        ("14 November 2026", 14),
        ("2026-11-20", 20),
        ("Sunday 8 November", 8),
        ("Round of 20/11/2026", 20),
        ("Round of 20/11", 20),
        ("--- 22.11.26 ---", 22),
        ("15 Nov", 15),
    ],
)
def test_a_date_alone_in_a_row_dates_the_rows_below(written, day):
    below = "|A2|water|30 ml\n|A3|water|30 ml\n23/11/2026|A1|water|30 ml"
    text = f"Date|Bin|Done|Amount\n1/11/2026|A1|water|30 ml\n{written}\n{below}"
    intake, problems = read("Log", text)

    taken = dt.date(2026, 11, day)
    assert days(intake)[1:3] == [(taken, taken)] * 2
    assert days(intake)[3][0] == dt.date(2026, 11, 23)
    assert problems == [("Log!A3", "dates.alone", written)]


def test_a_date_cell_alone_in_a_row_dates_the_rows_below():
    made = sheet("Log", "Date|Bin|Done\n1/11/2026|A1|water\nx\n|A2|water")
    cell = made.cells[3, 1]
    made.cells[3, 1] = type(cell)(cell.ref, dt.date(2026, 11, 9), "2026-11-09")
    intake, problems = read_book(book(made), ON)

    assert days(intake)[1] == (dt.date(2026, 11, 9), dt.date(2026, 11, 9))
    assert "dates.alone" in [problem.code for problem in problems]


def test_a_week_alone_in_a_row_is_any_day_of_it():
    intake, _ = read("Log", "Date|Bin|Done\n1/11/2026|A1|water\nWeek of 16 Nov\n|A2|water")

    assert days(intake)[1] == (dt.date(2026, 11, 16), dt.date(2026, 11, 22))


@pytest.mark.parametrize(
    "title", ["Shelf 3-4", "Rack 1.2", "Kitchen shelf, top", "Boxes 12-13 only", "May is warm here"]
)
def test_a_title_with_numbers_is_no_date(title):
    intake, problems = read("Log", f"Date|Bin|Done\n1/11/2026|A1|water\n{title}\n|A2|water")

    assert days(intake)[1][0] == dt.date(2026, 11, 1)
    assert "dates.alone" not in [code for _, code, _ in problems]


def test_a_date_alone_above_rows_with_dates_of_their_own_is_an_entry():
    intake, problems = read("Log", "Date|Bin|Done\n1/11/2026|A1|water\n2/11/2026\n3/11/2026|A2|water")

    assert len(intake.rows) == 3
    assert problems == []


def test_a_name_alone_is_no_bin_unless_its_form_is_that_of_the_others():
    text = "Code|Species|Shelf\nSHELF A\nC1|x|A\nC2|y|A\nSHELF B\nC3|z|B\nC4"
    intake, problems = read("Bins", text)

    assert [row.facts["name"][0].value for row in intake.rows] == ["C1", "C2", "C3", "C4"]
    assert [place for place, code, _ in problems if code == "tables.title"] == ["Bins!2", "Bins!5"]


def test_a_list_of_nothing_but_names_is_a_list_of_bins():
    intake, _ = read("Bins", "Bin|Species|Note\nRollers\nDotty\nFatty|x|y")

    assert [row.facts["name"][0].value for row in intake.rows] == ["Rollers", "Dotty", "Fatty"]


def test_names_of_bins_that_begin_like_totals_stay_bins_and_totals_are_named():
    text = (
        "Bin|Species|Place|Founders\nSub 3|x|top|3\nGrand Canyon|x|top|4\nTotal Eclipse|y|low|5\n"
        "Example Orange|y|low|5\nExample 1|y|low|5\n||Total|22\nSum of all|||22"
    )
    intake, problems = read_book(book(sheet("Bins", text)), ON)

    names = [row.facts["name"][0].value for row in intake.rows]
    assert names == ["Sub 3", "Grand Canyon", "Total Eclipse", "Example Orange"]
    assert [cell.row for problem in problems for cell in problem.cells if problem.code == "tables.totals"] == [7, 8]
