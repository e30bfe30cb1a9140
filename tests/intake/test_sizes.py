"""Animals counted by size."""

import datetime as dt
import math

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.values import Number


def read(row, heads="Bin|Date|Way|Big|Mid|Tiny|Sum"):
    intake, problems = read_book(book(sheet("Census", f"{heads}\n{row}")), dt.date(2025, 3, 20))
    number = intake.rows[0].first("number")
    return number and number.value, [one.code for one in problems if one.code.startswith("numbers.")]


def test_sizes_are_added_up_where_no_sum_stands():
    assert read("A1|2025-02-14|hand|20|14|0|") == (Number(34, 34, 34, (20, 14, 0)), ["numbers.sizes_added"])


def test_the_range_of_a_size_widens_the_sum():
    assert read("A1|2025-02-14|hand|20-30|14||") == (Number(39, 34, 44, (25, 14)), ["numbers.sizes_added"])


def test_passes_under_one_size_keep_their_parts():
    assert read("A1|2025-02-14|removal|88 then 31|||")[0] == Number(119, 119, 119, (88, 31))


def test_a_sum_that_agrees_is_used_without_a_word():
    assert read("A1|2025-02-14|hand|20|14|0|34") == (Number.exactly(34), [])


def test_a_sum_that_differs_is_used_and_named():
    assert read("A1|2025-02-14|hand|20|14|0|36") == (Number.exactly(36), ["numbers.sizes_differ"])


@pytest.mark.parametrize("mark", ["n/c", "not ctd", "?"])
def test_a_size_not_counted_makes_a_lower_bound(mark):
    number, problems = read(f"A1|2025-02-14|hand|210||{mark}|210")
    assert (number.low, number.high, problems) == (210, math.inf, ["numbers.size_uncounted"])


def test_nothing_counted_is_nothing():
    assert read("A1|2025-02-14|hand||||") == (None, [])


def test_a_sum_cell_that_shows_an_error_is_named_and_the_sizes_are_added_up():
    assert read("A1|2025-02-14|hand|12|3|1|#DIV/0!") == (
        Number(16, 16, 16, (12, 3, 1)),
        ["numbers.not_a_number", "numbers.sizes_added"],
    )
