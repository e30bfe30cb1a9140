import datetime as dt

import pytest

from workbook_tools.intake.date_choice import Context, DateStyle, Odd, day_span, exists, month_span, months_span, say
from workbook_tools.intake.values import When

STYLE = DateStyle("dmy", True, dt.date(2025, 3, 20))


def context(near=None, latest=None, ahead=False):
    return Context(STYLE, near, latest, False, ahead, "text")


def test_two_digits_are_this_century_unless_too_far_ahead():
    assert [context().full_year(year) for year in (23, 35, 36, 99, 2024)] == [2023, 2035, 1936, 1999, 2024]


def test_the_year_chosen():
    make = day_span(12, 24)
    assert context().pick(make)[0].year == 2024
    assert context(near=dt.date(2022, 11, 1)).pick(make)[0].year == 2022
    assert context(ahead=True).pick(make)[0].year == 2025
    assert context(latest=dt.date(2023, 12, 1)).pick(make)[0].year == 2022
    with pytest.raises(Odd):
        context().pick(day_span(2, 30))


def test_spans():
    assert month_span(2, None)(2024) == (dt.date(2024, 2, 1), dt.date(2024, 2, 29))
    assert month_span(2, 2)(2025) == (dt.date(2025, 2, 21), dt.date(2025, 2, 28))
    assert months_span(12, 3)(2024) == (dt.date(2024, 12, 1), dt.date(2025, 2, 28))


def test_a_span_that_has_begun_ends_by_the_limit():
    assert context().vague((dt.date(2025, 3, 1), dt.date(2025, 3, 31))).last == dt.date(2025, 3, 20)
    assert context(ahead=True).vague((dt.date(2025, 3, 1), dt.date(2025, 3, 31))).last == dt.date(2025, 3, 31)


def test_days_that_exist():
    assert exists(2, 29, None) and exists(2, 29, 2024)
    assert not exists(2, 29, 2025) and not exists(13, 1, None)


def test_how_dates_are_said():
    assert say(When.on(dt.date(2025, 3, 1))) == "2025-03-01"
    assert say(When(dt.date(2025, 3, 1), dt.date(2025, 3, 9))) == "2025-03-01 to 2025-03-09"
