import datetime as dt
import io
import zipfile
from pathlib import Path

import openpyxl
import pytest

from tools.drawn import reopened, table_rows
from workbook_tools.fields import ACTS, BIN_FIELDS, LOG_FIELDS, SETTINGS, STATES
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.workbook import open_book
from workbook_tools.report.blank import blank_sheets, known_words
from workbook_tools.report.writer import draw

ON = dt.date(2026, 3, 14)
TEMPLATE = Path(__file__).parents[2] / "templates" / "frassbook-blank.xlsx"


@pytest.fixture(scope="module")
def content():
    return draw(blank_sheets(), region="en-GB", paper="A4", created=dt.date(2026, 1, 1))[0]


@pytest.fixture(scope="module")
def book(content):
    return reopened(content)


def parts(content):
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def test_template_is_what_the_code_builds(content):
    built, kept = parts(content), parts(TEMPLATE.read_bytes())
    assert sorted(built) == sorted(kept)
    changed = [name for name in built if built[name] != kept[name]]
    assert not changed, "fields have changed: build the template again with 'frassbook new'"


def test_blank_workbook_has_its_sheets(book):
    assert book.sheetnames == ["Bins", "Log", "Settings", "Words"]


@pytest.mark.parametrize(("sheet", "fields"), [("Bins", BIN_FIELDS), ("Log", LOG_FIELDS)])
def test_headings_are_the_fields_with_a_note_on_each(book, sheet, fields):
    shown = [field for field in fields if field.in_blank]
    page = book[sheet]
    rows = table_rows(page, f"{sheet}Table")
    assert rows[0] == [field.label for field in shown]
    first = page.tables[f"{sheet}Table"].ref.split(":")[0]
    notes = [cell.comment.text for cell in page[page[first].row][: len(shown)]]
    assert notes == [field.says for field in shown]


@pytest.mark.parametrize("sheet", ["Bins", "Log"])
def test_first_row_is_an_example_that_says_so(book, sheet):
    headings, example, *rest = table_rows(book[sheet], f"{sheet}Table")
    shown = dict(zip(headings, example, strict=True))
    assert shown["Bin"] == "Example 1"
    assert "example" in shown[headings[-1]]
    assert len(rest) >= 100
    assert not any(value for row in rest for value in row)


def test_words_to_pick_are_words_that_are_read(book):
    offered = {check.formula1 for check in book["Log"].data_validations.dataValidation}
    assert f'"{",".join(STATES["moss"])}"' in offered
    assert any(formula.startswith("'Words'!") for formula in offered)
    meanings = {word.meaning for word in known_words()}
    assert {act.label for act in ACTS.values()} <= meanings
    assert {word for states, table in STATES.items() if states != "truth" for word in table} <= meanings


def test_own_words_are_allowed_everywhere(book):
    checks = [check for page in book for check in page.data_validations.dataValidation]
    assert checks
    assert not any(check.showErrorMessage for check in checks)


def test_every_setting_is_there_and_empty(book):
    headings, *rows = table_rows(book["Settings"], "SettingsTable")
    assert headings == ["Setting", "For", "Value", "What it does"]
    assert [row[0] for row in rows[: len(SETTINGS)]] == [setting.label for setting in SETTINGS]
    assert not any(row[1] or row[2] for row in rows)
    assert table_rows(book["Settings"], "OwnWords")[0] == ["Word", "Means"]


def test_no_name_is_used_by_two_tables(book):
    names = [name.casefold() for page in book for name in page.tables]
    assert len(set(names)) == len(names) == 5


def test_template_opens_without_complaint():
    assert openpyxl.load_workbook(TEMPLATE).sheetnames[0] == "Bins"


def test_every_meaning_offered_is_understood_when_picked():
    words = {f"zzword{i}": word.meaning for i, word in enumerate(known_words())}
    assert Lexicon(words).unplaced == ()


def test_template_is_read_without_a_problem():
    book, opening = open_book(TEMPLATE)
    intake, problems = read_book(book, ON)
    assert [str(problem) for problem in (*opening, *problems)] == []
    assert {(table.sheet, table.role) for table in intake.tables} == {
        *(("Bins", "bins"), ("Log", "log"), ("Settings", "settings"), ("Words", "unused"))
    }
    assert intake.rows == ()


def test_what_is_written_into_the_template_is_read(tmp_path):
    filled = openpyxl.load_workbook(TEMPLATE)
    filled["Bins"]["A6"], filled["Bins"]["B6"] = "A1", "Porcellio scaber"
    filled["Log"]["A6"], filled["Log"]["B6"], filled["Log"]["C6"] = ON, "A1", "zzsoak + feed"
    filled["Log"]["C6"].number_format = "yyyy-mm-dd"
    settings = filled["Settings"]
    settings["C4"] = 5
    words = int(settings.tables["OwnWords"].ref.split(":")[0][1:]) + 1
    settings[f"A{words}"], settings[f"B{words}"] = "zzsoak", "Water"
    filled.save(tmp_path / "mine.xlsx")
    book, _ = open_book(tmp_path / "mine.xlsx")
    intake, problems = read_book(book, ON)
    assert [str(problem) for problem in problems] == []
    assert [(row.role, row.where.row) for row in intake.rows] == [("bins", 6), ("log", 6)]
    assert intake.rows[1].first("did").value.keys == ("water", "feed")
    assert [(value.key, value.value) for value in intake.settings.values] == [(SETTINGS[0].key, 5)]
