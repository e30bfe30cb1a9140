import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.dates import DateStyle, read_date
from workbook_tools.problems import CellRef

ON = dt.date(2025, 3, 20)
DMY = DateStyle("dmy", True, ON)
MDY = DateStyle("mdy", True, ON)
OPEN = DateStyle("dmy", False, ON)


def cell(value):
    return Cell(CellRef("Log", 4, 1), value, str(value))


def span(text, style=DMY, **more):
    reading = read_date(cell(text), style, **more)
    return (reading.when.first.isoformat(), reading.when.last.isoformat()) if reading.when else None


def day(text, style=DMY, **more):
    found = span(text, style, **more)
    return found[0] if found and found[0] == found[1] else found


def code(text, style=DMY, **more):
    return read_date(cell(text), style, **more).code


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("2025-03-13", "2025-03-13"),
        ("2025-3-1", "2025-03-01"),
        ("2025/03/01", "2025-03-01"),
        ("13.03.25", "2025-03-13"),
        ("7.11.2023", "2023-11-07"),
        ("15/03/2025", "2025-03-15"),
        ("14 March 2025", "2025-03-14"),
        ("Mar 14, 2025", "2025-03-14"),
        ("14-Mar-25", "2025-03-14"),
        ("2025 March 14", "2025-03-14"),
        ("14. März 2025", "2025-03-14"),
        ("14. Maerz 2025", "2025-03-14"),
        ("1er février 2025", "2025-02-01"),
        ("14 de marzo de 2025", "2025-03-14"),
        ("14 mrt 2025", "2025-03-14"),
        ("5/2/25 (Wed)", "2025-02-05"),
        ("Fri 14/3/25", "2025-03-14"),
        ("20250313", "2025-03-13"),
        ("2025-03-13T08:30:00Z", "2025-03-13"),
    ],
)
def test_a_whole_date_is_read_as_written(text, meant):
    reading = read_date(cell(text), DMY)
    assert (reading.when.first.isoformat(), reading.when.exact, reading.guessed, reading.code) == (
        meant,
        True,
        False,
        "",
    )


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("12/3", "2025-03-12"),
        ("25-Feb", "2025-02-25"),
        ("14 March", "2025-03-14"),
        ("1.2.", "2025-02-01"),
        ("24/12", "2024-12-24"),
        ("29/2", "2024-02-29"),
        ("Fri 15/3", "2024-03-15"),
    ],
)
def test_a_missing_year_is_the_latest_that_is_not_to_come(text, meant):
    reading = read_date(cell(text), DMY)
    assert reading.when.first.isoformat() == meant
    assert reading.guessed


def test_a_weekday_tells_the_missing_year():
    assert day("Thu 14/3") == "2024-03-14"
    assert code("Thu 14/3") == ""


def test_a_missing_year_is_nearest_to_the_neighbour():
    assert day("2/1", near=dt.date(2023, 12, 30)) == "2024-01-02"
    assert day("30/12", near=dt.date(2024, 1, 2)) == "2023-12-30"
    assert day("15th", near=dt.date(2025, 1, 30)) == "2025-01-15"


def test_the_order_decides_what_both_orders_allow():
    assert day("3/4/2024", DMY) == "2024-04-03"
    assert day("3/4/2024", MDY) == "2024-03-04"
    assert not read_date(cell("3/4/2024"), DMY).guessed
    assert read_date(cell("3/4/2024"), OPEN).guessed
    assert not read_date(cell("4/4/2024"), OPEN).guessed


def test_what_only_the_other_order_allows_is_read_so_and_named():
    assert day("3/13/2025", DMY) == "2025-03-13"
    assert code("3/13/2025", DMY) == "dates.other_order"
    assert code("13/3/2025", MDY) == "dates.other_order"
    assert code("1/16", DMY, near=dt.date(2025, 1, 9)) == "dates.other_order"
    assert day("1/16", DMY, near=dt.date(2025, 1, 9)) == "2025-01-16"


@pytest.mark.parametrize(
    "text", ["31/2", "30 Feb", "32/1", "2025-13-01", "29/2/2025", "0/3", "31.11.2024", "45/99/2024"]
)
def test_a_day_that_no_calendar_has_is_a_problem(text):
    reading = read_date(cell(text), DMY)
    assert (reading.when, reading.code) == (None, "dates.impossible")
    assert text in reading.problem(cell(text)).says


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("??/3", "2025-03-01", "2025-03-20"),
        ("?/3/24", "2024-03-01", "2024-03-31"),
        ("Oct", "2024-10-01", "2024-10-31"),
        ("Jan '23", "2023-01-01", "2023-01-31"),
        ("12/2024", "2024-12-01", "2024-12-31"),
        ("2024-02", "2024-02-01", "2024-02-29"),
        ("spring 24", "2024-03-01", "2024-05-31"),
        ("winter 23", "2022-12-01", "2024-02-29"),
        ("jan end", "2025-01-21", "2025-01-31"),
        ("end of Jan", "2025-01-21", "2025-01-31"),
        ("mid Jan", "2025-01-11", "2025-01-20"),
        ("early 2024", "2024-01-01", "2024-04-30"),
        ("2024", "2024-01-01", "2024-12-31"),
        ("Q4 2024", "2024-10-01", "2024-12-31"),
        ("KW 10 2025", "2025-03-03", "2025-03-09"),
        ("31/1+7/2", "2025-01-31", "2025-02-07"),
        ("28/12/24 - 3/1/25", "2024-12-28", "2025-01-03"),
        ("03/24", "2024-03-01", "2024-03-31"),
    ],
)
def test_half_a_date_is_a_span(text, first, last):
    assert span(text) == (first, last)


@pytest.mark.parametrize(
    ("text", "coarse", "otherwise"),
    [
        ("Jan 23", ("2023-01-01", "2023-01-31"), ("2025-01-23", "2025-01-23")),
        ("Nov 22", ("2022-11-01", "2022-11-30"), ("2024-11-22", "2024-11-22")),
        ("Mar 5", ("2025-03-05", "2025-03-05"), ("2025-03-05", "2025-03-05")),
        ("24/3", ("2024-03-24", "2024-03-24"), ("2024-03-24", "2024-03-24")),
    ],
)
def test_a_column_of_beginnings_holds_months_and_years(text, coarse, otherwise):
    assert span(text, coarse=True) == coarse
    assert span(text) == otherwise
    assert read_date(cell(text), DMY, coarse=True).guessed


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("3 wks ago", "2025-02-24", "2025-03-02"),
        ("9 mths", "2024-06-04", "2024-07-04"),
        ("5 days ago", "2025-03-15", "2025-03-15"),
        (">1wk", "2025-02-27", "2025-03-13"),
        ("vor 2 Wochen", "2025-03-02", "2025-03-10"),
    ],
)
def test_an_age_counts_back_from_the_report_and_says_so(text, first, last):
    assert span(text) == (first, last)
    assert code(text) == "dates.age"


def test_days_to_come_are_read_forwards():
    row = dt.date(2025, 3, 12)
    assert day("Fri", near=row, ahead=True) == "2025-03-14"
    assert day("5/1", near=row, ahead=True) == "2026-01-05"
    assert span("6 wks", near=row, ahead=True) == ("2025-04-19", "2025-04-27")
    assert day("15th", near=row, ahead=True) == "2025-03-15"


def test_a_weekday_alone_is_the_last_one_and_is_named():
    assert day("Sun") == "2025-03-16"
    reading = read_date(cell("Sun"), DMY)
    assert (reading.guessed, reading.code, reading.facts["day"]) == (True, "dates.only_weekday", "2025-03-16")


def test_a_weekday_that_does_not_fit_is_named_and_the_date_kept():
    reading = read_date(cell("Sat 14/3/25"), DMY)
    assert (reading.when.first, reading.code) == (dt.date(2025, 3, 14), "dates.weekday")


def test_a_weekday_settles_an_open_order():
    assert day("5/2/25 (Fri)", OPEN) == "2025-05-02"
    assert day("5/2/25 (Wed)", OPEN) == "2025-02-05"


@pytest.mark.parametrize("text", ["weekly", "never", "n/a", "n/k", "?", "-", "–", "always there", "old", "new"])
def test_words_for_no_date_are_no_problem(text):
    reading = read_date(cell(text), DMY)
    assert (reading.absent, reading.when, reading.code) == (True, None, "")


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("today", "dates.relative"),
        ("black mush", "dates.not_understood"),
        ("it may crack", "dates.not_understood"),
        ("1/1/1905", "dates.too_old"),
        ("1.1.2099", "dates.too_far"),
        (True, "dates.wrong_kind"),
        (dt.time(8, 30), "dates.wrong_kind"),
        (dt.date(1900, 1, 5), "dates.too_old"),
        (9_000_000, "dates.not_understood"),
    ],
)
def test_what_is_no_date_is_a_problem(text, problem):
    reading = read_date(cell(text), DMY)
    assert (reading.when, reading.code) == (None, problem)


def test_a_number_is_a_day_count_of_the_files_own_system():
    assert day(45732) == "2025-03-16"
    assert day("45732") == "2025-03-16"
    assert code(45732) == "dates.serial"
    assert day(44270, DateStyle("dmy", True, ON, date_1904=True)) == "2025-03-16"
    assert read_date(cell(45732.25), DMY).when.time == dt.time(6)


def test_a_decimal_may_be_a_day_and_a_month_that_lost_its_zero():
    assert day(12.3) == "2025-03-12"
    assert code(12.3) == "dates.number_as_day"


def test_dates_of_the_file_keep_their_time():
    reading = read_date(cell(dt.datetime.fromisoformat("2025-03-01T08:30")), DMY)
    assert (reading.when.first, reading.when.time, reading.guessed) == (dt.date(2025, 3, 1), dt.time(8, 30), False)
    assert read_date(cell("3/13/2025 9:05:12 PM"), MDY).when.time == dt.time(21, 5, 12)


@pytest.mark.parametrize(
    ("text", "meant", "rest"),
    [
        ("1/2 in Jan", ("2025-01-01", "2025-01-31"), "1/2"),
        ("12/3 evening", ("2025-03-12", "2025-03-12"), "evening"),
        ("90 (Nov)", ("2024-11-01", "2024-11-30"), "90"),
    ],
)
def test_other_words_are_kept_and_named(text, meant, rest):
    reading = read_date(cell(text), DMY)
    assert span(text) == meant
    assert (reading.rest, reading.code) == (rest, "dates.more_words")


PATTERNS = ("%Y-%m-%d", "%d %B %Y", "%d-%b-%Y", "%B %d, %Y", "%a %d %b %Y", "%Y%m%d", "%Y/%m/%d")
BY_ORDER = {
    "dmy": ("%d/%m/%Y", "%d.%m.%y", "%d-%m-%Y", "%a %d/%m/%y"),
    "mdy": ("%m/%d/%Y", "%m-%d-%y", "%m/%d/%y (%a)"),
}
DAYS = st.dates(dt.date(1990, 1, 1), dt.date(2034, 12, 31))


@given(DAYS, st.sampled_from(PATTERNS), st.sampled_from([DMY, MDY, OPEN]))
def test_a_printed_date_reads_back_whatever_the_order(when, pattern, style):
    reading = read_date(cell(when.strftime(pattern)), style)
    assert (reading.when.first, reading.when.last, reading.code) == (when, when, "")


@given(DAYS, st.sampled_from(["dmy", "mdy"]), st.integers(0, 3))
def test_a_printed_date_reads_back_in_its_order(when, order, which):
    patterns = BY_ORDER[order]
    text = when.strftime(patterns[which % len(patterns)])
    reading = read_date(cell(text), DateStyle(order, True, ON))
    assert (reading.when.first, reading.when.last, reading.code) == (when, when, "")


@given(st.text(max_size=25), st.booleans(), st.booleans(), st.none() | DAYS)
def test_no_text_ends_in_an_exception(text, coarse, ahead, near):
    reading = read_date(cell(text), DMY, coarse=coarse, ahead=ahead, near=near)
    assert reading.when or reading.code or reading.absent
    reading.problem(cell(text))


@given(st.floats() | st.integers())
def test_no_number_ends_in_an_exception(number):
    reading = read_date(cell(number), DMY)
    assert reading.when or reading.code


@given(st.text("0123456789/-. janmrwkq?+()", max_size=14), st.none() | DAYS)
def test_no_jumble_of_date_marks_ends_in_an_exception(text, near):
    reading = read_date(cell(text), DMY, near=near)
    assert reading.when or reading.code or reading.absent


@pytest.mark.parametrize("text", ["winter 9999", "Q4 9999", "9" * 400 + " weeks", "0001-02-03", "0000-01"])
def test_days_beyond_any_calendar_of_a_keeper_are_named(text):
    cell = Cell(CellRef("S", 1, 1), text, text)
    reading = read_date(cell, DateStyle("dmy", True, dt.date(2025, 3, 20)))

    assert reading.when is None
    assert reading.code in ("dates.too_far", "dates.too_old", "dates.not_understood", "dates.impossible")


@pytest.mark.parametrize(
    ("text", "back"),
    [
        ("4 dys ago", (4, 4)),
        ("9 days ago", (9, 9)),
        ("yesterday", (1, 1)),
        ("Gestern", (1, 1)),
        ("the day before yesterday", (2, 2)),
        ("a fortnight ago", (21, 7)),
        ("3 wks ago", (24, 18)),
    ],
)
def test_a_time_since_counts_back_from_the_day_of_the_report_and_is_a_guess(text, back):
    on = dt.date(2026, 5, 20)
    found = read_date(Cell(CellRef("Log", 2, 1), text, text), DateStyle(order="dmy", sure=True, on=on))

    assert found.when and found.guessed and found.code == "dates.age"
    assert ((on - found.when.first).days, (on - found.when.last).days) == pytest.approx(back, abs=1)


@pytest.mark.parametrize(("text", "day"), [("last Wednesday", 13), ("last Monday", 18), ("Wednesday", 20)])
def test_the_last_such_day_is_before_the_day_of_the_report(text, day):
    found = read_date(
        Cell(CellRef("Log", 2, 1), text, text), DateStyle(order="dmy", sure=True, on=dt.date(2026, 5, 20))
    )

    assert found.guessed and found.when and found.when.first == dt.date(2026, 5, day)


def test_an_unknown_time_ago_is_no_august():
    found = read_date(
        Cell(CellRef("Log", 2, 1), "5 blorps ago", ""), DateStyle(order="dmy", sure=True, on=dt.date(2026, 5, 20))
    )

    assert found.when is None
