import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.intake.date_shapes import shape_of


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("12/3", "pair"), ("2025-03-12", "day"), ("14 March", "day"), ("Jan 23", "either"), ("Oct", "month"),
        ("2024", "year"), ("spring 24", "season"), ("Q1 2025", "quarter"), ("week 12", "week"),
        ("15th", "day_of_month"),
        ("Sun", "weekday"), ("9 mths", "age"), ("31/1+7/2", "two"), ("45732", "digits"), ("n/k", "absent"),
        ("today", "relative"), ("lid cracked", "none"), ("", "absent"),
    ],
)  # fmt: skip
def test_kinds_of_shape(text, kind):
    assert shape_of(text).kind == kind


def test_marks_of_doubt_and_time_are_kept():
    assert shape_of("14/3?").doubt
    assert shape_of("12/3/25 at 9pm").time == dt.time(21)
    assert shape_of("2025-03-01 24:30").kind == "none" or shape_of("2025-03-01 24:30").time is None


def test_a_month_name_in_a_sentence_is_no_date():
    assert shape_of("lid may crack").kind == "none"
    assert shape_of("swapped in May").kind == "month"


@given(st.text(max_size=20))
def test_capitals_and_blanks_around_do_not_matter(text):
    assert shape_of(f"  {text} ") == shape_of(text)
