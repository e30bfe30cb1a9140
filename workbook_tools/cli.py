"""The command: arguments, printing, exit status. No logic; the stages are imported when a command runs."""

from __future__ import annotations

import datetime as dt
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from enum import IntEnum
from pathlib import Path
from typing import Literal

import click

from workbook_tools.problems import CannotRead, Problem, Severity

FIRST_YEAR, LAST_YEAR = 1980, 2199
MOST_FINDS = 1_000_000
MOST_DAYS = 36_525
STEPS_TO_READ, STEPS_TO_REPORT = 3, 6


class ExitStatus(IntEnum):
    """How a command ended."""

    DONE = 0
    ROWS_LEFT_OUT = 1
    WRONG_USE = 2
    NOTHING_READ = 3


class Day(click.ParamType[dt.date]):
    """A date written as ISO 8601: 2026-11-25."""

    name = "YYYY-MM-DD"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> dt.date:
        """Read the text of an option, or fail with a sentence that says what to write."""
        try:
            day = value if isinstance(value, dt.date) else dt.date.fromisoformat(str(value))
        except ValueError:
            self.fail(f"{str(value)!r} is no date. Write it as year-month-day, such as 2026-11-25.", param, ctx)
        if not FIRST_YEAR <= day.year <= LAST_YEAR:
            self.fail(f"{day} is out of range. Give a day from {FIRST_YEAR} to {LAST_YEAR}.", param, ctx)
        return day


class Numbers(click.ParamType[tuple[int, ...]]):
    """Whole numbers from 0, one or several: 41 or "2 1 0 0"."""

    name = "NUMBERS"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> tuple[int, ...]:
        """Read the text of an option, or fail with a sentence that names what is wrong and says what to write."""
        if isinstance(value, tuple):
            return value
        parts = str(value).replace(",", " ").replace(";", " ").split()
        wrong = [part for part in parts if not (part.isascii() and part.isdecimal() and int(part) <= MOST_FINDS)]
        if wrong or not parts:
            named = " and ".join(repr(part) for part in wrong) or "''"
            self.fail(f"{named} can't be used. Write whole numbers from 0 to {MOST_FINDS:,}, such as 9.", param, ctx)
        return tuple(int(part) for part in parts)


class Days(click.ParamType[float]):
    """A number of days from 0."""

    name = "DAYS"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> float:
        """Read the text of an option, or fail with a sentence that says what to write."""
        try:
            days = float(str(value))
        except ValueError:
            days = -1.0
        if not 0 <= days <= MOST_DAYS:  # what is not a number is in no range
            self.fail(f"{str(value)!r} can't be used. Write days from 0 to {MOST_DAYS:,}, such as 12.", param, ctx)
        return days


def _today() -> dt.date:
    """The day on this machine's clock: the only place that reads it."""
    return dt.date.today()  # noqa: DTZ011 - a keeper's day is that of their own clock


FILE = click.argument("file", type=click.Path(path_type=Path))
ON = click.option("--on", type=Day(), default=_today, show_default="today", help="The day the answers are for.")


READING = click.option(
    "--reading",
    type=click.Path(path_type=Path),
    help="The reading workbook with your corrections. [default: the one beside FILE, if there is one]",
)


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="frassbook")
def cli() -> None:
    """Read your own workbook of isopod bins and logs, and write a report of what is due and what has changed."""


@cli.command()
@FILE
@click.option("-o", "--out", type=click.Path(path_type=Path), help="Where the report goes. [default: beside FILE]")
@ON
@click.option("--since", type=Day(), help="Show what has changed since this day. [default: a month before --on]")
@READING
def report(file: Path, out: Path | None, on: dt.date, since: dt.date | None, reading: Path | None) -> None:
    """Write the report workbook for FILE (.xlsx, .xlsm, .ods, .xls or a folder of .csv)."""
    if since and since > on:
        raise click.UsageError(f"--since {since} is after --on {on}. Give an earlier day.")
    from workbook_tools import pipeline
    from workbook_tools.report import screen

    with _steps(STEPS_TO_REPORT) as step, _said_plainly():
        out = out or pipeline.report_name(file, on)
        findings = pipeline.report(file, out, on, since, step, reading)
    _say(screen.in_one_line(findings, out))
    for line in findings.lost:
        _say(line, err=True)
    for line in screen.left_out_lines(findings.problems):
        _say(line, err=True)
    _end(findings.problems)


@cli.command()
@FILE
@click.option("-o", "--out", type=click.Path(path_type=Path), help="The folder of the export. [default: beside FILE]")
@ON
@READING
@click.option(
    "--format", "form", type=click.Choice(("csv", "json")), default="csv", show_default=True, help="What kind of files."
)
def export(file: Path, out: Path | None, on: dt.date, reading: Path | None, form: Literal["csv", "json"]) -> None:
    """Write what was read of FILE and worked out from it to a folder: bins, entries, problems, tasks, estimates."""
    from workbook_tools import pipeline
    from workbook_tools.report import screen

    with _steps(STEPS_TO_REPORT) as step, _said_plainly():
        out = out or pipeline.export_name(file, on)
        findings, tables = pipeline.export(file, out, on, form, step, reading)
    for line in screen.left_out_lines(findings.problems, f"in problems.{form}"):
        _say(line, err=True)
    _say(screen.exported_line(findings, tables, out, form))
    _end(findings.problems)


@cli.command()
@FILE
@ON
@READING
def check(file: Path, on: dt.date, reading: Path | None) -> None:
    """Say how FILE was read: every sheet, heading and word understood, guessed or not, and every problem.

    What FILE was taken for is written to a reading workbook beside it (or to that of --reading) too. Correct there what
    is wrong: every command that reads FILE follows it, and it stays right when FILE grows.
    """
    from workbook_tools import pipeline
    from workbook_tools.report import screen

    with _steps(STEPS_TO_READ) as step, _said_plainly():
        written: list[str] = []
        try:
            read = pipeline.check_reading(file, on, written.append, step, reading)
        except CannotRead:
            for line in written:
                _say(line)
            raise
    for line in screen.reading_lines(read.intake.tables, read.intake.notes, read.ledger, read.problems):
        _say(line)
    for line in written:
        _say(line)
    _end(read.problems)


@cli.command()
@FILE
@click.option("-o", "--out", type=click.Path(path_type=Path), help="Where the workbook goes. [default: beside FILE]")
@ON
@READING
def backtest(file: Path, out: Path | None, on: dt.date, reading: Path | None) -> None:
    """Say how good the estimates of past months would have been on FILE's own log, against simple rules."""
    from workbook_tools import pipeline
    from workbook_tools.report.sheets import backtest as sheet

    with _share_done() as progress, _said_plainly():
        out = out or pipeline.backtest_name(file, on)
        found = pipeline.backtest(file, out, on, progress, reading)
    for line in sheet.short_table(found):
        _say(line)
    _say(f"Every comparison: {out}")


@cli.command(context_settings={"ignore_unknown_options": True})
@click.argument("finds", nargs=-1, required=True, metavar="FINDS...")
@click.option("--trap", type=Numbers(), default=(), help='Caught in each later check of a trap, such as "2 1 0 0".')
@click.option("--trap-days", type=Days(), help="Days from the last find to the last check of the trap.")
@click.option("--minutes", type=Numbers(), default=(), help='Minutes of each pass, such as "30 25 20 20".')
def sift(finds: tuple[str, ...], trap: tuple[int, ...], trap_days: float | None, minutes: tuple[int, ...]) -> None:
    """Say how many animals old substrate probably still holds after passes by hand that found FINDS.

    Each number of FINDS is what one pass through all of it found, in order: frassbook sift 41 22 9 4
    """
    passes = Numbers().convert(" ".join(finds), None, click.get_current_context())
    if minutes and (len(minutes) != len(passes) or not all(minutes)):
        raise click.UsageError(f"--minutes needs a number above 0 for each of the {len(passes)} passes.")
    if trap_days is not None and not trap:
        raise click.UsageError("--trap-days needs --trap, with what each check of the trap caught.")
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # starting more costs longer than a few passes take to reckon
    from workbook_tools.estimate.sifting import sift_left
    from workbook_tools.plan.sift_advice import advise

    _say(advise(sift_left(passes, trap), minutes, trap_days).paragraph)


@cli.command()
@FILE
def new(file: Path) -> None:
    """Write a blank workbook to keep bins in, with sheets Bins, Log and Settings."""
    from workbook_tools import pipeline

    with _said_plainly():
        pipeline.new(file)
    _say(f"Blank workbook: {file}. Fill in Bins and Log, then run: frassbook report {file}")


@contextmanager
def _steps(number: int) -> Iterator[Callable[[str], None]]:
    """A progress bar of so many steps on a terminal; nothing otherwise."""
    if not sys.stderr.isatty():
        yield lambda step: None
        return
    with click.progressbar(length=number, file=sys.stderr, item_show_func=lambda step: step) as bar:
        begun: list[str] = []

        def begin(step: str) -> None:
            bar.update(bool(begun), step)
            begun.append(step)

        yield begin
        bar.update(1)


@contextmanager
def _share_done() -> Iterator[Callable[[str, float], None]]:
    """A progress bar on a terminal for work that tells how much of it is done; nothing otherwise."""
    if not sys.stderr.isatty():
        yield lambda step, share: None
        return
    with click.progressbar(length=100, file=sys.stderr, item_show_func=lambda step: step) as bar:
        yield lambda step, share: bar.update(max(round(100 * share) - bar.pos, 0), step)


@contextmanager
def _said_plainly() -> Iterator[None]:
    """Turn 'can't read' and 'can't write' into one line and an exit status."""
    try:
        yield
    except CannotRead as error:
        _say(f"frassbook: {error}", err=True)
        sys.exit(ExitStatus.NOTHING_READ)
    except _cannot_write() as error:
        _say(f"frassbook: {error}", err=True)
        sys.exit(ExitStatus.WRONG_USE)


def _cannot_write() -> type[Exception]:
    from workbook_tools.report.saving import CannotWrite

    return CannotWrite


def _say(text: str, err: bool = False) -> None:
    """Print a line; signs of a file's name that can't be written out are replaced."""
    click.echo(text.encode("utf-8", "replace").decode("utf-8"), err=err)


def _end(problems: tuple[Problem, ...]) -> None:
    """End with the status that says whether rows were left out."""
    if any(problem.severity is Severity.DROPS_ROW for problem in problems):
        sys.exit(ExitStatus.ROWS_LEFT_OUT)


def main() -> None:
    """Run the command."""
    cli(prog_name="frassbook")
