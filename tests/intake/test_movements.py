"""Rows of an in-and-out book."""

import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.values import Number
from workbook_tools.problems import KINDS, Severity

HEADS = "Date|In/Out|What|Qty|From|To|Bin before|Bin after|Waste litres|Frozen from"


def read(line, heads=HEADS):
    intake, problems = read_book(book(sheet("Book", f"{heads}\n13.1.2025|{line}")), dt.date(2025, 3, 20))
    values = {
        key: facts[0].value.keys if hasattr(facts[0].value, "keys") else facts[0].value
        for key, facts in intake.rows[0].facts.items()
    }
    return values, [one.code for one in problems if not one.code.startswith("headings.")]


def test_animals_come_into_the_bin_after():
    values, _ = read("in|isopods|15|swap|||A1")
    assert (values["did"], values["bins"], values["from_bin"]) == (("animals_in",), "A1", "swap")
    assert values["number"] == Number.exactly(15)


def test_animals_go_out_of_the_bin_before():
    values, _ = read("out|isopods|12 + 3||Jo|A1|")
    assert (values["did"], values["bins"], values["to_bin"]) == (("animals_out",), "A1", "Jo")
    assert values["number"] == Number(15, 15, 15, (12, 3))


def test_from_bin_to_bin():
    values, problems = read("bin to bin|isopods|30|shelf|desk|A1|A3")
    assert (values["did"], values["bins"]) == (("animals_out",), "A1")
    assert (values["from_bin"], values["to_bin"], problems) == ("A1", "A3", ["words.guessed"])


@pytest.mark.parametrize(("written", "number"), [("4.6", 10), ("4.6.2", 12), ("25ct", 25)])
def test_males_and_females_and_heads_are_numbers_of_animals(written, number):
    values, problems = read(f"out|isopods|{written}|||A1|")
    assert values["number"].best == number
    assert problems == (["numbers.sexes"] if "." in written else [])


def test_a_ratio_is_no_date_and_no_number():
    values, problems = read("out|isopods|14/15|||A1|")
    assert "number" not in values
    assert "amount" not in values
    assert problems == ["numbers.ratio"]


@pytest.mark.parametrize("thing", ["oak leaves", "springtails", "2 bags of leaf litter", "a box of old soil"])
def test_what_is_no_animal_moves_none(thing):
    values, problems = read(f"in|{thing}|12|shop|||A1")
    assert (values["did"], "number" in values, problems) == (("note",), False, ["moves.no_animals"])


def test_what_is_left_out_as_no_animal_needs_the_keeper():
    assert KINDS["moves.no_animals"].severity is Severity.DROPS_CELL


@pytest.mark.parametrize("thing", ["bark", "two pieces of moss", "chalk"])
def test_what_may_be_a_name_too_is_a_thing_without_a_bin_or_a_number(thing):
    for line in (f"in|{thing}|12|shop||||", f"in|{thing}||shop|||A1"):
        values, problems = read(line)
        assert (values["did"], problems) == (("note",), ["moves.no_animals"])


@pytest.mark.parametrize("thing", ["Bark", "Chalk"])
def test_what_may_be_a_name_is_animals_where_a_bin_and_a_number_stand_and_is_named(thing):
    values, problems = read(f"in|{thing}|12|shop|||A1")
    assert (values["did"], values["number"].best, problems) == (("animals_in",), 12, ["moves.thing_or_animals"])


@pytest.mark.parametrize(
    "thing",
    [
        "isopods in moss",
        "Marble Hoppers",
        "adults",
        "20 Dairy Cow in culture box",
        "Powder Orange starter tub",
        "Cork Skirts on leaf litter",
        "two tubs",
    ],
)
def test_any_other_thing_is_animals(thing):
    values, problems = read(f"in|{thing}|12|shop|||A1")
    assert (values["did"], values["number"].best, problems) == (("animals_in",), 12, [])


def test_waste_is_thrown_away_unless_it_went_into_the_freezer():
    values, problems = read("waste|old soil||||A1||3|")
    assert (values["did"], values["amount"].number.best, problems) == (("discard",), 3, [])
    values, problems = read("waste|old soil||||A1||3|12.1.2025")
    assert (values["did"], values["when"].first, problems) == (("freeze",), dt.date(2025, 1, 12), ["moves.frozen"])


def test_without_columns_of_bins_from_and_to_say_which():
    heads = "Date|Movement|From|To|How many"
    assert read("in|club|A1|5", heads)[0]["bins"] == "A1"
    assert read("out|A1|Jo|5", heads)[0]["bins"] == "A1"


def test_what_is_no_animal_is_noted_for_the_bin_it_came_into():
    heads = "Date|In/Out|From|To|What|How many"
    values, _ = read("in|garden|A3|leaves|2 bags", heads)
    assert (values["bins"], values["did"]) == ("A3", ("note",))
    values, _ = read("out|A3|Jo|leaves|2 bags", heads)
    assert values["bins"] == "A3"
