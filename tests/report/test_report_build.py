import re
import time

import pytest

from tools.drawn import drawn, reopened, table_rows, texts
from tools.report_sample import NASTY, ON, sample, tasks
from workbook_tools.ledger.records import Ledger
from workbook_tools.problems import CellRef, Problem
from workbook_tools.report.build import report_sheets
from workbook_tools.report.cautions import DISPOSAL, LAW_FIRST


@pytest.fixture(scope="module")
def sheets():
    return report_sheets(sample())


@pytest.fixture(scope="module")
def book(sheets):
    return reopened(drawn(*sheets))


def test_sheets_stand_in_their_order(book):
    assert book.sheetnames == [
        "Due",
        "Changes",
        "Bins",
        "Moss & food",
        "Leaf litter",
        "Substrate",
        "Sifting",
        "Numbers",
        "Losses",
        "How it was read",
        "Methods & sources",
    ]


def test_first_line_of_every_sheet_is_its_answer(sheets, book):
    for spec in sheets:
        assert book[spec.name]["A1"].value == spec.answer
        assert spec.answer.endswith(".")


def test_every_sheet_has_native_tables_frozen_headings_and_notes(sheets, book):
    for spec in sheets:
        page = book[spec.name]
        assert sorted(page.tables) == sorted(table.name for table in spec.tables)
        assert page.freeze_panes
        for table in page.tables.values():
            assert table.autoFilter.ref == table.ref


def test_headings_mean_something_to_the_keeper(sheets):
    bare = [
        f"{spec.name}: {column.heading}"
        for spec in sheets
        for table in spec.tables
        for column in table.columns
        if not column.note
    ]
    assert bare == []


def test_no_text_of_the_keeper_is_a_formula_and_no_link_leads_out(book):
    cells = [cell for page in book for row in page.iter_rows() for cell in row]
    like_formulas = [cell for cell in cells if isinstance(cell.value, str) and cell.value.startswith("=")]
    links = [cell.hyperlink for cell in cells if cell.hyperlink]
    assert like_formulas
    assert all(cell.quotePrefix for cell in like_formulas)
    assert links
    assert all(link.target is None and re.match(r"'[^']+'!A\d+$", link.location) for link in links)


def test_links_lead_to_the_right_bin(book):
    page = book["Due"]
    links = [row[0] for row in page[page.tables["DueTasks"].ref]][1:]
    assert len(links) == len(sample().tasks) > 0
    assert all(cell.hyperlink for cell in links)
    for cell in links:
        row = cell.hyperlink.location.rpartition("A")[2]
        assert book["Bins"][f"A{row}"].value == cell.value


def test_every_problem_and_each_of_its_cells_is_in_the_report(book):
    findings = sample()
    rows = table_rows(book["How it was read"], "Problems")[1:]
    said = {(row[1], row[2]) for row in rows if "(continued)" not in str(row[0])}
    assert said == {(problem.value, problem.says) for problem in findings.problems}
    lists = " ".join(str(row[5]) for row in rows)
    assert {f"C{row}" for row in range(20, 600, 3)} <= set(re.findall(r"C\d+", lists))


def test_disposal_stands_with_its_cautions(book):
    for name in ("Changes", "Sifting", "Methods & sources"):
        said = " ".join(str(text) for text in texts(book[name]))
        assert LAW_FIRST in said
        assert DISPOSAL in said


def test_private_notes_are_not_in_the_report(sheets):
    assert not any("note" in column.heading.lower() for column in sheets[2].tables[0].columns)


def test_report_of_nothing_is_whole():
    empty = sample(
        tasks=(), problems=(), changes=(), next_changes=(), happenings=(), tables=(), notes=(), ledger=_no_bins()
    )
    book = reopened(drawn(*report_sheets(empty)))
    assert book["Due"]["A1"].value == "Nothing can be said of what is due: no bin was read."
    assert book["Bins"]["A1"].value == "No bin was found."
    assert "0 of 0 rows used; no problem needs you." in book["How it was read"]["A1"].value


def test_large_report_is_drawn_in_reasonable_time():
    many = tuple(Problem("entries.no_date", CellRef("Log", row, 1), {}, "?") for row in range(5, 1005))
    start = time.perf_counter()
    drawn(*report_sheets(sample(tasks=tasks(3000), problems=many)))
    assert time.perf_counter() - start < 20


def test_same_findings_give_the_same_bytes():
    assert drawn(*report_sheets(sample())) == drawn(*report_sheets(sample()))


def test_other_regions_show_their_own_dates():
    american = reopened(drawn(*report_sheets(sample(region="en-US", paper="Letter")), region="en-US"))
    assert american["Due"]["A2"].value.startswith("Sat Mar 14, 2026")
    assert ON.isoformat() not in str(texts(american["Due"]))


def test_sample_holds_every_kind_of_text_that_could_run():
    values = {problem.value for problem in sample().problems}
    assert set(NASTY) <= values


def _no_bins():
    return Ledger({}, ())
