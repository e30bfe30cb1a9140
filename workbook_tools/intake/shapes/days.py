"""Headings that are days: what may be one, and the month that a bare day number takes from its neighbours."""

from __future__ import annotations

import datetime as dt
import itertools
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_choice import Order
from workbook_tools.intake.date_shapes import shape_of
from workbook_tools.intake.date_words import fold, months, weekdays

_NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_LENGTHS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_EARLIEST = 18
"""From this number on one beside a month may be a year."""
_YEAR = re.compile(r"(?<!\d)20\d\d(?!\d)")
_BOTH: tuple[Order, Order] = ("dmy", "mdy")
_FAR = 3
_FAR_DAYS = 14
"""An order of day and month is far better when its longest gap is shorter by this factor and more days."""
Month = tuple[int, int | None]
"""A month, and its year where it is known."""


@dataclass(frozen=True, slots=True)
class Spot:
    """What a heading says of a day: a bare day of a month, two numbers in an open order, or month and day."""

    day: int = 0
    month: int = 0
    year: int | None = None
    pair: tuple[int, int] | None = None
    either: bool = False
    """Whether its number may be a year: 'Nov 24'."""

    def known(self, order: Order) -> Spot | None:
        """The spot with its month and day, in an order of day and month; None for a bare day."""
        if self.pair:
            day, month = self.pair if order != "mdy" else self.pair[::-1]
            return replace(self, day=day, month=month)
        return self if self.month else None

    @property
    def possible(self) -> bool:
        """Whether its month has such a day."""
        return 1 <= self.month <= 12 and 1 <= self.day <= _LENGTHS[self.month - 1]

    @property
    def of_year(self) -> int:
        """About the how manieth day of a year."""
        return (self.month - 1) * 31 + self.day


def spot_of(cell: Cell) -> Spot | None:
    """What a cell says of a day; None when it is no day."""
    value = cell.value
    if isinstance(value, dt.date):
        return Spot(value.day, value.month, value.year)
    if isinstance(value, int) and not isinstance(value, bool):
        return Spot(value) if 1 <= value <= 31 else None
    if not isinstance(value, str) or len(value) > 24:
        return None
    shape = shape_of(value)
    if shape.more_words or shape.rest or (shape.doubt and not value.strip(" .").isdecimal()):
        return None
    if shape.kind == "pair":
        return Spot(pair=(shape.a, shape.b), year=shape.year)
    if shape.kind == "day" or (shape.kind == "either" and shape.b <= 31):
        return Spot(shape.b, shape.a, shape.year, either=shape.kind == "either")
    if shape.kind == "day_of_month" and 1 <= shape.a <= 31:
        return Spot(shape.a)
    return None


def month_of(cell: Cell) -> Month | None:
    """The month that a label over days names: 'Feb', 'March 2025', or a date cell of a first."""
    value = cell.value
    if isinstance(value, dt.date):
        return (value.month, value.year) if value.day == 1 else None
    shape = shape_of(value) if isinstance(value, str) and len(value) < 30 else None
    if shape and shape.kind == "month" and shape.part is None and 1 <= shape.a <= 12:
        return shape.a, _full(shape.year)
    return None


def month_in(text: str) -> Month | None:
    """The one month that a title or a sheet's name speaks of; None for none or several."""
    found = {months()[word] for word in re.findall(r"[^\W\d_]{3,}", fold(text)) if word in months()}
    return (found.pop(), year_in(text)) if len(found) == 1 else None


def year_in(text: str) -> int | None:
    """The one year of four digits in a text."""
    found = set(_YEAR.findall(text))
    return int(found.pop()) if len(found) == 1 else None


def is_weekday(cell: Cell) -> bool:
    """Whether a cell holds the name or the letter of a day of the week."""
    text = fold(cell.text).strip(" .")
    return text in weekdays() or text in {name[:2] for name in weekdays()} or text in {"m", "t", "w", "f", "s"}


def is_evidence(cell: Cell) -> bool:
    """Whether a date is the keeper's own and so may help to tell the order: one whose month was carried may not."""
    return not cell.written or shape_of(cell.text).kind != "day"


def are_weekdays(cells: Sequence[Cell], label: Cell | None) -> bool:
    """Whether the cells under days, with the label before them, are days of the week and no codes of a bin."""
    named = label is not None and fold(label.text).strip(" .:") not in ("day", "days", "weekday")
    return not named and len({cell.text for cell in cells}) > 1 and all(map(is_weekday, cells))


@dataclass(frozen=True)
class Placed:
    """Days with their months.

    ``order`` is the order of day and month that was leaned on to carry a month, None where none was needed or where
    the days themselves settle it; ``turns``
    are the cells at which the days run back.
    """

    cells: tuple[Cell, ...]
    order: Order | None
    turns: tuple[Cell, ...]
    months: tuple[Cell, ...] = ()
    """Headings taken for a month and a year, where all of them may be that."""


def place(
    cells: Sequence[Cell], labels: Mapping[int, Month], hint: Month | None, year: int | None, order: Order | None
) -> Placed | None:
    """Give every bare day number its month and every day the year that a title names.

    Parameters
    ----------
    cells : sequence of Cell
        Headings that are days, as they stand in their line.
    labels : mapping of int to (month, year)
        The month over a heading, by its place in ``cells``.
    hint : (month, year), optional
        The month that a title names, for days that no heading dates.
    year : int, optional
        The year that a title names.
    order : str, optional
        The order of day and month, where it is settled.

    Returns
    -------
    Placed or None
        None when nothing tells the month. Misleads where days are left out over more than a month.
    """
    spots = [spot for cell in cells if (spot := spot_of(cell))]
    if len(spots) != len(cells):
        return None
    if _run_of_months(spots):
        named = tuple(_month_cell(cell, spot) for cell, spot in zip(cells, spots, strict=True))
        return Placed(named, None, (), named)
    spots = [
        replace(spot, month=labels[i][0], year=labels[i][1])
        if i in labels and not spot.month and not spot.pair
        else spot
        for i, spot in enumerate(spots)
    ]
    first = next((i for i, spot in enumerate(spots) if not spot.month and not spot.pair), None)
    if hint and first is not None and not any(_possible(spot, each) for spot in spots for each in _BOTH):
        spots[first] = replace(spots[first], month=hint[0], year=hint[1])
    paired = any(spot.pair for spot in spots)
    tried = [(_carried(spots, each), each) for each in ((order,) if order in _BOTH else _BOTH)]
    found = [(_cost(run), run, each) for run, each in tried if run]
    if not found:
        return None
    run, chosen, sure = _likelier(found)
    if _falls(run):
        year = None
    bare = any(not spot.month and not spot.pair for spot in spots)
    settled = bare and paired and sure and order is None
    out = tuple(_dated(cell, spot, full, year, settled) for cell, spot, full in zip(cells, spots, run, strict=True))
    return Placed(out, chosen if bare and paired and not settled else None, tuple(_turns(cells, run)))


def _likelier(found: Sequence[tuple[tuple[int, int], list[Spot], Order]]) -> tuple[list[Spot], Order, bool]:
    """The run of days that fits better, its order, and whether it is far better than in the other order."""
    if len(found) == 1:
        return found[0][1], found[0][2], True
    (first, run, order), (other, other_run, other_order) = found[:2]
    if other[0] < first[0] or (other[0] == first[0] and _FAR * other[1] + _FAR_DAYS < first[1]):
        return other_run, other_order, True
    return run, order, first[0] < other[0] or _FAR * first[1] + _FAR_DAYS < other[1]


def _run_of_months(spots: Sequence[Spot]) -> bool:
    """Whether headings such as 'Nov 24', 'Dec 24', 'Jan 25' go through months, the number rising with the year only."""
    if not spots or not all(spot.either and spot.day >= _EARLIEST for spot in spots):
        return False
    count = [spot.day * 12 + spot.month for spot in spots]
    steps = [b - a for a, b in itertools.pairwise(count)]
    return all(0 < step <= 12 for step in steps) or all(-12 <= step < 0 for step in steps)


def _month_cell(cell: Cell, spot: Spot) -> Cell:
    text = f"{_NAMES[spot.month - 1]} {2000 + spot.day}"
    return Cell(cell.ref, text, text, cell.text)


def _full(year: int | None) -> int | None:
    return None if year is None else year if year > 99 else 2000 + year


def _carried(spots: Sequence[Spot], order: Order) -> list[Spot] | None:
    """Every spot with month and day; bare days take the month from the one before them in time.

    A day that no month has gives its month to none; it stays as it is.
    """
    known = [_possible(spot, order) for spot in spots]
    if not any(known):
        return None
    there = [spot for spot in known if spot]
    steps = [(b.of_year - a.of_year) for a, b in itertools.pairwise(there)]
    back = sum(_signed(step) for step in steps) < 0 or (not steps and _bare_fall(spots))
    line = known[::-1] if back else known
    bare = [spot for spot in (spots[::-1] if back else spots)]
    first, near = next((i, spot) for i, spot in enumerate(line) if spot)
    out: list[Spot] = []
    for i in range(first, len(line)):
        wrong = bare[i].known(order)
        if not wrong:
            near = _after(near, bare[i].day)
        near = line[i] or near
        out.append(wrong or near)
    near = out[0]
    for i in range(first - 1, -1, -1):
        wrong = bare[i].known(order)
        near = near if wrong else _before(near, bare[i].day)
        out.insert(0, wrong or near)
    return out[::-1] if back else out


def _possible(spot: Spot, order: Order) -> Spot | None:
    """The spot with month and day where it tells both and that month has the day."""
    known = spot.known(order)
    return known if known and known.possible else None


def _bare_fall(spots: Sequence[Spot]) -> bool:
    days = [spot.day for spot in spots if not spot.pair]
    falls = sum(b < a for a, b in itertools.pairwise(days))
    return falls > len(days) / 2


def _after(spot: Spot, day: int) -> Spot:
    if day >= spot.day:
        return Spot(day, spot.month, spot.year)
    year = spot.year + 1 if spot.year is not None and spot.month == 12 else spot.year
    return Spot(day, spot.month % 12 + 1, year)


def _before(spot: Spot, day: int) -> Spot:
    if day <= spot.day:
        return Spot(day, spot.month, spot.year)
    year = spot.year - 1 if spot.year is not None and spot.month == 1 else spot.year
    return Spot(day, (spot.month - 2) % 12 + 1, year)


def _signed(step: int) -> int:
    """A step over at most half a year, either way."""
    step %= 372
    return step - 372 if step > 186 else step


def _cost(run: Sequence[Spot]) -> tuple[int, int]:
    """How badly days fit an order: those impossible and turns first, then the longest gap."""
    there = [spot for spot in run if spot.possible]
    steps = [_signed(b.of_year - a.of_year) for a, b in itertools.pairwise(there)]
    turns = min(sum(step < 0 for step in steps), sum(step > 0 for step in steps))
    return len(run) - len(there) + turns, max(map(abs, steps), default=0)


def _falls(run: Sequence[Spot]) -> bool:
    """Whether the days pass from one year into another."""
    there = [spot for spot in run if spot.possible]
    steps = [(b.of_year - a.of_year, _signed(b.of_year - a.of_year)) for a, b in itertools.pairwise(there)]
    return any(plain != signed for plain, signed in steps)


def _turns(cells: Sequence[Cell], run: Sequence[Spot]) -> list[Cell]:
    """The cells at which days run the other way than most."""
    there = [(cell, spot) for cell, spot in zip(cells, run, strict=True) if spot.possible]
    steps = [_signed(b.of_year - a.of_year) for (_, a), (_, b) in itertools.pairwise(there)]
    forward = sum(step > 0 for step in steps) >= sum(step < 0 for step in steps)
    return [there[i + 1][0] for i, step in enumerate(steps) if (step < 0 if forward else step > 0)]


def _dated(cell: Cell, spot: Spot, full: Spot, year: int | None, settled: bool) -> Cell:
    """The heading as a date that needs its neighbours no more; where the order is settled, nor the rest of the file."""
    if settled and spot.pair and max(spot.pair) <= 12:
        spot = replace(spot, pair=None, day=full.day, month=full.month)
    if spot.pair or isinstance(cell.value, dt.date):
        if spot.year is not None or year is None or not spot.pair:
            return cell
        text = f"{spot.pair[0]}/{spot.pair[1]}/{year}"
    else:
        said = _full(full.year) or year
        text = f"{full.day} {_NAMES[full.month - 1]}" + (f" {said}" if said else "")
        if text == cell.text:
            return cell
    return Cell(cell.ref, text, text, cell.text)
