"""Values made fit for a cell: nothing is run, nothing breaks the file, nothing is lost unseen."""

from __future__ import annotations

import datetime as dt
import math
import re
from dataclasses import dataclass

from workbook_tools.report.columns import Value

LONGEST = 32_767
"""Most characters that a cell can hold."""
_CUT = "..."
_ILLEGAL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_FIRST_DAY = dt.date(1900, 3, 1)


@dataclass(frozen=True, slots=True)
class Plain:
    """A value ready to be written; ``cut`` and ``replaced`` count what the text lost."""

    value: Value
    cut: int = 0
    replaced: int = 0


def plain(value: Value) -> Plain:
    """Make a value fit for a cell.

    Characters that no workbook can hold become a visible replacement sign; too long a text is cut with three dots;
    a day before March 1900, which spreadsheet programs show differently or not at all, becomes text; NaN is empty.

    Raises
    ------
    ValueError
        A number is infinite: a sheet must say in words what it means.
    """
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, float) and not math.isfinite(value):
        if math.isnan(value):
            return Plain(None)
        raise ValueError("an infinite number can't be written")
    if isinstance(value, dt.date) and _day(value) < _FIRST_DAY:
        return Plain(value.isoformat())
    return Plain(value)


def _day(value: dt.date) -> dt.date:
    return value.date() if isinstance(value, dt.datetime) else value


def printable(text: str) -> tuple[str, int]:
    """Make characters that no workbook and no text file can hold a visible replacement sign, and count them."""
    return _ILLEGAL.subn("\ufffd", text.replace("\r\n", "\n").replace("\r", "\n"))


def _text(text: str) -> Plain:
    text, replaced = printable(text)
    units = len(text.encode("utf-16-le")) // 2
    if units <= LONGEST:
        return Plain(text or None, 0, replaced)
    kept = text.encode("utf-16-le")[: 2 * (LONGEST - len(_CUT))].decode("utf-16-le", "ignore")
    return Plain(kept + _CUT, len(text) - len(kept), replaced)
