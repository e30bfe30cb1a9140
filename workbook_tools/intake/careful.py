"""The careful reader (openpyxl), for sheets that the fast one gets wrong: row by row, nothing set aside."""

from __future__ import annotations

import datetime as dt
import io
import re
import warnings
from typing import Any

from openpyxl import load_workbook
from openpyxl.styles.numbers import is_datetime

from workbook_tools.intake.fast import ReaderFailed
from workbook_tools.intake.placing import Placing, base, first_date
from workbook_tools.intake.prescan import Scan

_ESCAPED = re.compile("_x00([01][0-9A-Fa-f])_")
"""A control character as a workbook writes it, which this reader leaves as it stands."""


class CarefulReader:
    """One workbook in the careful reader.

    Raises
    ------
    ReaderFailed
        It can't open the bytes.
    """

    def __init__(self, data: bytes) -> None:
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                self._book = load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False)
        except Exception as error:
            raise ReaderFailed(str(error)) from None

    def fill(self, name: str, placing: Placing, scan: Scan, *, date_1904: bool) -> int:
        """Place all values of a sheet but those of error cells; return how many were given.

        ``scan`` is from a close look. Where the reader gives an error that isn't in it, the cell holds a number
        shown as a date that is outside all dates; a time of day may be a negative number, too.

        Raises
        ------
        ReaderFailed
            It can't read the sheet; what was placed so far isn't to be used.
        """
        count = 0
        try:
            sheet: Any = self._book[name]
            sheet.reset_dimensions()  # the size that a sheet states of itself may be wrong
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                for row in sheet.iter_rows():
                    for cell in row:
                        count += _place(cell, placing, scan, date_1904)
                    if placing.full:
                        break
        except Exception as error:
            raise ReaderFailed(str(error)) from None
        return count


def _place(cell: Any, placing: Placing, scan: Scan, date_1904: bool) -> bool:
    """Place one cell; whether it held a value."""
    value = cell.value
    if value is None:
        return False
    row, col = cell.row, cell.column
    if isinstance(value, str):
        if cell.data_type == "e":
            if (row, col) in scan.errors:
                return False
            placing.blame("cell.no_date", row, col)
            return True
        value = _ESCAPED.sub(lambda found: chr(int(found[1], 16)), value)
    elif isinstance(value, dt.datetime):
        first = first_date(date_1904)
        if base(date_1904) <= value.date() < first and is_datetime(cell.number_format) == "time":
            value = value.time()
    elif isinstance(value, dt.time):
        negative = (row, col) in scan.negative
        if negative or (value == dt.time() and is_datetime(cell.number_format) == "date"):
            placing.blame("cell.early_date", row, col, "" if negative else "0")
            return True
    placing.put(row, col, value)
    return True
