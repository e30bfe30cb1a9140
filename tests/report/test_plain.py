import datetime as dt
import math

import pytest

from workbook_tools.report.plain import LONGEST, Plain, plain


@pytest.mark.parametrize("value", ["=1+1", 3, 2.5, True, None, dt.date(2026, 3, 14)])
def test_ordinary_values_stay_as_they_are(value):
    assert plain(value) == Plain(value)


def test_what_no_cell_can_hold_is_replaced_visibly_and_counted():
    assert plain("a\x00b\x1f\ud800c\tz\nq") == Plain("a\ufffdb\ufffd\ufffdc\tz\nq", replaced=3)


def test_line_breaks_of_any_system_become_one_kind():
    assert plain("a\r\nb\rc").value == "a\nb\nc"


def test_too_long_a_text_is_cut_with_dots_and_counted():
    made = plain("x" * (LONGEST + 10))
    assert len(made.value) == LONGEST
    assert made.value.endswith("x...")
    assert made.cut == 13


def test_pictures_count_double_as_spreadsheet_programs_count_them():
    made = plain("\U0001f41b" * 17_000)
    assert len(made.value.encode("utf-16-le")) // 2 <= LONGEST
    assert made.value.rstrip(".").strip("\U0001f41b") == ""


def test_nan_is_empty_and_infinity_a_mistake():
    assert plain(math.nan) == Plain(None)
    with pytest.raises(ValueError, match="infinite"):
        plain(math.inf)


def test_days_that_no_spreadsheet_shows_become_text():
    assert plain(dt.date(1899, 5, 1)) == Plain("1899-05-01")
    assert plain(dt.date(1900, 3, 1)) == Plain(dt.date(1900, 3, 1))
