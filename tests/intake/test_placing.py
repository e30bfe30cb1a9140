"""The one form of every value, and its text."""

import datetime as dt

import pytest

from workbook_tools.intake.cells import Area
from workbook_tools.intake.placing import Placing, settled, text_of

moment = dt.datetime.fromisoformat


@pytest.mark.parametrize(
    ("value", "one_form", "text"),
    [
        (" 07\r\n", "07", "07"),
        ("a\rb\r\nc", "a\nb\nc", "a\nb\nc"),
        (7.0, 7, "7"),
        (-0.0, 0, "0"),
        (0.1, 0.1, "0.1"),
        (1e300, 1e300, "1e+300"),
        (float("nan"), "nan", "nan"),
        (True, True, "TRUE"),
        (moment("2024-02-29T23:59:59.6"), dt.date(2024, 3, 1), "2024-03-01"),
        (moment("2024-02-29T13:05:07.2"), moment("2024-02-29T13:05:07"), "2024-02-29 13:05:07"),
        (moment("9999-12-31T23:59:59.9"), moment("9999-12-31T23:59:59"), "9999-12-31 23:59:59"),
        (dt.time(13, 5, 7), dt.time(13, 5, 7), "13:05:07"),
        (dt.time(23, 59, 59, 900_000), dt.time(), "00:00"),
        (dt.timedelta(hours=-30, seconds=-1), dt.timedelta(hours=-30, seconds=-1), "-30:00:01"),
        (dt.timedelta(minutes=90, microseconds=3), dt.timedelta(minutes=90), "1:30"),
    ],
)  # fmt: skip
def test_values_have_one_form_and_a_text(value, one_form, text):
    made = settled(value)
    assert made == one_form
    assert type(made) is type(one_form)
    assert text_of(made) == text


def test_cells_with_one_fault_in_one_column_are_one_problem():
    placing = Placing("Log", 100)
    for row in (2, 3, 5):
        placing.blame("cell.error", row, 2, "#N/A", error="#N/A")
    placing.blame("cell.error", 4, 2, "#REF!", error="#REF!")
    placing.blame("cell.error", 4, 3, "#N/A", error="#N/A")
    _, problems = placing.sheet()
    assert [[str(cell) for cell in problem.cells] for problem in problems] == [
        ["Log!B2", "Log!B3", "Log!B5"],
        ["Log!B4"],
        ["Log!C4"],
    ]


def test_what_comes_after_the_limit_is_named_by_its_row():
    placing = Placing("Log", 2)
    placing.put(1, 1, "a")
    placing.blame("cell.error", 2, 1, "#N/A", error="#N/A")
    placing.put(3, 1, "b")
    placing.put(4, 1, "c")
    sheet, problems = placing.sheet()
    assert list(sheet.cells) == [(1, 1)]
    assert [(str(p.where), p.code) for p in problems] == [("Log!A2", "cell.error"), ("Log!3", "sheet.too_large")]


def test_huge_and_many_merged_areas_are_both_quick():
    placing = Placing("Log", 10_000)
    for row in range(1, 5001):
        placing.put(row, 1, "x")
    areas = [Area(1, 3, 1_048_576, 16_384)] + [Area(row, 1, row, 2) for row in range(1, 5001)]
    sheet, problems = placing.sheet(areas)
    assert len(sheet.cells) == 5000
    assert problems == []


def test_lone_surrogates_and_control_characters_are_left_out_of_text():
    placing = Placing("Log", 10)
    placing.put(1, 1, "B\ud80007\x00")
    placing.put(2, 1, "tab\tand\nline")
    placing.put(3, 1, "\x07")
    sheet, problems = placing.sheet()
    assert [cell.text for cell in sheet.cells.values()] == ["B07", "tab\tand\nline"]
    assert sorted(str(cell) for p in problems for cell in p.cells) == ["Log!A1", "Log!A3"]
    assert {p.code for p in problems} == {"cell.unprintable"}
