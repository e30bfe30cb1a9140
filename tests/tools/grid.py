"""Workbooks as text: a grid of typed cells made into a file, and a file's contents listed one cell a line."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import openpyxl
from openpyxl.cell.cell import MergedCell
from openpyxl.worksheet.worksheet import Worksheet

NUMBER = re.compile(r"-?\d+(\.\d+)?")


def typed(text: str) -> object:
    """Turn the text of one grid cell into the value it stands for.

    A plain number becomes a number, ``d:2025-03-01`` a date cell, ``=1+1`` a formula; ``t:`` keeps what follows as
    text (``t:007``), and everything else is text as it stands.
    """
    if text.startswith("d:"):
        return dt.date.fromisoformat(text[2:])
    if text.startswith("t:"):
        return text[2:]
    if NUMBER.fullmatch(text):
        return float(text) if "." in text else int(text)
    return text or None


def workbook_from_text(text: str, path: Path) -> Path:
    """Write an .xlsx from a grid: ``# sheet NAME`` begins a sheet, ``# merge A1:C1`` merges, a bar parts cells.

    An empty line is an empty row; other lines that begin with ``# `` are remarks and leave no row.

    Raises
    ------
    ValueError
        Cells come before the first ``# sheet`` line.
    """
    book = openpyxl.Workbook()
    book.remove(book.active)
    sheet: Worksheet | None = None
    row = 0
    for line in text.rstrip("\n").split("\n"):
        if line.startswith("# sheet "):
            sheet, row = book.create_sheet(line.removeprefix("# sheet ").strip()), 0
            continue
        if sheet is None:
            if line.strip() and not line.startswith("# "):
                raise ValueError("a grid begins with a line '# sheet NAME'")
            continue
        if line.startswith("# merge "):
            sheet.merge_cells(line.removeprefix("# merge ").strip())
            continue
        if line.startswith("# "):
            continue
        row += 1
        for col, part in enumerate(line.split("|"), start=1):
            value = typed(part.strip())
            if value is None or isinstance(sheet.cell(row, col), MergedCell):
                continue
            cell = sheet.cell(row, col, value)
            if isinstance(value, str) and (part.strip().startswith("t:") or not value.startswith("=")):
                cell.data_type = "s"
    book.save(path)
    return path


def dump(path: Path) -> str:
    """List a workbook: for every sheet its cells, then tables, frozen panes, filters, drop-downs and cell notes."""
    book = openpyxl.load_workbook(path)
    lines: list[str] = []
    for sheet in book.worksheets:
        lines.append(f"# sheet {sheet.title}" + ("" if sheet.sheet_state == "visible" else f" ({sheet.sheet_state})"))
        notes = []
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None:
                    lines.append(f"{cell.coordinate}: {shown(cell.value)}")
                if not isinstance(cell, MergedCell) and cell.comment:
                    notes.append(f"note {cell.coordinate}: {shown(cell.comment.text)}")
        lines += [f"merged {area}" for area in sorted(str(area) for area in sheet.merged_cells.ranges)]
        lines += [f"table {table.name} {table.ref}" for table in sheet.tables.values()]
        lines += [f"frozen {sheet.freeze_panes}"] if sheet.freeze_panes else []
        lines += [f"choices {rule.sqref}: {rule.formula1}" for rule in sheet.data_validations.dataValidation]
        lines += notes
    return "\n".join(lines) + "\n"


def shown(value: object) -> str:
    """One value on one line: a date as ISO, line breaks as a return sign."""
    if isinstance(value, dt.datetime):
        text = value.date().isoformat() if value.time() == dt.time() else value.isoformat(sep=" ")
    else:
        text = str(value)
    return text.replace("\n", "⏎")
