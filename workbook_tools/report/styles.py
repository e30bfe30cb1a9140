"""How cells look: one entry a style, one a tone, and the contrast that every pair of colours must reach."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Look = Mapping[str, str | int | bool]

FONT = "Arial"
FONT_SIZE = 10
INK = "#1A1A1A"
PAPER = "#FFFFFF"
RULE = "#BFBFBF"
SPARK_INK = "#4A7BA6"
LEAST_CHART_CONTRAST = 3.0
"""Least contrast of lines and bars with the paper (WCAG 2.2, criterion 1.4.11, graphical objects)."""
LEAST_CONTRAST = 4.5
"""Least contrast of text with what lies behind it (WCAG 2.2, criterion 1.4.3, text of ordinary size)."""

_BASE: Look = {"font_name": FONT, "font_scheme": "", "font_size": FONT_SIZE, "font_color": INK, "valign": "top"}
_BODY: Look = {**_BASE, "text_wrap": True, "bottom": 1, "bottom_color": RULE, "bg_color": PAPER}
_BOX: Look = {**_BASE, "text_wrap": True, "border": 1, "border_color": "#595959", "bg_color": PAPER}

DATED = frozenset({"date", "box_date", "hidden_date"})
"""Styles whose number format is the date of the region."""

STYLES: dict[str, Look] = {
    "text": {**_BODY, "align": "left"},
    "date": {**_BODY, "align": "left"},
    "days": {**_BODY, "align": "left", "num_format": '0" late";"in "0;"today"'},
    "number": {**_BODY, "align": "left", "num_format": "#,##0"},
    "amount": {**_BODY, "align": "left"},
    "share": {**_BODY, "align": "left", "num_format": "0%"},
    "box": {**_BOX, "align": "left"},
    "box_date": {**_BOX, "align": "left"},
    "link": {**_BODY, "align": "left", "font_color": "#0B4F9C", "underline": 1},
    "example": {**_BODY, "align": "left", "italic": True},
    "answer": {**_BASE, "font_size": 14, "bold": True, "text_wrap": True},
    "line": {**_BASE, "text_wrap": True},
    "caution": {**_BASE, "font_color": "#4A3800", "bg_color": "#FFF3C4", "text_wrap": True, "left": 5},
    "title": {**_BASE, "font_size": 12, "bold": True},
    "heading": {**_BASE, "bold": True, "text_wrap": True, "bg_color": "#E3E7EB", "bottom": 2, "align": "left"},
    "empty": {**_BASE, "italic": True, "font_color": "#404040"},
    "hidden": {**_BASE, "align": "right"},
    "hidden_date": {**_BASE, "align": "right"},
}


@dataclass(frozen=True, slots=True)
class Tone:
    """Colours of a state. ``says`` is the word for it, which stands in the same row as text."""

    font: str
    behind: str
    says: str
    bold: bool = False
    italic: bool = False


TONES: dict[str, Tone] = {
    "late": Tone("#7A2100", "#FFE0CC", "late", bold=True),
    "today": Tone("#08335C", "#D9EBFA", "today", bold=True),
    "soon": Tone("#404040", "#FFFFFF", "in"),
    "left out": Tone("#7A2100", "#FFE0CC", "left out", bold=True),
    "not used": Tone("#08335C", "#D9EBFA", "not used"),
    "example": Tone("#4D4D4D", "#F2F2F2", "example", italic=True),
}


@dataclass(frozen=True, slots=True)
class ChartLook:
    """How one series of a chart is drawn; ``dash`` tells lines apart where colours can't be."""

    colour: str
    width: float = 2.25
    dash: str = "solid"


CHART_LOOKS: dict[str, ChartLook] = {
    "so far": ChartLook("#0B4F9C", 2.5),
    "ahead": ChartLook("#0B4F9C", 2.5, "dash"),
    "edge": ChartLook("#6F7F8F", 1.0),
    "mark": ChartLook("#A63A00", 1.5, "long_dash_dot"),
    "learned": ChartLook("#0B4F9C"),
    "guess": ChartLook("#8A8A8A"),
}
"""Dark blue, grey and burnt orange: told apart with any colour vision, and in print without colours by their dashes."""


def _luminance(colour: str) -> float:
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(colour: str, behind: str) -> float:
    """Contrast of two colours by WCAG 2.2, from 1 (the same) to 21 (black on white), unrounded.

    Parameters
    ----------
    colour, behind : str
        Colours as ``#RRGGBB``; which of them is in front makes no difference.

    Sources
    -------
    WCAG 2.2, "contrast ratio" and "relative luminance". Checked in tests/published/test_contrast_wcag.py.
    """
    darker, lighter = sorted((_luminance(colour), _luminance(behind)))
    return (lighter + 0.05) / (darker + 0.05)
