"""Where a value stood in the keeper's workbook."""

from __future__ import annotations

from dataclasses import dataclass


def column_letters(col: int) -> str:
    """Return the letters of a column counted from 1: 1 is A, 27 is AA.

    Raises
    ------
    ValueError
        ``col`` is below 1.
    """
    if col < 1:
        raise ValueError(f"columns count from 1, not {col}")
    letters = ""
    while col:
        col, rest = divmod(col - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


@dataclass(frozen=True, order=True, slots=True)
class CellRef:
    """Where a value stood. Rows and columns count from 1; 0 means the whole row, column or sheet."""

    sheet: str
    row: int = 0
    col: int = 0

    def __str__(self) -> str:
        place = (column_letters(self.col) if self.col else "") + (str(self.row) if self.row else "")
        return "!".join(part for part in (self.sheet, place) if part)
