from tools.report_sample import sample
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef, Problem
from workbook_tools.report.sheets.reading import PROBLEM_COLUMNS, answer, problem_lines, sheet


def values(findings, name):
    table = next(table for table in sheet(findings).tables if table.name == name)
    return [[column.get(row) for column in table.columns] for row in table.rows]


def no_date(row, *more):
    return Problem("entries.no_date", CellRef("Log", row, 1), {}, "?", tuple(CellRef("Log", r, 1) for r in more))


def test_problem_headings_begin_as_agreed():
    headings = [column.heading for column in PROBLEM_COLUMNS]
    assert headings[:4] == ["Cell", "What was read", "What is wrong", "What to do"]


def test_first_line_counts_rows_and_problems():
    assert answer(sample(), Wording("en-GB")) == (
        "1,238 of 1,240 rows used; 8 problems need you; 1 more used as stated, worth a look."
    )
    assert answer(sample(problems=(no_date(4),)), Wording("en-GB")).endswith("; 1 problem needs you.")


def test_what_was_left_out_comes_first_then_by_cell():
    severities = [line.problem.severity.name for line in problem_lines(sample())]
    assert severities == sorted(severities, key=("STOPS", "DROPS_ROW", "DROPS_CELL", "KEPT").index)


def test_a_problem_of_many_cells_names_the_first_and_lists_all():
    (line,) = problem_lines(sample(problems=(no_date(14, 15, 16, 20),)))
    assert (line.cell, line.all_cells) == ("Log!A14 and 3 more", "Log!A14:A16, A20")


def test_very_many_cells_go_on_over_several_lines():
    lines = list(problem_lines(sample(problems=(no_date(*range(1, 900, 2)),))))
    assert len(lines) > 5
    assert {line.cell for line in lines[1:]} == {"Log!A1 (continued)"}
    listed = ", ".join(line.all_cells for line in lines).replace("Log!", "").split(", ")
    assert listed == [f"A{row}" for row in range(1, 900, 2)]


def test_a_problem_of_the_whole_file_names_the_file():
    whole = Problem("file.missing", CellRef(""), {"path": "x.xlsx"})
    (line,) = problem_lines(sample(problems=(whole,)))
    assert line.cell == "cellar & shelf.xlsx"


def test_tables_say_what_they_were_taken_as_and_what_was_passed_over():
    rows = values(sample(), "TablesRead")
    assert rows[0][:4] == ["Bins", "A3:J15", "list of bins", "11 rows. Passed over: totals row: row 15"]
    assert rows[1][2] == "log: feed"
    assert "a title between rows: row 19; totals row: row 620" in rows[1][3]


def test_headings_say_how_surely_they_were_read():
    rows = {row[1]: row[2:] for row in values(sample(), "HeadingsRead")}
    assert rows["Who"] == ["Species", "known word for word", "used"]
    assert rows["Whre"] == ["Place", "a guess, 86% alike", "used"]
    assert rows["=1+1"] == ["not used", "no field fits it", "not used"]


def test_notes_on_the_reading_stand_below_the_tables():
    assert sheet(sample()).after[1].startswith("- Dates such as 3/4")
    assert sheet(sample(notes=())).after == ()
