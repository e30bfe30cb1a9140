"""Where a table ends: at a gap below which rows of another shape begin, such as a shopping list under a log."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.profile import is_date

_LOOKS_LIKE_VALUE = re.compile(r"^[~<>]?\d[\d.,/\s:-]*$")
_ENOUGH = 200
"""Rows from the top by which the shape of a table is judged."""
_WELL = 0.6
"""A column filled in this share of its rows belongs to the shape of a table."""
_FEW = 0.5
"""Rows that fill this share of those columns or less are of another shape."""


def is_words(cell: Cell) -> bool:
    """Whether a cell holds words rather than a number, a date or a code like 12/3."""
    return isinstance(cell.value, str) and not _LOOKS_LIKE_VALUE.match(cell.text)


def last_of_shape(body: Sequence[int], rows: Mapping[int, Mapping[int, Cell]], left: int, right: int) -> int:
    """The last row of a table's body (rows that hold something, from the top) before rows of another shape.

    Only a gap can end a table. Below it, rows are of another shape if they, and all that follow them, fill few of the
    columns that are well filled above, or hold something else where there is nearly always a date above. Three columns
    or more must be well filled.
    """

    def data(block: Sequence[int]) -> list[Mapping[int, Cell]]:
        cut = [{col: cell for col, cell in rows[row].items() if left <= col <= right} for row in block]
        return [cells for cells in cut if len(cells) > 1]

    above: list[Mapping[int, Cell]] = []
    at = 0
    for block in _blocks(body):
        found = data(block)
        titled = len(found) < len(block)
        if (
            above
            and found
            and (titled or len(found) > 1)
            and _differs(found, above)
            and _differs(data(body[at:]), above)
        ):
            return body[at - 1]
        if len(above) < _ENOUGH:
            above += found[: _ENOUGH - len(above)]
        at += len(block)
    return body[-1]


def _blocks(body: Sequence[int]) -> list[list[int]]:
    """Runs of rows without a gap."""
    blocks: list[list[int]] = []
    for row in body:
        if blocks and row == blocks[-1][-1] + 1:
            blocks[-1].append(row)
        else:
            blocks.append([row])
    return blocks


def _differs(below: Sequence[Mapping[int, Cell]], above: Sequence[Mapping[int, Cell]]) -> bool:
    counts: dict[int, int] = {}
    for cells in above:
        for col in cells:
            counts[col] = counts.get(col, 0) + 1
    well = [col for col, count in counts.items() if count >= _WELL * len(above)]
    if len(well) < 3:
        return False
    dates = [col for col in well if sum(is_date(cells[col]) for cells in above if col in cells) >= 0.8 * counts[col]]
    if any(is_date(cells[col]) for cells in below for col in dates if col in cells):
        return False
    if dates and all(dates[0] in cells for cells in below):
        return True
    filled = sum(col in cells for cells in below for col in well)
    return filled <= _FEW * len(well) * len(below)
