"""A census in rounds: counts of bins without a column of dates, dated by a title or by the name of the sheet."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS
from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.date_shapes import shape_of
from workbook_tools.intake.headings import plain
from workbook_tools.intake.passed import ROUND_WORDS, says_total
from workbook_tools.intake.profile import is_date
from workbook_tools.intake.regions import is_heading_row
from workbook_tools.intake.shapes.pairs import known
from workbook_tools.intake.shapes.records import Around, Shape, Unfolded
from workbook_tools.problems import CellRef, Problem

NAME = "a census in rounds"
_HOW_MANY = frozenset({"number", "large", "middle", "small"})
_COUNTED = _HOW_MANY | {"brooding", "dead", "way", "young", "marked"}
"""Fields of a count: two of them, one for how many, make a census."""
_OF_A_LIST = frozenset({"volume", "floor", "started", "founders", "status", "ventilation", "depth", "appetite"})
"""Fields that only a list of bins has."""
_LONGEST = 8
"""Words in a title that may still say a date."""
_DIGITS = re.compile(r"\d+")
_CODED = re.compile(r"[^\W\d_]+[-_]?\d")
_EDGES = " -–—=*#~_:>,;()[]"


@dataclass
class _Census:
    """A sheet as found: its headings by plain text, each row of counts with its date, and the rest."""

    heads: dict[str, Cell] = field(default_factory=dict)
    rows: list[tuple[int, Mapping[str, Cell], Cell | None]] = field(default_factory=list)
    titles: list[Cell] = field(default_factory=list)
    dates: list[Cell] = field(default_factory=list)
    again: list[Cell] = field(default_factory=list)
    """Headings that stand there again."""


def date_in(cell: Cell) -> Cell | None:
    """The date that a title tells, by itself: 'Round of 6/9/2026' gives 6/9/2026; None where it tells none."""
    if isinstance(cell.value, dt.date):
        return cell
    if not isinstance(cell.value, str):
        return None
    words = cell.text.split()
    if len(words) > _LONGEST:
        return None
    for size in range(len(words), 0, -1):
        for at in range(len(words) - size + 1):
            text = " ".join(words[at : at + size]).strip(_EDGES)
            if _tells_day(text, (*words[:at], *words[at + size :])):
                return Cell(cell.ref, text, text, cell.text if text != cell.text else "")
    return None


def _tells_day(text: str, others: Iterable[str]) -> bool:
    """Whether a part of a title is a date, and the words beside it name no bin."""
    shape = shape_of(text)
    beside = " ".join(others)
    if shape.more_words or _CODED.search(beside):
        return False
    if shape.kind == "pair" and shape.year is None:
        return set(plain(_DIGITS.sub(" ", beside)).split()) <= ROUND_WORDS and bool(beside)
    return shape.kind in ("day", "pair", "either") or (shape.kind == "month" and shape.year is not None)


def _keys(cells: Iterable[Cell]) -> set[str]:
    return {key for cell in cells if isinstance(cell.value, str) and (key := known(cell.text, LOG_FIELDS))}


def _counts(cells: Mapping[int, Cell]) -> bool:
    """Whether a row of headings is that of a census without a column of dates."""
    keys = _keys(cells.values())
    named = "bins" in keys or any(known(cell.text) == "name" for cell in cells.values())
    if not named or keys & {"when", "did"} or len(keys & _COUNTED) < 2 or not keys & _HOW_MANY:
        return False
    return not _OF_A_LIST & {known(cell.text, BIN_FIELDS) for cell in cells.values()}


def _find(sheet: Sheet) -> _Census | None:
    """The rounds of a sheet from the top down; None where other headings stand on it, or nothing dates the counts."""
    found, here = _Census(), {}
    day = date_in(Cell(CellRef(sheet.name), sheet.name, sheet.name))
    for row, cells in sheet.rows.items():
        if is_heading_row(cells):
            if not _counts(cells):
                return None
            here = {col: plain(cell.text) for col, cell in cells.items()}
            found.again += [cell for cell in cells.values() if plain(cell.text) in found.heads]
            found.heads = {here[col]: cell for col, cell in cells.items()} | found.heads
        elif told := _title_date(cells):
            day = told
            found.dates.append(told)
            found.titles += [cell for cell in cells.values() if cell.ref != told.ref]
        elif len(cells) == 1 and not _is_bin(cells, here):
            found.titles += cells.values()
        elif not here:
            return None
        else:
            body = {here[col]: cell for col, cell in cells.items() if col in here}
            total = any(says_total(cell.text) for cell in cells.values())
            found.rows.append((row, body, None if total else day))
    dated = [day for _, _, day in found.rows if day]
    return found if dated and not _has_dates(found) else None


def _title_date(cells: Mapping[int, Cell]) -> Cell | None:
    """The date of a row that holds a title with a date, in one cell or beside a word for a round."""
    told = [day for cell in cells.values() if (day := date_in(cell))]
    others = [cell for cell in cells.values() if not told or cell.ref != told[0].ref]
    words = {word for cell in others for word in plain(_DIGITS.sub(" ", cell.text)).split()}
    fits = len(cells) == 1 or (len(cells) == 2 and bool(words) and words <= ROUND_WORDS)
    return told[0] if len(told) == 1 and fits else None


def _is_bin(cells: Mapping[int, Cell], here: Mapping[int, str]) -> bool:
    """Whether a cell alone in its row is the code of a bin of which nothing was counted."""
    col, cell = next(iter(cells.items()))
    return col in here and any(ch.isdigit() for ch in cell.text) and len(plain(cell.text).split()) <= 2


def _has_dates(found: _Census) -> bool:
    """Whether some column holds dates after all."""
    for head in found.heads:
        cells = [body[head] for _, body, day in found.rows if day and head in body]
        if cells and sum(map(is_date, cells)) >= 0.5 * len(cells):
            return True
    return False


def likeness(sheet: Sheet, around: Around) -> float:
    """How surely a sheet is a census in rounds: every heading row is one of counts, and titles date all of them."""
    del around
    found = _find(sheet)
    if found is None:
        return 0.0
    bodies = [(body, day) for _, body, day in found.rows if not any(says_total(cell.text) for cell in body.values())]
    return round(0.9 * sum(day is not None for _, day in bodies) / len(bodies), 2)


def unfolded(sheet: Sheet, around: Around) -> Unfolded:
    """The rounds as one log, with the date of its title in every row."""
    del around
    found = _find(sheet)
    if found is None:
        return Unfolded((sheet,))
    places = {head: place for place, head in enumerate(found.heads, 2)}
    first = found.dates[0] if found.dates else Cell(CellRef(sheet.name), sheet.name, sheet.name)
    cells = {(1, 1): Cell(first.ref, "Date", "Date", first.written or first.text)}
    cells |= {(1, places[head]): cell for head, cell in found.heads.items()}
    rows_at = {}
    for at, (row, body, day) in enumerate(found.rows, 2):
        rows_at[at] = CellRef(sheet.name, row)
        cells |= {(at, places[head]): cell for head, cell in body.items()}
        if day:
            cells[at, 1] = day
    log = Sheet(sheet.name, dict(sorted(cells.items())), hidden=sheet.hidden, rows_at=rows_at)
    passed = {cell.ref: "a title" for cell in found.titles} | {cell.ref: "headings again" for cell in found.again}
    passed |= {cell.ref: "the date of the rows below it" for cell in found.dates}
    done = passed.keys() | {cell.ref for cell in cells.values()}
    left = {at: cell for at, cell in sheet.cells.items() if cell.ref not in done}
    parts = (log, Sheet(sheet.name, left, sheet.merged, sheet.hidden)) if left else (log,)
    many = f"{len(found.dates)} titles, the first" if len(found.dates) > 1 else "the title"
    dated = f"dated by {many if found.dates else 'the name of the sheet,'} '{first.written or first.text}'"
    problems = tuple(Problem("tables.title", cell.ref, {}, cell.text) for cell in found.titles)
    return Unfolded(parts, why=f"counts without a column of dates, {dated}", problems=problems, passed=passed)


SHAPE = Shape(NAME, likeness, unfolded)
