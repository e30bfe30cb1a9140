"""The stages in order, on one screen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from dateutil.relativedelta import relativedelta

from workbook_tools.intake.reading import Intake, NoTables, read_book
from workbook_tools.intake.reading_book import corrections_of, is_reading_book, reading_name
from workbook_tools.intake.workbook import open_book
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.checks import check
from workbook_tools.ledger.known import as_known
from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.backtest.records import Backtest
from workbook_tools.plan.backtest.run import look_back, past_days
from workbook_tools.plan.changes import next_changes, substrate_changes
from workbook_tools.plan.estimates import estimate_all
from workbook_tools.plan.happenings import happenings
from workbook_tools.plan.history import History
from workbook_tools.plan.losses.find import losses_of
from workbook_tools.plan.quarantine import not_apart
from workbook_tools.plan.rhythm import rhythm_of
from workbook_tools.plan.sifting import batches
from workbook_tools.plan.tasks import due_tasks, moss_days
from workbook_tools.plan.wording import wording_of
from workbook_tools.problems import CannotRead, CellRef, Problem, in_cell_order, merged
from workbook_tools.report.blank import blank_sheets
from workbook_tools.report.build import report_sheets
from workbook_tools.report.export.files import Format, exported_in, may_export, write_export
from workbook_tools.report.export.tables import Tidy, tidy_tables
from workbook_tools.report.findings import Findings
from workbook_tools.report.own import TITLE, filled_boxes, is_own_report
from workbook_tools.report.reading_file import write_reading_book
from workbook_tools.report.saving import CannotWrite, save
from workbook_tools.report.sheets import backtest as backtest_sheet
from workbook_tools.report.writer import Written, draw, write_workbook

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


def read(path: Path, on: dt.date, step: Step = _silent, corrected: Path | None = None) -> Reading:
    """Read a keeper's workbook as it stood on a day, with the corrections of its reading workbook.

    That is ``corrected``, else the one beside the workbook, if there is one.

    Raises
    ------
    CannotRead
        Nothing could be read, with the one problem that says why.
    """
    step("Opening the workbook")
    if is_own_report(path):
        raise CannotRead(Problem("file.own_report", CellRef(""), {"path": shown_name(path)}))
    if exported := exported_in(path):
        raise CannotRead(Problem("file.own_export", CellRef(""), {"name": shown_name(Path(exported))}))
    book, opening = open_book(path)
    if is_reading_book(book):
        raise CannotRead(Problem("file.own_reading", CellRef(""), {"path": shown_name(path)}))
    corrections, correcting = corrections_of(path, corrected)
    step("Reading tables")
    intake, reading = read_book(book, on, corrections)
    step("Sorting entries")
    ledger, building = build_ledger(intake.rows, intake.settings, on=on)
    problems = [*opening, *correcting, *reading, *building, *check(ledger, on)]
    return Reading(intake, ledger, tuple(in_cell_order(merged(problems))))


def check_reading(path: Path, on: dt.date, say: Step, step: Step = _silent, corrected: Path | None = None) -> Reading:
    """Read a workbook, and write what it was taken for to its reading workbook; ``say`` is told where that is.

    Raises
    ------
    CannotRead
        Nothing could be read; what was seen is in the reading workbook nevertheless, so that it can be corrected.
    """
    out = corrected or reading_name(path)
    try:
        reading = read(path, on, step, corrected if corrected and corrected.exists() else None)
    except NoTables as nothing:
        if nothing.intake.tables or nothing.intake.perhaps:
            say(write_reading_book(nothing.intake, out, shown_name(path), on))
        raise
    say(write_reading_book(reading.intake, out, shown_name(path), on, _paper(reading.ledger)))
    return reading


def find(
    path: Path,
    on: dt.date,
    since: dt.date | None = None,
    step: Step = _silent,
    corrected: Path | None = None,
) -> Findings:
    """Read a workbook and work out what is due and what has changed (since a month before, unless told)."""
    reading = read(path, on, step, corrected)
    ledger = as_known(reading.ledger, on)
    since = since or on - relativedelta(months=1)
    wording, unknown_region = wording_of(ledger.settings, REGION_OF_ORDER[reading.intake.order])
    rhythm, idle_settings = rhythm_of(reading.ledger, on)
    step("Learning from the log")
    estimates = estimate_all(ledger, on)
    step("Working out what is due")
    past = History.of(ledger, on)
    changes = substrate_changes(ledger)
    expected = next_changes(past, changes, rhythm, wording, estimates)
    old = batches(past, rhythm)
    losses = losses_of(ledger, on, estimates.numbers, wording)
    tasks, planning = due_tasks(past, expected, rhythm, wording, estimates=estimates, batches=old, losses=losses)
    planning += not_apart(past, rhythm)
    return Findings(
        source=shown_name(path),
        on=on,
        since=since,
        region=wording.region,
        paper=_paper(ledger),
        ledger=ledger,
        past=past,
        tables=reading.intake.tables,
        notes=reading.intake.notes,
        problems=tuple(
            in_cell_order(merged([*reading.problems, *unknown_region, *idle_settings, *planning, *estimates.problems]))
        ),
        tasks=tuple(tasks),
        rhythm=rhythm,
        changes=changes,
        next_changes=expected,
        happenings=happenings(ledger, changes, since, on, wording),
        estimates=estimates,
        batches=old,
        losses=losses,
        moss_days=moss_days(past, rhythm, wording, estimates),
    )


def report(
    path: Path,
    out: Path,
    on: dt.date,
    since: dt.date | None = None,
    step: Step = _silent,
    corrected: Path | None = None,
) -> Findings:
    """Read a workbook and write its report.

    Raises
    ------
    CannotRead
        Nothing could be read.
    CannotWrite
        The report can't be written there; what stood there before is unchanged.
    """
    _may_write(out, path)
    findings = find(path, on, since, step, corrected)
    step("Writing the report")
    title = f"{TITLE}: {findings.source}, {on.isoformat()}"
    content, written = _drawn(findings, title)
    if written.says:
        findings = replace(findings, lost=written.says)
        content, _ = _drawn(findings, title)
    save(content, out)
    return findings


def _drawn(findings: Findings, title: str) -> tuple[bytes, Written]:
    return draw(report_sheets(findings), region=findings.region, paper=findings.paper, created=findings.on, title=title)


def export(
    path: Path, out: Path, on: dt.date, form: Format = "csv", step: Step = _silent, corrected: Path | None = None
) -> tuple[Findings, tuple[Tidy, ...]]:
    """Read a workbook and write what was read and worked out to a folder, as plain tables.

    Raises
    ------
    CannotRead
        Nothing could be read.
    CannotWrite
        The folder is the keeper's own, or can't be written to; what stood there before is unchanged.
    """
    may_export(out, path)
    findings = find(path, on, step=step, corrected=corrected)
    step("Writing the export")
    tables = tidy_tables(findings)
    write_export(tables, out, form)
    return findings, tables


def export_name(path: Path, on: dt.date) -> Path:
    """The folder of an export when nothing is said: beside the workbook, with its name and the day."""
    return path.resolve().with_name(f"{path.resolve().stem}-export-{on.isoformat()}")


def backtest(
    path: Path,
    out: Path,
    on: dt.date,
    progress: Callable[[str, float], None] = lambda step, share: None,
    corrected: Path | None = None,
) -> Backtest:
    """Read a workbook, look back at what would have been estimated in past months, and write that to a workbook.

    ``progress`` is told each step and which share of the work is done.

    Raises
    ------
    CannotRead
        Nothing could be read.
    CannotWrite
        The workbook can't be written there; what stood there before is unchanged.
    """
    _may_write(out, path)
    reading = read(path, on, lambda step: progress(step, 0.0), corrected)
    days = past_days(reading.ledger, on)
    begun = {day: place / len(days) for place, day in enumerate(days)}
    found = look_back(reading.ledger, on, lambda day: progress(f"Looking back to {day.isoformat()}", begun[day]))
    wording, _ = wording_of(reading.ledger.settings, REGION_OF_ORDER[reading.intake.order])
    progress("Writing the workbook", 1.0)
    title = f"{TITLE}: backtest of {shown_name(path)}, {on.isoformat()}"
    specs = backtest_sheet.sheets(found, shown_name(path), wording)
    write_workbook(specs, out, region=wording.region, paper=_paper(reading.ledger), created=on, title=title)
    return found


def backtest_name(path: Path, on: dt.date) -> Path:
    """Where a look back goes when nothing is said: beside the workbook, with its name and the day."""
    return path.resolve().with_name(f"{path.resolve().stem}-backtest-{on.isoformat()}.xlsx")


def _may_write(out: Path, path: Path) -> None:
    """Refuse to write over anything but an older report without notes in it.

    Raises
    ------
    CannotWrite
        The name isn't that of a workbook, or something stands there that would be lost.
    """
    if out.suffix.lower() != ".xlsx":
        raise CannotWrite(out, "the name must end in .xlsx.")
    if not out.exists() or out.is_dir():
        return
    if out.resolve() == path.resolve() or not is_own_report(out):
        raise CannotWrite(out, "there is a file of that name already that is no report; give another name with -o.")
    if filled := filled_boxes(out):
        boxes = "one box" if filled == 1 else f"{filled} boxes"
        raise CannotWrite(out, f"you have filled in {boxes} on its Due sheet; give another name with -o.")


def _paper(ledger: Ledger) -> str:
    """A4, or what the keeper's settings say."""
    said = ledger.settings.find("paper")
    return str(said.value) if said else "A4"


def shown_name(path: Path) -> str:
    """The name of a file without its folder, with signs that can't be written out replaced."""
    return path.name.encode("utf-8", "replace").decode("utf-8")


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
    if path.suffix.lower() != ".xlsx":
        raise CannotWrite(path, "the name must end in .xlsx.")
    if path.exists():
        raise CannotWrite(path, "there is a file of that name already; give another name.")
    write_workbook(blank_sheets(), path, region="en-GB", paper="A4", created=BLANK_MADE)
