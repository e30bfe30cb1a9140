"""Cells and rows as a keeper names them: Log!C14:C20, C25."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from workbook_tools.problems import CellRef


def number_spans(numbers: Iterable[int]) -> str:
    """Write whole numbers in order with runs joined: 3, 5 to 9, 12."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(str(a) if a == b else f"{a} to {b}" for a, b in runs)


def cell_spans(cells: Iterable[CellRef]) -> list[str]:
    """Write cells with those below one another joined; the sheet is named at the first of each run of its cells."""
    spans = []
    ordered = sorted(set(cells), key=lambda cell: (cell.sheet, cell.col, cell.row))
    for sheet, of_sheet in groupby(ordered, key=lambda cell: cell.sheet):
        runs: list[tuple[CellRef, CellRef]] = []
        for cell in of_sheet:
            if runs and cell.row and (cell.col, cell.row) == (runs[-1][1].col, runs[-1][1].row + 1):
                runs[-1] = (runs[-1][0], cell)
            else:
                runs.append((cell, cell))
        for i, (first, last) in enumerate(runs):
            start, end = (str(CellRef("", ref.row, ref.col)) for ref in (first, last))
            text = start if first == last else f"{start}:{end}" if first.col else f"{start} to {end}"
            named = f"{sheet}!{text}" if text else sheet
            spans.append(named if i == 0 or not text else text)
    return spans


def in_pieces(spans: Sequence[str], longest: int = 240) -> list[str]:
    """Join spans with commas into texts of about ``longest`` characters, none lost."""
    pieces: list[str] = []
    for span in spans:
        if pieces and len(pieces[-1]) + len(span) + 2 <= longest:
            pieces[-1] += f", {span}"
        else:
            pieces.append(span)
    return pieces


def first_and_more(cells: Sequence[CellRef]) -> str:
    """Write the first cell and how many there are besides: Log!C14 and 12 more."""
    if not cells:
        return ""
    more = len(set(cells)) - 1
    return f"{cells[0]} and {more} more" if more else str(cells[0])
