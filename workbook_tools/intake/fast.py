"""The fast reader (python-calamine), used on sheets that have been looked through and hold nothing it gets wrong."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Iterator
from dataclasses import dataclass

from python_calamine import CalamineSheet, CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

from workbook_tools.intake.cells import Raw
from workbook_tools.intake.placing import Placing, first_date


class ReaderFailed(Exception):
    """A reader gave up on a file or sheet; another may do better."""


class FastReader:
    """One workbook in the fast reader.

    Raises
    ------
    ReaderFailed
        It can't open the bytes.
    """

    def __init__(self, data: bytes) -> None:
        try:
            self._book = CalamineWorkbook.from_filelike(io.BytesIO(data))
        except BaseException as error:
            raise _failed(error) from None

    def sheets(self) -> list[tuple[str, SheetVisibleEnum]]:
        """Names of its sheets of cells, in order, and whether each is shown."""
        listed = self._book.sheets_metadata
        return [(sheet.name, sheet.visible) for sheet in listed if sheet.typ == SheetTypeEnum.WorkSheet]

    def sheet(self, name: str) -> CalamineSheet:
        """One sheet of it.

        Raises
        ------
        ReaderFailed
            It can't read the sheet.
        """
        try:
            return self._book.get_sheet_by_name(name)
        except BaseException as error:
            raise _failed(error) from None


def _failed(error: BaseException) -> ReaderFailed:
    """Make the failure of one kind: a panic of the reader isn't an ``Exception``; what else isn't one goes on up."""
    if isinstance(error, Exception) or type(error).__name__ == "PanicException":
        return ReaderFailed(str(error))
    raise error


@dataclass(slots=True)
class Given:
    """What the reader gave for one sheet: how many values, and which of them it may have wrong.

    ``early`` says that there is a midnight or a date before March 1900, ``times`` that there is any time of day: the
    reader gives a time also for a negative number shown as a date.
    """

    count: int = 0
    early: bool = False
    times: bool = False


def fill(sheet: CalamineSheet, placing: Placing, *, date_1904: bool) -> Given:
    """Place all values of a sheet."""
    given = Given()
    first, midnight = first_date(date_1904), dt.time()
    for row, col, value in values(sheet):
        given.count += 1
        if isinstance(value, dt.time):
            given.times = True
            given.early = given.early or value == midnight
        elif isinstance(value, dt.date):
            given.early = given.early or (value.date() if isinstance(value, dt.datetime) else value) < first
        placing.put(row, col, value)
    return given


def values(sheet: CalamineSheet) -> Iterator[tuple[int, int, Raw]]:
    """Row, column and value of every cell that isn't blank; rows and columns count from 1."""
    if sheet.start is None:
        return
    top, left = sheet.start[0] + 1, sheet.start[1] + 1
    for row, cells in enumerate(sheet.to_python(skip_empty_area=True), top):
        for col, value in enumerate(cells, left):
            if value != "":
                yield row, col, value
