"""A reading as text: tables, headings, facts by row, bins, entries and problems, one a line."""

from __future__ import annotations

from workbook_tools.intake.cells import Area
from workbook_tools.intake.values import Amount, Fact, Number, When, Words
from workbook_tools.pipeline import Reading
from workbook_tools.problems import CellRef, column_letters

NOTHING_KNOWN = ("-", "–", "?", "n/k", "n/a")
"""Marks that mean by themselves that nothing is known."""


def meaning(value: object) -> str:
    """What a cell means, with its uncertainty."""
    if isinstance(value, When):
        day = value.first.isoformat() if value.exact else f"{value.first.isoformat()}..{value.last.isoformat()}"
        return day + (f" {value.time:%H:%M}" if value.time else "") + (" (guessed)" if value.guessed else "")
    if isinstance(value, Number):
        span = "" if value.exact else f" [{value.low:g}, {value.high:g}]"
        parts = f" of {' and '.join(f'{part:g}' for part in value.parts)}" if value.parts else ""
        return f"{value.best:g}{span}{parts}"
    if isinstance(value, Amount):
        unit = f" {value.unit}" if value.unit else ""
        return meaning(value.number) + unit + (" (guessed)" if value.guessed else "")
    if isinstance(value, Words):
        return "+".join(value.keys) or "no word known"
    return repr(value)


def fact(one: Fact) -> str:
    """One fact with the text it was read from."""
    guessed = " (guessed)" if one.guessed and "(guessed)" not in meaning(one.value) else ""
    return f"  {one.cell.ref} {one.field}: '{one.text}' = {meaning(one.value)}{guessed}"


def area(one: Area) -> str:
    """A rectangle of cells as spreadsheet programs write it."""
    return f"{column_letters(one.left)}{one.top}:{column_letters(one.right)}{one.bottom}"


def text(reading: Reading) -> str:
    """Everything that was read but the problems."""
    lines = ["# notes", *reading.intake.notes, "", "# tables"]
    for table in reading.intake.tables:
        act = f" ({table.act})" if table.act else ""
        lines.append(f"{table.sheet} {area(table.area)}: {table.role}{act}, {len(table.rows)} rows. {table.why}")
        for head in table.headings.values():
            taken = head.field.key if head.field else "not used"
            unit = f" in {head.unit}" if head.unit else ""
            lines.append(f"  {head.cell.ref} '{head.text}' = {taken}{unit}" + ("" if head.score == 1 else " (a guess)"))
        lines += [f"  row {row} passed over: {why}" for row, why in table.passed_over.items()]
        lines += [f"  {ref} passed over: {why}" for ref, why in table.passed_cells.items()]
    lines += ["", "# rows"]
    for row in reading.intake.rows:
        lines.append(f"{row.where} {row.role}" + (f" ({row.act})" if row.act else ""))
        lines += [fact(one) for found in row.facts.values() for one in found]
    lines += ["", "# settings"]
    for value in reading.ledger.settings.values:
        lines.append(
            f"{value.where} {value.key}" + (f" for {value.scope}" if value.scope else "") + f" = {value.value}"
        )
    lines += ["", "# bins"]
    for one in reading.ledger.bins.values():
        lines.append(f"{one.where} {one.name}" + ("" if one.listed else " (only in the log)"))
    lines += ["", "# entries"]
    for entry in reading.ledger.entries:
        when = meaning(entry.when) if entry.when else "no date"
        lines.append(f"{entry.where} {when} {entry.act}: {', '.join(entry.bins) or 'no bin'}; {' '.join(entry.facts)}")
    noted = f", {reading.ledger.rows_noted} kept as notes" if reading.ledger.rows_noted else ""
    lines += ["", f"{reading.ledger.rows_used} of {reading.ledger.rows_read} rows used{noted}"]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def problems(reading: Reading) -> str:
    """The problems: cells, what was read, effect, code, sentence."""
    lines = []
    for one in reading.problems:
        cells = ", ".join(str(ref) for ref in one.cells)
        lines.append(f"{cells or 'the file'} '{one.value}' {one.code} ({one.severity.value})\n  {one.says} {one.fix}")
    return "\n".join(lines) + "\n" if lines else ""


def accounted_for(reading: Reading, ref: CellRef, written: str) -> bool:
    """Whether a cell was understood, or is named as a problem, or is listed as passed over or not used."""
    if written.casefold() in NOTHING_KNOWN or any(f"'{written}'" in table.why for table in reading.intake.tables):
        return True
    if any(named in _wholes(ref) for one in reading.problems for named in one.cells):
        return True
    for row in reading.intake.rows:
        if any(one.cell.ref == ref for found in row.facts.values() for one in found):
            return True
    for table in reading.intake.tables:
        if ref in table.passed_cells or (table.shape and any(head.cell.ref == ref for head in table.headings.values())):
            return True
        if table.shape or table.sheet != ref.sheet or not table.area.holds(ref.row, ref.col):
            continue
        head = table.headings.get(ref.col)
        if head and (ref.row <= head.cell.ref.row or head.field is None):
            return True
        if ref.row in table.passed_over or table.role in ("settings", "words", "unused"):
            return True
    return False


def _wholes(ref: CellRef) -> set[CellRef]:
    """The cell, its row, its column."""
    return {ref, CellRef(ref.sheet, ref.row), CellRef(ref.sheet, 0, ref.col)}
