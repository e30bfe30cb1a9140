"""What one cell of an OpenDocument spreadsheet holds: its text, its value by declared type, or its fault."""

from __future__ import annotations

import datetime as dt
import re
from xml.etree.ElementTree import Element

from workbook_tools.intake.cells import Raw

OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
STYLE = "{urn:oasis:names:tc:opendocument:xmlns:style:1.0}"
_CALC = "{urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0}"
NUMBER = "{urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0}"

_MOST_BLANKS = 32_767
_LINE_BREAKS = re.compile(r" *[\t\r\n][ \t\r\n]*")
_SHOWN_ERROR = re.compile(r"#(?:N/A|REF!|DIV/0!|VALUE!|NAME\?|NUM!|NULL!)|Err:\d{3}")
_LENGTH = re.compile(r"(-)?P(?:(\d{1,9})D)?(?:T(?:(\d{1,9})H)?(?:(\d{1,9})M)?(?:(\d{1,9}(?:\.\d*)?)S)?)?")


class Styles:
    """What the styles of the file say that changes how a cell is read: hidden sheets, and durations."""

    def __init__(self) -> None:
        self._hidden: set[str] = set()
        self._durations: set[str] = set()
        self._number_style: dict[str, str] = {}

    def learn(self, element: Element) -> None:
        """Take in one style; anything else is passed over."""
        name = element.get(STYLE + "name", "")
        if element.tag == NUMBER + "time-style" and element.get(NUMBER + "truncate-on-overflow") == "false":
            self._durations.add(name)
        elif element.tag == STYLE + "style":
            self._number_style[name] = element.get(STYLE + "data-style-name", "")
            if any(item.get(TABLE + "display") == "false" for item in element.iter(STYLE + "table-properties")):
                self._hidden.add(name)

    def hides(self, sheet: Element) -> bool:
        """Whether a sheet is hidden."""
        return sheet.get(TABLE + "style-name") in self._hidden

    def is_duration(self, cell: Element) -> bool:
        """Whether a cell shows more than 24 hours as hours; only the cell's own style is looked at."""
        return self._number_style.get(cell.get(TABLE + "style-name", "")) in self._durations


def count(element: Element, name: str) -> int:
    """A number of the table vocabulary such as number-rows-repeated; 1 when it isn't there."""
    text = element.get(TABLE + name, "1")
    return max(1, int(text)) if text.isascii() and text.isdigit() and len(text) <= 9 else 1


def waits(cell: Element) -> bool:
    """Whether a cell holds a formula that has never been worked out."""
    return cell.get(TABLE + "formula") is not None and not cell.get(OFFICE + "value-type") and not _shows(cell)


def holds(cell: Element) -> bool:
    """Whether there is anything to read in a cell."""
    return bool(cell.get(OFFICE + "value-type")) or _shows(cell) or cell.get(TABLE + "formula") is not None


def _shows(cell: Element) -> bool:
    return cell.find(TEXT + "p") is not None


def text_of_cell(cell: Element) -> str:
    """The text shown in a cell, without notes; paragraphs are separated by line breaks."""
    return "\n".join(_paragraph(child) for child in cell if child.tag in (TEXT + "p", TEXT + "h"))


def _paragraph(element: Element) -> str:
    pieces = [_LINE_BREAKS.sub(" ", element.text or "")]
    for child in element:
        if child.tag == TEXT + "s":
            pieces.append(" " * min(_MOST_BLANKS, _blanks(child)))
        elif child.tag == TEXT + "tab":
            pieces.append("\t")
        elif child.tag == TEXT + "line-break":
            pieces.append("\n")
        elif child.tag not in (OFFICE + "annotation", TEXT + "note", TEXT + "ruby-text"):
            pieces.append(_paragraph(child))
        pieces.append(_LINE_BREAKS.sub(" ", child.tail or ""))
    return "".join(pieces)


def _blanks(element: Element) -> int:
    text = element.get(TEXT + "c", "1")
    return int(text) if text.isascii() and text.isdigit() and len(text) <= 9 else 1


def error_of(cell: Element, text: str) -> str:
    """The error a cell shows instead of a value, such as #N/A; empty when there is none."""
    if cell.get(_CALC + "value-type") == "error":
        return text or "an error"
    if cell.get(TABLE + "formula") is not None and _SHOWN_ERROR.fullmatch(text):
        return text
    return ""


def value_of(cell: Element, text: str, styles: Styles) -> Raw:
    """The value of a cell by its declared type; its text where it has none or states one that can't be."""
    kind = cell.get(OFFICE + "value-type", "")
    try:
        if kind in ("float", "percentage", "currency"):
            return float(cell.get(OFFICE + "value", ""))
        if kind == "boolean":
            return cell.get(OFFICE + "boolean-value") == "true"
        if kind == "date":
            return _moment(cell.get(OFFICE + "date-value", ""))
        if kind == "time":
            return _time(cell, styles)
    except (ValueError, OverflowError):
        return text
    return text or cell.get(OFFICE + "string-value", "")


def _moment(text: str) -> dt.date | dt.datetime:
    if "T" not in text:
        return dt.date.fromisoformat(text)
    return dt.datetime.fromisoformat(text).replace(tzinfo=None)


def _time(cell: Element, styles: Styles) -> dt.time | dt.timedelta:
    """A time of day where it can be one and isn't shown as a duration."""
    found = _LENGTH.fullmatch(cell.get(OFFICE + "time-value", ""))
    if found is None or not any(found.groups()[1:]):
        raise ValueError("no length of time")
    sign, days, hours, minutes, seconds = found.groups(default="0")
    length = dt.timedelta(days=int(days), hours=int(hours), minutes=int(minutes), seconds=float(seconds))
    if sign == "-":
        return -length
    if length >= dt.timedelta(days=1) or styles.is_duration(cell):
        return length
    whole = round(length.total_seconds()) % 86_400
    return dt.time(whole // 3600, whole // 60 % 60, whole % 60)
