import pytest

from tools.sheets import sheet
from workbook_tools.intake.settings_sheet import find_setting, is_settings_sheet, read_settings


def read(text, name="Settings"):
    return read_settings([sheet(name, text)])


def test_pairs_of_name_and_value_are_read_without_headings():
    found, problems = read("Feed every|3 days\nMoss every|weekly\nRound days|Mon, Thu and Sun\nRegion|de_de")

    assert {value.key: value.value for value in found.settings.values} == {
        "every.food": 3,
        "every.moss": 7,
        "rounds": (0, 3, 6),
        "region": "de-DE",
    }
    assert problems == []


def test_a_setting_may_be_for_one_species_or_bin():
    found, _ = read("Setting|For|Value|Note\nFeed every||4|\nFeed every|Porcellio laevis|2|hungry")

    assert [(value.scope, value.value) for value in found.settings.values] == [("", 4), ("Porcellio laevis", 2)]
    assert found.settings.find("every.food", "A1", "porcellio laevis").value == 2
    assert found.settings.find("every.food", "A1", "other").value == 4


def test_a_scope_may_stand_in_brackets_behind_the_name():
    found, _ = read("Feed every (Porcellio laevis)|2")

    assert found.settings.values[0].scope.casefold() == "porcellio laevis"


def test_own_words_are_read_from_their_table():
    found, problems = read("Feed every|3\n\nWord|Means\ndrizzle|Water\nmanky|mouldy\nlonely|")

    assert {word: means for word, (means, _) in found.words.items()} == {"drizzle": "Water", "manky": "mouldy"}
    assert [(str(p.where), p.code) for p in problems] == [("Settings!A6", "settings.word_alone")]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Feed every|when I remember", "settings.value"),
        ("Feed every|900", "settings.range"),
        ("Round days|Mon, Blursday", "settings.value"),
        ("Day-month order|sideways", "settings.value"),
        ("Favourite colour|green", "settings.unknown"),
    ],
)
def test_what_is_no_setting_is_named_with_its_cell(text, code):
    found, problems = read(text)

    cell = "Settings!A1" if code == "settings.unknown" else "Settings!B1"
    assert [(str(p.where), p.code) for p in problems] == [(cell, code)]
    assert found.settings.values == ()


@pytest.mark.parametrize(
    ("text", "order"), [("day-month", "dmy"), ("month first", "mdy"), ("year-month-day", "ymd"), ("DD/MM/YYYY", "dmy")]
)
def test_the_day_month_order_is_read(text, order):
    assert read(f"Dates are|{text}")[0].settings.values[0].value == order


def test_an_empty_value_is_no_setting_and_no_problem():
    found, problems = read("Setting|Value\nFeed every|\nRegion|en-GB")

    assert [value.key for value in found.settings.values] == ["region"]
    assert problems == []


def test_a_settings_sheet_is_known_by_its_name_or_its_headings():
    assert is_settings_sheet(sheet("Set-up", "x|1"))
    assert is_settings_sheet(sheet("Sheet4", "Setting|Value\nFeed every|3"))
    assert not is_settings_sheet(sheet("Log", "Date|Bin\n1/3|A1"))


def test_a_name_with_a_slip_is_still_found():
    assert find_setting("Feed evry").key == "every.food"
    assert find_setting("Colour of the wall") is None


@pytest.mark.parametrize(("text", "value"), [("20", 20), ("20 %", 20), ("1/5", 20), ("0.2", 20)])
def test_a_chance_is_read_in_percent(text, value):
    found, problems = read(f"Setting|Value\nDry before the look|{text}")

    assert [(one.key, one.value) for one in found.settings.values] == [("risk.moss", pytest.approx(value))]
    assert problems == []


def test_a_chance_out_of_range_or_no_share_is_named():
    assert [problem.code for problem in read("Setting|Value\nDry before the look|90 %")[1]] == ["settings.range"]
    assert [problem.code for problem in read("Setting|Value\nDry before the look|often")[1]] == ["settings.value"]


@pytest.mark.parametrize(("text", "value"), [("letter", "Letter"), ("a4", "A4")])
def test_paper_is_one_of_two(text, value):
    assert read(f"Paper|{text}")[0].settings.values[0].value == value


def test_other_paper_is_named():
    assert [(str(p.where), p.code) for p in read("Paper|Legal")[1]] == [("Settings!B1", "settings.value")]
