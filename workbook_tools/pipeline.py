"""The stages in order, on one screen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from dateutil.relativedelta import relativedelta

from workbook_tools.intake.reading import Intake, read_book
from workbook_tools.intake.workbook import open_book
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.checks import check
from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.changes import next_changes, substrate_changes
from workbook_tools.plan.happenings import happenings
from workbook_tools.plan.rhythm import rhythm_of
from workbook_tools.plan.tasks import due_tasks
from workbook_tools.plan.wording import wording_of
from workbook_tools.problems import CannotRead, CellRef, Problem, in_cell_order, merged
from workbook_tools.report.blank import blank_sheets
from workbook_tools.report.build import report_sheets
from workbook_tools.report.findings import Findings
from workbook_tools.report.own import TITLE, is_own_report
from workbook_tools.report.saving import CannotWrite
from workbook_tools.report.writer import write_workbook

Step = Callable[[str], None]
BLANK_MADE = dt.date(2026, 1, 1)
"""The day written into every blank workbook, so that two of them are the same."""
REGION_OF_ORDER = {"mdy": "en-US", "dmy": "en-GB", "ymd": "en-GB"}


@dataclass(frozen=True)
class Reading:
    """A workbook as it was read: intake, ledger, and every problem in cell order."""

    intake: Intake
    ledger: Ledger
    problems: tuple[Problem, ...]


def _silent(step: str) -> None:
    """Say nothing about a step."""


def read(path: Path, on: dt.date, step: Step = _silent) -> Reading:
    """Read a keeper's workbook as it stood on a day.

    Raises
    ------
    CannotRead
        Nothing could be read, with the one problem that says why.
    """
    step("Opening the workbook")
    if is_own_report(path):
        raise CannotRead(Problem("file.own_report", CellRef(""), {"path": path.name}))
    book, opening = open_book(path)
    step("Reading tables")
    intake, reading = read_book(book, on)
    step("Sorting entries")
    ledger, building = build_ledger(intake.rows, intake.settings, on=on)
    problems = [*opening, *reading, *building, *check(ledger, on)]
    return Reading(intake, ledger, tuple(in_cell_order(merged(problems))))


def find(path: Path, on: dt.date, since: dt.date | None = None, step: Step = _silent) -> Findings:
    """Read a workbook and work out what is due and what has changed (since a month before, unless told)."""
    reading = read(path, on, step)
    ledger = reading.ledger
    since = since or on - relativedelta(months=1)
    wording, unknown_region = wording_of(ledger.settings, REGION_OF_ORDER[reading.intake.order])
    rhythm, idle_settings = rhythm_of(ledger)
    step("Working out what is due")
    tasks, planning = due_tasks(ledger, rhythm, wording, on)
    paper = ledger.settings.find("paper")
    return Findings(
        source=path.name,
        on=on,
        since=since,
        region=wording.region,
        paper="Letter" if paper and str(paper.value).casefold() == "letter" else "A4",
        ledger=ledger,
        tables=reading.intake.tables,
        notes=reading.intake.notes,
        problems=tuple(in_cell_order(merged([*reading.problems, *unknown_region, *idle_settings, *planning]))),
        tasks=tuple(tasks),
        rhythm=rhythm,
        changes=tuple(substrate_changes(ledger)),
        next_changes=tuple(next_changes(ledger, rhythm, wording, on)),
        happenings=tuple(happenings(ledger, since, on, wording)),
    )


def report(path: Path, out: Path, on: dt.date, since: dt.date | None = None, step: Step = _silent) -> Findings:
    """Read a workbook and write its report.

    Raises
    ------
    CannotRead
        Nothing could be read.
    CannotWrite
        The report can't be written there; what stood there before is unchanged.
    """
    if out.exists() and (out.resolve() == path.resolve() or not is_own_report(out)):
        raise CannotWrite(out, "there is a file of that name already that is no report; give another name with -o.")
    findings = find(path, on, since, step)
    step("Writing the report")
    title = f"{TITLE}: {path.name}, {on.isoformat()}"
    write_workbook(report_sheets(findings), out, region=findings.region, paper=findings.paper, created=on, title=title)
    return findings


def report_name(path: Path, on: dt.date) -> Path:
    """Where a report goes when nothing is said: beside the workbook, with its name and the day."""
    return path.resolve().with_name(f"{path.resolve().stem}-report-{on.isoformat()}.xlsx")


def new(path: Path) -> None:
    """Write a blank workbook to keep bins in.

    Raises
    ------
    CannotWrite
        There is a file already, or the folder can't be written to.
    """
    if path.exists():
        raise CannotWrite(path, "there is a file of that name already; give another name.")
    write_workbook(blank_sheets(), path, region="en-GB", paper="A4", created=BLANK_MADE)
