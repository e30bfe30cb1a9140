"""Open a keeper's workbook, whatever kind it is, without ever writing to it."""

from __future__ import annotations

from pathlib import Path

from workbook_tools.intake.cells import Book
from workbook_tools.intake.csvfolder import read_csv, read_folder
from workbook_tools.intake.files import kind_of, read_bytes
from workbook_tools.intake.ods import read_ods
from workbook_tools.intake.xls import read_xls
from workbook_tools.intake.xlsx import read_xlsx
from workbook_tools.problems import Problem

_READERS = {"xlsx": read_xlsx, "ods": read_ods, "xls": read_xls, "csv": read_csv}


def open_book(path: Path) -> tuple[Book, list[Problem]]:
    """Open a workbook (.xlsx, .xlsm, .ods, .xls), a .csv file or a folder of .csv files.

    What the file is, is told by its content and not by its ending. It is read once, as a whole; it is never written
    to. Hidden sheets, rows and columns are read like any other.

    Parameters
    ----------
    path : Path
        A file or a folder.

    Returns
    -------
    book : Book
        Its sheets of cells. ``facts`` has the ``format`` and, for .csv, the ``encoding`` and ``delimiter``.
    problems : list of Problem
        Every cell that holds something that can't be used, and every sheet or file left out.

    Raises
    ------
    CannotRead
        Nothing of it could be read; its one problem says why.
    """
    if _is_folder(path):
        return read_folder(path)
    data = read_bytes(path)
    return _READERS[kind_of(data, path.suffix)](data, path)


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False
