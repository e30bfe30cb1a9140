import datetime as dt
from pathlib import Path

from tools.grid import workbook_from_text
from tools.report_sample import sample
from workbook_tools import pipeline
from workbook_tools.problems import CellRef, Problem
from workbook_tools.report import screen
from workbook_tools.report.export.tables import Tidy

ON = dt.date(2025, 3, 20)
TEXT = """# sheet Bins
Bin | Species | Speceis
A1 | Porcellio scaber | x
# sheet Log
Date | Bin | Done
d:2025-03-01 | A1 | water
"""


def test_one_line_says_where_what_and_how_much_was_used(tmp_path):
    findings = pipeline.find(workbook_from_text(TEXT, tmp_path / "mine.xlsx"), ON)

    line = screen.in_one_line(findings, tmp_path / "out.xlsx")

    assert "\n" not in line
    assert line.startswith(f"Report: {tmp_path / 'out.xlsx'}. ")
    assert "most urgent: A1" in line
    assert "2 of 2 rows used" in line


def test_a_check_shows_headings_how_sure_and_the_sum(tmp_path):
    reading = pipeline.read(workbook_from_text(TEXT, tmp_path / "mine.xlsx"), ON)

    lines = list(screen.reading_lines(reading.intake.tables, reading.intake.notes, reading.ledger, reading.problems))

    assert lines[0] == "Bins!A1:C2: list of bins, 1 row"
    assert "  Bins!B1  Species -> Species" in lines
    assert "  Bins!C1  Speceis -> Species (80% sure)" in lines
    assert lines[-1].startswith("2 of 2 rows used; 1 bin, 1 entry")


def test_of_many_rows_left_out_the_first_are_named_and_where_the_others_are():
    odd = [Problem("entries.no_date", CellRef("Log", row)) for row in range(2, 25)]
    lines = list(screen.left_out_lines(odd, "in problems.csv"))
    assert lines[0].startswith("left out: Log!2: ")
    assert lines[20:] == ["and 3 more, in problems.csv"]


def test_an_export_is_told_in_one_line_with_the_length_of_each_file():
    findings = sample()
    line = screen.exported_line(findings, (Tidy("bins", ((),)), Tidy("tasks", ((),) * 1234)), Path("out"), "json")
    used = f"1,238 of 1,240 rows used, {len(findings.problems)} problems"
    assert line == f"Export: out, with bins.json (1 line), tasks.json (1,234 lines). {used}."
