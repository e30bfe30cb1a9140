"""Sheet How it was read: every table, heading and problem of the keeper's workbook, with its cells."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from workbook_tools.fields import ACTS
from workbook_tools.intake.corrections import YOURS
from workbook_tools.intake.tables import Heading, Role, Table
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef, Problem, Severity, in_cell_order
from workbook_tools.report.addresses import cell_spans, first_and_more, in_pieces, number_spans
from workbook_tools.report.columns import Column, SheetSpec, TableSpec
from workbook_tools.report.findings import Findings

NAME = "How it was read"
ROLES: dict[Role, str] = {
    "bins": "list of bins",
    "log": "log",
    "settings": "settings",
    "unused": "not used",
}
_GRAVEST_FIRST = (Severity.STOPS, Severity.DROPS_ROW, Severity.DROPS_CELL, Severity.KEPT)


@dataclass(frozen=True, slots=True)
class ProblemLine:
    """One line of Problems; a problem with very many cells goes on over several lines, so that none is lost."""

    problem: Problem
    cell: str
    all_cells: str
    goes_on: bool = False
    """Whether it only goes on with the cells of the line above."""


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from tables, problems and notes on the reading."""
    wording = Wording(findings.region)
    headings = [(table, heading) for table in findings.tables for _, heading in sorted(table.headings.items())]
    tables = (
        TableSpec(
            "Problems",
            PROBLEM_COLUMNS,
            list(problem_lines(findings)),
            title="Problems",
            when_empty="No problem was found.",
            tone=lambda line: _TONE.get(line.problem.severity, ""),
            toned=("Effect",),
        ),
        TableSpec(
            "TablesRead",
            TABLE_COLUMNS,
            findings.tables,
            title="Tables found in your workbook",
            when_empty="No table was found.",
        ),
        TableSpec(
            "HeadingsRead",
            HEADING_COLUMNS,
            headings,
            title="Headings",
            when_empty="No heading was found.",
        ),
    )
    notes = (*findings.notes, *findings.lost)
    after = ("How values were read:", *(f"- {note}" for note in notes)) if notes else ()
    return SheetSpec(NAME, answer(findings, wording), tables, after=after)


def answer(findings: Findings, wording: Wording) -> str:
    """Say how many rows were used and how many problems need the keeper."""
    ledger = findings.ledger
    needs = sum(problem.severity is not Severity.KEPT for problem in findings.problems)
    kept = len(findings.problems) - needs
    used = f"{wording.number(ledger.rows_used)} of {wording.count(ledger.rows_read, 'row')} used"
    if ledger.rows_noted:
        used += f", {wording.number(ledger.rows_noted)} kept as {'a note' if ledger.rows_noted == 1 else 'notes'}"
    if needs:
        said = f"{wording.count(needs, 'problem')} {'needs' if needs == 1 else 'need'} you"
    else:
        said = "no problem needs you"
    guessed = f"; {wording.number(kept)} more used as stated, worth a look" if kept else ""
    return f"{used}; {said}{guessed}."


_TONE = {Severity.STOPS: "left out", Severity.DROPS_ROW: "left out", Severity.DROPS_CELL: "not used"}


def problem_lines(findings: Findings) -> Iterator[ProblemLine]:
    """Yield the lines of Problems: what was left out first, then by cell."""
    for severity in _GRAVEST_FIRST:
        for problem in in_cell_order(p for p in findings.problems if p.severity is severity):
            cells = [cell for cell in problem.cells if str(cell)]
            first = first_and_more(cells) or findings.source
            pieces = in_pieces(cell_spans(cells)) if len(set(cells)) > 1 else [""]
            for i, piece in enumerate(pieces):
                yield ProblemLine(problem, first if i == 0 else f"{cells[0]} (continued)", piece, i > 0)


def taken_as(table: Table) -> str:
    """Say what a table was taken for: list of bins, log, log of one kind of work, settings, not used."""
    act = ACTS.get(table.act)
    return ROLES[table.role] + (f": {act.label.lower()}" if act else "")


def _taken_as(table: Table) -> str:
    return taken_as(table) + (" (hidden sheet)" if table.hidden else "")


def _rows(table: Table) -> str:
    by_reason: defaultdict[str, list[int]] = defaultdict(list)
    for row, reason in table.passed_over.items():
        by_reason[reason].append(row)
    passed = "; ".join(f"{reason}: {_numbered(rows)}" for reason, rows in sorted(by_reason.items()))
    rows = "1 row" if len(table.rows) == 1 else f"{len(table.rows):,} rows"
    cells: defaultdict[str, list[CellRef]] = defaultdict(list)
    for ref, reason in table.passed_cells.items():
        cells[reason].append(ref)
    more = "; ".join(f"{reason}: {', '.join(cell_spans(refs))}" for reason, refs in sorted(cells.items()))
    passed = "; ".join(part for part in (passed, more) if part)
    return rows + (f". Passed over: {passed}" if passed else "")


def _numbered(rows: list[int]) -> str:
    return f"row{'s' if len(rows) > 1 else ''} {number_spans(rows)}"


def _heading_taken_as(heading: Heading) -> str:
    if heading.field is None:
        return "not used"
    return heading.field.label + (f", in {heading.unit}" if heading.unit else "")


def how_surely(heading: Heading) -> str:
    """Say how surely a heading was taken for its field: known, guessed, not used, or as the keeper said."""
    if heading.said:
        return YOURS
    if heading.field is None:
        return heading.why or "no field fits it"
    sure = "known word for word" if heading.score >= 1 else f"a guess, {heading.score:.0%} alike"
    return f"{sure}; {heading.why}" if heading.why else sure


PROBLEM_COLUMNS = (
    Column(
        "Cell", lambda line: line.cell, width=20, note="The cell of your workbook; the first, where there are more."
    ),
    Column(
        "What was read",
        lambda line: "" if line.goes_on else line.problem.value,
        width=24,
        note="What stands there, as you wrote it.",
    ),
    Column(
        "What is wrong",
        lambda line: "" if line.goes_on else line.problem.says,
        width=44,
        note="What can't be used, or was guessed.",
    ),
    Column(
        "What to do", lambda line: "" if line.goes_on else line.problem.fix, width=44, note="What to write instead."
    ),
    Column(
        "Effect",
        lambda line: line.problem.severity.value,
        width=16,
        note="Whether the row was left out, the cell not used, or both used as stated.",
    ),
    Column("All cells", lambda line: line.all_cells, width=30, note="Every cell with this problem, if there are more."),
)

TABLE_COLUMNS = (
    Column("Sheet", lambda table: table.sheet, note="The sheet of your workbook."),
    Column("Area", lambda table: str(table.area), note="The cells of the table, headings and all."),
    Column("Taken as", _taken_as, note="What its rows were read as."),
    Column("Rows", _rows, note="How many rows of it were read, and which were passed over."),
    Column("Why", lambda table: table.why, width=16, note="What made it be taken so."),
)

HEADING_COLUMNS = (
    Column("Cell", lambda pair: str(pair[1].cell.ref), note="Where the heading stands."),
    Column("Heading", lambda pair: pair[1].text, note="The heading as you wrote it."),
    Column("Taken as", lambda pair: _heading_taken_as(pair[1]), note="What the cells below were read as."),
    Column("How surely", lambda pair: how_surely(pair[1]), note="Known word for word, or guessed, and from what."),
    Column("Used", lambda pair: "used" if pair[1].field else "not used", note="Whether anything was read from it."),
)
