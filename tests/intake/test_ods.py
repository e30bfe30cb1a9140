"""OpenDocument spreadsheets: right values or a named problem."""

import datetime as dt
import time

import pytest
from made_files import named, ods_bytes, shown
from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P

from workbook_tools.intake.cells import Area
from workbook_tools.intake.workbook import open_book
from workbook_tools.problems import CannotRead


def opened(tmp_path, *tables, **parts):
    path = tmp_path / "book.ods"
    path.write_bytes(ods_bytes(*tables, **parts))
    return open_book(path)


def table(*rows, name="Log", more=""):
    return f'<table:table table:name="{name}"{more}>{"".join(rows)}</table:table>'


def row(*cells, more=""):
    return f"<table:table-row{more}>{''.join(cells)}</table:table-row>"


def cell(kind="", value="", text="", more=""):
    name = {"float": "value", "percentage": "value", "boolean": "boolean-value"}.get(kind, f"{kind}-value")
    typed = f' office:value-type="{kind}"' + (f' office:{name}="{value}"' if value else "") if kind else ""
    return f"<table:table-cell{typed}{more}>{f'<text:p>{text}</text:p>' if text else ''}</table:table-cell>"


def test_a_file_made_by_another_library_reads_right(tmp_path):
    document = OpenDocumentSpreadsheet()
    sheet = Table(name="Bins")
    line = TableRow()
    for kind, attributes, text in [
        ("string", {}, "07"),
        ("float", {"value": 7}, "7"),
        ("date", {"datevalue": "2024-02-29"}, "29/02/24"),
    ]:
        made = TableCell(valuetype=kind, **attributes)
        made.addElement(P(text=text))
        line.addElement(made)
    wide = TableCell(valuetype="string", numbercolumnsspanned=2, numberrowsspanned=1)
    wide.addElement(P(text="wide"))
    line.addElement(wide)
    line.addElement(CoveredTableCell())
    sheet.addElement(line)
    document.spreadsheet.addElement(sheet)
    document.save(str(tmp_path / "made.ods"))
    read, problems = open_book(tmp_path / "made.ods")
    assert shown(read) == {"Bins": {"A1": "07", "B1": "7", "C1": "2024-02-29", "D1": "wide"}}
    assert read.sheets[0].cells[1, 3].value == dt.date(2024, 2, 29)
    assert read.sheets[0].merged == (Area(1, 4, 1, 5),)
    assert problems == []


@pytest.mark.parametrize(
    ("made", "value"),
    [
        (cell("float", "7.0", "7"), 7),
        (cell("float", "0.5", "1/2"), 0.5),
        (cell("percentage", "0.25", "25%"), 0.25),
        (cell("currency", "", "3 €", ' office:value="3"'), 3),
        (cell("boolean", "true", "TRUE"), True),
        (cell("date", "2024-02-29T13:05:00", "x"), dt.datetime.fromisoformat("2024-02-29T13:05")),
        (cell("date", "2024-02-29T00:00:00.000000000", "x"), dt.date(2024, 2, 29)),
        (cell("date", "the other day", "the other day"), "the other day"),
        (cell("time", "PT13H05M00S", "13:05"), dt.time(13, 5)),
        (cell("time", "PT30H00M00S", "30:00"), dt.timedelta(hours=30)),
        (cell("time", "-PT01H00M00S", "x"), -dt.timedelta(hours=1)),
        (cell("time", "P", "soon"), "soon"),
        (cell("string", "", "a<text:s text:c='2'/>b<text:tab/>c<text:line-break/>d"), "a  b\tc\nd"),
        (cell("string", "", "<text:span>moss </text:span><text:a>dry</text:a>"), "moss dry"),
        (cell("string", "", "x</text:p><text:p>y"), "x\ny"),
        (cell("string", "", "seen<office:annotation><text:p>a note</text:p></office:annotation>"), "seen"),
        (cell("string", "by attribute"), "by attribute"),
        (cell("", "", "untyped"), "untyped"),
        (cell("string", "", "#N/A"), "#N/A"),
    ],
)
def test_values_by_their_declared_type(tmp_path, made, value):
    read, problems = opened(tmp_path, table(row(cell(), made)))
    assert read.sheets[0].cells[1, 2].value == value
    assert type(read.sheets[0].cells[1, 2].value) is type(value)
    assert problems == []


def test_a_short_time_shown_as_a_duration_is_one(tmp_path):
    styles = (
        '<number:time-style style:name="N1" number:truncate-on-overflow="false"/>'
        '<style:style style:name="ce1" style:data-style-name="N1"/>'
    )
    made = cell("time", "PT02H30M00S", "2:30", ' table:style-name="ce1"')
    read, _ = opened(tmp_path, table(row(made)), styles=styles)
    assert read.sheets[0].cells[1, 1].value == dt.timedelta(hours=2, minutes=30)


def test_error_cells_are_named_and_not_used(tmp_path):
    read, problems = opened(
        tmp_path,
        table(
            row(cell("string", "", "#DIV/0!", ' calcext:value-type="error" table:formula="of:=1/0"')),
            row(cell("float", "0", "#REF!", ' table:formula="of:=#REF!"')),
            row(cell("string", "", "Err:502", ' table:formula="of:=X()"')),
            row(cell("string", "", "fine", ' table:formula="of:=A9"')),
        ),
    )
    assert shown(read) == {"Log": {"A4": "fine"}}
    assert [(str(p.where), p.code, p.value) for p in problems] == [
        ("Log!A1", "cell.error", "#DIV/0!"),
        ("Log!A2", "cell.error", "#REF!"),
        ("Log!A3", "cell.error", "Err:502"),
    ]


def test_formulas_never_calculated_are_named_and_an_empty_result_is_not(tmp_path):
    waits = cell("", "", "", ' table:formula="of:=1+1"')
    empty = '<table:table-cell table:formula="of:=&quot;&quot;"><text:p/></table:table-cell>'
    read, problems = opened(tmp_path, table(row(waits, empty), row(waits)))
    assert shown(read) == {"Log": {}}
    assert [(p.code, [str(c) for c in p.cells]) for p in problems] == [("cell.not_calculated", ["Log!A1", "Log!A2"])]


def test_repeated_rows_and_cells_cost_nothing_when_blank(tmp_path):
    begin = time.perf_counter()
    read, problems = opened(
        tmp_path,
        table(
            row(cell("float", "1", "1", ' table:number-columns-repeated="3"')),
            row(cell(more=' table:number-columns-repeated="16384"'), more=' table:number-rows-repeated="1048573"'),
            row(cell("float", "2", "2"), more=' table:number-rows-repeated="2"'),
        ),
    )
    assert shown(read) == {"Log": {"A1": "1", "B1": "1", "C1": "1", "A1048575": "2", "A1048576": "2"}}
    assert problems == []
    assert time.perf_counter() - begin < 10


def test_a_value_repeated_over_the_whole_sheet_is_cut_and_named(tmp_path, monkeypatch):
    from workbook_tools import defaults

    small = defaults.Default(1000, "cells", 1, 1000, "judgement", "For this test.")
    monkeypatch.setitem(defaults.DEFAULTS, "sheet.cells", small)
    full = cell("float", "3", "3", ' table:number-columns-repeated="100"')
    fault = cell("string", "", "#N/A", ' table:formula="of:=NA()" table:number-columns-repeated="100"')
    rows = ' table:number-rows-repeated="1048576"'
    read, problems = opened(tmp_path, table(row(full, more=rows)), table(row(fault, more=rows), name="Faults"))
    assert [len(sheet.cells) for sheet in read.sheets] == [1000, 0]
    large = [(str(p.where), p.code) for p in problems if p.code == "sheet.too_large"]
    assert large == [("Log!11", "sheet.too_large"), ("Faults!11", "sheet.too_large")]


def test_merged_areas_and_what_lies_under_them(tmp_path):
    spans = ' table:number-columns-spanned="2" table:number-rows-spanned="1"'
    covered = cell("float", "9", "9").replace("table:table-cell", "table:covered-table-cell")
    read, problems = opened(tmp_path, table(row(cell("string", "", "top", spans), covered, cell("float", "1", "1"))))
    assert shown(read) == {"Log": {"A1": "top", "C1": "1"}}
    assert read.sheets[0].merged == (Area(1, 1, 1, 2),)
    assert named(problems) == [("Log!B1", "cell.covered")]


def test_hidden_sheets_are_marked_and_copies_of_other_files_passed_over(tmp_path):
    styles = '<style:style style:name="ta1"><style:table-properties table:display="false"/></style:style>'
    one = row(cell("float", "1", "1"))
    read, _ = opened(
        tmp_path,
        table(one, name="Seen"),
        table(one, name="Unseen", more=' table:style-name="ta1"'),
        table("<table:table-source/>", one, name="'file:///other.ods'#$Sheet1"),
        styles=styles,
    )
    assert [(sheet.name, sheet.hidden) for sheet in read.sheets] == [("Seen", False), ("Unseen", True)]


def test_early_dates_are_named(tmp_path):
    read, problems = opened(tmp_path, table(row(cell("date", "1900-02-13", "45"), cell("date", "1899-12-30", "0"))))
    assert shown(read) == {"Log": {}}
    assert named(problems) == [("Log!A1", "cell.early_date"), ("Log!B1", "cell.early_date")]


def test_the_1904_system_is_noted(tmp_path):
    settings = (
        '<table:calculation-settings><table:null-date table:date-value="1904-01-01"/></table:calculation-settings>'
    )
    read, _ = opened(tmp_path, table(row(cell("date", "2024-02-29", "x"))), settings=settings)
    assert read.date_1904
    assert shown(read) == {"Log": {"A1": "2024-02-29"}}


@pytest.mark.parametrize(
    ("parts", "code"),
    [
        ({"manifest": '<m:file-entry><m:encryption-data/></m:file-entry>'}, "file.locked"),
        ({"prolog": '<!DOCTYPE x [<!ENTITY a "boo">]>'}, "file.unsafe"),
        ({"settings": "<office:open>"}, "file.damaged"),
        ({"settings": "<text:x>" * 5}, "file.damaged"),
    ],
)  # fmt: skip
def test_what_can_not_be_read_says_why(tmp_path, parts, code):
    with pytest.raises(CannotRead) as caught:
        opened(tmp_path, table(row(cell("float", "1", "1"))), **parts)
    assert caught.value.problem.code == code


def test_a_spreadsheet_without_sheets_says_so(tmp_path):
    with pytest.raises(CannotRead) as caught:
        opened(tmp_path)
    assert caught.value.problem.code == "file.no_sheets"


def test_text_nested_too_deep_is_damage_and_not_a_crash(tmp_path):
    deep = "<text:span>" * 50_000 + "x" + "</text:span>" * 50_000
    with pytest.raises(CannotRead) as caught:
        opened(tmp_path, table(row(cell("string", "", deep))))
    assert caught.value.problem.code == "file.damaged"


def test_a_cell_repeated_far_beyond_the_sheet_ends_soon(tmp_path):
    far = cell("string", text="x", more=' table:number-columns-repeated="999999999"')
    start = time.perf_counter()
    book, _ = opened(tmp_path, table(row(far)))

    assert time.perf_counter() - start < 20
    assert book.sheets[0].last_col <= 16_384
