"""Know a report of ours from other workbooks, so that nothing else is ever written over or read as a log."""

from __future__ import annotations

import zipfile
import zlib
from pathlib import Path

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import fromstring

from workbook_tools.intake.workbook import open_book
from workbook_tools.problems import CannotRead

TITLE = "frassbook report"
"""How the title in the properties of every report begins."""
BOXES = ("Done on", "Seen", "Amount", "Note")
"""The headings of Due under which a keeper fills in what was done."""
_TITLE_TAG = "{http://purl.org/dc/elements/1.1/}title"
_PROPERTIES = "docProps/core.xml"
_LARGEST = 100_000
"""Bytes that the properties of a workbook may unpack to; more is no report of ours."""


def is_own_report(path: Path) -> bool:
    """Whether a file is a report written by this program, by the title in its properties."""
    try:
        with zipfile.ZipFile(path) as parts:
            if parts.getinfo(_PROPERTIES).file_size > _LARGEST:
                return False
            title = fromstring(parts.read(_PROPERTIES)).findtext(_TITLE_TAG)
    except (OSError, KeyError, ValueError, SyntaxError, NotImplementedError, RuntimeError):
        return False
    except (zipfile.BadZipFile, zlib.error, DefusedXmlException):
        return False
    return (title or "").startswith(TITLE)


def filled_boxes(path: Path) -> int:
    """How many boxes of a report's Due sheet hold something that would be lost if it were written anew."""
    try:
        book, _ = open_book(path)
    except CannotRead:
        return 0
    for sheet in book.sheets:
        if sheet.name != "Due":
            continue
        headings = {at: cell.text for at, cell in sheet.cells.items() if cell.text in BOXES}
        rows = [row for row, _ in headings]
        head = max(set(rows), key=rows.count, default=0)
        columns = {col for row, col in headings if row == head}
        return sum(row > head and col in columns for row, col in sheet.cells)
    return 0
