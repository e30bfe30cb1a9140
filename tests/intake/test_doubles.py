"""Rows of a form sent twice."""

import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book


def read(first, second):
    text = f"Timestamp|Which bin?|What did you do?\n{first}\n{second}"
    intake, problems = read_book(book(sheet("Form", text)), dt.date(2025, 3, 20))
    return len(intake.rows), [(str(one.where), one.code) for one in problems if one.code == "entries.sent_twice"]


@pytest.mark.parametrize("second", ["2025-01-13 08:15:52|K2|water", "2025-01-13 08:17:00|K2|water"])
def test_the_same_answers_a_moment_apart_are_one(second):
    assert read("2025-01-13 08:15:40|K2|water", second) == (1, [("Form!3", "entries.sent_twice")])


@pytest.mark.parametrize(
    "second",
    ["2025-01-13 08:25:52|K2|water", "2025-01-14 08:15:40|K2|water", "2025-01-13 08:15:52|K3|water",
     "2025-01-13 08:15:52|K2|food", "2025-01-13|K2|water"],
)  # fmt: skip
def test_other_answers_other_bins_and_later_ones_are_two(second):
    assert read("2025-01-13 08:15:40|K2|water", second) == (2, [])
