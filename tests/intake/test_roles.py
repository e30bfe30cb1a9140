import pytest

from tools.sheets import sheet
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.regions import find_regions
from workbook_tools.intake.roles import act_named, recognise

LEXICON = Lexicon()


def read(name, text):
    region = find_regions(sheet(name, text))[0]
    return recognise(region, LEXICON)


def fields(table):
    return {col: head.field.key if head.field else "" for col, head in table.headings.items()}


def test_a_list_of_bins_names_each_bin_once():
    table, problems = read("Sheet1", "Code|Kind|Shelf|Size\nA1|scaber|top|6\nA2|scaber|top|6\nA3|laevis|low|12")

    assert (table.role, table.act) == ("bins", "")
    assert fields(table) == {1: "name", 2: "species", 3: "place", 4: "volume"}
    assert problems == []


def test_a_log_has_dates_and_repeats_its_bins():
    table, _ = read("Sheet1", "Date|Bin|Done|Amount\n1/3/25|A1|water|20\n2/3/25|A1|water|20\n2/3/25|A2|feed|1")

    assert table.role == "log"
    assert fields(table) == {1: "when", 2: "bins", 3: "did", 4: "amount"}


@pytest.mark.parametrize(
    ("name", "headings", "act"),
    [
        ("Feeding", "Date|Bin|Amount", "feed"),
        ("Watering 2025", "Date|Bin|Amount", "water"),
        ("Soil", "Date|Bin|Share|Old went", "substrate_change"),
        ("Calcium", "Date|Bin|Note", "calcium"),
        ("Sheet3", "Date|Bin|Note", ""),
        ("Feeding", "Date|Bin|Done", "feed"),
    ],
)
def test_a_log_of_one_kind_of_work_takes_its_act_from_the_sheet_name(name, headings, act):
    table, _ = read(name, f"{headings}\n1/3/25|A1|5|x\n2/3/25|A1|5|x")

    assert (table.role, table.act) == ("log", act)


def test_totals_titles_and_the_example_are_passed_over_with_a_reason():
    table, _ = read(
        "Bins",
        "Bin|Species|Place|Founders\nExample 1|x|y|3\n== Rollers ==\nA1|scaber|top|10\nA2|laevis|low|12\n||TOTAL|22",
    )

    assert table.rows == (4, 5)
    assert table.passed_over == {2: "example row", 3: "a title between rows", 6: "totals row"}


def test_a_column_called_day_is_a_date_when_it_holds_dates():
    table, _ = read("Log", "Day|Bin|Done\n1/3/25|A1|water\n2/3/25|A1|feed\n3/3/25|A2|feed")
    other, _ = read("Log", "Date|Day|Bin|Done\n1/3/25|Sat|A1|water\n2/3/25|Sun|A1|feed")

    assert fields(table)[1] == "when"
    assert fields(other)[2] == "weekday"


def test_an_unknown_heading_with_values_is_named_and_an_empty_one_is_not():
    _, problems = read("Log", "Date|Bin|Done|Aura|Blank\n1/3/25|A1|water|blue|\n2/3/25|A1|feed|red|")

    assert [(str(p.where), p.code) for p in problems] == [("Log!D1", "headings.unknown")]


def test_a_guessed_heading_is_named():
    _, problems = read("Log", "Date|Bin|Speceis|Done\n1/3/25|A1|x|water\n2/3/25|A1|y|feed")

    assert [(str(p.where), p.code) for p in problems] == [("Log!C1", "headings.guessed")]


def test_a_sheet_named_after_ins_and_outs_is_of_no_one_kind_of_work():
    assert act_named("In and out", Lexicon()) == ""
    assert act_named("Sold", Lexicon()) == "animals_out"


def test_a_table_of_bins_without_dates_is_said_to_have_no_dates():
    table, problems = read("S", "Box|Done|Water\nA1|fed|\nA1|watered|20 ml\nA1|fed|\nA2|fed|\nA2|fed|")
    assert table.role == "unused"
    assert [one.facts["missing"] for one in problems if one.code == "tables.not_used"] == ["dates"]
