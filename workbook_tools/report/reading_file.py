"""Writing the reading workbook beside the keeper's, never over anything else."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from workbook_tools.intake.reading import Intake
from workbook_tools.intake.reading_book import is_reading_book
from workbook_tools.intake.workbook import open_book
from workbook_tools.problems import CannotRead
from workbook_tools.report.reading_book import reading_sheets
from workbook_tools.report.saving import CannotWrite, save
from workbook_tools.report.screen import reading_book_line
from workbook_tools.report.writer import draw

TITLE = "frassbook reading"
"""How the title in the properties of every reading workbook begins."""


def write_reading_book(intake: Intake, out: Path, name: str, on: dt.date, paper: str = "A4") -> str:
    """Write what a workbook of this name was taken for, over an older reading workbook or where nothing stands.

    Returns
    -------
    str
        A sentence that says where it is, or why it couldn't be written: a check goes on without it.
    """
    try:
        if out.suffix.lower() != ".xlsx":
            raise CannotWrite(out, "the name must end in .xlsx.")
        if out.exists() and not _is_ours(out):
            raise CannotWrite(out, "there is a file of that name already that is no reading workbook.")
        content, _ = draw(reading_sheets(intake), region="en-GB", paper=paper, created=on, title=f"{TITLE}: {name}")
        save(content, out)
    except CannotWrite as error:
        return reading_book_line(out, str(error))
    return reading_book_line(out)


def _is_ours(path: Path) -> bool:
    try:
        return path.is_file() and is_reading_book(open_book(path)[0])
    except CannotRead:
        return False
