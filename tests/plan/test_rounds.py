import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tools.rows import settings
from workbook_tools.plan.rounds import Rounds, round_days

DATES = st.dates(dt.date(2000, 1, 1), dt.date(2060, 1, 1))
WEEKDAYS = st.sets(st.integers(0, 6), min_size=1).map(lambda days: tuple(sorted(days)))


def d(text):
    return dt.date.fromisoformat(text)


@pytest.mark.parametrize(
    ("due", "done", "expected"),
    [
        ("2026-03-05", "2026-02-20", "2026-03-05"),
        ("2026-03-04", "2026-02-20", "2026-03-02"),
        ("2026-03-04", "2026-03-02", "2026-03-05"),
        ("2026-03-04", "2026-03-01", "2026-03-02"),
        ("2026-03-08", "2026-03-06", "2026-03-09"),
    ],
)
def test_due_day_moves_to_monday_or_thursday(due, done, expected):
    assert Rounds((0, 3)).move(d(due), d(done)) == d(expected)


def test_without_rounds_a_due_day_stays():
    assert Rounds().move(d("2026-03-04"), None) == d("2026-03-04")


def test_rounds_of_the_settings():
    assert Rounds.of(settings(rounds=(3, 0))).weekdays == (0, 3)
    assert Rounds.of(settings()).weekdays == ()


def test_weekday_out_of_range_is_refused():
    with pytest.raises(ValueError, match="Monday"):
        Rounds((7,))


def test_no_round_days_in_an_empty_span():
    assert round_days((0,), d("2026-03-03"), d("2026-03-02")) == ()
    assert round_days((), d("2026-03-03"), d("2026-03-12")) == ()


@given(WEEKDAYS, DATES, DATES)
def test_round_days_are_exactly_those_weekdays(weekdays, first, other):
    last = first + dt.timedelta(days=other.toordinal() % 40)
    days = [first + dt.timedelta(days=step) for step in range((last - first).days + 1)]
    assert list(round_days(weekdays, first, last)) == [day for day in days if day.weekday() in weekdays]


@given(WEEKDAYS, DATES, st.integers(0, 60))
def test_moved_day_is_a_round_after_the_last_time_and_late_only_without_one_between(weekdays, done, wait):
    due = done + dt.timedelta(days=wait)
    moved = Rounds(weekdays).move(due, done)
    assert moved.weekday() in weekdays
    assert moved > done
    if moved > due:
        assert round_days(weekdays, done + dt.timedelta(days=1), due) == ()
        assert (moved - due).days <= 7
