"""Read a zipped workbook (.xlsx, .xlsm): look through every sheet first, then read each with the reader that suits."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.careful import CarefulReader
from workbook_tools.intake.cells import Book, Sheet
from workbook_tools.intake.fast import FastReader, ReaderFailed, fill
from workbook_tools.intake.files import cannot
from workbook_tools.intake.parts import Damaged, Parts
from workbook_tools.intake.placing import Placing
from workbook_tools.intake.prescan import Listing, Scan, SheetPart, listing, longest_text, scan_sheet
from workbook_tools.problems import CellRef, Problem

_MOST_TEXT = 500_000_000
"""Characters that the fast reader may copy for the shared texts of a sheet."""


class _Opened:
    """One workbook on its way through both readers, each opened only when it is needed."""

    def __init__(self, data: bytes, parts: Parts, listed: Listing) -> None:
        self.data = data
        self.parts = parts
        self.listed = listed
        self.left = int(DEFAULTS["book.cells"].value)
        self._fast: FastReader | None = None
        self._careful: CarefulReader | None = None
        self._longest: int | None = None

    def sheet(self, part: SheetPart) -> tuple[Sheet, list[Problem]]:
        """Read one sheet, fast where that is right and carefully otherwise."""
        scan = scan_sheet(self.parts, part.part)
        placing = None if self._needs_care(scan) else self._read_fast(part, scan)
        problems: list[Problem] = []
        if placing is None:
            scan = scan_sheet(self.parts, part.part, closely=True)
            placing, count = self._read_carefully(part.name, scan)
            if not placing.full and count < scan.count:
                facts = {"there": scan.count, "read": count}
                problems.append(Problem("sheet.not_all_read", CellRef(part.name), facts))
        self.left -= placing.count
        for (row, col), error in scan.errors.items():
            placing.blame("cell.error", row, col, error, error=error)
        for row, col in scan.not_calculated:
            placing.blame("cell.not_calculated", row, col)
        if self.listed.asks_to_calculate:
            for row, col in scan.calculated:
                placing.blame("cell.old_result", row, col)
        sheet, more = placing.sheet(scan.merged, hidden=part.hidden)
        return sheet, problems + more

    def _needs_care(self, scan: Scan) -> bool:
        """Whether the fast reader would set aside or copy too much for what the sheet holds."""
        if scan.count > self._limit or scan.spread > max(DEFAULTS["sheet.spread"].value, 4 * scan.count):
            return True
        strings = self.listed.strings
        if scan.shared * self.parts.size(strings) <= _MOST_TEXT:
            return False
        if self._longest is None:
            self._longest = longest_text(self.parts, strings)
        return scan.shared * self._longest > _MOST_TEXT

    @property
    def _limit(self) -> int:
        return min(self.left, int(DEFAULTS["sheet.cells"].value))

    def _placing(self, name: str) -> Placing:
        return Placing(name, self._limit, date_1904=self.listed.date_1904)

    def _read_fast(self, part: SheetPart, scan: Scan) -> Placing | None:
        """Read by the fast reader; None when it fails, finds too few cells or gives doubtful dates."""
        placing = self._placing(part.name)
        try:
            if self._fast is None:
                self._fast = FastReader(self.data)
            given = fill(self._fast.sheet(part.name), placing, date_1904=self.listed.date_1904)
        except ReaderFailed:
            return None
        if given.early or given.count != scan.count:
            return None
        if given.times and scan_sheet(self.parts, part.part, closely=True).negative:
            return None
        return placing

    def _read_carefully(self, name: str, scan: Scan) -> tuple[Placing, int]:
        placing = self._placing(name)
        try:
            if self._careful is None:
                self._careful = CarefulReader(self.data)
            return placing, self._careful.fill(name, placing, scan, date_1904=self.listed.date_1904)
        except ReaderFailed:
            raise Damaged("no reader understands it") from None


def read_xlsx(data: bytes, path: Path) -> tuple[Book, list[Problem]]:
    """Read every sheet of a zipped workbook.

    Raises
    ------
    CannotRead
        It is damaged, locked, too big, or no sheet of it can be read.
    """
    parts = Parts(data)
    try:
        listed = listing(parts)
        opened = _Opened(data, parts, listed)
        own = {sheet.part.lower() for sheet in listed.sheets}
        for name in parts.names:
            if name not in own:
                parts.check(name)
    except Damaged as error:
        raise cannot("file.damaged", reason=error) from None
    if not listed.sheets:
        raise cannot("file.no_sheets")
    sheets, problems = [], []
    for sheet, found in _each(opened):
        sheets.append(sheet)
        problems += found
    return Book(path, tuple(sheets), listed.date_1904, {"format": "xlsx"}), problems


def _each(opened: _Opened) -> Iterator[tuple[Sheet, list[Problem]]]:
    """Read sheet after sheet; a damaged one is named, unless all are."""
    damage = None
    read = 0
    for part in opened.listed.sheets:
        try:
            sheet, problems = opened.sheet(part)
            read += 1
            yield sheet, problems
        except Damaged as error:
            damage = error
            empty = Sheet(part.name, {}, hidden=part.hidden)
            yield empty, [Problem("sheet.damaged", CellRef(part.name), {"reason": error})]
    if not read:
        raise cannot("file.damaged", reason=damage)
