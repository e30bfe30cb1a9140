"""Tell from a file's own dates whether they are written day-month, month-day or year-month-day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_choice import ORDER_WORDS, Order
from workbook_tools.intake.date_shapes import Shape, shape_of
from workbook_tools.problems import CellRef, Problem

_ENOUGH_TURNS = 2
"""How many more turns than the other an order must make before the row order counts as evidence."""
_ENOUGH_SWAPPED = 3


@dataclass(frozen=True, slots=True)
class OrderVerdict:
    """The order of a file's dates and what it rests on.

    ``sure`` is False when nothing decides. ``evidence`` is one cell that shows it, ``odd`` the cells that show the
    other order, ``reason`` a sentence for the reading notes.
    """

    order: Order
    sure: bool
    reason: str
    evidence: CellRef | None = None
    odd: tuple[CellRef, ...] = ()
    problems: tuple[Problem, ...] = ()


def judge_order(columns: Sequence[Sequence[Cell]], running: Sequence[Sequence[Cell]] | None = None) -> OrderVerdict:
    """Judge the order of day and month from every column of dates of one file.

    Parameters
    ----------
    columns : sequence of sequence of Cell
        The cells of each column that holds dates, in row order.
    running : sequence of sequence of Cell, optional
        Those of them whose rows may be kept by date; all unless given. A list of bins isn't: its dates of setting up
        run on in one order by chance.

    Returns
    -------
    OrderVerdict
        From the dates that only one order allows (13/2, or a weekday beside that only one order fits), by majority;
        else from the order of rows: a column that runs on in one order and turns back and forth in the other; else
        from year-first dates; else day-month, not sure. Row order misleads when a log is not kept by date.
    """
    votes: dict[Order, list[Cell]] = {"dmy": [], "mdy": []}
    weak: list[Cell] = []
    open_pairs: list[Cell] = []
    year_first = 0
    for cell in (cell for column in columns for cell in column if isinstance(cell.value, str)):
        shape = shape_of(cell.text)
        for piece in shape.pieces or (shape,):
            if piece.kind == "pair":
                decided = _only_order(piece)
                if decided == "mdy" and piece.year is None:
                    weak.append(cell)
                elif decided:
                    votes[decided].append(cell)
                elif piece.a != piece.b and piece.a <= 12 and piece.b <= 12:
                    open_pairs.append(cell)
            elif piece.kind == "day" and cell.text[:4].isdecimal():
                year_first += 1
    swapped = tuple(problem for column in columns if (problem := _swapped(column)))
    if not votes["dmy"]:
        votes["mdy"] += weak
    if votes["dmy"] or votes["mdy"]:
        return _by_majority(votes, bool(open_pairs), swapped)
    if not open_pairs:
        if year_first:
            return OrderVerdict("ymd", True, "they are written with the year first.", problems=swapped)
        return OrderVerdict("dmy", True, "no date has day and month as two numbers.", problems=swapped)
    turned = {
        order: sum(_turns(column, order) for column in (columns if running is None else running)) for order in votes
    }
    order: Order = "dmy" if turned["dmy"] <= turned["mdy"] else "mdy"
    most, least = max(turned.values()), min(turned.values())
    if most - least >= _ENOUGH_TURNS and least * 3 <= most:
        other: Order = "mdy" if order == "dmy" else "dmy"
        reason = f"so the rows run on by date; as {ORDER_WORDS[other]} they would jump back and forth."
        return OrderVerdict(order, True, reason, open_pairs[0].ref, problems=swapped)
    shape = shape_of(open_pairs[0].text)
    pair = shape.pieces[0] if shape.pieces else shape
    facts = {
        "order": ORDER_WORDS["dmy"],
        "value": open_pairs[0].text,
        "day": f"{dt.date(2000, pair.b, 1):%B} {pair.a}" if pair.b else "",
    }
    refs = tuple(cell.ref for cell in open_pairs)
    problem = Problem("dates.order_open", refs[0], facts, open_pairs[0].text, refs[1:])
    return OrderVerdict("dmy", False, "nothing in the file decides it.", None, (), (problem, *swapped))


def _by_majority(votes: dict[Order, list[Cell]], some_open: bool, swapped: tuple[Problem, ...]) -> OrderVerdict:
    order: Order = "dmy" if len(votes["dmy"]) >= len(votes["mdy"]) else "mdy"
    other: Order = "mdy" if order == "dmy" else "dmy"
    first = votes[order][0]
    reason = f"'{first.text}' in {first.ref} can be nothing else."
    odd = tuple(dict.fromkeys(cell.ref for cell in votes[other]))
    if not odd:
        return OrderVerdict(order, True, reason, first.ref, (), swapped)
    reason = f"{len(votes[order])} dates can be nothing else, though {len(votes[other])} can only be the other way."
    sure = len(votes[order]) >= 3 * len(votes[other])
    problem = Problem("dates.order_mixed", odd[0], {"order": ORDER_WORDS[order]}, votes[other][0].text, odd[1:])
    return OrderVerdict(order, sure or not some_open, reason, first.ref, odd, (problem, *swapped))


def _only_order(shape: Shape) -> Order | None:
    """The one order in which a pair can be a day, None when both or neither can.

    Without a year 03/24 decides nothing: it may be a month and a year. So may 12/25, which counts only where no date is
    day-month.
    """
    a, b = shape.a, shape.b
    as_dmy, as_mdy = _day(b, a, shape.year), _day(a, b, shape.year)
    if shape.year is not None and shape.weekdays and as_dmy and as_mdy and a != b:
        fits = [day.weekday() in shape.weekdays for day in (as_dmy, as_mdy)]
        if fits[0] != fits[1]:
            return "dmy" if fits[0] else "mdy"
    if as_dmy and not as_mdy and a > 12:
        return "dmy"
    if as_mdy and not as_dmy and b > 12 and (shape.year is not None or not (shape.zero_led or a > 12)):
        return "mdy"
    return None


def _day(month: int, day: int, year: int | None) -> dt.date | None:
    full = 2024 if year is None else year if year > 99 else 2000 + year
    try:
        return dt.date(full, month, day)
    except ValueError:
        return None


def _turns(column: Sequence[Cell], order: Order) -> int:
    """How often a column's dates turn from running forward to running back or the other way, read in one order.

    A date without a year is put in the year nearest to the row before it.
    """
    turns = 0
    heading = 0
    before: dt.date | None = None
    for cell in column:
        day = _placed(cell, order, before)
        if day is None:
            continue
        if before is not None and day != before:
            now = 1 if day > before else -1
            turns += heading != 0 and now != heading
            heading = now
        before = day
    return turns


def _placed(cell: Cell, order: Order, before: dt.date | None) -> dt.date | None:
    value = cell.value
    if isinstance(value, dt.datetime):
        return value.date()
    if isinstance(value, dt.date):
        return value
    if not isinstance(value, str):
        return None
    shape = shape_of(value)
    if shape.kind == "day":
        month, day = shape.a, shape.b
    elif shape.kind == "pair":
        month, day = (shape.b, shape.a) if order == "dmy" else (shape.a, shape.b)
    else:
        return None
    if shape.year is not None or before is None:
        return _day(month, day, shape.year)
    around = [_day(month, day, before.year + step) for step in (-1, 0, 1)]
    return min((each for each in around if each), key=lambda each: abs(each - before), default=None)


def _swapped(column: Sequence[Cell]) -> Problem | None:
    """Name a column whose text dates all have a day above 12 while its real dates all have one of 12 or less.

    That is what a spreadsheet program leaves that expects the other order from what is typed: it turns what it can
    into a date with day and month swapped, and keeps the rest as text.
    """
    texts = [shape for cell in column if isinstance(cell.value, str) and (shape := shape_of(cell.value)).kind == "pair"]
    real = [cell for cell in column if isinstance(cell.value, dt.date)]
    if len(texts) < _ENOUGH_SWAPPED or len(real) < _ENOUGH_SWAPPED:
        return None
    if any(shape.a <= 12 and shape.b <= 12 for shape in texts):
        return None
    if any(isinstance(cell.value, dt.date) and cell.value.day > 12 for cell in real):
        return None
    refs = [cell.ref for cell in real]
    return Problem("dates.swapped", refs[0], {"count": len(texts)}, real[0].text, tuple(refs[1:]))
