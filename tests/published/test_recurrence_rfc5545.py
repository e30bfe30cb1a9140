"""Recurrence against RFC 5545, Internet Calendaring and Scheduling Core Object Specification, section 3.8.5.3.

The examples of that section were read where test suites of calendar libraries quote it, not in the document itself;
several agree, and so does its predecessor RFC 2445, section 4.8.5.4. They start on Tuesday 2 September 1997 unless
said otherwise. The dates are whole days, so the tolerance is nothing.
"""

import datetime as dt

from workbook_tools.plan.rounds import Rounds, round_days

START = dt.date(1997, 9, 2)


def days_of_1997(**months):
    return [
        dt.date(1997, {"sep": 9, "oct": 10, "nov": 11, "dec": 12}[month], day)
        for month, days in months.items()
        for day in days
    ]


def test_weekly_for_ten_occurrences():
    expected = days_of_1997(sep=(2, 9, 16, 23, 30), oct=(7, 14, 21, 28), nov=(4,))
    assert list(round_days((1,), START, expected[-1])) == expected


def test_weekly_until_24_december():
    expected = days_of_1997(sep=(2, 9, 16, 23, 30), oct=(7, 14, 21, 28), nov=(4, 11, 18, 25), dec=(2, 9, 16, 23))
    assert list(round_days((1,), START, dt.date(1997, 12, 24))) == expected


def test_weekly_on_tuesday_and_thursday_for_five_weeks():
    expected = days_of_1997(sep=(2, 4, 9, 11, 16, 18, 23, 25, 30), oct=(2,))
    assert list(round_days((1, 3), START, dt.date(1997, 10, 6))) == expected


def test_a_daily_due_day_walks_through_the_tuesdays_and_thursdays():
    expected = days_of_1997(sep=(4, 9, 11, 16, 18, 23, 25, 30), oct=(2,))
    rounds, day, found = Rounds((1, 3)), START, []
    for _ in expected:
        day = rounds.move(day + dt.timedelta(days=1), day)
        found.append(day)
    assert found == expected
