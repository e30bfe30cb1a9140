"""Read an old workbook (.xls): look through its records first, then have the fast reader read it apart."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.apart import OldSheet, read_apart
from workbook_tools.intake.cells import Book
from workbook_tools.intake.compound import take_stream
from workbook_tools.intake.fast import ReaderFailed
from workbook_tools.intake.files import cannot
from workbook_tools.intake.placing import Placing
from workbook_tools.intake.xls_scan import OldScan, scan_xls
from workbook_tools.problems import CellRef, Problem


def read_xls(data: bytes, path: Path) -> tuple[Book, list[Problem]]:
    """Read every sheet of an old workbook.

    Raises
    ------
    CannotRead
        It is damaged, locked, or its cells lie too far apart: the reader of this format sets aside memory for all
        cells between the first and the last.
    """
    try:
        scan = scan_xls(take_stream(data, "Workbook", "Book"))
    except ValueError as error:
        raise cannot("file.damaged", reason=error) from None
    if scan.locked:
        raise cannot("file.locked")
    most = DEFAULTS["sheet.spread"].value
    widest = max(scan.sheets, key=lambda sheet: sheet.spread, default=None)
    if widest is not None and sum(sheet.spread for sheet in scan.sheets) > most:
        raise cannot("file.spread", cell=CellRef(widest.name, *widest.farthest))
    scans = {sheet.name: sheet for sheet in scan.sheets}
    try:
        listed = read_apart(data)
    except ReaderFailed:
        raise cannot("file.damaged", reason="no reader understands it") from None
    sheets, problems = [], []
    left = int(DEFAULTS["book.cells"].value)
    for found in listed:
        placing = Placing(found.name, min(left, int(DEFAULTS["sheet.cells"].value)), date_1904=scan.date_1904)
        if found.cells is None:
            problems.append(Problem("sheet.damaged", CellRef(found.name), {"reason": "no reader understands it"}))
        _fill(found, placing, scans.get(found.name, OldScan(found.name)))
        sheet, more = placing.sheet(found.merged, hidden=found.hidden)
        left -= len(sheet.cells)
        sheets.append(sheet)
        problems += more
    if not sheets:
        raise cannot("file.no_sheets")
    return Book(path, tuple(sheets), scan.date_1904, {"format": "xls"}), problems


def _fill(found: OldSheet, placing: Placing, scan: OldScan) -> None:
    for row, col, value in found.cells or ():
        if isinstance(value, dt.time) and (row, col) in scan.negative:
            placing.blame("cell.early_date", row, col)
        else:
            placing.put(row, col, value)
    for (row, col), error in scan.errors.items():
        placing.blame("cell.error", row, col, error, error=error)
