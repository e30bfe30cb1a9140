"""Opening: what a file is, what can't be read and why, and that nothing is ever written to it."""

import hashlib
import io
import os
import shutil
import struct
import zipfile

import openpyxl
import pytest
import xlwt
from made_files import ods_bytes, sheet_xml, shown, xlsx_bytes, zipped

from workbook_tools.intake import files
from workbook_tools.intake.workbook import open_book
from workbook_tools.problems import CannotRead

ONE = sheet_xml('<row r="1"><c r="A1"><v>1</v></c></row>')
ODS_ONE = ods_bytes(
    '<table:table table:name="A"><table:table-row><table:table-cell office:value-type="float" office:value="1"/>'
    "</table:table-row></table:table>"
)


def xls_bytes():
    book = xlwt.Workbook()
    book.add_sheet("A").write(0, 0, 1)
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def container(stream):
    """An old office container with one stream of that name, as small as it can be."""
    head = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(16) + struct.pack("<5H", 62, 3, 0xFFFE, 9, 6) + bytes(6)
    head += struct.pack("<9I", 0, 1, 1, 0, 4096, 0xFFFFFFFE, 0, 0xFFFFFFFE, 0) + struct.pack("<I", 0)
    head += struct.pack("<108I", *[0xFFFFFFFF] * 108)
    head = head[:44] + struct.pack("<I", 1) + struct.pack("<I", 1) + head[52:]
    fat = struct.pack("<2I", 0xFFFFFFFD, 0xFFFFFFFE) + b"\xff" * 504

    def entry(name, kind):
        text = name.encode("utf-16-le")
        body = text.ljust(64, b"\0") + struct.pack("<HBB", len(text) + 2, kind, 1) + b"\xff" * 12 + bytes(36)
        return body + struct.pack("<IQ", 0xFFFFFFFE, 0)

    directory = entry("Root Entry", 5) + entry(stream, 2) + bytes(256)
    return head[:512].ljust(512, b"\xff") + fat + directory


def refused(path):
    with pytest.raises(CannotRead) as caught:
        open_book(path)
    assert "{" not in str(caught.value)
    return caught.value.problem


@pytest.mark.parametrize("data", [xlsx_bytes(ONE), ODS_ONE, xls_bytes()], ids=["xlsx", "ods", "xls"])
@pytest.mark.parametrize("suffix", [".xlsx", ".xlsm", ".xls", ".ods", ".csv", ".dat", ""])
def test_a_workbook_is_known_by_its_content_and_not_by_its_ending(tmp_path, data, suffix):
    path = tmp_path / f"book{suffix}"
    path.write_bytes(data)
    read, problems = open_book(path)
    assert shown(read) == {"A": {"A1": "1"}}
    assert problems == []


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"%PDF-1.7 ...", "a PDF document"),
        (b"\x89PNG\r\n\x1a\n", "a picture"),
        (b"\xff\xd8\xff\xe0", "a picture"),
        (b"dear diary, today", "plain text"),
        (b"bin,ml\nB1,3\n", "plain text"),
        (b"<html><table><tr><td>bin</td></tr></table></html>", "a web page"),
        (b"\n<!DOCTYPE html>", "a web page"),
        (
            b'<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet">',
            "XML spreadsheet of 2003",
        ),
        (b"<?xml version='1.0'?><x/>", "an XML document"),
        (bytes(range(256)) * 8, "something unknown"),
        (zipped({"readme.txt": "x"}), "a packed archive"),
        (zipped({"[Content_Types].xml": "<x/>", "word/document.xml": "<x/>"}), "a text document (.docx)"),
        (zipped({"[Content_Types].xml": "<x/>", "xl/workbook.bin": "x"}), "a binary workbook (.xlsb)"),
        (zipped({"Index/Document.iwa": "x"}), "a Numbers workbook"),
        (zipped({"mimetype": "application/vnd.oasis.opendocument.text"}), "no spreadsheet"),
        (zipped({"[Content_Types].xml": "<x/>"}), "no workbook"),
        (container("WordDocument"), "a text document (.doc)"),
        (container("SomethingElse"), "some other old office file"),
    ],
)
def test_what_is_no_workbook_is_called_what_it_is(tmp_path, data, words):
    path = tmp_path / "bins.xlsx"
    path.write_bytes(data)
    problem = refused(path)
    assert problem.code == "file.other_kind"
    assert words in problem.says
    assert ".ods" in problem.fix


@pytest.mark.parametrize("name", ["bins.xlsx", "bins.xls", "bins.csv", "bins.ods"])
def test_an_empty_file_says_so(tmp_path, name):
    (tmp_path / name).write_bytes(b"")
    assert refused(tmp_path / name).code == "file.empty"


def test_no_such_file(tmp_path):
    problem = refused(tmp_path / "none.xlsx")
    assert problem.code == "file.missing"
    assert "none.xlsx" in problem.says


@pytest.mark.parametrize("name", ["x" * 5000, "a\0b"])
def test_a_name_that_can_not_be_one(tmp_path, name):
    assert refused(tmp_path / name).code in ("file.missing", "file.unreadable")


def test_a_pipe_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.xlsx")
    assert refused(tmp_path / "pipe.xlsx").code == "file.other_kind"


def test_a_file_that_may_not_be_read(tmp_path, monkeypatch):
    path = tmp_path / "mine.xlsx"
    path.write_bytes(xlsx_bytes(ONE))

    def denied(*_, **__):
        raise PermissionError

    monkeypatch.setattr(type(path), "open", denied)
    assert refused(path).code == "file.no_permission"


def test_an_encrypted_new_workbook_asks_for_a_copy_without_password(tmp_path):
    path = tmp_path / "locked.xlsx"
    path.write_bytes(container("EncryptedPackage"))
    problem = refused(path)
    assert problem.code == "file.locked"
    assert "password" in problem.says


def test_a_zip_with_a_password_is_locked_too(tmp_path):
    data = bytearray(xlsx_bytes(ONE))
    for mark, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        found = data.find(mark)
        while found >= 0:
            data[found + at] |= 1
            found = data.find(mark, found + 1)
    path = tmp_path / "locked.xlsx"
    path.write_bytes(data)
    assert refused(path).code == "file.locked"


@pytest.mark.parametrize("data", [xlsx_bytes(ONE), ODS_ONE], ids=["xlsx", "ods"])
def test_a_zip_cut_short_is_damaged_at_any_length(tmp_path, data):
    path = tmp_path / "cut.xlsx"
    for length in range(30, len(data) - 1, 97):
        path.write_bytes(data[:length])
        assert refused(path).code == "file.damaged"


@pytest.mark.parametrize("data", [xlsx_bytes(ONE), ODS_ONE, xls_bytes()], ids=["xlsx", "ods", "xls"])
def test_a_flipped_byte_anywhere_is_read_or_refused_but_never_a_crash(tmp_path, data):
    path = tmp_path / "flipped"
    tries = 40 if data.startswith(b"\xd0\xcf") else 150  # an old workbook starts a process each time
    for at in range(0, len(data), max(1, len(data) // tries)):
        spoilt = bytearray(data)
        spoilt[at] ^= 0xFF
        path.write_bytes(spoilt)
        try:
            open_book(path)
        except CannotRead as error:
            assert error.problem.code.startswith("file.")


def test_a_part_whose_checksum_is_wrong_is_named(tmp_path):
    path = tmp_path / "bins.xlsx"
    data = bytearray(xlsx_bytes(ONE))
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        entry = archive.getinfo("xl/worksheets/sheet1.xml")
    at = data.find(struct.pack("<I", entry.CRC), data.find(b"PK\x01\x02"))
    data[at] ^= 0xFF
    path.write_bytes(data)
    assert refused(path).code == "file.damaged"


def test_too_large_a_file_is_refused_before_it_is_read(tmp_path):
    path = tmp_path / "huge.xlsx"
    with path.open("wb") as stream:
        stream.truncate(3_000_000_000)
    assert refused(path).code == "file.too_big"


def test_a_file_saved_while_it_is_read_is_read_again(tmp_path, monkeypatch):
    path = tmp_path / "bins.csv"
    path.write_text("a,b\n")
    changes = iter(["a,b\n1,2\n", "a,b\n1,2\n"])
    real = type(path).open

    def saved_meanwhile(self, *args, **kwargs):
        stream = real(self, *args, **kwargs)
        data = stream.read()
        stream.close()
        text = next(changes, None)
        if text is not None and len(data) != len(text):
            with real(self, "w") as out:
                out.write(text)
        return io.BytesIO(data)

    monkeypatch.setattr(type(path), "open", saved_meanwhile)
    assert files.read_bytes(path) == b"a,b\n1,2\n"


@pytest.mark.parametrize("kind", ["xlsx", "ods", "xls", "csv", "folder"])
def test_nothing_is_ever_written(tmp_path, kind):
    data = {"xlsx": xlsx_bytes(ONE), "ods": ODS_ONE, "xls": xls_bytes(), "csv": b"a,b\n", "folder": b"a,b\n"}[kind]
    path = tmp_path / ("x.csv" if kind == "folder" else f"x.{kind}")
    path.write_bytes(data)
    os.utime(path, ns=(1_700_000_000_000_000_000, 1_700_000_000_000_000_000))
    path.chmod(0o444)
    open_book(tmp_path if kind == "folder" else path)
    assert hashlib.sha256(path.read_bytes()).digest() == hashlib.sha256(data).digest()
    assert path.stat().st_mtime_ns == 1_700_000_000_000_000_000
    assert [file.name for file in tmp_path.iterdir()] == [path.name]


def test_the_same_file_reads_the_same_twice(tmp_path):
    path = tmp_path / "bins.xlsx"
    book = openpyxl.Workbook()
    book.active.append(["=1", "x", 3])
    book.save(path)
    copy = tmp_path / "copy.xlsx"
    shutil.copy(path, copy)
    (one, problems), (two, others) = open_book(path), open_book(copy)
    assert (one.sheets, problems) == (two.sheets, others)
