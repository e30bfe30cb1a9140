"""Old workbooks: right values or a named problem."""

import datetime as dt
import struct

import pytest
import xlwt
from made_files import named, shown

from workbook_tools.intake.cells import Area
from workbook_tools.intake.workbook import open_book
from workbook_tools.intake.xls_scan import scan_xls
from workbook_tools.problems import CannotRead


def saved(tmp_path, fill, **options):
    book = xlwt.Workbook()
    for name, value in options.items():
        setattr(book, name, value)
    fill(book)
    path = tmp_path / "book.xls"
    book.save(str(path))
    return open_book(path)


def style(shape):
    return xlwt.easyxf(num_format_str=shape)


def test_values_of_every_kind_read_as_typed(tmp_path):
    def fill(book):
        sheet = book.add_sheet("Log")
        for row, value in enumerate(["07", 7, 7.5, -1.25, True, "two\nlines", "½ ~50"], 3):
            sheet.write(row, 2, value)
        sheet.write(10, 2, dt.date(2024, 2, 29), style("yyyy-mm-dd"))
        sheet.write(11, 2, dt.datetime.fromisoformat("2024-02-29T13:05"), style("yyyy-mm-dd hh:mm"))
        sheet.write(12, 2, 0.5, style("hh:mm"))
        sheet.write(13, 2, 1.25, style("[h]:mm"))
        sheet.write_merge(15, 16, 2, 3, "merged")
        book.add_sheet("Hidden").write(0, 0, "x")
        book.get_sheet(1).visibility = 1
        book.add_sheet("Blank")

    read, problems = saved(tmp_path, fill)
    assert list(shown(read)["Log"].items()) == [
        ("C4", "07"), ("C5", "7"), ("C6", "7.5"), ("C7", "-1.25"), ("C8", "TRUE"), ("C9", "two\nlines"),
        ("C10", "½ ~50"), ("C11", "2024-02-29"), ("C12", "2024-02-29 13:05"), ("C13", "12:00"), ("C14", "30:00"),
        ("C16", "merged"),
    ]  # fmt: skip
    assert read.sheets[0].merged == (Area(16, 3, 17, 4),)
    assert [(s.name, s.hidden) for s in read.sheets] == [("Log", False), ("Hidden", True), ("Blank", False)]
    assert problems == []


def test_the_1904_system_gives_right_dates(tmp_path):
    def fill(book):
        book.add_sheet("D").write(0, 0, 43889, style("yyyy-mm-dd"))

    read, _ = saved(tmp_path, fill, dates_1904=True)
    assert read.date_1904
    assert shown(read) == {"D": {"A1": "2024-02-29"}}


def test_error_cells_are_named_and_not_used(tmp_path):
    def fill(book):
        sheet = book.add_sheet("Log")
        sheet.row(1).set_cell_error(1, 42)
        sheet.row(2).set_cell_error(1, "#REF!")
        sheet.write(2, 2, "kept")

    read, problems = saved(tmp_path, fill)
    assert shown(read) == {"Log": {"C3": "kept"}}
    assert [(str(p.where), p.code, p.value) for p in problems] == [
        ("Log!B2", "cell.error", "#N/A"),
        ("Log!B3", "cell.error", "#REF!"),
    ]


@pytest.mark.parametrize("number", [1, 45, 60, -3, -0.25, -1234567.25])
def test_small_numbers_shown_as_dates_are_named(tmp_path, number):
    def fill(book):
        sheet = book.add_sheet("D")
        sheet.write(0, 0, number, style("dd/mm/yyyy"))
        sheet.write(0, 1, number)

    read, problems = saved(tmp_path, fill)
    assert shown(read)["D"].keys() == {"B1"}
    assert read.sheets[0].cells[1, 2].value == number
    assert named(problems) == [("D!A1", "cell.early_date")]


def test_a_stray_cell_far_away_is_named(tmp_path):
    def fill(book):
        sheet = book.add_sheet("Log")
        sheet.write(0, 0, "bin")
        sheet.write(65_535, 255, "x")

    with pytest.raises(CannotRead) as caught:
        saved(tmp_path, fill)
    assert caught.value.problem.code == "file.spread"
    assert "Log!IV65536" in str(caught.value)


def test_a_file_cut_short_is_damaged_at_any_length(tmp_path):
    book = xlwt.Workbook()
    sheet = book.add_sheet("Log")
    for row in range(500):
        sheet.write(row, 0, f"entry {row}")
    path = tmp_path / "whole.xls"
    book.save(str(path))
    data = path.read_bytes()
    for share in (0.01, 0.2, 0.5, 0.8):
        cut = tmp_path / "cut.xls"
        cut.write_bytes(data[: int(len(data) * share)])
        with pytest.raises(CannotRead) as caught:
            open_book(cut)
        assert caught.value.problem.code == "file.damaged", share


def record(kind, body=b""):
    return struct.pack("<HH", kind, len(body)) + body


def test_the_scan_sees_a_password_before_anything_else():
    begin = record(0x809, struct.pack("<HH", 0x600, 5) + bytes(12))
    assert scan_xls(begin + record(0x2F, bytes(6))).locked
    assert not scan_xls(begin + record(0x0A)).locked


def test_a_password_ends_in_one_sentence(tmp_path):
    book = xlwt.Workbook()
    book.add_sheet("Log").write(0, 0, "x")
    path = tmp_path / "locked.xls"
    book.save(str(path))
    data = bytearray(path.read_bytes())
    at = data.find(record(0xE1, struct.pack("<H", 0x4B0)))  # the second record; its place is taken by a password
    assert at > 0
    data[at : at + 2] = struct.pack("<H", 0x2F)
    path.write_bytes(data)
    with pytest.raises(CannotRead) as caught:
        open_book(path)
    assert caught.value.problem.code == "file.locked"


def test_the_scan_tells_cells_of_a_chart_from_those_of_the_sheet():
    def cell(kind, row, col, rest):
        return record(kind, struct.pack("<HHH", row, col, 0) + rest)

    begin = record(0x809, bytes(16))
    head = begin + record(0x85, struct.pack("<IBBBB", 0, 0, 0, 1, 0) + b"S") + record(0x0A)
    listed = record(0x85, struct.pack("<IBBBB", len(head), 0, 0, 1, 0) + b"S")
    whole = (
        begin
        + listed
        + record(0x0A)
        + begin
        + cell(0x203, 0, 0, struct.pack("<d", -5.0))
        + begin
        + cell(0x203, 99, 99, struct.pack("<d", 1.0))
        + record(0x0A)
        + cell(0x27E, 1, 1, struct.pack("<I", ((-7 << 2) & 0xFFFFFFFF) | 2))
        + record(0xBD, struct.pack("<HH", 2, 0) + struct.pack("<HIHI", 0, 6, 0, (-4 << 2) & 0xFFFFFFFF | 3) + b"\1\0")
        + record(0x0A)
    )
    sheet = scan_xls(whole).sheets[0]
    assert (sheet.bottom, sheet.right) == (3, 2)
    assert sheet.negative == {(1, 1), (2, 2), (3, 2)}
