from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.problems import CellRef
from workbook_tools.report.addresses import cell_runs, cell_spans, first_and_more, in_pieces, number_spans, run_place


def test_numbers_in_a_row_are_joined():
    assert number_spans([9, 3, 5, 6, 7, 3]) == "3, 5 to 7, 9"


def test_cells_below_one_another_are_joined_and_the_sheet_named_once():
    cells = [CellRef("Log", row, 3) for row in (14, 15, 16, 20)] + [CellRef("Log", 2, 1), CellRef("Bins", 4, 1)]
    assert cell_spans(cells) == ["Bins!A4", "Log!A2", "C14:C16", "C20"]


def test_whole_rows_and_sheets_have_addresses_too():
    assert cell_spans([CellRef("Log", 4), CellRef("Log", 5), CellRef("Log", 9)]) == ["Log!4 to 5", "9"]
    assert cell_spans([CellRef("Log")]) == ["Log"]


def test_first_cell_says_how_many_more():
    cells = [CellRef("Log", 14, 3), CellRef("Log", 15, 3), CellRef("Log", 15, 3)]
    assert first_and_more(cells) == "Log!C14 and 1 more"
    assert first_and_more(cells[:1]) == "Log!C14"
    assert first_and_more([]) == ""


@given(st.lists(st.tuples(st.sampled_from(["Log", "Bins"]), st.integers(1, 60), st.integers(1, 4)), min_size=1))
def test_no_cell_is_lost_in_spans_or_pieces(places):
    cells = {CellRef(*place) for place in places}
    pieces = in_pieces(cell_spans(cells), longest=30)
    assert all(len(piece) <= 30 for piece in pieces)
    found, sheet = set(), ""
    for span in ", ".join(pieces).split(", "):
        sheet, _, span = span.rpartition("!") if "!" in span else (sheet, "", span)
        first, _, last = span.partition(":")
        for row in range(int(first[1:]), int((last or first)[1:]) + 1):
            found.add(CellRef(sheet, row, "ABCD".index(first[0]) + 1))
    assert found == cells


def test_runs_are_written_as_spreadsheet_programs_do():
    cells = [CellRef("Log", row) for row in (4, 5, 9)] + [CellRef("Log", 3, 2), CellRef("Log", 4, 2), CellRef("Bins")]
    assert [(first.sheet, run_place(first, last)) for first, last in cell_runs(cells)] == [
        ("Bins", ""),
        ("Log", "4:5"),
        ("Log", "9"),
        ("Log", "B3:B4"),
    ]
