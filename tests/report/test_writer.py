import datetime as dt
import io
import math
import zipfile

import pytest

from tools.drawn import DAY, drawn, reopened, table_rows, texts
from tools.report_sample import NASTY
from workbook_tools.report import writer
from workbook_tools.report.columns import Column, Place, SheetSpec, Spark, TableSpec
from workbook_tools.report.saving import CannotWrite
from workbook_tools.report.writer import Written, draw, write_workbook


def one_table(columns, rows, name="Things", **more):
    return SheetSpec("Sheet", "The answer.", (TableSpec(name, columns, rows, **more),))


def itself(heading="Value", **more):
    return Column(heading, lambda row: row, **more)


def test_every_kind_of_value_arrives_as_such():
    columns = (itself(), Column("Day", lambda row: DAY, "date"))
    page = reopened(drawn(one_table(columns, ["text", 3, 2.5, True, None, math.nan])))["Sheet"]
    rows = table_rows(page, "Things")
    assert [row[0] for row in rows] == ["Value", "text", 3, 2.5, True, None, None]
    assert {row[1] for row in rows[1:]} == {dt.datetime.combine(DAY, dt.time())}


@pytest.mark.parametrize("text", NASTY)
def test_text_of_the_keeper_is_never_run(text):
    sheet = SheetSpec(
        "Sheet", text, (TableSpec("T", (itself(note=text),), [text], title=text),), (text,), after=(text,)
    )
    content = drawn(sheet)
    page = reopened(content)["Sheet"]
    cells = [cell for row in page.iter_rows() for cell in row if cell.value is not None and cell.value != "Value"]
    assert [cell.value for cell in cells] == [text] * 5
    assert {cell.data_type for cell in cells} <= {"s", "f"}
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        body = parts.read("xl/worksheets/sheet1.xml").decode()
        assert "<f>" not in body
        assert "hyperlink" not in body


def test_text_that_would_run_when_typed_over_is_marked_as_text():
    page = reopened(drawn(one_table((itself(),), ["=1+1", "plain"])))["Sheet"]
    first, second = (page.cell(row, 1) for row in (4, 5))
    assert (first.value, first.quotePrefix) == ("=1+1", True)
    assert not second.quotePrefix


def test_dates_are_shown_as_the_region_writes_them():
    spec = one_table((itself(style="date", width=1),), [DAY])
    for region, pattern in (("en-GB", "d mmm yyyy"), ("en-US", "mmm d, yyyy"), ("de-DE", "dd.mm.yyyy")):
        page = reopened(drawn(spec, region=region))["Sheet"]
        assert page.cell(4, 1).number_format == pattern
        assert page.column_dimensions["A"].width > len(pattern)


def test_tables_are_native_with_filters_and_frozen_headings():
    page = reopened(drawn(one_table((itself(), itself("Other")), [1, 2, 3])))["Sheet"]
    table = page.tables["Things"]
    assert table.ref == table.autoFilter.ref == "A3:B6"
    assert page.freeze_panes == "A4"
    assert page.print_title_rows == "$3:$3"


def test_a_sheet_of_several_tables_repeats_no_heading_that_would_be_wrong():
    tables = tuple(TableSpec(name, (itself(),), [1], title=name) for name in ("One", "Two"))
    page = reopened(drawn(SheetSpec("Sheet", "Answer.", tables)))["Sheet"]
    assert [table.ref for table in page.tables.values()] == ["A4:A5", "A9:A10"]
    assert page.freeze_panes == "A5"
    assert not page.print_title_rows


def test_an_empty_table_says_so():
    page = reopened(drawn(one_table((itself(), itself("Other")), [], when_empty="Nothing here.")))["Sheet"]
    assert table_rows(page, "Things") == [["Value", "Other"], ["Nothing here.", None]]


@pytest.mark.parametrize(("paper", "size"), [("A4", "9"), ("letter", "1"), ("napkin", "9")])
def test_pages_are_set_up_for_print(paper, size):
    page = reopened(drawn(one_table((itself(),), [1]), paper=paper, title="bins & logs.xlsx"))["Sheet"]
    assert str(page.page_setup.paperSize) == size
    assert page.page_setup.orientation == "landscape"
    assert page.page_setup.fitToWidth in (None, 1)  # left out, it is 1
    assert page.page_setup.fitToHeight == 0
    assert page.sheet_properties.pageSetUpPr.fitToPage
    assert "bins && logs.xlsx" in page.oddHeader.left.text
    assert page.oddHeader.right.text.endswith("&A")
    assert page.oddFooter.right.text.endswith("Page &P of &N")


def test_headings_carry_their_notes():
    page = reopened(drawn(one_table((itself(note="What it means."),), [1])))["Sheet"]
    assert page["A3"].comment.text == "What it means."


def test_drop_downs_offer_words_and_allow_others():
    columns = (
        Column("Fixed", lambda row: None, "box", choices=("a", "b")),
        Column("By row", lambda row: None, "box", choices_for=lambda row: ("c",) if row % 2 else ()),
    )
    page = reopened(drawn(one_table(columns, [1, 2, 3])))["Sheet"]
    found = {check.formula1: str(check.sqref) for check in page.data_validations.dataValidation}
    assert found == {'"a,b"': "A4:A6", '"c"': "B4 B6"}
    assert not any(check.showErrorMessage for check in page.data_validations.dataValidation)


def test_long_drop_downs_come_from_the_cells_of_another_table():
    words = SheetSpec("Words", "W", (TableSpec("Known", (itself(),), [f"word {i}" for i in range(60)]),))
    asks = one_table((Column("Pick", lambda row: None, choices_from=Place("Words", "Known")),), [], blank_rows=5)
    page = reopened(drawn(asks, words))["Sheet"]
    (check,) = page.data_validations.dataValidation
    assert (check.formula1, str(check.sqref)) == ("'Words'!$A$4:$A$63", "A4:A8")


def test_links_lead_only_to_rows_of_this_workbook():
    links = itself("Bin", style="link", link=lambda row: Place("It's bins", row))
    bins = SheetSpec("It's bins", "B", (TableSpec("Bins", (itself(),), ["A1", "A2"], key=lambda row: row),))
    page = reopened(drawn(one_table((links,), ["A2", "Z9"]), bins))["Sheet"]
    assert page["A4"].hyperlink.location == "'It''s bins'!A5"
    assert page["A4"].hyperlink.target is None
    assert page["A5"].hyperlink is None
    assert (page["A4"].value, page["A5"].value) == ("A2", "Z9")


def test_small_charts_rest_on_hidden_columns_with_one_scale():
    spark = Spark(("w1", "w2"), lambda row: (row, 2 * row))
    content = drawn(one_table((itself(), Column("Chart", lambda row: None, spark=spark)), [1, 5]))
    page = reopened(content)["Sheet"]
    assert [page.cell(4, col).value for col in (3, 4)] == [1, 2]
    assert [page.cell(5, col).value for col in (3, 4)] == [5, 10]
    assert page.column_dimensions["C"].hidden
    assert page.print_area == "'Sheet'!$A$1:$B$5"
    with zipfile.ZipFile(io.BytesIO(content)) as parts:
        body = parts.read("xl/worksheets/sheet1.xml").decode()
    assert "<xm:f>'Sheet'!C4:D4</xm:f>" in body
    assert body.count('manualMax="10"') == 2


def test_rows_are_high_enough_for_their_text():
    page = reopened(drawn(one_table((itself(width=20),), ["short", "a long text " * 20])))["Sheet"]
    assert page.row_dimensions[5].height > 8 * page.row_dimensions[4].height


def test_what_a_text_lost_is_counted():
    _, written = draw([one_table((itself(),), ["x" * 40_000, "a\x00b"])], region="en-GB", paper="A4", created=DAY)
    assert (written.cut, written.replaced) == (1, 1)
    assert [said.rsplit(": ")[-1] for said in written.says] == ["1.", "1."]
    assert Written().says == ()


def test_links_left_out_are_counted(monkeypatch):
    monkeypatch.setattr(writer, "_MOST_LINKS", 1)
    column = itself(link=lambda row: Place("Sheet", row))
    _, written = draw([one_table((column,), ["a", "b", "c"])], region="en-GB", paper="A4", created=DAY)
    assert written == Written(unlinked=2)
    assert written.says == ("Links left out of this report, since a sheet holds 1 at most: 2.",)


def test_the_same_sheets_and_date_give_the_same_bytes():
    sheets = [one_table((itself(note="n"),), NASTY)]
    assert drawn(*sheets) == drawn(*sheets)
    assert drawn(*sheets) != draw(sheets, region="en-GB", paper="A4", created=dt.date(2026, 3, 15))[0]


def test_headings_that_differ_only_in_case_are_refused():
    with pytest.raises(ValueError, match="differ only in case"):
        drawn(one_table((itself("Bin"), itself("BIN")), [1]))


def test_what_the_library_refuses_is_raised_not_left_out():
    too_long = Column("Pick", lambda row: None, choices=tuple(f"a rather long word {i}" for i in range(40)))
    with pytest.warns(UserWarning, match="255"), pytest.raises(ValueError, match="drop-down of Pick"):
        drawn(one_table((too_long,), [1]))


def test_nothing_is_left_when_a_sheet_fails(tmp_path):
    def fails(row):
        raise RuntimeError("a fault")

    with pytest.raises(RuntimeError):
        write_workbook(
            [one_table((Column("Bin", fails),), [1])], tmp_path / "o.xlsx", region="en", paper="A4", created=DAY
        )
    with pytest.raises(CannotWrite):
        write_workbook([one_table((itself(),), [1])], tmp_path, region="en", paper="A4", created=DAY)
    assert list(tmp_path.iterdir()) == []


def test_saved_file_is_what_was_drawn(tmp_path):
    spec = one_table((itself(),), ["here"])
    write_workbook([spec], tmp_path / "o.xlsx", region="en-GB", paper="A4", created=DAY, title="a title")
    content = (tmp_path / "o.xlsx").read_bytes()
    assert content == drawn(spec)
    assert "here" in texts(reopened(content)["Sheet"])
