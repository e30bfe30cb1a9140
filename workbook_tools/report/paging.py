"""How a sheet with charts or several tables is printed: its scale, and where its pages end."""

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
KEPT = 3
"""Rows of a table that stay with its title."""


def scale(layout: Layout, paper: str) -> int:
    """Percent at which the sheet is one page wide; 100 at most, 10 at least."""
    wide, _ = _room(layout, paper)
    needs = pixels(layout.widths) * _POINTS_A_PIXEL
    return max(min(math.floor(100 * wide * _WIDE_SLACK / needs), 100), 10)


def breaks(layout: Layout, paper: str, heights: Mapping[int, float]) -> list[int]:
    """Rows before which a page ends, so that no chart lies on two pages and no title stands alone at a page's foot.

    The rows are followed down the pages as a program would print them. A later table with charts begins a page of its
    own. After a page that ends by itself it isn't known for sure where the next one does: charts then begin a page too.

    Parameters
    ----------
    layout : Layout
        The sheet.
    paper : str
        A4 or Letter.
    heights : mapping
        Row to its height in points; rows not in it have the default height.
    """
    if not layout.paged:
        return []
    _, high = _room(layout, paper)
    room = high * 100 / scale(layout, paper)

    def points(first: int, end: int) -> float:
        return sum(heights.get(row, DEFAULT_HEIGHT) for row in range(first, end))

    charts = {chart.row for chart in layout.charts}
    whole = {row: row + CHART_ROWS for row in charts}
    own = set()
    for table in layout.tables[1:]:
        start = table.headings - bool(table.spec.title)
        whole[start] = min(table.first + KEPT, table.last + 1)
        if any(chart.spec.below == table.spec.name for chart in layout.charts):
            own.add(start)
    again = points(layout.tables[0].headings, layout.tables[0].first) if layout.repeated else 0.0
    found, top, used, sure = [], 0, 0.0, True
    for row in range(layout.last_row + 1):
        free = room * (_HIGH_SLACK if row in whole else 1.0) - used
        if row > top and (row in own or points(row, whole.get(row, row + 1)) > free or (row in charts and not sure)):
            sure = row in whole
            found += [row] if sure else []
            top, used = row, again if row > layout.tables[0].headings else 0.0
        used += points(row, row + 1)
    return found


def _room(layout: Layout, paper: str) -> tuple[float, float]:
    """Points that a page has for the sheet, across and down."""
    long, short = _PAPERS.get(paper.strip().casefold(), _PAPERS["a4"])
    across, down = (long, short) if layout.spec.landscape else (short, long)
    return across - 2 * LEFT_RIGHT * _INCH, down - (TOP + FOOT) * _INCH
