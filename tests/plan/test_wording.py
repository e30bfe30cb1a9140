import datetime as dt
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tools.rows import settings
from workbook_tools.intake.values import Number, When
from workbook_tools.plan.wording import Wording, wording_of

DAY = dt.date(2026, 3, 5)


@pytest.mark.parametrize(
    ("region", "text", "pattern"),
    [
        ("en-GB", "5 Mar 2026", "d mmm yyyy"),
        ("en-US", "Mar 5, 2026", "mmm d, yyyy"),
        ("de-DE", "05.03.2026", "dd.mm.yyyy"),
        ("fr-FR", "5 mars 2026", "d mmm yyyy"),
        ("sv-SE", "5 mars 2026", "d mmm yyyy"),
        ("ja-JP", "2026/03/05", "yyyy/mm/dd"),
    ],
)
def test_dates_are_written_as_the_region_does(region, text, pattern):
    assert Wording(region).date(DAY) == text
    assert Wording(region).excel_date() == pattern


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (Number(44, 44, 44), "44"),
        (Number(50, 40, 60), "about 50, 40 to 60"),
        (Number(30, 30, math.inf), "30 or more"),
        (Number(1200, 1200, 1200), "1,200"),
    ],
)
def test_number_with_its_range(number, said):
    assert Wording().ranged(number) == said


def test_letters_of_the_pattern_that_are_no_date_are_quoted():
    assert Wording("es-MX").excel_date() == "d mmm yyyy"
    assert '"' in Wording("pt-BR").excel_date()


@pytest.mark.parametrize("region", ["nowhere", "", "xx-YY", "123"])
def test_unknown_region_falls_back(region):
    wording = Wording(region)
    assert not wording.understood
    assert wording.region == "en-GB"
    assert wording.date(DAY) == "5 Mar 2026"


def test_region_of_the_settings_and_the_problem_when_unknown():
    assert wording_of(settings(region="en-US"))[0].region == "en-US"
    assert wording_of(settings())[0].region == "en-GB"
    wording, problems = wording_of(settings(region="Mars"))
    assert wording.region == "en-GB"
    assert [(str(p.where), p.code, p.value) for p in problems] == [("Settings!B2", "settings.region", "Mars")]


@pytest.mark.parametrize(
    ("late", "text"),
    [(3, "3 days overdue"), (1, "1 day overdue"), (0, "today"), (-1, "tomorrow"), (-5, "in 5 days")],
)
def test_days_in_words(late, text):
    assert Wording().days(late) == text


@pytest.mark.parametrize(
    ("days", "text"), [(0, "today"), (1, "yesterday"), (8, "8 days ago"), (-1, "tomorrow"), (-4, "in 4 days")]
)
def test_ago_in_words(days, text):
    assert Wording().ago(days) == text


@pytest.mark.parametrize(
    ("parts", "text"), [([], ""), (["A"], "A"), (["A", "B"], "A and B"), (["A", "B", "C"], "A, B and C")]
)
def test_listing(parts, text):
    assert Wording("en-US").listing(parts) == text


@pytest.mark.parametrize(("region", "text"), [("en-GB", "1,234.5"), ("de-DE", "1.234,5"), ("en-US", "1,234.5")])
def test_numbers_have_the_signs_of_the_region(region, text):
    assert Wording(region).number(1234.5, 1) == text


def test_numbers_have_no_more_digits_than_asked_for():
    assert Wording().number(2.0, 2) == "2"
    assert Wording().number(1234.5678) == "1,235"


def d(text):
    return dt.date.fromisoformat(text)


@pytest.mark.parametrize(
    ("first", "last", "text"),
    [
        ("2026-03-05", "2026-03-05", "5 Mar 2026"),
        ("2025-03-01", "2025-03-31", "March 2025"),
        ("2024-02-01", "2024-02-29", "February 2024"),
        ("2024-01-01", "2024-12-31", "2024"),
        ("2024-03-01", "2024-05-31", "about spring 2024"),
        ("2024-12-01", "2025-02-28", "about winter 2024"),
        ("2024-01-01", "2024-03-31", "between 1 Jan 2024 and 31 Mar 2024"),
        ("2024-03-03", "2024-03-09", "between 3 Mar 2024 and 9 Mar 2024"),
    ],
)
def test_when_is_said_as_precisely_as_it_is_known(first, last, text):
    assert Wording().when(When(d(first), d(last))) == text


@given(
    st.sampled_from(["en-GB", "en-US", "de-DE", "nl-NL", "es-ES"]), st.dates(dt.date(1990, 1, 1), dt.date(2090, 1, 1))
)
def test_two_days_are_never_written_alike(region, day):
    wording = Wording(region)
    assert wording.date(day) != wording.date(day + dt.timedelta(days=1))
    assert str(day.year) in wording.date(day)
