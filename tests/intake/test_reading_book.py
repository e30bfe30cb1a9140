from pathlib import Path

import pytest

from tools.grid import workbook_from_text
from tools.sheets import book, sheet
from workbook_tools.intake.corrections import NO_MEANING, Corrections
from workbook_tools.intake.reading_book import (
    ASSUMED_HEADINGS,
    TABLE_HEADINGS,
    WORD_HEADINGS,
    corrections_of,
    is_reading_book,
    read_corrections,
    reading_name,
)
from workbook_tools.problems import CannotRead

TABLES = "What each table was taken for\n\n" + "|".join(TABLE_HEADINGS) + "\n"
WORDS = "|".join(WORD_HEADINGS) + "\n"
ASSUMED = "|".join(ASSUMED_HEADINGS) + "\n"


def corrections(text):
    return read_corrections(book(sheet("Any", text)))


def test_a_reading_workbook_is_known_by_its_headings():
    assert is_reading_book(book(sheet("Any", TABLES)))
    assert not is_reading_book(book(sheet("Log", "Sheet|What|Name\nx|y|z")))


def test_what_was_left_as_it_was_is_no_correction():
    found, problems = corrections(TABLES + "Log|heading|Zorb||D1|20 ml|not used|not known|not used")
    assert (found.all, problems) == ((), [])


def test_an_emptied_box_is_no_correction():
    found, problems = corrections(TABLES + "Log|heading|Zorb||D1|20 ml||as you said|not used")
    assert (found.all, problems) == ((), [])


def test_what_differs_is_a_correction_with_its_cell():
    found, problems = corrections(TABLES + "Log|heading|Zorb||D1|20 ml|water|not known|not used")
    (one,) = found.all
    assert (one.about, one.sheet, one.text, one.value, one.own) == ("heading", "Log", "Zorb", "Water", "not used")
    assert str(one.where).endswith("!G4")
    assert problems == []


def test_a_guess_that_the_keeper_says_is_right_is_a_correction():
    found, _ = corrections(WORDS + "mistted|Done|Log!C3|Water|As you said|Water")
    assert [one.value for one in found.of("word")] == ["Water"]


@pytest.mark.parametrize("value", ["a grid of dates", "log: water", "list of bins", "not used", "settings"])
def test_a_table_can_be_any_of_the_choices(value):
    found, problems = corrections(TABLES + f"Log|table|Date / Bin||A1||{value}||log")
    assert [one.value for one in found.of("table")] == [value]
    assert problems == []


@pytest.mark.parametrize(
    "row",
    [
        TABLES + "Log|heading|Zorb||D1|20 ml|blorp|not known|not used",
        TABLES + "Log|table|Date / Bin||A1||Water||log",
        WORDS + "zorbed|Done|Log!C3|blorp||not known",
        ASSUMED + "Day-month order|sideways||day-month",
        ASSUMED + "A handful is|900 l||0.4 l|",
    ],
)
def test_what_is_no_choice_is_named_and_not_used(row):
    found, problems = corrections(row)
    assert found.all == ()
    assert [problem.code for problem in problems] == ["corrections.no_choice"]


def test_a_word_may_mean_nothing():
    found, _ = corrections(WORDS + f"hm|Done|Log!C3|{NO_MEANING}||not known")
    assert found.passed_words == {"hm"}


def test_assumptions_become_settings_and_the_decimal_mark():
    text = ASSUMED + "Day-month order|month-day||day-month\nDecimal mark|comma||point\nA handful is|0.3 l||0.4 l\n"
    found, problems = corrections(text + "A quart is|imperial||US liquid")
    assert problems == []
    assert found.decimal == ","
    kept = {one.setting.key: one.setting.value for one in found.of("assumption") if one.setting}
    assert kept == {"date_order": "mdy", "handful": 0.3, "quart": "imperial"}


def test_corrections_are_found_beside_a_file_or_a_folder(tmp_path: Path):
    assert reading_name(tmp_path / "mine.ods").name == "mine-reading.xlsx"
    (tmp_path / "my bins").mkdir()
    assert reading_name(tmp_path / "my bins") == tmp_path.resolve() / "my bins-reading.xlsx"
    assert corrections_of(tmp_path / "mine.ods") == (Corrections(), [])


@pytest.mark.parametrize(
    ("content", "code"),
    [(b"torn", "corrections.unreadable"), (None, "corrections.other_file")],
)
def test_a_file_beside_it_that_gives_no_corrections_is_a_problem_and_one_that_was_named_is_refused(
    tmp_path: Path, content: bytes | None, code: str
):
    beside = workbook_from_text("# sheet Recipes\nCake | Eggs", tmp_path / "mine-reading.xlsx")
    if content:
        beside.write_bytes(content)
    found, problems = corrections_of(tmp_path / "mine.xlsx")
    assert (found.all, [problem.code for problem in problems]) == ((), [code])
    with pytest.raises(CannotRead):
        corrections_of(tmp_path / "mine.xlsx", beside)
