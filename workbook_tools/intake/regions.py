"""Find tables wherever they stand on a sheet: heading rows, two-row headings, side by side, stacked."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS, Field, Kind
from workbook_tools.intake.cells import Area, Cell, Sheet
from workbook_tools.intake.endings import is_words, last_of_shape
from workbook_tools.intake.headings import SCORE_SURE, candidates, known_words, plain, stems
from workbook_tools.intake.profile import is_value

KEYS = frozenset({"name", "bins", "when"})
SETTING_HEADINGS = frozenset({"setting", "settings", "option", "value", "word", "means", "for"})
LONGEST_HEADING = 60
ENOUGH = 4
"""So many headings known for sure make a row of headings, however many others stand in it."""
SURE = SCORE_SURE - 0.01
_LABELLED = re.compile(r"\w\s*:\s*\S")
"""A label with its value in one cell, as on a card: no label over columns."""
ALL_FIELDS: tuple[Field, ...] = (*LOG_FIELDS, *BIN_FIELDS)


@dataclass(frozen=True)
class Region:
    """One table as it stands: its heading row (or two), the label above each column, its columns and body rows."""

    sheet: Sheet
    heading_row: int
    headings: Mapping[int, Cell]
    groups: Mapping[int, str]
    area: Area
    title: str = ""
    title_rows: tuple[int, ...] = field(default_factory=tuple)


@lru_cache(maxsize=20_000)
def _best(text: str) -> tuple[float, Field] | None:
    """The best field for a text that may be a heading, that of a bin or a date if it may well be one.

    None when it shares no word with any known heading.
    """
    if len(text) > LONGEST_HEADING or not known_words(ALL_FIELDS).intersection(stems(text)):
        return None
    found = candidates(text, "", ALL_FIELDS)
    return next((pair for pair in found if pair[0] >= SURE and pair[1].key in KEYS), found[0] if found else None)


def is_heading_row(cells: Mapping[int, Cell]) -> bool:
    """Whether a row is headings: mostly words, most of them different, some known, one a bin or a date.

    Two must be known for sure and a third known at all, or four for sure.
    """
    words = {col: cell for col, cell in cells.items() if is_words(cell)}
    if len(words) < 2 or len(cells) - len(words) > 0.25 * len(cells):
        return False
    texts = [plain(cell.text) for cell in words.values()]
    if len(set(texts)) < 0.5 * len(texts):
        return False
    if len(SETTING_HEADINGS.intersection(texts)) >= 2:
        return True
    matched = [best for cell in words.values() if (best := _best(cell.text))]
    sure = [pair for pair in matched if pair[0] >= SURE]
    keyed = any(field.key in KEYS for _, field in sure)
    return keyed and len(sure) >= 2 and (len(sure) >= ENOUGH or len(matched) >= max(2, 0.35 * len(words)))


def _goes_on(rows: Mapping[int, Mapping[int, Cell]], row: int, bottom: int, heads: Mapping[int, Cell]) -> bool:
    """Whether a row directly below others of a table is one more of them: a value stands where one stands above."""
    above = rows.get(row - 1, {}) if row - 1 > bottom else {}
    return any(
        is_value(cell) and col in heads and col in above and is_value(above[col]) for col, cell in rows[row].items()
    )


def likely_headings(sheet: Sheet) -> Mapping[int, Cell]:
    """The first row of a sheet that may be headings although none is known: different words only, rows below it."""
    rows = sheet.rows
    for row, cells in rows.items():
        texts = {plain(cell.text) for cell in cells.values() if is_words(cell) and len(cell.text) <= LONGEST_HEADING}
        if len(texts) >= 2 and len(texts) == len(cells) and any(row < other for other in rows):
            return cells
    return {}


def _spans(sheet: Sheet, row: int) -> dict[int, Area]:
    """Areas merged across several columns that begin in a row, by first column."""
    return {area.left: area for area in sheet.merged if area.top == row and area.right > area.left}


def _group_labels(sheet: Sheet, row: int, cells: Mapping[int, Cell], columns: Sequence[int]) -> dict[int, str]:
    """Labels of a group row carried to the right until the next label, or over their merged area."""
    spans = _spans(sheet, row)
    labels: dict[int, str] = {}
    current = ""
    until = 0
    for col in range(min(columns), max(columns) + 1):
        if col in cells:
            current = cells[col].text
            until = spans[col].right if col in spans else max(columns)
        elif col > until:
            current = ""
        if current and col in columns:
            labels[col] = current
    return labels


def _is_group_row(sheet: Sheet, row: int, above: Mapping[int, Cell], below: Mapping[int, Cell]) -> bool:
    """Whether a row holds labels over groups of columns: fewer labels than columns, words only, at least two."""
    if not above or not all(is_words(cell) for cell in above.values()) or len(above) >= len(below):
        return False
    if any(_LABELLED.search(cell.text) for cell in above.values()):
        return False
    spanning = _spans(sheet, row)
    inside = [col for col in above if min(below) <= col <= max(below)]
    return len(inside) >= 2 and (bool(spanning) or len(inside) <= 0.6 * len(below))


def _is_second_row(sheet: Sheet, row: int, heads: Mapping[int, Cell], below: Mapping[int, Cell]) -> bool:
    """Whether the row under a heading row subdivides its merged headings."""
    spans = [area for area in _spans(sheet, row).values() if area.left in heads]
    if not spans or not below or not all(is_words(cell) for cell in below.values()):
        return False
    return all(any(area.left <= col <= area.right for area in spans) for col in below)


def _segments(columns: Sequence[int], heads: Mapping[int, Cell], body_columns: frozenset[int]) -> list[list[int]]:
    """Split heading columns where an empty column stands between two tables that each have a bin or a date."""
    runs: list[list[int]] = [[]]
    for col in columns:
        if runs[-1] and any(gap not in body_columns for gap in range(runs[-1][-1] + 1, col)):
            runs.append([])
        runs[-1].append(col)

    def keyed(run: Sequence[int]) -> bool:
        best = [candidates(heads[col].text, "", ALL_FIELDS) for col in run]
        return any(found and found[0][1].key in KEYS and found[0][1].kind is not Kind.TEXT for found in best)

    merged_runs: list[list[int]] = []
    for run in runs:
        if merged_runs and not (keyed(run) and len(run) > 1 and keyed(merged_runs[-1])):
            merged_runs[-1].extend(run)
        else:
            merged_runs.append(list(run))
    return merged_runs


def find_regions(sheet: Sheet, named: Callable[[Sequence[str]], bool] = lambda texts: False) -> list[Region]:
    """Find every table of a sheet, from the top down.

    A table ends where another heading row begins in its columns, or where the sheet ends. Rows of a single text
    directly above a heading row are its title. A sheet unfolded from another shape is one table. ``named`` tells of the
    texts of a row whether the keeper says that they are headings.
    """
    rows = sheet.rows
    if sheet.rows_at:
        return [Region(sheet, 1, rows.get(1, {}), {}, Area(1, 1, sheet.last_row, sheet.last_col))]
    numbers = list(rows)
    starts: list[tuple[int, int, dict[int, Cell], dict[int, str]]] = []  # top row, heading row, headings, groups
    skip = 0
    for index, row in enumerate(numbers):
        texts = [cell.text for cell in rows[row].values()]
        if row <= skip or not (is_heading_row(rows[row]) or named(texts)):
            continue
        if starts and not named(texts) and _goes_on(rows, row, starts[-1][1], starts[-1][2]):
            continue
        heads = {col: cell for col, cell in rows[row].items() if isinstance(cell.value, str)}
        top, groups = row, {}
        if index and numbers[index - 1] == row - 1 and _is_group_row(sheet, row - 1, rows[row - 1], heads):
            groups = _group_labels(sheet, row - 1, rows[row - 1], sorted(heads))
            top = row - 1
        bottom = row
        below = rows.get(row + 1, {})
        if _is_second_row(sheet, row, heads, below):
            columns = sorted({*heads, *below})
            groups = _group_labels(sheet, row, heads, columns)
            heads = {col: below[col] if col in below else heads[col] for col in columns}
            groups = {col: label for col, label in groups.items() if col in below}
            bottom = row + 1
        skip = bottom
        starts.append((top, bottom, heads, groups))
    regions = []
    for place, (top, bottom, heads, groups) in enumerate(starts):
        title, title_rows = _title(rows, top, starts[place - 1][1] if place else 0)
        below_rows = [row for row in numbers if row > bottom]
        body_columns = frozenset(col for row in below_rows[:2000] for col in rows[row]) | frozenset(heads)
        for segment in _segments(sorted(heads), heads, body_columns):
            left, right = segment[0], segment[-1]
            end = _end(rows, numbers, starts[place + 1 :], left, right, bottom, sheet.last_row)
            regions.append(
                Region(
                    sheet,
                    bottom,
                    {col: heads[col] for col in segment},
                    {col: groups[col] for col in segment if col in groups},
                    Area(top, left, end, right),
                    title,
                    title_rows,
                )
            )
    return regions


def _title(rows: Mapping[int, Mapping[int, Cell]], top: int, floor: int) -> tuple[str, tuple[int, ...]]:
    """Single texts in the rows directly above a heading row (a blank row between is allowed)."""
    found: list[tuple[int, str]] = []
    row = top - 1
    blanks = 0
    while row > floor and len(found) < 3 and blanks <= 1:
        cells = rows.get(row, {})
        texts = [cell for cell in cells.values() if is_words(cell)]
        if not cells:
            blanks += 1
        elif len(cells) == 1 and len(texts) == 1:
            found.append((row, texts[0].text))
            blanks = 0
        else:
            break
        row -= 1
    found.reverse()
    return " / ".join(text for _, text in found), tuple(row for row, _ in found)


def _end(
    rows: Mapping[int, Mapping[int, Cell]],
    numbers: Sequence[int],
    later: Sequence[tuple[int, int, dict[int, Cell], dict[int, str]]],
    left: int,
    right: int,
    bottom: int,
    last: int,
) -> int:
    """The last row of a table's body that holds something in its columns."""
    end = last
    for top, _, heads, _ in later:
        if any(left <= col <= right for col in heads):
            end = top - 1
            _, titles = _title(rows, top, bottom)
            if titles:
                end = min(end, titles[0] - 1)
            break
    body = [row for row in numbers if bottom < row <= end and any(left <= col <= right for col in rows[row])]
    return last_of_shape(body, rows, left, right) if body else bottom
