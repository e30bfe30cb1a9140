"""Read an OpenDocument spreadsheet (.ods) in one pass over its content, row by row.

The fast reader makes this format's error cells empty, knows none of its merged cells, gives durations as text, and
sets aside memory for a row that is only said to be repeated a million times. Here a repeated blank costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from xml.etree.ElementTree import Element

from defusedxml.ElementTree import iterparse

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.cells import Area, Book, Sheet
from workbook_tools.intake.files import cannot
from workbook_tools.intake.ods_values import TABLE, Styles, count, error_of, holds, text_of_cell, value_of, waits
from workbook_tools.intake.parts import Damaged, Parts, faults_named
from workbook_tools.intake.placing import Placing
from workbook_tools.problems import Problem

_CONTENT = "content.xml"
_MANIFEST = "META-INF/manifest.xml"
_LAST_COLUMN = 16_384
"""Columns that a sheet of the common programs has; a cell repeated beyond them repeats nothing of a keeper's."""
_CELLS = (TABLE + "table-cell", TABLE + "covered-table-cell")


class _SheetReading:
    """One sheet while it is read."""

    def __init__(self, element: Element, styles: Styles, limit: int, date_1904: bool) -> None:
        self.hidden = styles.hides(element)
        self.placing = Placing(element.get(TABLE + "name", ""), limit, date_1904=date_1904)
        self.merged: list[Area] = []
        self._styles = styles
        self._row = 0

    def row(self, element: Element) -> None:
        """Read one row, as often as it is repeated."""
        times = count(element, "number-rows-repeated")
        filled: list[tuple[int, int, Element]] = []
        col = 1
        for cell in element:
            if cell.tag in _CELLS:
                repeated = count(cell, "number-columns-repeated")
                self._merge(self._row + 1, col, cell)
                if holds(cell):
                    filled.append((col, repeated, cell))
                col += repeated
        for row in range(self._row + 1, self._row + times + 1) if filled else ():
            for first, repeated, cell in filled:
                self._cell(row, range(first, min(first + repeated, _LAST_COLUMN + 1)), cell)
            if self.placing.full:
                break
        self._row += times

    def _merge(self, row: int, col: int, cell: Element) -> None:
        rows, cols = count(cell, "number-rows-spanned"), count(cell, "number-columns-spanned")
        if rows > 1 or cols > 1:
            self.merged.append(Area(row, col, row + rows - 1, col + cols - 1))

    def _cell(self, row: int, cols: range, cell: Element) -> None:
        if waits(cell):
            for col in cols:
                self.placing.blame("cell.not_calculated", row, col)
            return
        text = text_of_cell(cell)
        error = error_of(cell, text)
        value = value_of(cell, text, self._styles)
        for col in cols:
            if error:
                self.placing.blame("cell.error", row, col, error, error=error)
            else:
                self.placing.put(row, col, value)

    def close(self) -> tuple[Sheet, list[Problem]]:
        """The sheet with its problems."""
        return self.placing.sheet(self.merged, hidden=self.hidden)


class _BookReading:
    """All sheets while the content is read."""

    def __init__(self) -> None:
        self.sheets: list[Sheet] = []
        self.problems: list[Problem] = []
        self.date_1904 = False
        self._left = int(DEFAULTS["book.cells"].value)
        self._styles = Styles()
        self._reading: _SheetReading | None = None
        self._depth = 0
        self._linked = False

    def begin(self, element: Element) -> None:
        """An element begins: its attributes are known, its content isn't."""
        if element.tag == TABLE + "table":
            self._depth += 1
            if self._depth == 1:
                limit = min(self._left, int(DEFAULTS["sheet.cells"].value))
                self._reading = _SheetReading(element, self._styles, limit, self.date_1904)
                self._linked = False

    def end(self, element: Element) -> bool:
        """An element is complete; whether its content is no longer needed."""
        if element.tag == TABLE + "table-row" and self._reading is not None and self._depth == 1:
            self._reading.row(element)
            return True
        if element.tag == TABLE + "table":
            self._depth -= 1
            if self._depth == 0 and self._reading is not None:
                self._close(self._reading)
            return self._depth == 0
        if element.tag == TABLE + "table-source" and self._depth == 1:
            self._linked = True
        elif element.tag == TABLE + "null-date":
            self.date_1904 = element.get(TABLE + "date-value", "").startswith("1904")
        elif self._depth == 0:
            self._styles.learn(element)
        return False

    def _close(self, reading: _SheetReading) -> None:
        """Keep a sheet, unless it is only the program's own copy of a sheet in another file."""
        self._reading = None
        if self._linked and reading.placing.name.startswith("'file:"):
            return
        sheet, problems = reading.close()
        self._left -= len(sheet.cells)
        self.sheets.append(sheet)
        self.problems += problems


def _is_locked(parts: Parts) -> bool:
    if _MANIFEST not in parts:
        return False
    return any(str(element.tag).endswith("}encryption-data") for element in parts.tree(_MANIFEST).iter())


def _events(parts: Parts) -> Iterator[tuple[str, Element]]:
    with parts.stream(_CONTENT) as stream:
        yield from iterparse(stream, events=("start", "end"), forbid_dtd=True)


def read_ods(data: bytes, path: Path) -> tuple[Book, list[Problem]]:
    """Read every sheet of an OpenDocument spreadsheet.

    Raises
    ------
    CannotRead
        It is damaged, locked, too big, or holds no sheet.
    """
    parts = Parts(data)
    book = _BookReading()
    try:
        if _is_locked(parts):
            raise cannot("file.locked")
        if _CONTENT not in parts:
            raise Damaged(f"{_CONTENT} is missing")
        with faults_named(_CONTENT):
            open_elements: list[Element] = []
            for event, element in _events(parts):
                if event == "start":
                    open_elements.append(element)
                    book.begin(element)
                else:
                    open_elements.pop()
                    if book.end(element) and open_elements:
                        del open_elements[-1][:]
    except Damaged as error:
        raise cannot("file.damaged", reason=error) from None
    if not book.sheets:
        raise cannot("file.no_sheets")
    return Book(path, tuple(book.sheets), book.date_1904, {"format": "ods"}), book.problems
