"""The five tables of an export, from the findings: headings and rows of plain values."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from workbook_tools.intake.values import Amount, Fact, Meaning, Number, When, Words
from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.records import Task
from workbook_tools.problems import CellRef, Problem
from workbook_tools.report.addresses import cell_runs, run_place
from workbook_tools.report.export.estimates import Value, estimate_rows
from workbook_tools.report.findings import Findings

BETWEEN = "; "
"""Stands between several words or cells in one field."""
_FACT = ("field", "value", "low", "high", "unit", "guessed", "sheet", "cell", "text")
HEADINGS: dict[str, tuple[str, ...]] = {
    "bins": ("bin", *_FACT),
    "entries": ("entry", "act", "first_day", "last_day", "bin", *_FACT),
    "problems": ("kind", "severity", "sheet", "cell", "read", "what", "do"),
    "tasks": ("bin", "task", "due", "days", "last_done", "why", "rests_on"),
    "estimates": ("bin", "quantity", "middle", "low", "high", "unit", "rests_on", "notes"),
}
"""The tables by name, with their headings in order."""
Row = tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class Tidy:
    """One table: its name, and rows with as many values as it has headings."""

    name: str
    rows: tuple[Row, ...]

    @property
    def headings(self) -> tuple[str, ...]:
        """The headings, in order."""
        return HEADINGS[self.name]


def tidy_tables(findings: Findings) -> tuple[Tidy, ...]:
    """Make the five tables, in the order of :data:`HEADINGS`.

    Every fact keeps its cell and its text. A fact of an entry that names several bins stands on one line for each of
    them, as it was written; an entry of no bin has its lines with the bin left empty. Where nothing is known of a bin
    or entry but that it is there, one line says so, its field left empty.
    """
    rows: dict[str, Iterable[Row]] = {
        "bins": _bins(findings.ledger),
        "entries": _entries(findings.ledger),
        "problems": _problems(findings.problems),
        "tasks": _tasks(findings.tasks),
        "estimates": estimate_rows(findings),
    }
    return tuple(Tidy(name, tuple(rows[name])) for name in HEADINGS)


def _bins(ledger: Ledger) -> Iterator[Row]:
    for bin in ledger.bins.values():
        for fact in _facts(bin.facts, bin.where):
            yield (bin.name, *fact)


def _entries(ledger: Ledger) -> Iterator[Row]:
    for number, entry in enumerate(ledger.entries, start=1):
        first, last = (entry.when.first, entry.when.last) if entry.when else (None, None)
        facts = list(_facts(entry.facts, entry.where))
        for bin in entry.bins or (None,):
            for fact in facts:
                yield (number, entry.act, first, last, bin, *fact)


def _facts(facts: Mapping[str, Fact], where: CellRef) -> Iterator[Row]:
    """What stands from field to text: a line a fact, or one line with nothing but the place."""
    for key, fact in facts.items():
        cell = fact.cell.ref
        yield (key, *_meaning(fact), cell.sheet, _place(cell), fact.text)
    if not facts:
        yield (None, None, None, None, None, None, where.sheet, _place(where), None)


def _meaning(fact: Fact) -> Row:
    """Value, low, high, unit, guessed; low and high only where the value isn't certain."""
    amount = fact.value if isinstance(fact.value, Amount) else None
    guessed = fact.guessed or (isinstance(fact.value, Amount | When) and fact.value.guessed)
    return (_value(fact), *_ends(amount.number if amount else fact.value), amount.unit if amount else None, guessed)


def _ends(value: Meaning) -> tuple[Value, Value]:
    if isinstance(value, Number) and not value.exact:
        return _finite(value.low), _finite(value.high)
    if isinstance(value, When) and not value.exact:
        return value.first, value.last
    return None, None


def _value(fact: Fact) -> Value:
    value = fact.value
    if isinstance(value, Amount):
        return _finite(value.number.best)
    if isinstance(value, Number):
        return _finite(value.best)
    if isinstance(value, When):
        return dt.datetime.combine(value.first, value.time) if value.exact and value.time else value.middle
    return BETWEEN.join(value.keys) if isinstance(value, Words) else value


def _finite(number: float) -> float | None:
    return number if math.isfinite(number) else None


def _place(cell: CellRef) -> str:
    return run_place(cell, cell)


def _problems(problems: Iterable[Problem]) -> Iterator[Row]:
    for problem in problems:
        for first, last in cell_runs(problem.cells):
            where = (first.sheet, run_place(first, last))
            yield (problem.code, problem.severity.value, *where, problem.value, problem.says, problem.fix)


def _tasks(tasks: Iterable[Task]) -> Iterator[Row]:
    for one in tasks:
        yield (one.bin, one.task, one.due, one.days, one.last, one.why, _cells(one.rests_on))


def _cells(cells: Iterable[CellRef]) -> str:
    runs = [(first.sheet, run_place(first, last)) for first, last in cell_runs(cells)]
    return BETWEEN.join("!".join(part for part in run if part) for run in runs)
