"""A due job before it is moved to a round day and put in order."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from workbook_tools.problems import CellRef


@dataclass(frozen=True, slots=True)
class Due:
    """One job of one bin.

    ``counts_from`` is the day it counts from, and no round on or before that day will do; ``last`` is the day it was
    last done, None if it never was. ``moves`` says whether it may be moved to a round day.
    """

    bin: str
    task: str
    label: str
    due: dt.date
    why: str
    counts_from: dt.date | None = None
    rests_on: tuple[CellRef, ...] = ()
    last: dt.date | None = None
    moves: bool = True
