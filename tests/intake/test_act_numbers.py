import datetime as dt

import pytest

from workbook_tools.fields import LOG_FIELDS
from workbook_tools.intake.act_numbers import is_share
from workbook_tools.intake.amounts import Measures
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_choice import DateStyle
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.meanings import Context, Place, read_cell
from workbook_tools.intake.values import Amount, Number
from workbook_tools.problems import CellRef

FIELDS = {field.key: field for field in LOG_FIELDS}


def read(field, value, decimal="."):
    context = Context(DateStyle("dmy", True, dt.date(2025, 3, 20)), decimal, Measures(), Lexicon())
    facts, problems = read_cell(Cell(CellRef("S", 2, 3), value, str(value)), Place(FIELDS[field]), context)
    return facts, [(problem.code, problem.value) for problem in problems if problem.code != "words.guessed"]


def number(fact):
    value = fact.value.number if isinstance(fact.value, Amount) else fact.value
    return value.best if isinstance(value, Number) else value.keys


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("new soil 1/3", {"share": 1 / 3}),
        ("changed half the substrate", {"share": 0.5}),
        ("new soil, 50%", {"share": 0.5}),
        ("2 dead", {"dead": 2}),
        ("sold 12", {"number": 12}),
        ("counted 45, 3 mancas", {"number": 45, "young": ("yes",), "young_number": 3}),
        ("count: ~60", {"number": 60}),
        ("mist 40 ml", {"water": 40}),
        ("watered 40 ml, fed 1 g carrot, 3 dead", {"water": 40, "amount": 1, "dead": 3}),
        ("fed 3 pellets", {"amount": 3}),
        ("topped up leaves (2 L)", {"leaf": 2}),
        ("room 21 C 55%", {"temperature": 21, "humidity": 55}),
    ],
)
def test_a_number_in_a_text_of_acts_goes_where_it_belongs(text, told):
    facts, problems = read("did", text)

    assert {fact.field: number(fact) for fact in facts[1:]} == pytest.approx(told) if "young" not in told else told
    assert {fact.field for fact in facts[1:]} == set(told)
    assert problems == []


@pytest.mark.parametrize(
    ("text", "left"),
    [("fed, 4", "4"), ("feed + 0", "0"), ("count 1/3", "1/3"), ("moss 3", "3"), ("split 5, 2 g", "2 g")],
)
def test_a_number_that_belongs_to_nothing_done_is_named(text, left):
    facts, problems = read("did", text)

    assert problems == [("words.number_unplaced", left)]
    assert "moss" not in {fact.field for fact in facts}


@pytest.mark.parametrize("text", ["1/3", "0", "2", "3", "4"])
def test_a_lone_number_among_acts_is_never_a_sight(text):
    facts, problems = read("did", text)

    assert [fact.field for fact in facts] == ["did"]
    assert [code for code, _ in problems] == ["words.number_unplaced"]


@pytest.mark.parametrize("value", ["10-Dec", "50%", "1.5", 1.5, "-1", -5, "½", "12 Mai"])
def test_what_is_no_number_of_animals_is_named_and_not_used(value):
    facts, problems = read("number", value)

    assert (facts, [code for code, _ in problems]) == ([], ["numbers.impossible_count"])


@pytest.mark.parametrize("value", [1_000_001, 1e18, 1e300, "1000000000+", "5-2000000", "3000k"])
@pytest.mark.parametrize("field", ["number", "dead", "marked", "young"])
def test_more_animals_than_are_believed_are_named_and_not_used(field, value):
    facts, problems = read(field, value)

    assert [fact for fact in facts if isinstance(fact.value, Number)] == []
    assert [code for code, _ in problems] == ["numbers.too_many"]


def test_a_part_above_what_is_believed_is_named_too():
    assert read("number", "9 (9000000+1)") == ([], [("numbers.too_many", "9 (9000000+1)")])


@pytest.mark.parametrize("text", ["sold 2000000", "2000000 dead"])
def test_more_animals_than_are_believed_belong_to_nothing_done(text):
    facts, problems = read("did", text)

    assert [fact.field for fact in facts] == ["did"]
    assert [code for code, _ in problems] == ["words.number_unplaced"]


def test_more_heads_than_are_believed_are_no_amount():
    facts, problems = read("amount", "2000000 heads")

    assert (facts, [code for code, _ in problems]) == ([], ["numbers.too_many"])


@pytest.mark.parametrize("value", [1_000_000, "500000+", "999k"])
def test_the_most_that_is_believed_is_a_number(value):
    facts, problems = read("number", value)

    assert ([fact.field for fact in facts], problems) == (["number"], [])


@pytest.mark.parametrize(
    ("text", "best"), [("12 males", 12), ("1.200", 1200), ("1.5k", 1500), ("10-14", 12), ("~15", 15), ("30 may", None)]
)
def test_other_counts_stay_as_they_were(text, best):
    facts, _ = read("number", text)

    assert [number(fact) for fact in facts if fact.field == "number"] == ([] if best is None else [best])


def test_a_share_is_a_fraction_a_percentage_or_words():
    assert [text for text in ("1/3", "½", "50 %", "half", "2 l", "30", "1/2 l", "a handful") if is_share(text)] == [
        "1/3",
        "½",
        "50 %",
        "half",
    ]
