"""Blocks of a grid: a line of days, the column of bins beside it, and the rows below."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass, replace

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS
from workbook_tools.intake.cells import Area, Cell, Sheet
from workbook_tools.intake.headings import SCORE_SURE, candidates, plain
from workbook_tools.intake.profile import is_date
from workbook_tools.intake.regions import is_heading_row
from workbook_tools.intake.shapes.days import (
    Month,
    Placed,
    Spot,
    is_weekday,
    month_in,
    month_of,
    place,
    spot_of,
    year_in,
)
from workbook_tools.intake.shapes.records import Around
from workbook_tools.problems import CellRef

FEWEST = 3
"""Fewer days than this are no grid."""
_SHARE = 0.6
"""The least share of days among the filled cells from the first day to the last."""
_CODE = 2
"""Letters of the longest code that may also be known as a heading."""
_CORNERS = frozenset({"name", "species", "line", "place"})
Rows = Mapping[int, Mapping[int, Cell]]


@dataclass(frozen=True)
class Block:
    """One line of days with what belongs to it.

    ``top`` is the first row that belongs to it (a row of months), ``line`` that of the days, ``last`` its last row;
    ``days`` are the dates by column, ``bins`` the column of bins, ``heads`` the headings of the other columns.
    """

    top: int
    line: int
    last: int
    days: Mapping[int, Cell]
    placed: Placed
    bins: int
    heads: Mapping[int, Cell]
    labels: tuple[Cell, ...]
    """Cells over the days: months and days of the week."""
    titles: tuple[Cell, ...] = ()
    """Single texts above the block."""


def turned(sheet: Sheet) -> Sheet:
    """The sheet with rows and columns changed over; every cell keeps its own place in ``ref``."""
    cells = {(col, row): cell for (row, col), cell in sheet.cells.items()}
    merged = tuple(Area(a.left, a.top, a.right, a.bottom) for a in sheet.merged)
    return replace(sheet, cells=dict(sorted(cells.items())), merged=merged)


def known_heading(text: str, *, of_bins: bool) -> str:
    """The key of the field that a heading surely means; empty when it is none."""
    found = candidates(text, "", BIN_FIELDS if of_bins else LOG_FIELDS)
    return found[0][1].key if found and found[0][0] >= SCORE_SURE else ""


def find_blocks(sheet: Sheet, around: Around) -> list[Block]:
    """Find every line of days of a sheet with the rows below it, from the top down."""
    rows = sheet.rows
    lines: list[tuple[int, int, dict[int, Cell], Placed, tuple[Cell, ...]]] = []
    lists: Mapping[int, int] | None = None
    last = max(rows, default=0)
    for row, cells in rows.items():
        spots = {col: spot for col, cell in cells.items() if (spot := spot_of(cell))} if row < last else {}
        cols = _run(list(spots), cells)
        if len(cols) < FEWEST:
            continue
        lists = _lists(rows) if lists is None else lists
        found = _line(sheet, (rows, lists), row, (spots, cols), around, bool(lines))
        if found:
            lines.append((found[0], row, *found[1:]))
    blocks: list[Block] = []
    for i, (top, row, days, placed, labels) in enumerate(lines):
        end = lines[i + 1][0] - 1 if i + 1 < len(lines) else max(rows)
        body = {r: rows[r] for r in rows if row < r <= end}
        plain_start = next((r for r, cells in body.items() if _begins_a_list(cells)), None)
        if plain_start is not None:
            body = {r: cells for r, cells in body.items() if r < plain_start}
            while body and len(body[max(body)]) == 1 and max(body) not in _with_codes(body, days):
                body.pop(max(body))
        bins = _column_of_bins(rows[row], body, days, blocks)
        if bins is None:
            continue
        last = max(body, default=row)
        heads = _heads(rows, top, row, days)
        if blocks and bins == blocks[-1].bins:
            heads = {**{col: cell for col, cell in blocks[-1].heads.items() if col not in days}, **heads}
        titles = tuple(cell for cell in _titles(rows, top) if not blocks or cell.ref not in _refs(blocks[-1], rows))
        blocks.append(Block(top, row, last, days, placed, bins, heads, labels, titles))
    return blocks


def _begins_a_list(cells: Mapping[int, Cell]) -> bool:
    """Whether a row below days is the headings of a plain list; codes such as LL and F are headings too elsewhere."""
    worded = {col: cell for col, cell in cells.items() if max(map(len, plain(cell.text).split()), default=0) > _CODE}
    return len(worded) > len(cells) / 2 and is_heading_row(worded)


def _refs(block: Block, rows: Rows) -> set[CellRef]:
    return {cell.ref for row in rows if block.top <= row <= block.last for cell in rows[row].values()}


def _with_codes(body: Rows, days: Mapping[int, Cell]) -> set[int]:
    return {row for row, cells in body.items() if any(col in days for col in cells)}


def _line(
    sheet: Sheet,
    seen: tuple[Rows, Mapping[int, int]],
    row: int,
    found: tuple[Mapping[int, Spot], list[int]],
    around: Around,
    later: bool,
) -> tuple[int, dict[int, Cell], Placed, tuple[Cell, ...]] | None:
    """The days of a row with the row at which its block begins; None when it is no line of days."""
    (rows, lists), (spots, cols) = seen, found
    cells = rows[row]
    if _in_a_list(rows, lists, row, cols):
        return None
    above = _over(rows, row, cols)
    labels = _anchors({**above[1], **{c: cell for c, cell in cells.items() if c not in spots}}, cols)
    corner = [cell for col, cell in cells.items() if col < cols[0]]
    hint = next((month for cell in corner if (month := month_of(cell))), None)
    title = _titles(rows, above[0])
    texts = [cell.text for cell in title] + [cell.text for cell in corner] + [sheet.name]
    hint = hint or next((month for text in texts if (month := month_in(text))), None)
    year = next((year for text in texts if (year := year_in(text))), None)
    bare = all(not spots[col].month and not spots[col].pair for col in cols)
    if bare and later and not labels and not _is_corner(corner):
        return None
    if bare and not _rising([spots[col] for col in cols]) and not labels:
        return None
    placed = place([cells[col] for col in cols], labels, hint, year, around.order)
    if placed is None or len(placed.turns) > 0.2 * len(cols) or _dates_below(rows, row, cols):
        return None
    return above[0], dict(zip(cols, placed.cells, strict=True)), placed, above[2]


def _run(cols: list[int], cells: Mapping[int, Cell]) -> list[int]:
    """The columns of days without outliers at its ends: a bare number far from the rest is a sum."""
    while len(cols) >= FEWEST:
        inside = [col for col in cells if cols[0] <= col <= cols[-1]]
        if len(cols) >= _SHARE * len(inside):
            return cols
        first, last = cols[1] - cols[0], cols[-1] - cols[-2]
        cols = cols[1:] if first > last else cols[:-1]
    return []


def _over(rows: Rows, row: int, cols: list[int]) -> tuple[int, Mapping[int, Cell], tuple[Cell, ...]]:
    """What stands over a line of days: where it begins, the months by column, and all its cells over days."""
    top, found, used = row, {}, []
    for up in (row - 1, row - 2):
        cells = {col: cell for col, cell in rows.get(up, {}).items() if cols[0] - 1 <= col <= cols[-1]}
        if cells and all(month_of(cell) for cell in cells.values()):
            top, found = up, cells
            used += list(cells.values())
            break
        if cells and len(cells) > 1 and all(is_weekday(cell) for cell in cells.values()):
            top = up
            used += list(cells.values())
            continue
        whole = rows.get(up, {})
        if up == top - 1 and whole and all(cols[0] <= col <= cols[-1] for col in whole) and _only_words(whole):
            top = up
            used += list(whole.values())
        break
    return top, found, tuple(used)


def _only_words(cells: Mapping[int, Cell]) -> bool:
    return all(isinstance(cell.value, str) and len(cell.text) > _CODE for cell in cells.values())


def _anchors(cells: Mapping[int, Cell], cols: list[int]) -> dict[int, Month]:
    """The days, by place, at which a month that is written over or before them begins."""
    found: dict[int, Month] = {}
    for at, cell in sorted(cells.items()):
        month = month_of(cell)
        first = next((i for i, col in enumerate(cols) if col >= at), None)
        if month and first is not None:
            found[first] = month
    return found


def _titles(rows: Rows, top: int) -> list[Cell]:
    """Single texts above a row, with at most one blank row between."""
    found: list[Cell] = []
    for up in range(top - 1, max(top - 9, 0), -1):
        cells = rows.get(up)
        if cells and len(cells) > 1:
            break
        if cells:
            found += cells.values()
    return found


def _is_corner(corner: list[Cell]) -> bool:
    """Whether the cells before a line of bare numbers are headings: 'Bin', 'Day', a month."""
    texts = [cell.text for cell in corner]
    return any(
        known_heading(text, of_bins=True) in _CORNERS
        or known_heading(text, of_bins=False) == "when"
        or text.strip().casefold() in ("day", "days")
        or month_in(text)
        for text in texts
    )


def _rising(spots: list[Spot]) -> bool:
    steps = [b.day - a.day for a, b in itertools.pairwise(spots)]
    return all(step > 0 for step in steps) or all(step < 0 for step in steps) or sum(step <= 0 for step in steps) == 1


def _lists(rows: Rows) -> dict[int, int]:
    """The heading row over each row that stands in a plain list without a blank row between."""
    found: dict[int, int] = {}
    head = 0
    for row, cells in rows.items():
        head = head if row - 1 in rows else 0
        if head:
            found[row] = head
        if _begins_a_list(cells):
            head = row
    return found


def _in_a_list(rows: Rows, lists: Mapping[int, int], row: int, cols: list[int]) -> bool:
    """Whether a row of days stands in the body of a plain list."""
    return row in lists and sum(col in rows[lists[row]] for col in cols) > len(cols) / 2


def _dates_below(rows: Rows, row: int, cols: list[int]) -> bool:
    """Whether the cells below a row of days are mostly days too, so that it is a row of some list."""
    first = next(iter(rows[row].values())).text
    body = [later for later in range(row + 1, row + 400) if later in rows]
    fresh = {later for later in body if later - 1 not in rows or next(iter(rows[later].values())).text == first}
    below = [cell for later in body if later not in fresh for col, cell in rows[later].items() if col in cols]
    dates = [cell for cell in below if is_date(cell)]
    return len(dates) > 0.2 * len(below) if below else True


def _column_of_bins(head: Mapping[int, Cell], body: Rows, days: Mapping[int, Cell], before: list[Block]) -> int | None:
    """The column that names the bins: by its heading, as in the block above, or the leftmost well filled."""
    filled: dict[int, int] = {}
    with_codes = _with_codes(body, days)
    for row in with_codes:
        for col in body[row]:
            if col not in days:
                filled[col] = filled.get(col, 0) + 1
    if not filled:
        return None
    for col in sorted(filled):
        if col in head and known_heading(head[col].text, of_bins=True) == "name":
            return col
    if before and before[-1].bins in filled:
        return before[-1].bins
    most = max(filled.values())
    left = [col for col in sorted(filled) if col < min(days) and filled[col] >= 0.6 * most]
    return left[0] if left else next(col for col in sorted(filled) if filled[col] >= 0.6 * most)


def _heads(rows: Rows, top: int, line: int, days: Mapping[int, Cell]) -> dict[int, Cell]:
    """Headings of the columns that are no days: in the line of days, else in a row over it that belongs to it."""
    found: dict[int, Cell] = {}
    for row in range(line, top - 1, -1):
        for col, cell in rows.get(row, {}).items():
            if col not in days and not (row < line and month_of(cell)):
                found.setdefault(col, cell)
    return found
