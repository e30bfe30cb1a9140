"""How wide a text is and how many lines it takes: rows get their height from it, as not every program works it out.

Widths are those of the base font in thousandths of its size, as in the metrics published with the standard fonts of
page printers; a character not listed counts as a wide letter, one of an East Asian script or a picture as two digits.
"""

from __future__ import annotations

import math
import unicodedata

from workbook_tools.report.styles import FONT_SIZE

_WIDTHS: dict[str, int] = {
    letter: width
    for width, letters in (
        (222, "ijl'"),
        (278, " !,./:;[\\]fIt|"),
        (333, "()-`r"),
        (389, "*"),
        (500, "ckszvxyJ"),
        (556, "0123456789abdeghnopqu#$?_L–"),
        (584, "+<=>~"),
        (611, "FTZ"),
        (667, "&ABEKPSVXY"),
        (722, "CDHNRUw"),
        (778, "GOQ"),
        (833, "mM"),
        (889, "%"),
        (944, "W"),
        (1000, "—…"),
        (1015, "@"),
    )
    for letter in letters
}
_UNKNOWN = 722
_WIDE = 1112
_POINTS_A_UNIT = 7 * 0.75
"""A unit of column width is one digit of the workbook's own font: 7 pixels of 1/96 inch."""
_BOLD = 1.08
_SLACK = 1.04
"""Other fonts that stand in for the base font may be a little wider."""
_LINE = 1.28
"""Height of a line over the size of its font."""
HIGHEST_ROW = 409.0
"""No row can be higher, in points."""


def text_width(text: str, *, size: float = FONT_SIZE, bold: bool = False) -> float:
    """Width of one line of text in units of column width."""
    total = 0
    for letter in text:
        wide = unicodedata.east_asian_width(letter) in "WF"
        if not unicodedata.combining(letter):
            total += _WIDE if wide else _WIDTHS.get(letter, _UNKNOWN)
    return total / 1000 * size / _POINTS_A_UNIT * _SLACK * (_BOLD if bold else 1)


def line_count(text: str, width: float, *, size: float = FONT_SIZE, bold: bool = False) -> int:
    """Lines that a text takes when it is broken at blanks, and within a word longer than a line.

    Parameters
    ----------
    text : str
        May hold line breaks.
    width : float
        Of the cell, in units of column width.
    """
    room = max(width - 0.5, 1.0)
    blank = text_width(" ", size=size, bold=bold)
    lines = 0
    for paragraph in text.split("\n"):
        lines, used = lines + 1, 0.0
        for word in paragraph.split(" "):
            needs = text_width(word, size=size, bold=bold)
            if used and used + blank + needs > room:
                lines, used = lines + 1, 0.0
            if needs > room:
                more = math.ceil(needs / room) - 1
                lines, used = lines + more, needs - more * room
            else:
                used += (blank if used else 0.0) + needs
    return lines


def row_height(lines: int, *, size: float = FONT_SIZE, least: float = 0.0) -> float:
    """Height in points of a row of so many lines, in quarters, at most :data:`HIGHEST_ROW`."""
    height = math.ceil((lines * size * _LINE + 3) * 4) / 4
    return min(max(height, least), HIGHEST_ROW)
