"""What a cell can mean: dates, numbers and amounts with their uncertainty, and the fact that ties one to its cell."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from workbook_tools.intake.cells import Cell

Precision = Literal["day", "month", "year"]


@dataclass(frozen=True, slots=True)
class When:
    """A date that may be known only to the month or the year: it lies in ``first``..``last``, both included.

    ``guessed`` says that something not written was filled in (the year, or the order of day and month).
    """

    first: dt.date
    last: dt.date
    time: dt.time | None = None
    guessed: bool = False

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise ValueError("a date can't end before it begins")

    @classmethod
    def on(cls, day: dt.date, time: dt.time | None = None, *, guessed: bool = False) -> When:
        """Make an exact day."""
        return cls(day, day, time, guessed)

    @property
    def exact(self) -> bool:
        """Whether the day is known."""
        return self.first == self.last

    @property
    def middle(self) -> dt.date:
        """The day in the middle, for sorting and plotting."""
        return self.first + (self.last - self.first) / 2


@dataclass(frozen=True, slots=True)
class Number:
    """A number as a keeper writes it: best value and the range it may lie in.

    ``low`` and ``high`` are equal to ``best`` for a plain number. ``high`` is infinity for a lower bound
    (``30+``). ``parts`` holds the pieces of ``8.3`` written as males.females, ``10+2`` or ``88 then 31``.
    """

    best: float
    low: float
    high: float
    parts: tuple[float, ...] = ()

    @classmethod
    def exactly(cls, value: float) -> Number:
        """Make a plain number."""
        return cls(value, value, value)

    def __add__(self, more: Number) -> Number:
        """The sum, with the sums of the ends of the ranges."""
        return Number(round(self.best + more.best, 9), round(self.low + more.low, 9), round(self.high + more.high, 9))

    @property
    def exact(self) -> bool:
        """Whether it was written as a plain number."""
        return self.low == self.high


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with a unit, already converted to the unit that the field is kept in.

    ``unit`` is one of l, g, ml, cm, dm2, count, share, degC, percent or empty for none. ``as_written`` is the unit
    the keeper wrote, empty when the field's usual unit was taken. ``guessed`` says that a hobby measure or an
    ambiguous unit was given a value that the keeper can set.
    """

    number: Number
    unit: str
    as_written: str = ""
    guessed: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """Words of the keeper matched to our own: the keys, in the order written."""

    keys: tuple[str, ...]


Meaning = When | Number | Amount | Words | bool | str | dt.time


@dataclass(frozen=True, slots=True)
class Fact:
    """One value of one field with the cell it came from. Nothing downstream loses the cell or the text."""

    field: str
    value: Meaning
    cell: Cell
    guessed: bool = False

    @property
    def text(self) -> str:
        """The keeper's own text."""
        return self.cell.written or self.cell.text
