"""How a sheet with charts is printed: its scale, and page breaks that cut no chart in two."""

from __future__ import annotations

import math
from collections.abc import Mapping

from workbook_tools.report.charts import pixels
from workbook_tools.report.layout import CHART_ROWS, Layout

LEFT_RIGHT, TOP, FOOT = 0.4, 0.7, 0.6
"""Margins in inches."""
_INCH = 72
_PAPERS = {"a4": (841.9, 595.3), "letter": (792.0, 612.0)}
"""Points, the long side first."""
_POINTS_A_PIXEL = 0.75
_WIDE_SLACK, _HIGH_SLACK = 0.92, 0.97
"""Programs differ in how wide they draw a column (by 6 %, where they take a digit's width unrounded) and in heights."""
DEFAULT_HEIGHT = 15.0
"""Points of a row whose height isn't set, and of the rows behind a chart."""


def scale(layout: Layout, paper: str) -> int:
    """Percent at which the sheet is one page wide; 100 at most, 10 at least."""
    wide, _ = _room(layout, paper)
    needs = pixels(layout.widths) * _POINTS_A_PIXEL
    return max(min(math.floor(100 * wide * _WIDE_SLACK / needs), 100), 10)


def breaks(layout: Layout, paper: str, heights: Mapping[int, float]) -> list[int]:
    """Rows before which a page ends, so that no chart lies on two pages.

    Charts below the first table are reckoned from the top of the first page. A later table with charts begins a page
    of its own, as it isn't known where the pages of a long table end.

    Parameters
    ----------
    layout : Layout
        The sheet.
    paper : str
        A4 or Letter.
    heights : mapping
        Row to its height in points; rows not in it have the default height.
    """
    if not layout.charts:
        return []
    _, high = _room(layout, paper)
    room = high * _HIGH_SLACK * 100 / scale(layout, paper)
    found = []
    for i, table in enumerate(layout.tables):
        rows = sorted({chart.row for chart in layout.charts if chart.spec.below == table.spec.name})
        top = 0 if not i else table.headings - bool(table.spec.title)
        if rows and top:
            found.append(top)
        for row in rows:
            used = sum(heights.get(r, DEFAULT_HEIGHT) for r in range(top, row + CHART_ROWS))
            if used > room and row > top:
                found.append(row)
                top = row
    return found


def _room(layout: Layout, paper: str) -> tuple[float, float]:
    """Points that a page has for the sheet, across and down."""
    long, short = _PAPERS.get(paper.strip().casefold(), _PAPERS["a4"])
    across, down = (long, short) if layout.spec.landscape else (short, long)
    return across - 2 * LEFT_RIGHT * _INCH, down - (TOP + FOOT) * _INCH
