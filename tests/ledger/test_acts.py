import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tools.rows import amount, day, log_row, ml, number, words
from workbook_tools.fields import ACTS
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.values import Fact, Number
from workbook_tools.ledger.acts import ACT_FACTS, AMOUNT_UNITS, NUMBER_ACTS, acts_of, flat, says_something
from workbook_tools.ledger.records import said
from workbook_tools.problems import CellRef


def acts(*args, **fields):
    return [act for act, _ in acts_of(log_row("2026-03-01", "A1", *args, **fields)).acts]


def codes(row):
    return [problem.code for problem in acts_of(row).problems]


def test_tables_name_known_acts():
    assert {*ACT_FACTS, *AMOUNT_UNITS, *NUMBER_ACTS} <= set(ACTS)


def test_acts_are_those_named_then_those_implied():
    assert acts("water+feed", moss=words("damp"), food="courgette", leaf=amount(0.5, "l")) == [
        "water",
        "feed",
        "moss",
        "leaf",
    ]


def test_act_of_the_table_comes_first():
    assert acts(act="feed", leftovers=words("gone")) == ["feed", "leftovers"]


def test_table_of_one_kind_of_work_records_nothing_when_its_own_column_says_none():
    assert acts(act="feed", food="-") == ["note"]
    assert acts(act="feed", food="-", amount=amount(2, "g")) == ["feed"]


@pytest.mark.parametrize(
    "fields",
    [
        {"water": False},
        {"water": ml(0)},
        {"food": "-"},
        {"food": "No"},
        {"young": words("no")},
        {"young": words("unknown")},
        {"calcium": False},
        {"dead": number(0)},
    ],
    ids=str,
)
def test_a_cell_that_says_no_implies_no_act(fields):
    assert acts(**fields) == ["note"]


def test_no_dead_is_no_death_but_a_look():
    assert acts("dead", dead=number(0)) == ["look"]
    assert acts("dead", dead=number(2)) == ["dead"]
    assert acts("dead") == ["dead"]


def test_number_counts_unless_animals_were_moved():
    assert acts(number=number(30)) == ["count"]
    assert acts("animals_out", number=number(30)) == ["animals_out"]
    assert acts("trap", number=number(3)) == ["trap"]


def test_number_beside_words_that_name_no_act_is_no_count():
    row = log_row("2026-03-01", "A1", words(), number=number(5))
    assert [act for act, _ in acts_of(row).acts] == ["note"]
    assert acts_of(row).acts[0][1]["number"].value.best == 5
    assert codes(row) == ["entries.number_of_nothing"]
    assert acts(words(), act="count", number=number(5)) == ["count"]


@pytest.mark.parametrize("unit", ["", "count"])
@pytest.mark.parametrize("did", ["count", "split", "start"])
def test_number_of_animals_in_the_column_of_amounts_is_their_number(did, unit):
    row = log_row("2026-03-01", "A1", did, amount=amount(200, unit))
    ((act, facts),) = acts_of(row).acts
    assert (act, facts["number"].value.best, facts["number"].cell.ref.col) == (did, 200, 4)
    assert codes(row) == []


def test_amount_that_is_no_number_of_animals_stays_an_amount():
    assert codes(log_row("2026-03-01", "A1", "count", amount=ml(50))) == [
        "entries.count_no_number",
        "entries.amount_of_nothing",
    ]
    ((_, fed), (_, looked)) = acts_of(log_row("2026-03-01", "A1", "feed+count", amount=amount(2, "count"))).acts
    assert "amount" in fed
    assert "number" not in looked


def test_count_without_number_is_a_look_and_named():
    row = log_row("2026-03-01", "A1", "count")
    assert [act for act, _ in acts_of(row).acts] == ["look"]
    assert codes(row) == ["entries.count_no_number"]


def test_number_that_could_belong_to_two_goes_to_the_first_and_is_named():
    row = log_row("2026-03-01", "A1", "animals_out+animals_in", number=number(10))
    found = dict(acts_of(row).acts)
    assert "number" in found["animals_out"]
    assert "number" not in found["animals_in"]
    assert codes(row) == ["entries.number_of_which"]


@pytest.mark.parametrize(
    ("did", "value", "owner", "code"),
    [
        ("water+feed", ml(40), "water", []),
        ("water+feed", amount(2, "g"), "feed", []),
        ("feed+leaf", amount(0.5, "l"), "leaf", []),
        ("feed+calcium", amount(1, "g"), "feed", ["entries.amount_of_which"]),
        ("water", amount(3, "g"), "water", ["entries.amount_unit"]),
        ("look", amount(3, "g"), "look", ["entries.amount_of_nothing"]),
    ],
)
def test_amount_goes_to_the_act_that_its_unit_fits(did, value, owner, code):
    row = log_row("2026-03-01", "A1", did, amount=value)
    owners = [act for act, facts in acts_of(row).acts if "amount" in facts]
    assert owners == [owner]
    assert codes(row) == code


def test_amount_leaves_an_act_with_an_amount_of_its_own():
    row = log_row("2026-03-01", "A1", "leaf+calcium", leaf=amount(5, "g"), amount=amount(2, "g"))
    assert [act for act, facts in acts_of(row).acts if "amount" in facts] == ["calcium"]


def test_share_without_an_act_is_a_change_of_substrate():
    assert acts(share=amount(0.5, "share")) == ["substrate_change"]


def test_unknown_words_are_kept_as_a_note():
    row = log_row("2026-03-01", "A1", did=words())
    assert [act for act, _ in acts_of(row).acts] == ["note"]


def test_of_two_columns_of_one_field_the_one_that_says_something_leads():
    row = log_row("2026-03-01", "A1", leaf=(amount(0, "l"), amount(2, "l")), note=("first", "second"))
    facts = flat(row.facts)
    assert facts["leaf"].text == "2 l"
    assert facts["leaf.2"].text == "0 l"
    assert facts["note.2"].text == "second"


def test_lower_bound_of_nothing_says_nothing():
    cell = Cell(CellRef("Log", 2, 1), "", "0")
    assert not says_something(Fact("dead", Number(0, 0, 0), cell))
    assert says_something(Fact("dead", Number(1, 0, 2), cell))
    assert says_something(Fact("number", Number(0, 0, 0), cell))


FIELDS = {
    "amount": st.sampled_from([ml(10), amount(2, "g"), amount(1, "l"), amount(3, "count")]),
    "moss": st.sampled_from([words("dry"), words("wet"), words()]),
    "food": st.sampled_from(["courgette", "-", ""]),
    "number": st.integers(0, 500).map(number),
    "dead": st.integers(0, 3).map(number),
    "share": st.just(amount(0.3, "share")),
    "note": st.just("lid"),
    "look_again": st.just(day("2026-03-09")),
    "time": st.just(dt.time(9)),
}


@given(
    did=st.lists(st.sampled_from(sorted(ACTS)), max_size=3, unique=True),
    fields=st.fixed_dictionaries({}, optional=FIELDS),
)
def test_every_fact_of_a_row_lands_in_an_entry(did, fields):
    row = log_row("2026-03-01", "A1", "+".join(did), **fields)
    taken = acts_of(row).acts
    assert taken
    kept = {fact.cell.ref for _, facts in taken for fact in facts.values()}
    assert kept == {fact.cell.ref for facts in row.facts.values() for fact in facts}
    assert len({act for act, _ in taken}) == len(taken)


@pytest.mark.parametrize(
    ("did", "went"), [("substrate_change+freeze", "freezer"), ("substrate_change+discard", "thrown away")]
)
def test_what_was_done_with_the_old_substrate_says_where_it_went(did, went):
    acts = dict(acts_of(log_row("2026-03-01", "A1", did)).acts)
    assert said(acts["substrate_change"]["old_went"]) == went
    own = dict(acts_of(log_row("2026-03-01", "A1", did, old_went="tub")).acts)
    assert said(own["substrate_change"]["old_went"]) == "tub"
    assert "old_went" not in dict(acts_of(log_row("2026-03-01", "A1", "freeze")).acts)["freeze"]
