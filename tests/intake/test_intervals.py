import pytest

from workbook_tools.intake.intervals import read_interval


@pytest.mark.parametrize(
    ("text", "days"),
    [
        (5, 5),
        ("5", 5),
        ("5d", 5),
        ("2 weeks", 14),
        ("10-14 days", 12),
        ("3 wks", 21),
        ("weekly", 7),
        ("every 3 days", 3),
        ("twice a week", 3.5),
        ("3x per week", 7 / 3),
        ("1,5 weeks", 10.5),
        ("every other day", 2),
    ],
)
def test_intervals_are_read_in_days(text, days):
    assert read_interval(text) == pytest.approx(days)


@pytest.mark.parametrize("text", ["when I remember", "5 ml", "", "soon", True])
def test_other_texts_are_no_interval(text):
    assert read_interval(text) is None


def test_a_dash_of_any_kind_makes_a_range():
    assert read_interval("10–14 days") == 12
