"""All that a report is made from, gathered in one record."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from workbook_tools.intake.tables import Table
from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.history import History
from workbook_tools.plan.learned.records import Estimates
from workbook_tools.plan.losses.records import Losses
from workbook_tools.plan.records import Happening, NextChange, SubstrateChange, Task
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.sifting import Batch
from workbook_tools.problems import Problem


@dataclass(frozen=True)
class Findings:
    """What the stages found, for one workbook and one day.

    ``source`` is the file's name without its folder. ``region`` is a language and country such as en-GB. ``paper`` is
    A4 or Letter. ``notes`` are sentences on how the file was read (day-month order, quart, decimal sign).
    """

    source: str
    on: dt.date
    since: dt.date
    region: str
    paper: str
    ledger: Ledger
    past: History
    tables: tuple[Table, ...]
    notes: tuple[str, ...]
    problems: tuple[Problem, ...]
    tasks: tuple[Task, ...]
    rhythm: Rhythm
    changes: tuple[SubstrateChange, ...]
    next_changes: tuple[NextChange, ...]
    happenings: tuple[Happening, ...]
    estimates: Estimates
    batches: tuple[Batch, ...] = ()
    losses: Losses | None = None
    """None where losses weren't looked for."""
    moss_days: Mapping[str, dt.date] = field(default_factory=dict)
    """The day of the next look at each moss corner, as on Due but without an end."""
    lost: tuple[str, ...] = ()
    """What the report itself couldn't hold, a sentence each."""
