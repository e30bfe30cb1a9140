import datetime as dt
from pathlib import Path

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.reading_book import is_reading_book
from workbook_tools.intake.workbook import open_book
from workbook_tools.report.reading_file import write_reading_book

ON = dt.date(2025, 3, 20)


def write(out: Path) -> str:
    intake, _ = read_book(book(sheet("Log", "Date|Bin|Done\n13/3/2025|A1|water\n14/3/2025|A2|water")), ON)
    return write_reading_book(intake, out, "mine.xlsx", ON)


def test_it_is_written_where_nothing_stands_and_over_an_older_one(tmp_path: Path):
    out = tmp_path / "mine-reading.xlsx"
    for _ in range(2):
        assert write(out).startswith(f"Reading workbook: {out}")
        assert is_reading_book(open_book(out)[0])


@pytest.mark.parametrize("content", [b"", b"anything", b"PK\x03\x04 torn off"])
def test_what_is_none_of_ours_is_left_alone(tmp_path: Path, content: bytes):
    out = tmp_path / "mine-reading.xlsx"
    out.write_bytes(content)
    assert "no reading workbook" in write(out)
    assert out.read_bytes() == content


@pytest.mark.parametrize("name", ["mine.ods", "none/mine.xlsx", "folder.xlsx"])
def test_what_cannot_be_written_is_said(tmp_path: Path, name: str):
    (tmp_path / "folder.xlsx").mkdir()
    before = sorted(tmp_path.rglob("*"))
    assert write(tmp_path / name).startswith("No reading workbook was written: ")
    assert sorted(tmp_path.rglob("*")) == before
