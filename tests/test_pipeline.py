import datetime as dt

from tools.grid import workbook_from_text
from workbook_tools import cli, pipeline

ON = dt.date(2025, 3, 20)
TEXT = """# sheet Bins
Bin | Species
A1 | Porcellio scaber
# sheet Log
Date | Bin | Done
d:2025-03-01 | A1 | water
d:2025-03-02 | A1 | zork
"""


def test_the_stages_run_in_order_and_name_themselves(tmp_path):
    path = workbook_from_text(TEXT, tmp_path / "mine.xlsx")
    steps = []

    pipeline.report(path, tmp_path / "out.xlsx", ON, step=steps.append)

    assert steps == [
        "Opening the workbook",
        "Reading tables",
        "Sorting entries",
        "Learning from the log",
        "Working out what is due",
        "Writing the report",
    ]
    assert len(steps) == cli.STEPS_TO_REPORT
    steps.clear()
    pipeline.read(path, ON, steps.append)
    assert len(steps) == cli.STEPS_TO_READ


def test_problems_of_all_stages_come_in_cell_order(tmp_path):
    path = workbook_from_text(TEXT + "d:2026-01-01 | A9 | water\n", tmp_path / "mine.xlsx")

    reading = pipeline.read(path, ON)

    assert [p.code for p in reading.problems] == ["words.unknown", "entries.future", "bins.unlisted"]
    assert sorted(reading.problems, key=lambda p: p.where) == list(reading.problems)


def test_since_is_a_month_before_unless_told(tmp_path):
    path = workbook_from_text(TEXT, tmp_path / "mine.xlsx")

    assert pipeline.find(path, dt.date(2025, 3, 31)).since == dt.date(2025, 2, 28)
    assert pipeline.find(path, ON, dt.date(2025, 1, 1)).since == dt.date(2025, 1, 1)


def test_the_region_follows_the_settings_else_the_order_of_dates(tmp_path):
    american = TEXT.replace("d:2025-03-01", "3/13/2025")
    german = TEXT + "# sheet Settings\nRegion | de-DE\n"

    assert pipeline.find(workbook_from_text(american, tmp_path / "us.xlsx"), ON).region == "en-US"
    assert pipeline.find(workbook_from_text(german, tmp_path / "de.xlsx"), ON).region == "de-DE"
    assert pipeline.find(workbook_from_text(TEXT, tmp_path / "gb.xlsx"), ON).region == "en-GB"
