"""Zipped workbooks: right values or a named problem."""

import datetime as dt
import time
import zipfile

import openpyxl
import pytest
import xlsxwriter
from made_files import STRICT, named, sheet_xml, shown, with_part, xlsx_bytes

from workbook_tools.intake.cells import Area
from workbook_tools.intake.workbook import open_book

MOMENT = dt.datetime.fromisoformat("2024-02-29T13:05")


def opened(tmp_path, data, name="book.xlsx"):
    path = tmp_path / name
    path.write_bytes(data)
    return open_book(path)


def test_values_of_every_kind_read_as_typed(tmp_path):
    path = tmp_path / "kinds.xlsx"
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Log"
    values = ["07", 7, 7.5, 0.1, True, dt.date(2024, 2, 29), MOMENT, dt.time(13, 5)]
    for row, value in enumerate(values, 2):
        sheet.cell(row, 3, value)
    sheet["C10"] = dt.timedelta(hours=30, minutes=15)
    sheet["C11"] = "  two\nlines \u00a0"
    sheet["C12"] = "   "
    book.save(path)
    read, problems = open_book(path)
    cells = read.sheets[0].cells
    assert problems == []
    assert [cells[row, 3].value for row in range(2, 12)] == [
        *values,
        dt.timedelta(hours=30, minutes=15),
        "two\nlines",
    ]
    assert [cells[row, 3].text for row in range(2, 12)] == [
        "07", "7", "7.5", "0.1", "TRUE", "2024-02-29", "2024-02-29 13:05", "13:05", "30:15", "two\nlines",
    ]  # fmt: skip
    assert (12, 3) not in cells
    assert type(cells[3, 3].value) is int
    assert type(cells[7, 3].value) is dt.date


def test_cells_keep_their_place_when_the_sheet_begins_low_and_right(tmp_path):
    book = openpyxl.Workbook()
    book.active["E7"] = "first"
    book.active["F9"] = "second"
    book.save(tmp_path / "low.xlsx")
    read, _ = open_book(tmp_path / "low.xlsx")
    assert shown(read) == {"Sheet": {"E7": "first", "F9": "second"}}


def test_error_cells_are_named_and_not_used(tmp_path):
    rows = (
        '<row r="2"><c r="B2" t="e"><v>#N/A</v></c><c r="C2"><v>5</v></c></row>'
        '<row r="3"><c r="B3" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>'
        '<row r="4"><c r="B4" t="e"><v>#N/A</v></c><c r="D4" t="inlineStr"><is><t>#N/A</t></is></c></row>'
    )
    read, problems = opened(tmp_path, xlsx_bytes(sheet_xml(rows)))
    assert shown(read) == {"A": {"C2": "5", "D4": "#N/A"}}
    assert [(p.code, [str(c) for c in p.cells], p.value) for p in problems] == [
        ("cell.error", ["A!B2", "A!B4"], "#N/A"),
        ("cell.error", ["A!B3"], "#DIV/0!"),
    ]


def test_formulas_never_calculated_are_one_problem_a_column(tmp_path):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append(["bin", "ml"])
    for row in range(2, 40):
        sheet.append([f"B{row:02d}", f"=C{row}*2"])
    book.save(tmp_path / "formulas.xlsx")
    read, problems = open_book(tmp_path / "formulas.xlsx")
    assert [p.code for p in problems] == ["cell.not_calculated"]
    assert [str(cell) for cell in problems[0].cells] == [f"Sheet!B{row}" for row in range(2, 40)]
    assert len(read.sheets[0].cells) == 2 + 38


def test_formulas_with_a_value_are_read_and_an_empty_text_is_no_fault(tmp_path):
    rows = '<row r="1"><c r="A1"><f>1+1</f><v>2</v></c><c r="B1" t="str"><f>""</f><v></v></c></row>'
    read, problems = opened(tmp_path, xlsx_bytes(sheet_xml(rows)))
    assert shown(read) == {"A": {"A1": "2"}}
    assert problems == []


def test_results_of_a_file_that_asks_to_be_calculated_are_named_as_old(tmp_path):
    book = xlsxwriter.Workbook(tmp_path / "old.xlsx")
    sheet = book.add_worksheet("Log")
    sheet.write_formula("A1", "=2+3")
    sheet.write_number("B1", 4)
    book.close()
    read, problems = open_book(tmp_path / "old.xlsx")
    assert shown(read) == {"Log": {"A1": "0", "B1": "4"}}
    assert named(problems) == [("Log!A1", "cell.old_result")]


@pytest.mark.parametrize("stated", ["", '<dimension ref="A1:B2"/>', '<dimension ref="A1"/>'])
def test_a_stray_cell_in_the_far_corner_is_read_at_once(tmp_path, stated):
    rows = (
        '<row r="1"><c r="A1" t="inlineStr"><is><t>bin</t></is></c><c r="B1"><v>3</v></c></row>'
        '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'
    )
    begin = time.perf_counter()
    read, problems = opened(tmp_path, xlsx_bytes(sheet_xml(rows, before=stated)))
    assert shown(read) == {"A": {"A1": "bin", "B1": "3", "XFD1048576": "1"}}
    assert problems == []
    assert time.perf_counter() - begin < 10


def test_a_wrong_stated_size_hides_nothing(tmp_path):
    path = tmp_path / "size.xlsx"
    book = openpyxl.Workbook()
    for row in range(1, 6):
        book.active.append([row, "x", dt.date(1900, 1, 20)])  # the early date calls for the careful reader
    book.save(path)
    with_part(path, "xl/worksheets/sheet1.xml", lambda xml: xml.replace('ref="A1:C5"', 'ref="A1:A2"'))
    read, problems = open_book(path)
    assert {"A5", "B5"} <= shown(read)["Sheet"].keys()
    assert len(problems) == 1 and len(problems[0].cells) == 5


@pytest.mark.parametrize("where", ["A9999999", "ZZZZ1", "XFE1", "A99999999999", "5", "A0x"])
def test_cells_outside_any_sheet_are_a_damaged_sheet_and_not_a_crash(tmp_path, where):
    bad = sheet_xml(f'<row><c r="{where}"><v>1</v></c></row>')
    good = sheet_xml('<row r="1"><c r="A1"><v>1</v></c></row>')
    read, problems = opened(tmp_path, xlsx_bytes(good, bad))
    assert shown(read) == {"A": {"A1": "1"}, "B": {}}
    assert named(problems) == [("B", "sheet.damaged")]


def test_merged_cells_give_their_area_and_name_what_lies_under_them(tmp_path):
    rows = '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>9</v></c><c r="C1"><v>2</v></c></row>'
    merge = '<mergeCells count="2"><mergeCell ref="A1:B2"/><mergeCell ref="E1:XFD1048576"/></mergeCells>'
    read, problems = opened(tmp_path, xlsx_bytes(sheet_xml(rows, after=merge)))
    assert read.sheets[0].merged == (Area(1, 1, 2, 2), Area(1, 5, 1_048_576, 16_384))
    assert shown(read) == {"A": {"A1": "1", "C1": "2"}}
    assert named(problems) == [("A!B1", "cell.covered")]


def test_hidden_sheets_rows_and_columns_are_read(tmp_path):
    book = openpyxl.Workbook()
    book.active.append(["seen", "unseen"])
    book.active.row_dimensions[1].hidden = True
    book.active.column_dimensions["B"].hidden = True
    for state in ("hidden", "veryHidden"):
        sheet = book.create_sheet(state)
        sheet.sheet_state = state
        sheet["A1"] = state
    book.create_sheet("blank")
    book.save(tmp_path / "hidden.xlsx")
    read, problems = open_book(tmp_path / "hidden.xlsx")
    assert [(s.name, s.hidden, len(s.cells)) for s in read.sheets] == [
        ("Sheet", False, 2), ("hidden", True, 1), ("veryHidden", True, 1), ("blank", False, 0),
    ]  # fmt: skip
    assert problems == []


def test_chart_sheets_are_passed_over(tmp_path):
    book = openpyxl.Workbook()
    book.active["A1"] = 1
    book.create_chartsheet("Chart", 0)
    book.save(tmp_path / "chart.xlsx")
    read, problems = open_book(tmp_path / "chart.xlsx")
    assert shown(read) == {"Sheet": {"A1": "1"}}
    assert problems == []


def test_rich_shared_and_inline_text_read_alike(tmp_path):
    strings = (
        '<si><r><t xml:space="preserve">moss </t></r><r><rPr><b/></rPr><t>dry</t></r>'
        '<rPh sb="0" eb="1"><t>reading aid</t></rPh></si><si/>'
    )
    rows = (
        '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="inlineStr">'
        "<is><r><t>moss </t></r><r><t>dry</t></r></is></c>"
        '<c r="C1" t="s"><v>1</v></c><c r="D1" t="inlineStr"><is/></c><c r="E1"><v/></c></row>'
    )
    read, problems = opened(tmp_path, xlsx_bytes(sheet_xml(rows), strings=strings))
    assert shown(read) == {"A": {"A1": "moss dry", "B1": "moss dry"}}
    assert problems == []


@pytest.mark.parametrize("early", [False, True], ids=["fast", "careful"])
def test_control_characters_and_line_ends_are_brought_to_one_form(tmp_path, early):
    path = tmp_path / "control.xlsx"
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet("Log")
    sheet.write_string(0, 0, "B\x0107")
    sheet.write_string(1, 0, "two\r\nlines")
    sheet.write_string(2, 0, "x" * 32_767)
    if early:
        sheet.write_number(0, 1, 5, book.add_format({"num_format": "dd/mm/yyyy"}))
    book.close()
    read, problems = open_book(path)
    cells = read.sheets[0].cells
    assert [cells[row, 1].text for row in (1, 2)] == ["B07", "two\nlines"]
    assert len(cells[3, 1].text) == 32_767
    assert ("Log!A1", "cell.unprintable") in named(problems)


def test_text_longer_than_a_cell_may_hold_is_read_whole(tmp_path):
    rows = f'<row r="1"><c r="A1" t="inlineStr"><is><t>{"x" * 100_000}</t></is></c></row>'
    read, problems = opened(tmp_path, xlsx_bytes(sheet_xml(rows)))
    assert len(read.sheets[0].cells[1, 1].text) == 100_000
    assert problems == []


NO_ADDRESSES = sheet_xml("<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row>")
PREFIXED = sheet_xml('<x:row r="2"><x:c r="B2"><x:v>1</x:v></x:c></x:row>', prefix="x:")
IN_STRICT = sheet_xml('<row r="2"><c r="B2"><v>1</v></c></row>', namespace=STRICT)
OUT_OF_ORDER = sheet_xml(
    '<row r="3"><c r="B3"><v>1</v></c><c r="A3"><v>2</v></c></row><row r="1"><c r="A1"><v>3</v></c></row>'
)
ISO_DATE = sheet_xml('<row r="1"><c r="A1" t="d"><v>2024-02-29</v></c><c r="B1" t="b"><v>0</v></c></row>')


@pytest.mark.parametrize(
    ("xml", "expected"),
    [
        (NO_ADDRESSES, {"A1": "1", "B1": "2", "A2": "3"}),
        (PREFIXED, {"B2": "1"}),
        (IN_STRICT, {"B2": "1"}),
        (OUT_OF_ORDER, {"A1": "3", "A3": "2", "B3": "1"}),
        (ISO_DATE, {"A1": "2024-02-29", "B1": "FALSE"}),
    ],
)
def test_unusual_but_lawful_xml_reads_right(tmp_path, xml, expected):
    read, problems = opened(tmp_path, xlsx_bytes(xml))
    assert shown(read) == {"A": expected}
    assert problems == []


def test_a_broken_shared_text_spoils_one_sheet_only(tmp_path):
    bad = sheet_xml('<row r="1"><c r="A1" t="s"><v>9</v></c></row>')
    good = sheet_xml('<row r="1"><c r="A1"><v>1</v></c></row>')
    read, problems = opened(tmp_path, xlsx_bytes(bad, good))
    assert shown(read) == {"A": {}, "B": {"A1": "1"}}
    assert named(problems) == [("A", "sheet.damaged")]


def test_too_many_cells_are_cut_and_named(tmp_path, monkeypatch):
    from workbook_tools import defaults

    small = defaults.Default(10, "cells", 1, 100, "judgement", "For this test.")
    monkeypatch.setitem(defaults.DEFAULTS, "sheet.cells", small)
    book = openpyxl.Workbook()
    for row in range(1, 9):
        book.active.append([row, row])
    book.create_sheet("next")["A1"] = 1
    book.save(tmp_path / "many.xlsx")
    read, problems = open_book(tmp_path / "many.xlsx")
    assert [len(sheet.cells) for sheet in read.sheets] == [10, 1]
    assert named(problems) == [("Sheet!6", "sheet.too_large")]


def test_a_long_text_used_a_million_times_goes_to_the_careful_reader(tmp_path, monkeypatch):
    from workbook_tools.intake import xlsx

    monkeypatch.setattr(xlsx, "_MOST_TEXT", 1000)
    monkeypatch.setattr(xlsx, "FastReader", None)  # would fail if it were called
    rows = "".join(f'<row r="{n}"><c r="A{n}" t="s"><v>0</v></c></row>' for n in range(1, 51))
    read, problems = opened(tmp_path, xlsx_bytes(sheet_xml(rows), strings=f"<si><t>{'x' * 100}</t></si>"))
    assert len(read.sheets[0].cells) == 50
    assert problems == []


@pytest.mark.parametrize(
    "part", ["xl/worksheets/sheet1.xml", "xl/workbook.xml", "xl/sharedStrings.xml", "xl/styles.xml"]
)
def test_a_document_type_is_refused_in_every_part(tmp_path, part):
    from workbook_tools.problems import CannotRead

    path = tmp_path / "entities.xlsx"
    with xlsxwriter.Workbook(path) as book:
        book.add_worksheet().write("A1", "x")
    bomb = '<!DOCTYPE x [<!ENTITY a "boo"><!ENTITY b "&a;&a;&a;">]>'
    with_part(path, part, lambda xml: bomb + xml[xml.find("?>") + 2 if xml.startswith("<?xml") else 0 :])
    with pytest.raises(CannotRead) as caught:
        open_book(path)
    assert caught.value.problem.code == "file.unsafe"


def test_what_unpacks_to_too_much_is_refused_before_it_is_unpacked(tmp_path, monkeypatch):
    from workbook_tools.intake.parts import Parts
    from workbook_tools.problems import CannotRead

    path = tmp_path / "bomb.xlsx"
    path.write_bytes(xlsx_bytes(sheet_xml("")))
    with zipfile.ZipFile(path, "a", zipfile.ZIP_DEFLATED) as archive, archive.open("xl/big.xml", "w") as part:
        for _ in range(450):
            part.write(b" " * 1_000_000)
    assert path.stat().st_size < 1_000_000
    monkeypatch.setattr(Parts, "stream", None)  # would fail if it were called
    with pytest.raises(CannotRead) as caught:
        open_book(path)
    assert caught.value.problem.code == "file.too_big"


def test_a_sheet_that_no_reader_sees_whole_says_so(tmp_path, monkeypatch):
    from workbook_tools.intake import xlsx
    from workbook_tools.intake.fast import Given

    monkeypatch.setattr(xlsx, "fill", lambda *_, **__: Given())
    monkeypatch.setattr(xlsx.CarefulReader, "fill", lambda *_, **__: 1)
    rows = '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><v>2</v></c></row>'
    _, problems = opened(tmp_path, xlsx_bytes(sheet_xml(rows)))
    assert [(p.code, dict(p.facts)) for p in problems] == [("sheet.not_all_read", {"there": 2, "read": 1})]
