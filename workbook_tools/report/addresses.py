"""Cells and rows as a keeper names them: Log!C14:C20, C25."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
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


def cell_runs(cells: Iterable[CellRef]) -> list[tuple[CellRef, CellRef]]:
    """Join cells that stand below one another: the first and the last of each run, by sheet, column and row."""
    runs: list[tuple[CellRef, CellRef]] = []
    for cell in sorted(set(cells), key=lambda cell: (cell.sheet, cell.col, cell.row)):
        if runs and cell.row and cell == replace(runs[-1][1], row=runs[-1][1].row + 1):
            runs[-1] = (runs[-1][0], cell)
        else:
            runs.append((cell, cell))
    return runs


def run_place(first: CellRef, last: CellRef) -> str:
    """Write a run without its sheet, as spreadsheet programs do: C14, C14:C20, rows 14:20; empty for a whole sheet."""
    start, end = (str(replace(ref, sheet="")) for ref in (first, last))
    return start if first == last else f"{start}:{end}"


def cell_spans(cells: Iterable[CellRef]) -> list[str]:
    """Write cells with those below one another joined; the sheet is named at the first of each run of its cells."""
    spans = []
    for sheet, runs in groupby(cell_runs(cells), key=lambda run: run[0].sheet):
        for i, (first, last) in enumerate(runs):
            place = run_place(first, last)
            text = place if first.col else place.replace(":", " to ")
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
