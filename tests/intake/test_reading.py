import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.problems import CannotRead

ON = dt.date(2025, 3, 20)
LOG = sheet("Log", "Date|Bin|Done|Amount\n13/3/2025|A1|water|20\n14/3/2025|A1|feed|1,5")


def codes(problems):
    return [(str(p.where), p.code) for p in problems]


def test_tables_of_all_sheets_are_read_in_order_with_the_files_own_styles():
    bins = sheet("Boxes", "Box|Species|Shelf\nA1|scaber|top\nA2|laevis|low")
    intake, problems = read_book(book(bins, LOG), ON)

    assert [(table.sheet, table.role) for table in intake.tables] == [("Boxes", "bins"), ("Log", "log")]
    assert [str(row.where) for row in intake.rows] == ["Boxes!2", "Boxes!3", "Log!2", "Log!3"]
    assert intake.order == "dmy"
    assert intake.rows[3].facts["amount"][0].value.number.best == 1.5
    assert problems == []


def test_the_settings_decide_the_day_month_order_and_words():
    settings = sheet("Settings", "Dates are|month-day\n\nWord|Means\ndrizzle|Water")
    log = sheet("Log", "Date|Bin|Done\n3/4/2025|A1|drizzle")
    intake, problems = read_book(book(settings, log), ON)

    assert intake.rows[0].facts["when"][0].value.first == dt.date(2025, 3, 4)
    assert intake.rows[0].facts["did"][0].value.keys == ("water",)
    assert problems == []


def test_open_day_month_order_is_a_problem_that_names_the_assumption():
    _, problems = read_book(book(sheet("Log", "Date|Bin|Done\n3/4/2025|A1|water")), ON)

    assert [(p.code, "day" in p.says) for p in problems] == [("dates.order_open", True)]


def test_a_sheet_without_a_table_is_named_once_and_loose_cells_by_cell():
    notes = sheet("Notes", "Dear diary\nnothing")
    log = sheet("Log", "Date|Bin|Done|||\n13/3/2025|A1|water||extra|\n14/3/2025|A1|feed|x||far")
    _, problems = read_book(book(notes, log), ON)

    assert codes(problems) == [
        ("Notes", "sheets.no_table"),
        ("Log!D3", "headings.missing"),
        ("Log!E2", "tables.outside"),
    ]
    assert [str(ref) for ref in problems[2].also] == ["Log!F3"]


def test_a_workbook_of_something_else_says_what_was_found():
    with pytest.raises(CannotRead, match=r"sheet 'Recipes' with 'Cake'"):
        read_book(book(sheet("Recipes", "Cake|Eggs\nsponge|4")), ON)


def test_an_empty_workbook_is_said_to_be_empty():
    with pytest.raises(CannotRead, match="empty"):
        read_book(book(sheet("Sheet1", "")), ON)


def test_a_hidden_sheet_is_read_and_says_so():
    hidden = sheet("Old", "Date|Bin|Done\n13/3/2025|A1|water", hidden=True)
    intake, _ = read_book(book(hidden), ON)

    assert intake.tables[0].hidden
    assert len(intake.rows) == 1


def test_a_title_between_rows_is_named_not_lost():
    log = sheet("Log", "Date|Bin|Done\n13/3/2025|A1|water\nweek twelve, all fine here||\n14/3/2025|A1|feed")
    intake, problems = read_book(book(log), ON)

    assert len(intake.rows) in (2, 3)
    assert ("Log!A3" in [str(p.where) for p in problems]) or ("Log!3" in [str(p.where) for p in problems])


@pytest.mark.parametrize(("setting", "litres"), [("", "0.946"), ("US dry", "1.101"), ("imperial", "1.137")])
def test_the_notes_say_which_quart_was_taken(setting, litres):
    bins = sheet("Boxes", "Box|Species|Size\nA1|scaber|6 qt\nA2|laevis|12 l")
    settings = sheet("Settings", f"A quart is|{setting}")
    intake, _ = read_book(book(bins, settings), ON)

    assert [note for note in intake.notes if "quart" in note] and litres in " ".join(intake.notes)
    assert intake.rows[0].facts["volume"][0].value.number.best == pytest.approx(6 * float(litres), rel=1e-3)


@pytest.mark.parametrize(
    ("settings", "amount"),
    [
        ("Word|Means\nspoon|5 ml", 10),
        ("Setting|Value\nA spoon is|5 ml", 10),
        ("Word|Means\nspoon|splash", 40),
    ],
)
def test_the_keepers_own_measures_are_read(settings, amount):
    log = sheet("Log", "Date|Bin|Done|Amount\n13/3/2025|A1|water|2 spoons\n14/3/2025|A1|water 2 spoons|")
    intake, problems = read_book(book(sheet("Settings", settings), log), ON)

    assert intake.rows[0].facts["amount"][0].value.number.best == amount
    assert intake.rows[1].facts["water"][0].value.number.best == amount
    assert codes(problems) == []


def test_a_meaning_that_is_not_known_is_named_in_its_own_cell():
    _, problems = read_book(book(sheet("Settings", "Word|Means\nblort|nonsense"), LOG), ON)

    assert [(str(p.where), p.code, p.value) for p in problems] == [
        ("Settings!B2", "settings.word_unplaced", "nonsense")
    ]


def test_males_and_females_show_no_decimal_mark():
    log = sheet("Log", "Date|Bin|Done|Number|Amount\n13/3/2025|A1|count|8 (3.5)|\n14/3/2025|A1|water||5,7 ml")
    intake, problems = read_book(book(log), ON)

    assert "The decimal mark is a comma: '5,7 ml' shows it." in intake.notes
    assert codes(problems) == []


def test_a_month_and_a_year_of_a_start_is_said_to_be_taken_so():
    intake, problems = read_book(book(sheet("Bins", "Bin|Species|Started\nA1|x|12/24\nA2|y|13/2/2025"), LOG), ON)

    assert intake.rows[0].facts["started"][0].value.first == dt.date(2024, 12, 1)
    assert codes(problems) == [("Bins!C2", "dates.month_year")]


def test_nothing_recognised_says_what_was_looked_for():
    with pytest.raises(CannotRead, match=r"English headings.*found sheet 'Kisten'"):
        read_book(book(sheet("Kisten", "Nummer|Art|Regal\nK1|x|oben\nK2|y|unten")), ON)
