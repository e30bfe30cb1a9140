import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.corrections import NO_MEANING, Correction, Corrections
from workbook_tools.intake.reading import NoTables, read_book
from workbook_tools.intake.settings import SettingValue
from workbook_tools.problems import CellRef

ON = dt.date(2025, 3, 20)
AT = CellRef("mine-reading.xlsx: Words", 4, 4)
LOG = "Date|Bin|Done|Zorb\n13/3/2025|A1|zorbed 20 ml|1\n14/3/2025|A2|zorbed 30 ml; watred|2\n15/3/2025|A2|hm|3"


def read(text, *corrections, name="Log", decimal=""):
    return read_book(book(sheet(name, text)), ON, Corrections("x", corrections, decimal))


def word(text, means):
    return Correction("word", "", text, means, "not known", AT)


def codes(problems):
    return [problem.code for problem in problems]


def test_unknown_and_guessed_words_are_gathered_without_their_numbers():
    intake, _ = read(LOG)
    found = {one.word: (one.taken, [str(ref) for ref in one.cells]) for one in intake.unsure}
    assert found["zorbed"] == ("", ["Log!C2", "Log!C3"])
    assert found["watred"] == ("Water", ["Log!C3"])
    assert "hm" in found


def test_a_word_that_was_put_right_is_read_with_its_number_and_no_longer_named():
    intake, problems = read(LOG, word("zorbed", "Water"))
    row = intake.rows[0]
    assert row.facts["did"][0].value.keys == ("water",)
    assert "zorbed" not in {one.word for one in intake.unsure}
    assert not [p for p in problems if p.code == "words.unknown" and "zorbed" in p.value]


def test_a_word_that_tells_nothing_is_not_named():
    _, before = read(LOG)
    _, after = read(LOG, word("hm", NO_MEANING))
    assert codes(before).count("words.unknown") - codes(after).count("words.unknown") == 1


def test_a_code_of_a_grid_can_be_put_right():
    grid = "Bin|1/3|2/3|3/3|4/3|5/3\nA1|W|Q|W||W\nA2|W||Q|W|W\nA3||W|W|Q|"
    intake, _ = read(grid, name="Grid")
    assert "Q" in {one.word for one in intake.unsure}
    intake, problems = read(grid, word("q", "Feed"), name="Grid")
    assert sum("feed" in row.facts["did"][0].value.keys for row in intake.rows if "did" in row.facts) == 3
    assert "grid.code_open" not in codes(problems)
    assert "corrections.stale" not in codes(problems)


def test_a_code_that_a_key_explains_can_be_put_right():
    grid = "Bin|1/3|2/3|3/3|4/3|5/3\nA1|W|Q|W||W\nA2|W||Q|W|W\nA3||W|W|Q|\n\nQ = water"
    intake, _ = read(grid, word("q", "Feed"), name="Grid")
    assert sum("feed" in row.facts["did"][0].value.keys for row in intake.rows if "did" in row.facts) == 3


def test_a_guess_at_a_key_names_the_words_of_the_key():
    grid = "Bin|1/3|2/3|3/3|4/3|5/3\nA1|W|Q|W||W\nA2|W||Q|W|W\nA3||W|W|Q|\n\nW = wet, Q = food"
    intake, _ = read(grid, name="Grid")
    assert {one.word: (one.taken, one.why) for one in intake.unsure} == {"W": ("Water", "a guess, from 'wet'")}


def test_assumptions_are_listed_with_why():
    intake, _ = read(LOG)
    found = {one.label: (one.taken, one.why) for one in intake.assumed}
    assert found["Day-month order"][0] == "day-month"
    assert found["A quart is"] == ("US liquid", "common practice")
    assert found["A handful is"] == ("0.4 l", "common practice")


def test_an_order_that_was_chosen_is_followed():
    text = "Date|Bin|Done\n3/4/2025|A1|water\n4/3/2025|A2|water"
    chosen = Correction(
        "assumption",
        "",
        "Day-month order",
        "month-day",
        "day-month",
        AT,
        setting=SettingValue("date_order", "", "mdy", AT),
    )
    intake, problems = read(text)
    assert "dates.order_open" in codes(problems)
    assert intake.order == "dmy"
    intake, problems = read(text, chosen)
    assert intake.order == "mdy"
    assert "dates.order_open" not in codes(problems)
    assert any("as you said" in note for note in intake.notes)


def test_a_decimal_mark_that_was_chosen_is_followed():
    text = "Date|Bin|Water\n13/3/2025|A1|1,234 ml"
    amounts = [read(text, decimal=mark)[0].rows[0].facts["water"][0].value.number.best for mark in (",", ".")]
    assert amounts == [1.234, 1234.0]


def test_a_correction_that_fits_nothing_is_named():
    heading = Correction("heading", "Log", "Gone", "Water", "not used", AT)
    table = Correction("table", "Old log", "", "log", "not used", AT)
    _, problems = read(LOG, heading, table, word("blort", "Water"))
    assert codes(problems).count("corrections.stale") == 3
    assert {str(p.where) for p in problems if p.code == "corrections.stale"} == {str(AT)}


def test_a_correction_that_cannot_be_followed_is_named():
    heading = Correction("heading", "Log", "Zorb", "Founders", "not used", AT)
    table = Correction("table", "Log", "", "a grid of dates", "log", AT)
    _, problems = read(LOG, heading, table)
    assert codes(problems).count("corrections.not_possible") == 2


def test_a_workbook_without_tables_tells_what_was_seen_and_can_be_put_right():
    text = "Nummer|Art|Regal\nK1|scaber|oben\nK2|laevis|unten"
    with pytest.raises(NoTables) as caught:
        read(text, name="Kisten")
    assert caught.value.intake.tables == ()
    (table,) = caught.value.intake.perhaps
    assert [head.text for head in table.headings.values()] == ["Nummer", "Art", "Regal"]
    said = Correction("heading", "Kisten", "Nummer", "Bin", "not used", AT)
    as_bins = Correction("table", "Kisten", "Nummer | Art | Regal", "list of bins", "not used", AT)
    intake, _ = read(text, said, as_bins, name="Kisten")
    assert [row.facts["name"][0].value for row in intake.rows] == ["K1", "K2"]
