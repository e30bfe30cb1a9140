import datetime as dt

from workbook_tools.fields import LOG_FIELDS
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.profile import fits, is_date, is_value, profile
from workbook_tools.problems import CellRef

FIELDS = {field.key: field for field in LOG_FIELDS}


def cells(*values):
    return [Cell(CellRef("S", row, 1), value, str(value)) for row, value in enumerate(values, 1)]


def test_profile_counts_dates_numbers_and_words():
    seen = profile(cells(dt.date(2025, 3, 1), "12/3", "14 March", 7, "~50", True, "damp", "Sun"))

    assert (seen.filled, seen.dates, seen.numbers, seen.words) == (8, 3 / 8, 2 / 8, 3 / 8)


def test_a_column_of_dates_is_no_weekday_and_words_are_no_date():
    dates, words = profile(cells("1/3", "2/3", "3/3")), profile(cells("Mon", "Tue", "Wed"))

    assert fits(dates, FIELDS["weekday"]) < fits(dates, FIELDS["when"])
    assert fits(words, FIELDS["when"]) < fits(words, FIELDS["weekday"])


def test_an_empty_column_speaks_against_nothing():
    assert fits(profile([]), FIELDS["when"]) == 1


def test_a_word_and_a_number_are_a_date_only_if_the_word_is_of_a_calendar():
    texts = ("Rack 1", "Shelf 3/4", "2 handfuls", "May 24", "3 mai", "Sun 3/4", "12-nov")

    assert [text for text in texts if is_date(Cell(CellRef("S", 2, 1), text, text))] == list(texts[3:])


def test_days_kept_as_written_suit_only_fields_that_ask_until_when():
    days = profile(cells("10/2/26", "21/4/26", "15/9/26"))

    assert (fits(days, FIELDS["quarantine_until"]), fits(days, FIELDS["who"])) == (1.0, 0.6)


def test_dates_numbers_and_amounts_are_values():
    values = cells("3/3/25", dt.date(2025, 3, 3), 12, "5 L", "HOF", "bin", "HOF-2")

    assert [is_value(cell) for cell in values] == [True, True, True, True, False, False, False]
