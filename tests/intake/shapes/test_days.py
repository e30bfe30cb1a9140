"""Headings that are days, and the months that bare day numbers take."""

import datetime as dt

import pytest

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.shapes.days import (
    Spot,
    are_weekdays,
    is_weekday,
    month_in,
    month_of,
    place,
    spot_of,
    year_in,
)
from workbook_tools.problems import CellRef


def cells(*values):
    return [Cell(CellRef("S", 1, i), value, str(value)) for i, value in enumerate(values, start=2)]


def placed(*values, labels=None, hint=None, year=None, order=None):
    found = place(cells(*values), labels or {}, hint, year, order)
    return found and [cell.text for cell in found.cells]


@pytest.mark.parametrize(
    ("value", "spot"),
    [
        (5, Spot(5)),
        ("15th", Spot(15)),
        ("3/2", Spot(pair=(3, 2))),
        ("3/2/2025", Spot(pair=(3, 2), year=2025)),
        (dt.date(2025, 2, 3), Spot(3, 2, 2025)),
        ("3 Feb", Spot(3, 2)),
        ("Feb 3", Spot(3, 2, either=True)),
        (32, None),
        (2.5, None),
        ("A1", None),
        ("total", None),
        ("Feb", None),
    ],
)
def test_what_is_a_day(value, spot):
    assert spot_of(cells(value)[0]) == spot


def test_bare_days_take_the_month_before_them_and_pass_into_the_next():
    assert placed("26/2", 27, "28th", 1, 3) == ["26/2", "27 Feb", "28 Feb", "1 Mar", "3 Mar"]


def test_the_order_is_the_one_in_which_the_days_run_on():
    assert placed("2/1", 3, 5, "2/8", 10) == ["1 Feb", "3 Feb", "5 Feb", "8 Feb", "10 Feb"]
    assert placed("1/2", 3, 5, "8/2", 10) == ["1 Feb", "3 Feb", "5 Feb", "8 Feb", "10 Feb"]
    assert placed("1/2", 3, order="mdy") == ["1/2", "3 Jan"]


def test_an_order_that_is_hardly_better_is_left_to_the_file():
    assert placed("1/6", 15, 23) == ["1/6", "15 Jun", "23 Jun"]
    assert placed("1/2", 3) == ["1/2", "3 Feb"]
    assert placed("1/1", "1/2", "1/3", "1/4") == ["1/1", "1/2", "1/3", "1/4"]


def test_the_order_is_told_only_where_it_was_leaned_on():
    assert place(cells("1/6", 15, 23), {}, None, None, None).order == "dmy"
    assert place(cells("1/2", 3, 5, "8/2"), {}, None, None, None).order is None
    assert place(cells("1/2", "3/2"), {}, None, None, None).order is None
    assert place(cells("1 Feb", 3, 5), {}, None, None, None).order is None


def test_days_may_run_backwards():
    assert placed("3/14", 12, "3/9", 5, 2, "2/27", 20) == [
        "3/14",
        "12 Mar",
        "9 Mar",
        "5 Mar",
        "2 Mar",
        "2/27",
        "20 Feb",
    ]


def test_days_before_the_first_month_belong_to_it_or_the_one_before():
    assert placed(27, 30, "2 Feb", 5) == ["27 Jan", "30 Jan", "2 Feb", "5 Feb"]


def test_a_month_above_holds_until_the_next():
    assert placed(27, 30, 1, 4, labels={0: (1, None), 2: (2, None)}) == ["27 Jan", "30 Jan", "1 Feb", "4 Feb"]


def test_a_year_is_carried_over_new_year_from_a_full_date():
    assert placed(dt.date(2024, 12, 30), 31, 2) == ["2024-12-30", "31 Dec 2024", "2 Jan 2025"]


def test_a_year_from_a_title_is_used_within_one_year_only():
    assert placed("1/2", 3, year=2025) == ["1/2/2025", "3 Feb 2025"]
    assert placed("30/12", 31, 2, year=2025) == ["30/12", "31 Dec", "2 Jan"]


@pytest.mark.parametrize(
    ("written", "read"),
    [
        (("28/2", 1, 3, "13/3", 15, "3/20", 22), ["28/2", "1 Mar", "3 Mar", "13/3", "15 Mar", "3/20", "22 Mar"]),
        (("1/5", 3, 5, "15/5", 17, "29/13", 31), ["1 May", "3 May", "5 May", "15/5", "17 May", "29/13", "31 May"]),
    ],
)
def test_an_impossible_day_gives_its_month_to_none_and_stays_as_it_was_written(written, read):
    assert placed(*written) == read


def test_an_impossible_day_alone_tells_no_month():
    assert placed("13/13", 14, 15) is None
    assert placed("13/13", 14, 15, hint=(3, 2025)) == ["13/13", "14 Mar 2025", "15 Mar 2025"]


def test_without_any_month_nothing_is_placed():
    assert placed(1, 2, 3) is None
    assert placed(1, 2, 3, hint=(3, 2025)) == ["1 Mar 2025", "2 Mar 2025", "3 Mar 2025"]


def test_what_was_written_is_kept_and_turns_are_told():
    found = place(cells("13/2", 15, "11/2", "18/2", "19/2"), {}, None, None, None)
    assert [cell.written for cell in found.cells] == ["", "15", "11/2", "", ""]
    assert [cell.text for cell in found.turns] == ["11/2"]


def test_months_with_years_are_told_from_days():
    found = place(cells("Nov 24", "Dec 24", "Jan 25"), {}, None, None, None)
    assert [cell.text for cell in found.cells] == ["Nov 2024", "Dec 2024", "Jan 2025"]
    assert found.months == found.cells
    assert placed("Jan 1", "Feb 1", "Mar 1") == ["1 Jan", "1 Feb", "1 Mar"]
    assert placed("Feb 3", "Feb 5", "Mar 2") == ["3 Feb", "5 Feb", "2 Mar"]


def test_days_of_the_week_are_no_codes_of_a_bin():
    assert are_weekdays(cells("M", "T", "W"), None)
    assert are_weekdays(cells("Mo", "Tu"), cells("Day")[0])
    assert not are_weekdays(cells("W", "F", "W"), cells("C1")[0])
    assert not are_weekdays(cells("W", "W"), None)


def test_months_years_and_weekdays_in_labels():
    assert month_of(cells("Feb 2025")[0]) == (2, 2025)
    assert month_of(cells("spring")[0]) is None
    assert month_in("Care chart March 2025") == (3, 2025)
    assert month_in("Jan to March") is None
    assert year_in("Round 2025") == 2025
    assert [is_weekday(cell) for cell in cells("Mo", "Tuesday", "Q1")] == [True, True, False]
