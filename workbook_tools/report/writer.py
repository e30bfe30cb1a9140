"""Draws any sheets given as data. The only module that knows how workbooks are written."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import xlsxwriter

from workbook_tools.plan.wording import Wording
from workbook_tools.problems import column_letters
from workbook_tools.report import charts, paging
from workbook_tools.report.columns import Place, SheetSpec, Spark, Value
from workbook_tools.report.layout import FILTER_WIDTH, Layout, Line, PlacedChart, PlacedTable, lay_out
from workbook_tools.report.measure import line_count, row_height, text_width
from workbook_tools.report.plain import LONGEST, plain
from workbook_tools.report.saving import save
from workbook_tools.report.styles import DATED, FONT, FONT_SIZE, SPARK_INK, STYLES, TONES

_PAPERS = {"a4": 9, "letter": 1}
_MOST_LINKS = 60_000
_BOX_HEIGHT = 21.0
_WIDEST_DATE = dt.date(2028, 9, 28)
_RUN_SIGNS = ("=", "+", "-", "@")
_TABLE_STYLE = "Table Style Light 1"


@dataclass(frozen=True, slots=True)
class Written:
    """What was lost in writing: cells with a text cut short, cells with characters replaced, links left out."""

    cut: int = 0
    replaced: int = 0
    unlinked: int = 0

    @property
    def says(self) -> tuple[str, ...]:
        """What was lost, a sentence each; empty when nothing was."""
        lost = (
            (self.cut, f"Texts cut short in this report, since a cell holds {LONGEST:,} characters at most"),
            (self.replaced, "Texts in this report with \ufffd in place of characters that no workbook can hold"),
            (self.unlinked, f"Links left out of this report, since a sheet holds {_MOST_LINKS:,} at most"),
        )
        return tuple(f"{what}: {number:,}." for number, what in lost if number)


def write_workbook(
    sheets: Sequence[SheetSpec], path: Path, *, region: str, paper: str, created: dt.date, title: str = ""
) -> Written:
    """Draw the sheets and save them as one workbook, whole or not at all.

    Parameters
    ----------
    sheets : sequence of SheetSpec
        In the order in which they stand.
    path : Path
        The file; one that is there already is replaced once the new one is whole.
    region, paper, created, title
        See :func:`draw`.

    Raises
    ------
    CannotWrite
        The file can't be written; what stood there is untouched.
    ValueError
        A developer's mistake in a sheet; see :func:`~workbook_tools.report.layout.lay_out`.
    """
    content, written = draw(sheets, region=region, paper=paper, created=created, title=title)
    save(content, path)
    return written


def draw(
    sheets: Sequence[SheetSpec], *, region: str, paper: str, created: dt.date, title: str = ""
) -> tuple[bytes, Written]:
    """Draw the sheets; the same sheets and date give the same bytes.

    Parameters
    ----------
    sheets : sequence of SheetSpec
        In the order in which they stand.
    region : str
        Language and country for dates, such as en-GB.
    paper : str
        A4 or Letter, in any case; anything else is taken as A4.
    created : date
        Written into the file as its date.
    title : str
        Stands in the header of every page.
    """
    drawing = _Drawing(sheets, Wording(region), paper, created, title)
    return drawing.draw(), drawing.written


def _checked(result: Any, what: str) -> None:
    """Raise if the library says that it didn't do what was asked: it only returns a number, and leaves a gap."""
    if result not in (0, None):
        raise ValueError(f"{what} could not be written (result {result})")


class _Drawing:
    def __init__(self, sheets: Sequence[SheetSpec], wording: Wording, paper: str, created: dt.date, title: str) -> None:
        self._content = io.BytesIO()
        self._book = xlsxwriter.Workbook(
            self._content,
            {
                "in_memory": True,
                "strings_to_formulas": False,
                "strings_to_urls": False,
                "strings_to_numbers": False,
                "default_format_properties": {"font_name": FONT, "font_size": FONT_SIZE},
            },
        )
        self._book.set_properties({"created": dt.datetime.combine(created, dt.time()), "title": title})
        self._date_format = wording.excel_date()
        self._paper = paper
        self._title = title
        self._formats: dict[tuple[str, str, bool], Any] = {}
        width = max(text_width(wording.date(day)) for day in (_WIDEST_DATE, _WIDEST_DATE.replace(month=5))) + 1
        self._layouts = tuple(lay_out(spec, date_width=width) for spec in sheets)
        self._heights: dict[str, dict[int, float]] = {layout.spec.name: {} for layout in self._layouts}
        self._places = _places(self._layouts)
        self.written = Written()

    def draw(self) -> bytes:
        pages = [self._book.add_worksheet(layout.spec.name) for layout in self._layouts]
        for layout, page in zip(self._layouts, pages, strict=True):
            self._set_up(layout, page)
            for line in layout.lines:
                self._line(layout, page, line)
            links = 0
            for table in layout.tables:
                links = self._table(layout, page, table, links)
            for chart in layout.charts:
                self._chart(layout, page, chart)
            if layout.paged:
                page.set_h_pagebreaks(paging.breaks(layout, self._paper, self._heights[layout.spec.name]))
        if pages:
            pages[0].activate()
        self._book.close()
        return self._content.getvalue()

    # --- the sheet ------------------------------------------------------------------------------------------------

    def _set_up(self, layout: Layout, page: Any) -> None:
        spec = layout.spec
        for col, width in enumerate(layout.widths):
            _checked(page.set_column(col, col, width), "a width")
        if layout.hidden:
            first = layout.hidden_from
            options = {"hidden": True, "level": 1}
            _checked(page.set_column(first, first + len(layout.hidden) - 1, layout.hidden[0], None, options), "a width")
        page.hide_gridlines(2)
        page.set_paper(_PAPERS.get(self._paper.strip().casefold(), _PAPERS["a4"]))
        if spec.landscape:
            page.set_landscape()
        else:
            page.set_portrait()
        if layout.paged:
            page.set_print_scale(paging.scale(layout, self._paper))
        else:
            page.fit_to_pages(1, 0)
        page.set_margins(paging.LEFT_RIGHT, paging.LEFT_RIGHT, paging.TOP, paging.FOOT)
        title = self._title[:100].replace("&", "&&")
        _checked(page.set_header(f'&L&"{FONT},Regular"&9 {title}&R&"{FONT},Bold"&9 &A', {"margin": 0.3}), "a header")
        _checked(page.set_footer(f'&R&"{FONT},Regular"&9 Page &P of &N', {"margin": 0.3}), "a footer")
        _checked(page.print_area(0, 0, layout.last_row, len(layout.widths) - 1), "a print area")
        if layout.tables:
            headings = layout.tables[0].headings
            rows = headings + 1 if spec.frozen_headings else 0
            _checked(page.freeze_panes(rows, spec.frozen_columns), "frozen headings")
            if layout.repeated:
                _checked(page.repeat_rows(headings), "repeated headings")

    def _row(self, page: Any, row: int, height: float) -> None:
        self._heights[page.get_name()][row] = height
        _checked(page.set_row(row, height), "a row height")

    def _line(self, layout: Layout, page: Any, line: Line) -> None:
        look = STYLES[line.style]
        text = self._plain(line.text)
        size, bold = int(look.get("font_size", 10)), bool(look.get("bold"))
        if line.style == "title":
            _checked(page.write_string(line.row, 0, text or "", self._format(line.style)), "a title")
            lines = 1
        else:
            if layout.words_to:
                _checked(
                    page.merge_range(line.row, 0, line.row, layout.words_to, "", self._format(line.style)), "a line"
                )
            _checked(page.write_string(line.row, 0, text or "", self._format(line.style)), "a line")
            lines = line_count(str(text or ""), layout.words_width, size=size, bold=bold)
        self._row(page, line.row, row_height(lines, size=size))

    # --- tables ---------------------------------------------------------------------------------------------------

    def _table(self, layout: Layout, page: Any, table: PlacedTable, links: int) -> int:
        spec = table.spec
        heights: dict[int, float] = {}
        scales = {col: _scale(spec.columns[col].spark, spec.rows) for col in table.sparks}
        for i in range(len(spec.rows) + spec.blank_rows):
            row, filled = table.first + i, i < len(spec.rows)
            record = spec.rows[i] if filled else None
            tone = spec.tone(record) if spec.tone and filled else ""
            highest = 1
            for col, column in enumerate(spec.columns):
                toned = tone if not spec.toned or column.heading in spec.toned else ""
                value = self._plain(column.get(record)) if filled else None
                place = column.link(record) if column.link and filled else None
                if place and links < _MOST_LINKS and value is not None:
                    self._link(page, row, col, str(value), place)
                    links += 1
                else:
                    self.written = replace(self.written, unlinked=self.written.unlinked + bool(place))
                    self._cell(page, row, col, value, self._format(column.style, toned, _may_run(value)))
                if isinstance(value, str):
                    bold = bool(toned and TONES[toned].bold)
                    highest = max(highest, line_count(value, layout.widths[col], bold=bold))
                if filled and column.spark:
                    self._spark(layout, page, row, col, table.sparks[col], column.spark, record, scales[col])
            boxed = any(column.style in ("box", "box_date") for column in spec.columns)
            heights[row] = row_height(highest, least=_BOX_HEIGHT if boxed else 0.0)
        if not spec.rows and not spec.blank_rows:
            for col in range(1, len(spec.columns)):
                self._cell(page, table.first, col, None, self._format("empty"))
            self._cell(page, table.first, 0, self._plain(spec.when_empty), self._format("empty"))
        for row, height in heights.items():
            self._row(page, row, height)
        self._headings(layout, page, table)
        self._drop_downs(page, table)
        return links

    def _headings(self, layout: Layout, page: Any, table: PlacedTable) -> None:
        spec, look = table.spec, self._format("heading")
        options = {
            "name": spec.name,
            "style": _TABLE_STYLE,
            "banded_rows": False,
            "columns": [{"header": column.heading, "header_format": look} for column in spec.columns],
        }
        _checked(page.add_table(table.headings, 0, table.last, len(spec.columns) - 1, options), f"table {spec.name}")
        highest = 1
        for col, column in enumerate(spec.columns):
            room = layout.widths[col] - FILTER_WIDTH
            highest = max(highest, line_count(column.heading, room, bold=True))
            if column.note:
                size = {"x_scale": 1.8, "y_scale": max(0.4, 0.24 * line_count(column.note, 34) + 0.1)}
                _checked(page.write_comment(table.headings, col, column.note, {**size, "font_size": 9}), "a note")
            if column.spark:
                for i, heading in enumerate(column.spark.headings):
                    self._cell(page, table.headings, table.sparks[col] + i, heading, self._format("hidden"))
        self._row(page, table.headings, row_height(highest))

    def _spark(
        self, layout: Layout, page: Any, row: int, col: int, first: int, spark: Spark, record: Any, highest: float
    ) -> None:
        numbers = spark.get(record)
        for i, number in enumerate(numbers):
            self._cell(page, row, first + i, self._plain(number), self._format("hidden"))
        cells = f"{column_letters(first + 1)}{row + 1}:{column_letters(first + len(numbers))}{row + 1}"
        options = {
            "range": f"{_quoted(layout.spec.name)}!{cells}",
            "type": "column",
            "show_hidden": True,
            "series_color": SPARK_INK,
            "min": 0,
            "max": highest,
        }
        _checked(page.add_sparkline(row, col, options), "a small chart")

    def _drop_downs(self, page: Any, table: PlacedTable) -> None:
        spec = table.spec
        for col, column in enumerate(spec.columns):
            by_list: dict[tuple[str, ...] | str, list[list[int]]] = {}
            for row in range(table.first, table.last + 1):
                i = row - table.first
                choices: tuple[str, ...] | str = column.choices
                if column.choices_for and i < len(spec.rows):
                    own = column.choices_for(spec.rows[i])
                    choices = self._list_range(own) if isinstance(own, Place) else own
                elif column.choices_from:
                    choices = self._list_range(column.choices_from)
                if choices and (spec.rows or spec.blank_rows):
                    ranges = by_list.setdefault(choices, [])
                    if ranges and ranges[-1][2] == row - 1:
                        ranges[-1][2] = row
                    else:
                        ranges.append([row, col, row, col])
            for source, ranges in by_list.items():
                options: dict[str, Any] = {
                    "validate": "list",
                    "source": source if isinstance(source, str) else list(source),
                    "show_error": False,
                    "other_cells": ranges[1:],
                }
                _checked(page.data_validation(*ranges[0], options), f"drop-down of {column.heading}")

    # --- charts ---------------------------------------------------------------------------------------------------

    def _chart(self, layout: Layout, page: Any, placed: PlacedChart) -> None:
        spec, sheet = placed.spec, layout.spec.name
        look = self._format("hidden")
        for i, heading in enumerate((spec.over_title, *(one.name for one in spec.series))):
            self._cell(page, placed.row, placed.numbers + i, self._plain(heading), look)
        for i, at in enumerate(spec.over, start=1):
            day = self._format("hidden_date") if isinstance(at, dt.date) else look
            self._cell(page, placed.row + i, placed.numbers, self._plain(at), day)
            for j, one in enumerate(spec.series, start=1):
                self._cell(page, placed.row + i, placed.numbers + j, self._plain(one.values[i - 1]), look)
        for row in placed.rows:
            self._row(page, row, paging.DEFAULT_HEIGHT)
        drawn = self._book.add_chart(charts.kind(spec))
        left = charts.dress(drawn, placed, sheet, charts.pixels(layout.widths))
        place = {"x_offset": left, "object_position": 2, "description": self._plain(spec.says)}
        _checked(page.insert_chart(placed.row, 0, drawn, place), "a chart")

    # --- cells ----------------------------------------------------------------------------------------------------

    def _cell(self, page: Any, row: int, col: int, value: Value, look: Any) -> None:
        if value is None:
            result = page.write_blank(row, col, None, look)
        elif isinstance(value, bool):
            result = page.write_boolean(row, col, value, look)
        elif isinstance(value, int | float):
            result = page.write_number(row, col, value, look)
        elif isinstance(value, dt.date):
            result = page.write_datetime(row, col, value, look)
        else:
            result = page.write_string(row, col, value, look)
        _checked(result, f"cell {column_letters(col + 1)}{row + 1}")

    def _link(self, page: Any, row: int, col: int, text: str, place: Place) -> None:
        target = self._places.get((place.sheet, place.key))
        if target is None:
            self._cell(page, row, col, text, self._format("text", "", _may_run(text)))
            return
        url = f"internal:{_quoted(place.sheet)}!A{target + 1}"
        look = self._format("link", "", _may_run(text))
        _checked(page.write_url(row, col, url, look, string=text, tip=f"To its row on {place.sheet}"), "a link")

    def _list_range(self, place: Place) -> str:
        for layout in self._layouts:
            for table in layout.tables:
                if (layout.spec.name, table.spec.name) == (place.sheet, place.key):
                    return f"={_quoted(place.sheet)}!$A${table.first + 1}:$A${table.last + 1}"
        raise ValueError(f"there is no table {place.key} on {place.sheet}")

    def _plain(self, value: Value) -> Value:
        made = plain(value)
        if made.cut or made.replaced:
            was = self.written
            self.written = replace(was, cut=was.cut + bool(made.cut), replaced=was.replaced + bool(made.replaced))
        return made.value

    def _format(self, style: str, tone: str = "", may_run: bool = False) -> Any:
        if (style, tone, may_run) not in self._formats:
            look = dict(STYLES[style])
            if style in DATED:
                look["num_format"] = self._date_format
            if tone:
                colours = TONES[tone]
                look.update(font_color=colours.font, bg_color=colours.behind)
                look.update({name: True for name in ("bold", "italic") if getattr(colours, name)})
            if may_run:
                look["quote_prefix"] = True
            self._formats[style, tone, may_run] = self._book.add_format(look)
        return self._formats[style, tone, may_run]


def _places(layouts: Sequence[Layout]) -> Mapping[tuple[str, str], int]:
    return {
        (layout.spec.name, table.spec.key(record)): table.first + i
        for layout in layouts
        for table in layout.tables
        if table.spec.key
        for i, record in enumerate(table.spec.rows)
    }


def _scale(spark: Spark | None, records: Sequence[Any]) -> float:
    """The top of all small charts of a column: the same for every row, so that rows can be compared."""
    return max((number for record in records for number in (spark.get(record) if spark else ())), default=0) or 1


def _may_run(value: Value) -> bool:
    """Whether a program would run the text as a formula once the keeper types over it."""
    return isinstance(value, str) and value.startswith(_RUN_SIGNS)


def _quoted(sheet: str) -> str:
    return "'" + sheet.replace("'", "''") + "'"
