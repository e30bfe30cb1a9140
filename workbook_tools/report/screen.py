"""What the command says on screen: one line on the report, and the lines of a check."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

from workbook_tools.intake.corrections import YOURS
from workbook_tools.intake.headings import SCORE_SURE
from workbook_tools.intake.tables import Table
from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import Problem, Severity
from workbook_tools.report.export.tables import Tidy
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import due
from workbook_tools.report.sheets.reading import ROLES

CELLS_NAMED = 12
ROWS_NAMED = 20


def in_one_line(findings: Findings, out: Path) -> str:
    """Where the report is, what is most urgent, and how much of the workbook was used."""
    urgent = due.answer(findings, Wording(findings.region))
    return f"Report: {out}. {urgent} {_rows_used(findings.ledger)}, {_count(len(findings.problems), 'problem')}."


def exported_line(findings: Findings, tables: Sequence[Tidy], out: Path, form: str) -> str:
    """Where the export is, how long each of its tables, and how much of the workbook was used."""
    files = ", ".join(f"{table.name}.{form} ({_count(len(table.rows), 'line')})" for table in tables)
    used = f"{_rows_used(findings.ledger)}, {_count(len(findings.problems), 'problem')}"
    return f"Export: {out}, with {files}. {used}."


def _count(number: int, one: str, many: str = "") -> str:
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def _rows_used(ledger: Ledger) -> str:
    noted = f", {ledger.rows_noted:,} kept as {'a note' if ledger.rows_noted == 1 else 'notes'}"
    return f"{ledger.rows_used:,} of {_count(ledger.rows_read, 'row')} used{noted if ledger.rows_noted else ''}"


def reading_lines(
    tables: Sequence[Table], notes: Sequence[str], ledger: Ledger, problems: Sequence[Problem]
) -> Iterator[str]:
    """Say how a workbook was read: tables with their headings, notes, problems with their cells, and the sum."""
    for table in tables:
        hidden = ", hidden sheet" if table.hidden else ""
        yield f"{table.sheet}!{table.area}: {ROLES[table.role]}, {_count(len(table.rows), 'row')}{hidden}"
        if table.shape:
            yield f"  {table.why}"
        for head in table.headings.values():
            taken = f"{head.field.label}" if head.field else "not used"
            sure = f" ({head.score:.0%} sure)" if head.field and head.score < SCORE_SURE else ""
            sure = f" ({YOURS})" if head.said else sure
            yield f"  {head.cell.ref}  {head.text} -> {taken}{sure}"
    yield from notes
    for problem in problems:
        yield f"{problem.severity.value}: {cells_text(problem)}: {problem.says} {problem.fix}"
    counts = Counter(problem.severity for problem in problems)
    parts = [f"{counts[severity]} with '{severity.value}'" for severity in Severity if counts[severity]]
    yield (
        f"{_rows_used(ledger)}; {_count(len(ledger.bins), 'bin')}, {_count(len(ledger.entries), 'entry', 'entries')}; "
        f"{_count(len(problems), 'problem')}" + (f" ({', '.join(parts)})" if parts else "")
    )


def reading_book_line(path: Path, problem: str = "") -> str:
    """Where the reading workbook is, or why it isn't there."""
    if problem:
        return f"No reading workbook was written: {problem}"
    return f"Reading workbook: {path}. What was taken wrongly can be corrected there; report and check follow it."


def cells_text(problem: Problem) -> str:
    """The cells of a problem as text: the first ones, and how many more."""
    cells = problem.cells
    shown = ", ".join(str(ref) for ref in cells[:CELLS_NAMED])
    return shown + (f" and {len(cells) - CELLS_NAMED} more" if len(cells) > CELLS_NAMED else "")


def left_out_lines(problems: Sequence[Problem], rest: str = "on the sheet 'How it was read'") -> Iterator[str]:
    """Name the rows that were left out, the first twenty of them; ``rest`` is where the others are named."""
    left_out = [problem for problem in problems if problem.severity is Severity.DROPS_ROW]
    for problem in left_out[:ROWS_NAMED]:
        yield f"left out: {cells_text(problem)}: {problem.says} {problem.fix}"
    if len(left_out) > ROWS_NAMED:
        yield f"and {len(left_out) - ROWS_NAMED} more, {rest}"
