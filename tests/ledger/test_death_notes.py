import datetime as dt

import pytest

from tools.rows import bin_row, log_row, number, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.checks import check
from workbook_tools.ledger.death_notes import death_notes, speaks_of_death

ON = dt.date(2026, 3, 10)


def of(*rows):
    return build_ledger([bin_row("A1"), *rows], settings(), on=ON)[0]


@pytest.mark.parametrize("text", ["2 dead", "all died, mites", "2 doa", "found a corpse", "3 more deaths :("])
def test_notes_that_speak_of_death(text):
    assert speaks_of_death(text)


@pytest.mark.parametrize(
    "text",
    [
        "none dead",
        "no more deaths",
        "fed dead leaves",
        "dead moss removed",
        "the moss is dead",
        "playing dead",
        "not dead",
        "springtails all dead",
        "lid a bit foggy",
        "dead?",
        "",
    ],
)
def test_notes_that_do_not(text):
    assert not speaks_of_death(text)


def test_notes_of_rows_that_log_no_death_are_named_in_one_problem():
    ledger = of(
        log_row("2026-03-01", "A1", "water", note="2 dead", at=4),
        log_row("2026-03-02", "A1", "dead", dead=number(3), note="3 dead by the cork", at=5),
        log_row("2026-03-03", "A1", "look", note="all died, mites", at=6),
        log_row("2026-03-20", "A1", "look", note="1 dead", at=7),
    )
    assert [entry.where.row for entry in death_notes(ledger, ON).values()] == [4, 6]
    (problem,) = [one for one in check(ledger, ON) if one.code == "entries.deaths_in_notes"]
    assert ([cell.row for cell in problem.cells], problem.facts["rows"]) == ([4, 6], "2 rows")
