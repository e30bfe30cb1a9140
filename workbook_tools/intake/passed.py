"""Rows of a table's body that are no entries: titles, totals, the example, and dates for the rows below them."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_shapes import Shape, shape_of
from workbook_tools.intake.headings import plain
from workbook_tools.intake.profile import is_date
from workbook_tools.intake.regions import Region
from workbook_tools.intake.tables import Role

TOTALS = frozenset(
    "total totals sum sums subtotal subtotals sub subs average averages mean grand overall together".split()
)
_BESIDE_TOTALS = frozenset("of the all bins for in".split())
EXAMPLES = frozenset({"example", "example 1"})
"""What the example row of the blank workbook is called."""
_LONGEST = 8
"""Words in a row of one text that may still say a date for the rows below it."""
ROUND_WORDS = frozenset(
    "round rounds of on the week day date done care check visit evening morning night from weekly entries log".split()
)
"""Words beside which two numbers with a stroke or a point are a day and a month."""
_EDGES = re.compile(r"^[\s\-–—=*#~_:>]+|[\s\-–—=*#~_:<]+$")
_DIGITS = re.compile(r"\d+")


def day_rows(body: Mapping[int, Mapping[int, Cell]], when_col: int) -> dict[int, Cell]:
    """Rows that hold nothing but a date, each with the cell to read it from, its decoration taken off.

    A date that stands in the column of dates counts only where the next row has none of its own: else it is an entry
    without a bin.
    """
    found: dict[int, Cell] = {}
    rows = list(body)
    for place, row in enumerate(rows):
        if len(body[row]) != 1:
            continue
        col, cell = next(iter(body[row].items()))
        below = next((body[later] for later in rows[place + 1 :] if len(body[later]) > 1), {})
        if below and when_col not in below and (day := _day(cell, col == when_col)):
            found[row] = day
    return found


def _day(cell: Cell, in_column: bool) -> Cell | None:
    if isinstance(cell.value, dt.date):
        return cell
    if not isinstance(cell.value, str):
        return None
    text = _EDGES.sub("", cell.text)
    if len(text.split()) > _LONGEST:
        return None
    shape = shape_of(text)
    if not (_plain(shape) if in_column and not shape.more_words else _sure(shape, text)):
        return None
    return Cell(cell.ref, text, text)


def _plain(shape: Shape) -> bool:
    return shape.kind in ("day", "pair", "either", "month", "week", "two", "season")


def _sure(shape: Shape, text: str) -> bool:
    """Whether a text outside the column of dates, or with words around its date, can be meant for one."""
    if shape.kind in ("day", "either", "week"):
        return True
    if shape.kind == "month":
        return not shape.more_words and shape.year is not None
    if shape.kind == "two":
        return not shape.more_words and all(piece.kind == "day" or piece.year is not None for piece in shape.pieces)
    if shape.kind != "pair":
        return False
    others = set(plain(_DIGITS.sub(" ", text)).split())
    return shape.year is not None or bool(shape.weekdays) or (bool(others) and others <= ROUND_WORDS)


def passed_over(
    region: Region, cells: Mapping[int, Mapping[int, Cell]], keys: Sequence[int], role: Role
) -> dict[int, str]:
    """Body rows that are no data, each with the reason: titles, totals, the example."""
    if role == "unused":
        return {}
    reasons: dict[int, str] = {}
    alone = _names_alone(cells, keys) if role == "bins" else frozenset()
    for row, filled in cells.items():
        texts = [plain(cell.text) for cell in filled.values() if isinstance(cell.value, str)]
        key_texts = [plain(filled[col].text) for col in keys if col in filled]
        if any(text in EXAMPLES for text in key_texts):
            reasons[row] = "example row"
        elif any(map(says_totals, texts)) and all(map(says_totals, key_texts)):
            reasons[row] = "totals row"
        elif row in alone or _is_title(region, filled, keys):
            reasons[row] = "a title between rows"
    return reasons


def says_total(text: str) -> bool:
    """Whether a cell says that its row sums others up."""
    return says_totals(plain(text))


def says_totals(text: str) -> bool:
    """Whether a text says that a row sums others up: 'Total', 'Sum of all'; 'Sub 3' and 'Grand Canyon' are names."""
    words = [word for word in text.split() if word not in _BESIDE_TOTALS]
    return bool(words) and TOTALS.issuperset(words)


def _is_title(region: Region, filled: Mapping[int, Cell], keys: Sequence[int]) -> bool:
    """Whether a row holds one text in its first column that is no bin: '== Rollers ==', 'Kitchen shelf, top'."""
    if len(filled) != 1 or len(region.headings) < 3:
        return False
    col, cell = next(iter(filled.items()))
    if col != region.area.left or not isinstance(cell.value, str) or is_date(cell):
        return False
    return col not in keys or len(plain(cell.text).split()) > 2 or "=" in cell.text


def _form(text: str) -> str:
    """The form of a code, its digits made alike: 'B07' is of the form 'b9'; empty for a text without digits."""
    bare = plain(text).replace(" ", "")
    return _DIGITS.sub("9", bare) if any(ch.isdigit() for ch in bare) else ""


def _names_alone(cells: Mapping[int, Mapping[int, Cell]], keys: Sequence[int]) -> frozenset[int]:
    """Rows of a list of bins with nothing beside a text in the column of names: titles, unless most rows are so.

    A code of the same form as others of the list stays a bin.
    """
    named = {row: filled[keys[0]] for row, filled in cells.items() if keys and keys[0] in filled}
    alone = {row: cell for row, cell in named.items() if len(cells[row]) == 1 and isinstance(cell.value, str)}
    if 2 * len(alone) > len(named):
        return frozenset()
    forms = {_form(cell.text) for row, cell in named.items() if row not in alone} - {""}
    return frozenset(row for row, cell in alone.items() if _form(cell.text) not in forms)
