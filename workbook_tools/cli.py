"""The command: arguments, printing, exit status. No logic; the stages are imported when a command runs."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from enum import IntEnum
from pathlib import Path

import click

from workbook_tools.problems import CannotRead, Problem, Severity

SHOWN = 20
"""How many left-out rows are named on screen; the report names all."""


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
        if isinstance(value, dt.date):
            return value
        try:
            return dt.date.fromisoformat(str(value))
        except ValueError:
            self.fail(f"{str(value)!r} is no date. Write it as year-month-day, such as 2026-11-25.", param, ctx)


def _today() -> dt.date:
    """The day on this machine's clock: the only place that reads it."""
    return dt.date.today()  # noqa: DTZ011 - a keeper's day is that of their own clock


FILE = click.argument("file", type=click.Path(path_type=Path))
ON = click.option("--on", type=Day(), default=_today, show_default="today", help="The day the answers are for.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="frassbook")
def cli() -> None:
    """Read your own workbook of isopod bins and logs, and write a report of what is due and what has changed."""


@cli.command()
@FILE
@click.option("-o", "--out", type=click.Path(path_type=Path), help="Where the report goes. [default: beside FILE]")
@ON
@click.option("--since", type=Day(), help="Show what has changed since this day. [default: a month before --on]")
def report(file: Path, out: Path | None, on: dt.date, since: dt.date | None) -> None:
    """Write the report workbook for FILE (.xlsx, .xlsm, .ods, .xls or a folder of .csv)."""
    if since and since > on:
        raise click.UsageError(f"--since {since} is after --on {on}. Give an earlier day.")
    from workbook_tools import pipeline
    from workbook_tools.report import screen

    with _steps() as step, _said_plainly():
        out = out or pipeline.report_name(file, on)
        findings = pipeline.report(file, out, on, since, step)
    click.echo(screen.in_one_line(findings, out))
    _end(findings.problems)


@cli.command()
@FILE
@ON
def check(file: Path, on: dt.date) -> None:
    """Say how FILE was read: every sheet, heading and word understood, guessed or not, and every problem."""
    from workbook_tools import pipeline
    from workbook_tools.report import screen

    with _steps() as step, _said_plainly():
        reading = pipeline.read(file, on, step)
    for line in screen.reading_lines(reading.intake.tables, reading.intake.notes, reading.ledger, reading.problems):
        click.echo(line)
    if any(problem.severity is Severity.DROPS_ROW for problem in reading.problems):
        sys.exit(ExitStatus.ROWS_LEFT_OUT)


@cli.command()
@FILE
def new(file: Path) -> None:
    """Write a blank workbook to keep bins in, with sheets Bins, Log and Settings."""
    from workbook_tools import pipeline

    with _said_plainly():
        pipeline.new(file)
    click.echo(f"Blank workbook: {file}. Fill in Bins and Log, then run: frassbook report {file}")


@contextmanager
def _steps() -> Iterator[Callable[[str], None]]:
    """A progress bar on a terminal; nothing otherwise."""
    if not sys.stderr.isatty():
        yield lambda step: None
        return
    with click.progressbar(length=5, file=sys.stderr, item_show_func=lambda step: step) as bar:
        yield lambda step: bar.update(1, step)


@contextmanager
def _said_plainly() -> Iterator[None]:
    """Turn 'can't read' and 'can't write' into one line and an exit status."""
    try:
        yield
    except CannotRead as error:
        click.echo(f"frassbook: {error}", err=True)
        sys.exit(ExitStatus.NOTHING_READ)
    except _cannot_write() as error:
        click.echo(f"frassbook: {error}", err=True)
        sys.exit(ExitStatus.WRONG_USE)


def _cannot_write() -> type[Exception]:
    from workbook_tools.report.saving import CannotWrite

    return CannotWrite


def _end(problems: tuple[Problem, ...]) -> None:
    """Name the rows that were left out, if any, and end with the status that says so."""
    left_out = [problem for problem in problems if problem.severity is Severity.DROPS_ROW]
    for problem in left_out[:SHOWN]:
        more = f" (and {len(problem.also)} more cells)" if problem.also else ""
        click.echo(f"left out: {problem}{more}", err=True)
    if len(left_out) > SHOWN:
        click.echo(f"and {len(left_out) - SHOWN} more, on the sheet 'How it was read'", err=True)
    if left_out:
        sys.exit(ExitStatus.ROWS_LEFT_OUT)


def main() -> None:
    """Run the command."""
    cli(prog_name="frassbook")
