import dataclasses
import datetime as dt

import pytest

from tools.report_sample import ON, fact, sample
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.values import Amount, Fact, Number, When, Words
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.plan.records import Task
from workbook_tools.problems import CellRef, Problem
from workbook_tools.report.export.tables import HEADINGS, tidy_tables


def rows(findings, name):
    """The rows of a table by heading."""
    table = next(table for table in tidy_tables(findings) if table.name == name)
    return [dict(zip(table.headings, row, strict=True)) for row in table.rows]


def of(bins=(), entries=()):
    return dataclasses.replace(sample(), ledger=Ledger({bin.name: bin for bin in bins}, tuple(entries)))


def one(key, value, text="as written", guessed=False):
    return Fact(key, value, Cell(CellRef("Log", 7, 3), text, text), guessed)


def line(*facts):
    """The first line of an entry with these facts."""
    entry = Entry("water", When.on(ON), ("A1",), CellRef("Log", 7), {fact.field: fact for fact in facts})
    return rows(of(entries=[entry]), "entries")[0]


def test_columns_are_those_that_were_agreed():
    assert {name: ",".join(headings) for name, headings in HEADINGS.items()} == {
        "bins": "bin,field,value,low,high,unit,guessed,sheet,cell,text",
        "entries": "entry,act,first_day,last_day,bin,field,value,low,high,unit,guessed,sheet,cell,text",
        "problems": "kind,severity,sheet,cell,read,what,do",
        "tasks": "bin,task,due,days,last_done,why,rests_on",
        "estimates": "bin,quantity,middle,low,high,unit,rests_on,notes",
    }


def test_every_row_is_as_wide_as_the_headings():
    for table in tidy_tables(sample()):
        assert table.rows
        assert {len(row) for row in table.rows} == {len(table.headings)}


@pytest.mark.parametrize(
    ("value", "shown", "low", "high", "unit"),
    [
        (Amount(Number(35.0, 30.0, 40.0), "ml"), 35.0, 30.0, 40.0, "ml"),
        (Amount(Number.exactly(0.25), "share"), 0.25, None, None, "share"),
        (Number(30.0, 30.0, float("inf")), 30.0, 30.0, None, None),
        (Number.exactly(12.0), 12.0, None, None, None),
        (When.on(dt.date(2026, 2, 3)), dt.date(2026, 2, 3), None, None, None),
        (When.on(dt.date(2026, 2, 3), dt.time(18, 5)), dt.datetime.fromisoformat("2026-02-03T18:05"), None, None, None),
        (
            When(dt.date(2026, 2, 1), dt.date(2026, 2, 27)),
            dt.date(2026, 2, 14),
            dt.date(2026, 2, 1),
            dt.date(2026, 2, 27),
            None,
        ),
        (Words(("mites", "gnats")), "mites; gnats", None, None, None),
        (Words(()), "", None, None, None),
        ("carrot", "carrot", None, None, None),
        (False, False, None, None, None),
        (dt.time(7, 30), dt.time(7, 30), None, None, None),
    ],
)
def test_a_value_is_plain_and_its_ends_stand_only_where_it_is_uncertain(value, shown, low, high, unit):
    found = line(one("food", value))
    assert (found["value"], found["low"], found["high"], found["unit"]) == (shown, low, high, unit)
    assert (found["sheet"], found["cell"], found["text"]) == ("Log", "C7", "as written")


@pytest.mark.parametrize(
    ("fact", "guessed"),
    [
        (one("water", Amount(Number.exactly(30.0), "ml")), False),
        (one("water", Amount(Number.exactly(30.0), "ml"), guessed=True), True),
        (one("water", Amount(Number.exactly(30.0), "ml", "cup", guessed=True)), True),
        (one("when", When.on(ON, guessed=True)), True),
        (one("dead", Number.exactly(2.0)), False),
    ],
)
def test_a_guess_is_marked_wherever_it_was_made(fact, guessed):
    assert line(fact)["guessed"] is guessed


def test_a_ditto_mark_is_filled_in_but_the_text_is_the_keepers():
    found = line(one("food", "courgette", text='"'))
    assert (found["value"], found["text"]) == ("courgette", '"')


def test_an_entry_of_several_bins_has_a_line_for_each_fact_and_bin_under_one_number():
    facts = {"water": one("water", Amount(Number.exactly(40.0), "ml")), "did": one("did", Words(("water",)))}
    both = Entry("water", When.on(ON), ("A1", "B2"), CellRef("Log", 7), facts)
    room = Entry("room", When.on(ON), (), CellRef("Log", 8), {"temperature": one("temperature", Number.exactly(21.0))})
    found = [(row["entry"], row["bin"], row["field"], row["value"]) for row in rows(of((), [both, room]), "entries")]
    assert found == [
        (1, "A1", "water", 40.0),
        (1, "A1", "did", "water"),
        (1, "B2", "water", 40.0),
        (1, "B2", "did", "water"),
        (2, None, "temperature", 21.0),
    ]


def test_a_further_fact_of_a_field_keeps_its_number():
    first, second = one("water", Amount(Number.exactly(40.0), "ml")), one("water", Amount(Number.exactly(5.0), "ml"))
    entry = Entry("water", When.on(ON), ("A1",), CellRef("Log", 7), {"water": first, "water.2": second})
    assert [row["field"] for row in rows(of((), [entry]), "entries")] == ["water", "water.2"]


def test_days_of_an_entry_are_its_first_and_last_and_empty_where_it_has_none():
    month = Entry("leaf", When(dt.date(2026, 2, 1), dt.date(2026, 2, 28)), ("A1",), CellRef("Log", 4))
    undated = Entry("count", None, ("A1",), CellRef("Bins", 9))
    found = [(row["first_day"], row["last_day"]) for row in rows(of((), [undated, month]), "entries")]
    assert found == [(None, None), (dt.date(2026, 2, 1), dt.date(2026, 2, 28))]


def test_what_has_no_facts_has_one_line_with_its_place():
    entry = Entry("calcium", When.on(ON), ("A1", "A2"), CellRef("Log", 4))
    findings = of([Bin("Z9", CellRef("Log", 31, 2), listed=False)], [entry])
    bare = dict.fromkeys(("field", "value", "low", "high", "unit", "guessed", "text"))
    day = {"first_day": ON, "last_day": ON}
    assert rows(findings, "bins") == [{**bare, "bin": "Z9", "sheet": "Log", "cell": "B31"}]
    assert rows(findings, "entries") == [
        {**bare, **day, "entry": 1, "act": "calcium", "bin": bin, "sheet": "Log", "cell": "4"} for bin in ("A1", "A2")
    ]


def test_facts_of_a_bin_stand_in_the_keepers_order():
    facts = {
        "species": fact("species", "Porcellio scaber", 5, 2),
        "founders": fact("founders", Number(20, 15, 25), 5, 9),
    }
    found = rows(of([Bin("B1", CellRef("Bins", 5), facts), Bin("A1", CellRef("Bins", 6))]), "bins")
    assert [(row["bin"], row["field"], row["low"], row["cell"]) for row in found] == [
        ("B1", "species", None, "B5"),
        ("B1", "founders", 15, "I5"),
        ("A1", None, None, "6"),
    ]


def test_a_problem_has_a_line_for_each_cell_or_range():
    cells = (CellRef("Log", 5, 3), CellRef("Log", 6, 3), CellRef("Log", 9, 3), CellRef("Feeding", 12))
    stray = Problem("words.unknown", CellRef("Log", 4, 3), {"word": "zork", "field": "Done"}, "zork", cells)
    whole = Problem("csv.encoding", CellRef("Bins"))
    found = rows(sample(problems=(stray, whole)), "problems")
    assert [(row["kind"], row["sheet"], row["cell"]) for row in found] == [
        ("words.unknown", "Feeding", "12"),
        ("words.unknown", "Log", "C4:C6"),
        ("words.unknown", "Log", "C9"),
        ("csv.encoding", "Bins", ""),
    ]
    assert {(row["severity"], row["read"], row["what"], row["do"]) for row in found[:3]} == {
        ("cell not used", "zork", stray.says, stray.fix)
    }


def test_a_task_names_every_row_it_rests_on_with_its_sheet():
    rests_on = (CellRef("Log", 7), CellRef("Log", 8), CellRef("Log", 20), CellRef("Bins", 3, 4))
    task = Task("A1", "", "", "moss", "Look at moss corner", ON, 0, "Watered.", None, rests_on)
    assert rows(sample(tasks=(task, dataclasses.replace(task, rests_on=()))), "tasks") == [
        {
            "bin": "A1",
            "task": "moss",
            "due": ON,
            "days": 0,
            "last_done": None,
            "why": "Watered.",
            "rests_on": said,
        }
        for said in ("Bins!D3; Log!7:8; Log!20", "")
    ]
