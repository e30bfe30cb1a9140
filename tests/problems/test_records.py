import re

import pytest

from workbook_tools.problems import KINDS, CellRef, Problem, Severity, column_letters, in_cell_order, merged
from workbook_tools.problems.records import MANY


@pytest.mark.parametrize(
    ("col", "letters"), [(1, "A"), (26, "Z"), (27, "AA"), (702, "ZZ"), (703, "AAA"), (16384, "XFD")]
)
def test_columns_are_lettered_as_a_spreadsheet_does(col, letters):
    assert column_letters(col) == letters


def test_columns_below_one_are_refused():
    with pytest.raises(ValueError, match="count from 1"):
        column_letters(0)


@pytest.mark.parametrize(
    ("ref", "text"),
    [
        (CellRef("Log", 14, 3), "Log!C14"),
        (CellRef("Log", 14), "Log!14"),
        (CellRef("Log", 0, 3), "Log!C"),
        (CellRef("Log"), "Log"),
        (CellRef(""), ""),
    ],
)
def test_a_cell_is_written_with_its_sheet(ref, text):
    assert str(ref) == text


def test_a_problem_takes_exactly_the_facts_of_its_kind():
    with pytest.raises(ValueError, match="takes the facts"):
        Problem("headings.guessed", CellRef("Log", 1, 1), {"heading": "x"})
    with pytest.raises(KeyError):
        Problem("no.such_kind", CellRef("Log"))


def test_a_problem_reads_as_cell_fault_remedy():
    problem = Problem("headings.guessed", CellRef("Log", 1, 3), {"heading": "Speceis", "field": "Species"})

    assert str(problem) == (
        "Log!C1: The heading 'Speceis' was taken for 'Species'. "
        "Nothing, if that is right; otherwise say what it is in the reading workbook that check writes."
    )


def test_the_same_problem_in_several_cells_is_one():
    facts = {"word": "zork", "field": "Done"}
    problems = [Problem("words.unknown", CellRef("Log", row, 4), facts, "zork") for row in (9, 3, 9)]
    other = Problem("words.unknown", CellRef("Log", 5, 4), {**facts, "word": "blip"}, "blip")

    found = merged([*problems, other])

    assert [p.cells for p in found] == [(CellRef("Log", 9, 4), CellRef("Log", 3, 4)), (CellRef("Log", 5, 4),)]


def test_many_different_problems_of_a_kind_in_a_column_are_one_that_names_every_cell():
    def serials(count):
        return [
            Problem(
                "dates.serial", CellRef("Log", row, 1), {"value": 45700 + row, "day": f"day {row}"}, str(45700 + row)
            )
            for row in range(2, 2 + count)
        ]

    (one,) = merged(serials(MANY + 1))

    assert one.count == MANY + 1
    assert one.cells == tuple(CellRef("Log", row, 1) for row in range(2, 3 + MANY))
    assert one.says.startswith(f"{MANY + 1} plain numbers") and "45702 for day 2" in one.says
    assert len(merged(serials(MANY))) == MANY
    assert merged([one]) == [one]


def test_problems_sort_by_cell():
    facts = {"word": "x", "field": "Done"}
    late, early = (Problem("words.unknown", CellRef("Log", row, 4), facts) for row in (9, 3))

    assert in_cell_order([late, early]) == [early, late]


@pytest.mark.parametrize("code", KINDS)
def test_every_kind_says_what_is_wrong_and_what_to_do(code):
    kind = KINDS[code]

    assert isinstance(kind.severity, Severity)
    assert kind.says.endswith((".", "?", "}")) and kind.fix.endswith(".")
    assert kind.says[0].isupper() or kind.says[0] in "{'"
    if kind.many:
        assert "{count}" in kind.many and "{examples}" in kind.many
        facts = dict.fromkeys(kind.gaps, "x")
        assert kind.example.format(**{**facts, "value": "v"})


NOT_USED = re.compile(r"not used|row was left out|without (it|them)\b")


def test_what_is_said_not_to_be_used_is_not_called_used_as_stated():
    unused = {code for code, kind in KINDS.items() if NOT_USED.search(f"{kind.says} {kind.many}")}

    assert len(unused) > 10
    assert {code for code in unused if KINDS[code].severity is Severity.KEPT} == set()
