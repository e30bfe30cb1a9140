"""What the command says on screen: one line on the report, and the lines of a check."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

from workbook_tools.intake.roles import area_text
from workbook_tools.intake.tables import Table
from workbook_tools.ledger.records import Ledger
from workbook_tools.problems import Problem, Severity
from workbook_tools.report.findings import Findings

TAKEN_AS = {"bins": "list of bins", "log": "log", "settings": "settings", "words": "words", "unused": "not used"}
CELLS_NAMED = 12


def in_one_line(findings: Findings, out: Path) -> str:
    """Where the report is and what is most urgent; dates in ISO 8601."""
    late = [task for task in findings.tasks if task.days > 0]
    today = [task for task in findings.tasks if task.days == 0]
    if late or today:
        first = (late or today)[0]
        urgent = f"{len(late)} overdue, {len(today)} due today; most urgent: {first.bin}, {first.label.lower()}"
        urgent += f" (due {first.due.isoformat()})"
    else:
        urgent = "nothing is due today"
    used = f"{findings.ledger.rows_used:,} of {findings.ledger.rows_read:,} rows used"
    return f"Report: {out}. {urgent}. {used}, {_problems(findings.problems)}."


def _problems(problems: Sequence[Problem]) -> str:
    return "1 problem" if len(problems) == 1 else f"{len(problems)} problems"


def reading_lines(
    tables: Sequence[Table], notes: Sequence[str], ledger: Ledger, problems: Sequence[Problem]
) -> Iterator[str]:
    """Say how a workbook was read: tables with their headings, notes, problems with their cells, and the sum."""
    for table in tables:
        hidden = ", hidden sheet" if table.hidden else ""
        yield f"{table.sheet}!{area_text(table.area)}: {TAKEN_AS[table.role]}, {len(table.rows)} rows{hidden}"
        for head in table.headings.values():
            taken = f"{head.field.label}" if head.field else "not used"
            sure = f" ({head.score:.0%} sure)" if head.field and head.score < 0.95 else ""
            yield f"  {head.cell.ref}  {head.text} -> {taken}{sure}"
    yield from notes
    for problem in problems:
        yield f"{problem.severity.value}: {cells_text(problem)}: {problem.says} {problem.fix}"
    counts = Counter(problem.severity for problem in problems)
    parts = [f"{counts[severity]} with '{severity.value}'" for severity in Severity if counts[severity]]
    yield (
        f"{ledger.rows_used:,} of {ledger.rows_read:,} rows used; {len(ledger.bins)} bins, "
        f"{len(ledger.entries):,} entries; {_problems(problems)}" + (f" ({', '.join(parts)})" if parts else "")
    )


def cells_text(problem: Problem) -> str:
    """The cells of a problem as text: the first ones, and how many more."""
    cells = problem.cells
    shown = ", ".join(str(ref) for ref in cells[:CELLS_NAMED])
    return shown + (f" and {len(cells) - CELLS_NAMED} more" if len(cells) > CELLS_NAMED else "")
