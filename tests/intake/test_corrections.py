from tools.sheets import sheet
from workbook_tools.intake.corrections import (
    EVERY_SHEET,
    NO_MEANING,
    Correction,
    Corrections,
    key_of,
)
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.regions import find_regions
from workbook_tools.intake.roles import recognise
from workbook_tools.intake.settings import Settings, SettingValue
from workbook_tools.intake.shapes.choose import unfold
from workbook_tools.intake.shapes.records import PLAIN, Around
from workbook_tools.problems import CellRef

LOG = "Date|Bin|Done|Zorb\n13/3/2025|A1|water|20 ml\n14/3/2025|A2|water|30 ml"
AT = CellRef("mine-reading.xlsx: Headings", 4, 4)


def said(about, text, value, sheet="Log", title="", setting=None):
    return Correction(about, sheet, text, value, "not used", AT, title, setting)


def taken(text, *corrections, name="Log"):
    table, problems = recognise(find_regions(sheet(name, text))[0], Lexicon(), Corrections("x", corrections))
    fields = {head.text: head.field.key if head.field else "" for head in table.headings.values()}
    return table, fields, [problem.code for problem in problems]


def test_a_heading_in_any_case_with_any_signs_is_the_same():
    assert key_of("  Zorb! (ml)\n") == key_of("zorb ml")
    assert key_of("✕") == "✕"


def test_a_correction_gives_an_unknown_heading_its_field():
    assert taken(LOG)[1]["Zorb"] == ""
    _, fields, codes = taken(LOG, said("heading", "ZORB:", "Water"))
    assert fields["Zorb"] == "water"
    assert codes == []


def test_a_correction_beats_a_known_heading_and_the_column_that_held_the_field_is_named():
    text = LOG.replace("Zorb", "Water")
    _, fields, codes = taken(text, said("heading", "Water", "not used"))
    assert fields["Water"] == ""
    assert codes == []

    text = "Date|Bin|Done|Water|Zorb\n13/3/2025|A1|water|20 ml|30 ml\n14/3/2025|A2|water|30 ml|1 ml"
    _, fields, codes = taken(text, said("heading", "Zorb", "Water"))
    assert (fields["Water"], fields["Zorb"]) == ("", "water")
    assert codes == ["headings.taken"]


def test_a_column_that_the_keeper_says_is_not_used_is_not_taken_for_the_date():
    text = "Zorb|Bin|Done\n13/3/2025|A1|water\n14/3/2025|A2|water"
    assert taken(text)[1]["Zorb"] == "when"
    assert taken(text, said("heading", "Zorb", "not used"))[1]["Zorb"] == ""


def test_a_correction_holds_on_its_own_sheet_or_on_every_sheet():
    assert taken(LOG, said("heading", "Zorb", "Water", sheet="Other"))[1]["Zorb"] == ""
    assert taken(LOG, said("heading", "Zorb", "Water", sheet=EVERY_SHEET))[1]["Zorb"] == "water"


def test_a_correction_with_a_title_holds_for_the_table_of_that_title():
    under = f"Spring\n{LOG}"
    assert taken(under, said("heading", "Zorb", "Water", title="Autumn"))[1]["Zorb"] == ""
    assert taken(under, said("heading", "Zorb", "Water", title="spring"))[1]["Zorb"] == "water"


def test_a_field_that_the_table_does_not_have_is_not_given():
    assert taken(LOG, said("heading", "Zorb", "Started"))[1]["Zorb"] == ""


def test_a_table_is_known_by_most_of_its_headings_wherever_it_stands():
    correction = said("table", "Date | Bin | Done | Zorb", "not used")
    assert taken(LOG, correction)[0].role == "unused"
    grown = "\n\nNew|Date|Bin|Done|Zorb|Other\n1|13/3/2025|A1|water|20 ml|x\n2|14/3/2025|A2|water|30 ml|y"
    table, _, codes = taken(grown, correction)
    assert (table.role, table.why, codes) == ("unused", "as you said", [])
    assert taken("Date|Bin|Note\n13/3/2025|A1|hello\n14/3/2025|A2|you", correction)[0].role == "log"


def test_a_table_can_be_said_to_be_a_list_of_bins_or_a_log_of_one_kind_of_work():
    text = "Date|Bin|How much\n13/3/2025|A1|20\n14/3/2025|A2|30"
    table = taken(text, said("table", "", "log: water"))[0]
    assert (table.role, table.act) == ("log", "water")
    assert taken("Bin|Date\nA1|13/3/2025\nA2|14/3/2025", said("table", "", "list of bins"))[0].role == "bins"


def test_a_sheet_can_be_said_to_be_a_plain_list():
    grid = sheet("Log", "Bin|1/3|2/3|3/3|4/3|5/3\nA1|W|F|W||W\nA2|W||F|W|W\nA3||W|W|F|")
    assert unfold(grid, Around(Lexicon())).shape != PLAIN
    corrections = Corrections("x", (said("table", "", PLAIN),))
    assert unfold(grid, Around(Lexicon(), corrections=corrections)).shape == PLAIN


def test_words_are_those_with_a_meaning_and_those_with_none():
    corrections = Corrections("x", (said("word", "Zorbed", "Water", ""), said("word", "hm", NO_MEANING, "")))
    assert corrections.words == {"zorbed": "Water"}
    assert corrections.passed_words == {"hm"}


def test_a_choice_goes_before_the_setting_for_all_bins_and_leaves_those_for_one_bin():
    held = Settings((SettingValue("handful", "", 0.4, AT), SettingValue("handful", "A1", 0.5, AT)))
    chosen = said("assumption", "A handful is", "0.3 l", "", setting=SettingValue("handful", "", 0.3, AT))
    over = Corrections("x", (chosen,)).over(held)
    assert over.find("handful").value == 0.3
    assert over.find("handful", "A1").value == 0.5
    assert Corrections().over(held) is held
