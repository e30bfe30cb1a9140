"""Tables of plain and unfolded sheets, and where they stand in the keeper's workbook."""

import pytest

from tools.sheets import sheet
from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.finding import FoundTable, find_tables
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.shapes.records import Around, Unfolded
from workbook_tools.problems import CellRef

AROUND = Around(Lexicon())


def test_a_plain_sheet_gives_its_tables_and_names_what_stands_outside():
    tables, problems = find_tables([sheet("Log", "loose\n\n\nDate|Bin|Done\n13/3/2025|A1|water")], AROUND)
    assert [(one.table.role, one.table.shape, one.placed().area) for one in tables] == [
        ("log", "", tables[0].table.area)
    ]
    assert [(str(one.where), one.code) for one in problems] == [("Log!A1", "tables.outside")]


@pytest.fixture
def unfolded():
    """A list made from cells of rows 7 and 9."""
    places = {(1, 1): (7, 2), (1, 2): (7, 3), (2, 1): (9, 2), (2, 2): (9, 3)}
    texts = {(1, 1): "Bin", (1, 2): "Zzz", (2, 1): "A1", (2, 2): "so"}
    cells = {at: Cell(CellRef("Turned", *places[at]), texts[at], texts[at]) for at in places}
    return Sheet("Turned", cells, rows_at={2: CellRef("Turned", 9)})


def test_an_unfolded_sheet_is_one_table_that_keeps_the_keepers_cells(unfolded, monkeypatch):
    laid = Unfolded((unfolded,), "a card", 0.9, "it has labels", passed={CellRef("Turned", 8, 2): "a line"})
    monkeypatch.setattr("workbook_tools.intake.finding.unfold", lambda sheet, around: laid)
    tables, problems = find_tables([unfolded], AROUND)
    placed = tables[0].placed()
    assert (placed.role, str(placed.area), placed.shape) == ("bins", "B7:C9", "a card")
    assert placed.why.startswith("a card, 90% sure: it has labels; each row")
    assert {str(ref): why for ref, why in placed.passed_cells.items()} == {
        "Turned!B8": "a line",
        "Turned!C9": "the heading 'Zzz' isn't used",
    }
    assert [(str(one.where), one.code) for one in problems] == [("Turned!C7", "headings.unknown")]


def test_a_list_of_names_alone_gives_way_to_the_keepers_own_list(unfolded, monkeypatch):
    monkeypatch.setattr("workbook_tools.intake.finding.unfold", lambda one, around: Unfolded((one,), "a card", 0.9))
    own = sheet("Boxes", "Box|Species\nA1|scaber\nA2|laevis")
    tables, _ = find_tables([own, unfolded], AROUND)
    assert [one.table.sheet for one in tables] == ["Boxes"]
    assert all(isinstance(one, FoundTable) for one in tables)
