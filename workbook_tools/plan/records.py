"""Tasks and changes: what the plan says, ready for the report."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from workbook_tools.problems import CellRef


@dataclass(frozen=True, slots=True)
class Task:
    """One due job for one bin.

    ``days`` is ``on`` minus ``due``: above 0 is overdue, 0 is today, below 0 is to come. ``why`` is a sentence in
    words; dates in it are written as ``Wording`` does. ``rests_on`` are the rows of the keeper's workbook from which
    it counts.
    """

    bin: str
    species: str
    place: str
    task: str
    label: str
    due: dt.date
    days: int
    why: str
    last: dt.date | None
    rests_on: tuple[CellRef, ...] = ()


@dataclass(frozen=True, slots=True)
class SubstrateChange:
    """One change of substrate of one bin. ``share`` is 0..1, None when not written."""

    bin: str
    when_first: dt.date | None
    when_last: dt.date | None
    way: str
    share: float | None
    old_went: str
    where: CellRef


@dataclass(frozen=True, slots=True)
class NextChange:
    """When the substrate of a bin is expected to need a change, and what that rests on; ``due`` None: not known."""

    bin: str
    due: dt.date | None
    why: str
    last: dt.date | None = None
    """The last change before it, None if none is known."""
    rests_on: tuple[CellRef, ...] = ()


@dataclass(frozen=True, slots=True)
class Happening:
    """One thing that changed in a bin since a date: new, gone, moved, split, animals in or out, status, substrate."""

    bin: str
    day: dt.date | None
    what: str
    detail: str
    where: CellRef
