import datetime as dt

import pytest

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS
from workbook_tools.intake.amounts import Measures
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_choice import DateStyle
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.meanings import Context, Place, read_cell
from workbook_tools.intake.values import Amount, Number, When, Words
from workbook_tools.problems import CellRef
from workbook_tools.vocabulary.presence import SILENT, words_of

CONTEXT = Context(DateStyle("dmy", True, dt.date(2025, 3, 20)), ",", Measures(), Lexicon())
LOG = {field.key: field for field in LOG_FIELDS}
BINS = {field.key: field for field in BIN_FIELDS}


def read(field, value, unit="", near=None):
    text = f"{value:g}" if isinstance(value, float) else str(value)
    return read_cell(Cell(CellRef("S", 2, 3), value, text), Place(field, unit, near), CONTEXT)


def test_a_date_knows_its_cell():
    facts, problems = read(LOG["when"], "3/3/2025")

    assert (facts[0].value, str(facts[0].cell.ref), problems) == (
        When.on(dt.date(2025, 3, 3)),
        "S!C3".replace("3", "2"),
        [],
    )


def test_the_start_of_a_bin_may_be_a_month():
    facts, _ = read(BINS["started"], "Jan 23")

    assert facts[0].value.first == dt.date(2023, 1, 1)
    assert facts[0].value.last == dt.date(2023, 1, 31)


@pytest.mark.parametrize(
    ("value", "time"),
    [("18:30", dt.time(18, 30)), ("6.05 pm", dt.time(18, 5)), ("12:00 am", dt.time(0)), (dt.time(7), dt.time(7))],
)
def test_a_time_of_day_is_read(value, time):
    facts, problems = read(LOG["time"], value)

    assert ([fact.value for fact in facts], problems) == ([time], [])


@pytest.mark.parametrize("value", ["25:00", "evening", "7:99"])
def test_what_is_no_time_is_named(value):
    facts, problems = read(LOG["time"], value)

    assert (facts, [p.code for p in problems]) == ([], ["dates.not_a_time"])


def test_the_unit_of_the_heading_counts_where_the_cell_has_none():
    plain, _ = read(LOG["amount"], 2.0, unit="ml")
    own, _ = read(LOG["amount"], "2 l", unit="ml")

    assert [plain[0].value.unit, own[0].value.unit] == ["ml", "l"]


def test_a_count_keeps_its_way():
    facts, _ = read(LOG["number"], "34 under bark")

    assert {fact.field: fact.value for fact in facts} == {"number": Number.exactly(34), "way": "under bark"}


def test_several_acts_stand_in_one_cell_and_unknown_words_are_named():
    facts, problems = read(LOG["did"], "mist+feed, swept floor")

    assert facts[0].value == Words(("water", "feed"))
    assert [(p.code, p.value) for p in problems] == [("words.unknown", "swept floor")]


def test_an_unknown_sight_keeps_its_cell_and_text():
    facts, problems = read(LOG["moss"], "like a mermaid")

    assert (facts[0].value, facts[0].text) == (Words(()), "like a mermaid")
    assert [p.code for p in problems] == ["words.unknown"]


@pytest.mark.parametrize("field", ["bins", "food", "note", "did", "moss", "when", "number", "amount", "share"])
@pytest.mark.parametrize("mark", sorted(words_of(*SILENT) - {""}))
def test_a_mark_for_nothing_is_never_a_value(field, mark):
    facts, _ = read(LOG[field], mark)

    assert [fact for fact in facts if fact.value is not False] == []


@pytest.mark.parametrize(("value", "word"), [(12.0, "yes"), (0.0, "no"), ("yes!!", "yes"), ("n", "no"), (True, "yes")])
def test_mancas_may_be_a_word_or_a_number(value, word):
    facts, _ = read(LOG["young"], value)

    assert facts[0].value == Words((word,))


def test_a_percentage_of_substrate_is_a_share_and_a_bare_number_is_not_guessed():
    share, _ = read(LOG["substrate"], "40 %")
    bare, problems = read(LOG["substrate"], 7.0)

    assert [fact.field for fact in share] == ["substrate", "recognisable"]
    assert share[1].value.number.best == pytest.approx(0.4)
    assert bare[0].value == Words(())
    assert [p.code for p in problems] == ["words.number_for_state"]


def test_humidity_and_shares_are_told_apart():
    humid, _ = read(LOG["humidity"], "55%")
    share, _ = read(LOG["share"], "1/3")

    assert isinstance(humid[0].value, Amount)
    assert (humid[0].value.unit, humid[0].value.number.best) == ("percent", 55)
    assert share[0].value.number.best == pytest.approx(1 / 3)


@pytest.mark.parametrize(("value", "time"), [(0.25, dt.time(6)), (0.75, dt.time(18)), (0.0, dt.time(0))])
def test_a_time_kept_as_a_part_of_a_day(value, time):
    assert read(LOG["time"], value)[0][0].value == time


def test_a_number_of_a_day_or_more_is_no_time():
    facts, problems = read(LOG["time"], 12.5)
    assert (facts, [p.code for p in problems]) == ([], ["dates.not_a_time"])


@pytest.mark.parametrize("text", ["dry→damp", "dry -> wet", "dry => damp"])
def test_of_before_and_after_a_sight_is_what_was_found(text):
    facts, problems = read(LOG["moss"], text)

    assert (facts[0].value, [p.code for p in problems]) == (Words(("dry",)), ["words.before_after"])


def test_before_and_after_in_unknown_words_is_not_guessed():
    facts, problems = read(LOG["moss"], "grey→green")

    assert (facts[0].value, [p.code for p in problems]) == (Words(()), ["words.unknown"])


@pytest.mark.parametrize(("value", "unit", "best"), [("3 L", "l", 3), ("40 g", "g", 40), ("250 ml", "ml", 250)])
def test_what_is_measured_is_no_number_of_animals(value, unit, best):
    facts, problems = read(LOG["number"], value)

    assert [(fact.field, fact.value.unit, fact.value.number.best) for fact in facts] == [("amount", unit, best)]
    assert [problem.code for problem in problems] == ["numbers.measured"]


@pytest.mark.parametrize("value", ["25", "25ct", "12 ad", "12 m", "30 adults"])
def test_animals_are_a_number_whatever_stands_behind(value):
    facts, _ = read(LOG["number"], value)

    assert facts[0].field == "number"


@pytest.mark.parametrize("value", ["2 bags", "1 tub", "3 jars"])
def test_things_are_no_number_of_animals(value):
    facts, problems = read(LOG["number"], value)

    assert (facts, [problem.code for problem in problems]) == ([], ["numbers.of_things"])


def test_grams_are_no_water_but_the_amount_of_what_was_done():
    facts, problems = read(LOG["water"], "2 g")
    asked_in_grams, _ = read(LOG["water"], 30.0, unit="g")

    assert [(fact.field, fact.value.unit) for fact in facts] == [("amount", "g")]
    assert [problem.code for problem in problems] == ["amounts.weight_no_water"]
    assert asked_in_grams[0].field == "water"


@pytest.mark.parametrize("value", ["lots", "loads!", "many"])
def test_words_for_any_large_number_are_no_count(value):
    facts, problems = read(LOG["number"], value)

    assert (facts, [problem.code for problem in problems]) == ([], ["numbers.no_size"])


def test_a_word_for_a_number_is_named_with_its_range():
    facts, problems = read(LOG["number"], "dozens")

    assert facts[0].guessed
    assert [(problem.code, problem.facts["low"], problem.facts["high"]) for problem in problems] == [
        ("numbers.from_word", "24", "100")
    ]


@pytest.mark.parametrize(
    ("text", "left"),
    [("80% eaten", "some"), ("20% eaten", "most"), ("1/4 eaten", "most"), ("100% eaten", "gone"), ("eaten", "gone")],
)
def test_a_share_eaten_leaves_the_rest(text, left):
    facts, _ = read(LOG["leftovers"], text)

    assert [fact.value for fact in facts] == [Words((left,))]


@pytest.mark.parametrize(("unit", "grams"), [("g", 4), ("kg", 4000)])
def test_a_number_under_food_with_a_unit_is_how_much_was_fed(unit, grams):
    facts, _ = read(LOG["food"], 4.0, unit=unit)

    assert (facts[0].field, facts[0].value) == ("did", Words(("feed",)))
    assert (facts[1].field, facts[1].value.unit, facts[1].value.number.best) == ("amount", "g", grams)
