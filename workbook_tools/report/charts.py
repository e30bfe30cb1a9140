"""What a chart of the report asks of the library that draws it: looks, axes and where its numbers stand."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from typing import Any

from workbook_tools.report.columns import ChartSpec
from workbook_tools.report.layout import PlacedChart
from workbook_tools.report.plain import plain
from workbook_tools.report.styles import CHART_LOOKS, FONT, INK, RULE

Options = dict[str, Any]

HEIGHT = 310
"""Pixels: what the rows of a chart have, less the empty row below it."""
_GAP = 12
_MOST_TITLE = 90
_FONT: Options = {"name": FONT, "size": 10, "color": INK, "bold": False}


def pixels(widths: Sequence[float]) -> int:
    """Width on screen of columns whose widths are given in characters."""
    return sum(int(width * 7 + 0.5) + 5 for width in widths)


def dress(drawn: Any, placed: PlacedChart, sheet: str, room: int) -> int:
    """Give a chart of the library its numbers, looks and size, and say how far from the left it stands.

    ``drawn`` is the library's empty chart, ``room`` the width of the sheet in pixels.
    """
    chart = placed.spec
    for options in series(chart, sheet, placed.row, placed.numbers):
        drawn.add_series(options)
    drawn.set_title(title(chart))
    drawn.set_x_axis(bottom(chart))
    drawn.set_y_axis(side(chart))
    drawn.set_legend(legend(chart))
    drawn.set_chartarea({"border": {"color": RULE}})
    drawn.show_hidden_data()
    width = (room - _GAP * (chart.across - 1)) // chart.across
    drawn.set_size({"width": width, "height": HEIGHT})
    return placed.place * (width + _GAP)


def kind(chart: ChartSpec) -> Options:
    """What kind of chart to add."""
    return {"type": "line"} if chart.kind == "line" else {"type": "column", "subtype": "stacked"}


def series(chart: ChartSpec, sheet: str, row: int, col: int) -> list[Options]:
    """Every series by the cells of its name and its numbers: headings in ``row``, days or words in ``col``."""
    first, last = row + 1, row + len(chart.over)
    made = []
    for i, one in enumerate(chart.series, start=1):
        look = CHART_LOOKS[one.look]
        drawn: Options = {
            "name": [sheet, row, col + i],
            "categories": [sheet, first, col, last, col],
            "values": [sheet, first, col + i, last, col + i],
        }
        if chart.kind == "line":
            drawn["line"] = {"color": look.colour, "width": look.width, "dash_type": look.dash}
            drawn["marker"] = {"type": "none"}
        else:
            drawn.update(fill={"color": look.colour}, border={"none": True}, gap=40)
        made.append(drawn)
    return made


def bottom(chart: ChartSpec) -> Options:
    """The axis along the bottom."""
    axis: Options = {"name": chart.over_title, "name_font": _FONT, "num_font": _FONT, "line": {"color": RULE}}
    days = [day for day in chart.over if isinstance(day, dt.date)]
    if chart.kind == "line" and len(days) == len(chart.over):
        span = (max(days) - min(days)).days
        every = 1 if span < 150 else 2 if span < 300 else 3 if span < 500 else 6
        axis.update(
            date_axis=True,
            num_format="mmm yyyy" if span > 300 else "d mmm",
            major_unit=every,
            major_unit_type="months",
            label_position="low",
        )
    return axis


def side(chart: ChartSpec) -> Options:
    """The axis up the side; it begins at 0."""
    axis: Options = {
        "name": chart.title_up,
        "name_font": _FONT,
        "num_font": _FONT,
        "line": {"none": True},
        "major_gridlines": {"visible": True, "line": {"color": "#D9D9D9", "width": 0.75}},
        "min": 0,
    }
    if chart.share:
        axis.update(max=1, num_format="0%", major_unit=0.2)
    elif chart.whole:
        axis.update(num_format="#,##0")
        if _highest(chart) <= 10:
            axis["major_unit"] = 1
    else:
        axis["num_format"] = "#,##0.##" if _highest(chart) < 10 else "#,##0"
    return axis


def title(chart: ChartSpec) -> Options:
    """The line above it."""
    text = str(plain(chart.title).value)
    text = text if len(text) <= _MOST_TITLE else text[: _MOST_TITLE - 1] + "…"
    return {"name": text, "name_font": {**_FONT, "size": 11, "bold": True}, "overlay": False}


def legend(chart: ChartSpec) -> Options:
    """The words for what is drawn, below it; those without a name are left out."""
    named = [i for i, one in enumerate(chart.series) if one.name]
    if not named:
        return {"none": True}
    unnamed = [i for i in range(len(chart.series)) if i not in named]
    return {"position": "bottom", "font": _FONT, **({"delete_series": unnamed} if unnamed else {})}


def _highest(chart: ChartSpec) -> float:
    columns = zip(*(one.values for one in chart.series), strict=True)
    numbers = [[value for value in column if value is not None and math.isfinite(value)] for column in columns]
    if chart.kind == "bar":
        return max((sum(column) for column in numbers), default=0.0)
    return max((max(column) for column in numbers if column), default=0.0)
