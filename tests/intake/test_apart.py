"""The fast reader in a process of its own."""

import io
import struct
import subprocess

import pytest
import xlwt

from workbook_tools.intake import apart
from workbook_tools.intake.fast import ReaderFailed
from workbook_tools.intake.workbook import open_book
from workbook_tools.problems import CannotRead


def old_bytes():
    book = xlwt.Workbook()
    sheet = book.add_sheet("Log")
    sheet.write(2, 1, "x")
    sheet.write_merge(4, 5, 0, 1, "wide")
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def test_cells_and_merged_areas_come_back_with_their_places():
    sheet = apart.read_apart(old_bytes())[0]
    assert (sheet.name, sheet.hidden) == ("Log", False)
    assert sheet.cells == [(3, 2, "x"), (5, 1, "wide")]
    assert sheet.merged == (apart.Area(5, 1, 6, 2),)


def test_what_is_no_workbook_fails_quietly(capfd):
    with pytest.raises(ReaderFailed):
        apart.read_apart(b"nothing of the kind")
    assert capfd.readouterr() == ("", "")


def test_a_reader_that_loses_its_way_is_given_up(monkeypatch):
    def too_long(*_, **__):
        raise subprocess.TimeoutExpired("reader", 300)

    monkeypatch.setattr(apart.subprocess, "run", too_long)
    with pytest.raises(ReaderFailed):
        apart.read_apart(old_bytes())


def test_a_size_that_ends_the_readers_process_is_damage_and_not_a_crash(tmp_path):
    path = tmp_path / "size.xls"
    data = bytearray(old_bytes())
    at = data.find(struct.pack("<HH", 0x200, 14))  # the record that states the size of the sheet
    assert at > 0
    data[at + 4 : at + 16] = struct.pack("<IIHH", 0, 0xFFFFFFF0, 0, 0xFFFF)
    path.write_bytes(data)
    with pytest.raises(CannotRead) as caught:
        open_book(path)
    assert caught.value.problem.code == "file.damaged"
