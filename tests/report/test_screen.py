import datetime as dt

from tools.grid import workbook_from_text
from workbook_tools import pipeline
from workbook_tools.report import screen

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
