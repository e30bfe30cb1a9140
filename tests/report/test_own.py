import zipfile

import pytest
import xlsxwriter

from workbook_tools.report.own import TITLE, is_own_report


def titled(path, title):
    book = xlsxwriter.Workbook(str(path))
    book.add_worksheet()
    book.set_properties({"title": title})
    book.close()
    return path


def test_a_report_is_known_by_its_title(tmp_path):
    assert is_own_report(titled(tmp_path / "a.xlsx", f"{TITLE}: mine.xlsx, 2025-03-20"))
    assert not is_own_report(titled(tmp_path / "b.xlsx", "My woodlice"))


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", b"text"])
def test_other_files_are_no_report(tmp_path, content):
    path = tmp_path / "x.xlsx"
    path.write_bytes(content)

    assert not is_own_report(path)
    assert not is_own_report(tmp_path / "missing.xlsx")
    assert not is_own_report(tmp_path)


def test_damaged_properties_make_no_report_and_no_trouble(tmp_path):
    path = titled(tmp_path / "a.xlsx", f"{TITLE}: x")
    content = path.read_bytes()
    at = content.index(b"docProps/core.xml") + len(b"docProps/core.xml") + 8
    path.write_bytes(content[:at] + b"\xff" * 40 + content[at + 40 :])

    assert not is_own_report(path)


def test_a_package_without_properties_is_no_report(tmp_path):
    with zipfile.ZipFile(tmp_path / "x.xlsx", "w") as parts:
        parts.writestr("docProps/core.xml", "<broken")

    assert not is_own_report(tmp_path / "x.xlsx")
