"""What is said of losses, in numbers and dates: plain records for tasks and the sheet."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from workbook_tools.plan.learned.records import Range
from workbook_tools.problems import CellRef

Tier = Literal["alarm", "worth a look"]


@dataclass(frozen=True, slots=True)
class Alarm:
    """More dead found in one bin than is usual there.

    ``day`` is when it was raised, ``found`` and ``expected`` what was found and what is usual in the window that ended
    then, ``chance`` that of so many or more if nothing is wrong. ``after`` is what was found since, and ``last`` the
    last day on which any were. ``well`` is the day of a later look that says all is well, None while there is none.
    """

    bin: str
    tier: Tier
    day: dt.date
    found: float
    expected: float
    chance: float
    after: float
    last: dt.date
    well: dt.date | None
    rests_on: tuple[CellRef, ...]


@dataclass(frozen=True, slots=True)
class BinLosses:
    """Deaths found in one bin: in the window up to today, what is usual in it, and over the year.

    ``a_month`` is for each hundred animals that lived there, by what was found in the year, with exact limits; None
    where the bin was never opened, or has been there for less than a month. ``last`` is the last day on which any were
    found.
    """

    bin: str
    found: float
    expected: float
    year: float
    a_month: Range | None
    last: dt.date | None
    opened: bool = True


@dataclass(frozen=True, slots=True)
class Event:
    """Something done in the house or the room: its day, what was done in the keeper's words, a note, and its row.

    ``heat`` says whether it is of warmth or draught rather than of something in the air.
    """

    day: dt.date
    says: str
    note: str
    heat: bool
    where: CellRef
    bins: tuple[str, ...] = ()
    """The bins it names; none for all of them."""


@dataclass(frozen=True, slots=True)
class Cluster:
    """Bins that share something and lost more than usual together.

    ``shares`` says what: "at Window sill", "given leaf litter of batch 3", "in all bins". ``bins`` are those of it
    that lost more than usual, out of ``of``. ``luck`` is roughly the chance that any of the groups looked at would show
    as much if nothing joined them. ``events`` happened in the days before the first find.
    """

    shares: str
    bins: tuple[str, ...]
    of: int
    first: dt.date
    last: dt.date
    found: float
    expected: float
    luck: float
    events: tuple[Event, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """One thing to look at in the bins that lose animals, and what the entries say of it; nothing if they don't."""

    topic: str
    asks: str
    noted: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sight:
    """Something found in a bin that isn't settled: which of ``fields.FINDINGS``, first and last seen, when due."""

    bin: str
    finding: str
    first: dt.date
    day: dt.date
    due: dt.date
    where: CellRef


@dataclass(frozen=True)
class Losses:
    """All of it. ``by_week`` is the day a week ends, dead found in bins with an alarm, and in the others."""

    on: dt.date
    bins: Mapping[str, BinLosses] = field(default_factory=dict)
    alarms: tuple[Alarm, ...] = ()
    clusters: tuple[Cluster, ...] = ()
    questions: tuple[Question, ...] = ()
    sights: tuple[Sight, ...] = ()
    by_week: tuple[tuple[dt.date, float, float], ...] = ()
    vague: int = 0
    """Entries of deaths whose day isn't known well enough to be used."""
    in_notes: Mapping[str, int] = field(default_factory=dict)
    """By bin: rows of the last year whose notes speak of deaths that aren't counted."""
