import pytest

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.decimals import judge_decimal, value_of
from workbook_tools.problems import CellRef


def cells(*values):
    return [Cell(CellRef("Log", row, 2), value, str(value)) for row, value in enumerate(values, start=2)]


@pytest.mark.parametrize(
    ("texts", "mark"),
    [
        (["21,5"], ","), (["1.200,50"], ","), (["5.7 l"], "."), (["1,200.50"], "."), (["0.500"], "."),
        (["1,234"], ""), (["12 (10+2)"], ""), (["3/4", "10-14"], ""), (["1.2.2025"], ""), ([], ""),
    ],
)  # fmt: skip
def test_the_mark_that_texts_show(texts, mark):
    verdict = judge_decimal(texts)
    assert (verdict.decimal, verdict.sure) == (mark, bool(mark))


def test_the_evidence_is_a_cell_and_numbers_of_the_file_say_nothing():
    verdict = judge_decimal([cells(5.5, "21,5", 3.25)])
    assert (verdict.decimal, str(verdict.evidence)) == (",", "Log!B3")


def test_both_marks_are_a_problem_that_names_the_rarer():
    verdict = judge_decimal([cells("21,5", "20,5", "5.7")])
    assert (verdict.decimal, verdict.sure) == ("", False)
    assert [(problem.code, str(problem.where)) for problem in verdict.problems] == [("numbers.decimal_mixed", "Log!B4")]


@pytest.mark.parametrize(
    ("digits", "decimal", "value", "is_open"),
    [
        ("1234", "", 1234, False), ("1.234", "", 1.234, True), ("1,234", "", 1234, True), ("1.234", ",", 1234, False),
        ("12.34", ",", 12.34, False), ("1.234.567", "", 1234567, False), ("1'234", "", 1234, False),
        ("0,500", ".", 0.5, False), ("1234.567", ",", 1234.567, False),
    ],
)  # fmt: skip
def test_digits_with_marks(digits, decimal, value, is_open):
    assert value_of(digits, decimal) == (value, is_open)
