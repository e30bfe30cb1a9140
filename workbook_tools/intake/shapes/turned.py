"""Turned on its side: field names go down, bins (or entries) go across."""

from __future__ import annotations

from dataclasses import dataclass

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS
from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.endings import is_words
from workbook_tools.intake.headings import plain
from workbook_tools.intake.regions import is_heading_row
from workbook_tools.intake.shapes.pairs import known
from workbook_tools.intake.shapes.records import Around, Shape, Unfolded
from workbook_tools.problems import CellRef

_CORNER = frozenset({"field", "fields", "what", "bin", "bins", "box", "name", "item", "property", "data", "heading"})
"""Words in the corner of such a sheet: over the field names, beside the names of the bins."""
_FEWEST, _MOST = 3, 200


@dataclass(frozen=True)
class _Turned:
    """Where field names stand: their column, the first and last row, and the columns of bins behind it."""

    column: int
    top: int
    bottom: int
    across: tuple[int, ...]
    known: int
    labels: int


def _find(sheet: Sheet) -> _Turned | None:
    """The column of field names; of the first two columns the one with more known names."""
    cols = sorted({col for _, col in sheet.cells})
    offers = [offer for col in cols[:2] if (offer := _at(sheet, col, cols))]
    return max(offers, key=lambda offer: (offer.known, -offer.column), default=None)


def _at(sheet: Sheet, column: int, cols: list[int]) -> _Turned | None:
    across = tuple(col for col in cols if col > column)
    rows = sorted({row for row, col in sheet.cells if col in across})
    if len(across) < 2 or len(rows) < _FEWEST:
        return None
    top = next((row for row in rows if sum((row, col) in sheet.cells for col in across) >= 2), rows[0])
    labels = [sheet.cells[row, column] for row in rows if row >= top and (row, column) in sheet.cells]
    words = [cell for cell in labels if is_words(cell)]
    if len(labels) > _MOST or len(words) < 0.8 * len(labels):
        return None
    sure = {key for cell in words if (key := known(cell.text) or known(cell.text, LOG_FIELDS))}
    if len(sure) < _FEWEST:
        return None
    bottom = max(row for row in (*rows, *(row for row, col in sheet.cells if col == column)))
    return _Turned(column, top, bottom, across, len(sure), len(words))


def likeness(sheet: Sheet, around: Around) -> float:
    """How surely field names go down: by how many are known, and that the row above the bins is no headings."""
    del around
    found = _find(sheet)
    if found is None:
        return 0.0
    across = {col: sheet.cells[found.top, col] for col in found.across if (found.top, col) in sheet.cells}
    headed = sum(bool(known(cell.text, BIN_FIELDS) or known(cell.text, LOG_FIELDS)) for cell in across.values())
    row = {col: cell for (r, col), cell in sheet.cells.items() if r == found.top}
    if is_heading_row(row) or headed > 0.3 * len(across):
        return 0.0
    share = found.known / found.labels
    return min(1.0, 0.4 + 0.8 * share) if share >= 0.25 else 0.0


def unfolded(sheet: Sheet, around: Around) -> Unfolded:
    """The sheet with rows and columns changed about."""
    del around
    found = _find(sheet)
    if found is None:
        return Unfolded((sheet,))
    rows = [row for row in range(found.top, found.bottom + 1) if any(r == row for r, _ in sheet.cells)]
    cells: dict[tuple[int, int], Cell] = {}
    for col, row in enumerate(rows, 1):
        for place, across in enumerate((found.column, *found.across), 1):
            if cell := sheet.cells.get((row, across)):
                cells[place, col] = cell
    _name_the_corner(cells, sheet, found)
    rows_at = {place: CellRef(sheet.name, found.top, col) for place, col in enumerate(found.across, 2)}
    passed = {cell.ref: "a title" for (row, _), cell in sheet.cells.items() if row < found.top}
    passed |= {cell.ref: "a label over several rows" for (_, col), cell in sheet.cells.items() if col < found.column}
    why = f"{found.known} of {found.labels} texts down the left are known field names"
    turned = Sheet(sheet.name, cells, hidden=sheet.hidden, rows_at=rows_at)
    return Unfolded((turned,), why=why, passed=passed)


def _name_the_corner(cells: dict[tuple[int, int], Cell], sheet: Sheet, found: _Turned) -> None:
    """Where no row is called the bins' names, the first one is: its corner is empty or says something like 'field'."""
    corner = cells.get((1, 1))
    heads = [cell for (place, _), cell in cells.items() if place == 1]
    named = any(known(cell.text) == "name" or known(cell.text, LOG_FIELDS) in ("bins", "when") for cell in heads)
    if corner is None or (not named and (plain(corner.text) in _CORNER or not known(corner.text))):
        ref = corner.ref if corner else CellRef(sheet.name, found.top, found.column)
        cells[1, 1] = Cell(ref, "Bin", "Bin", corner.text if corner else "")


SHAPE = Shape("bins as columns", likeness, unfolded)
