"""The decimal mark of a file, and digits with marks turned into a value."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from workbook_tools.intake.cells import Cell
from workbook_tools.problems import CellRef, Problem

Decimal = Literal[",", ".", ""]
MARKED = r"\d+(?:[.,'](?=\d)\d+|(?<=\d) (?=\d{3}(?!\d))\d{3})*"
"""Digits with points, commas, apostrophes or blanks inside (blanks only before three digits)."""
_WHOLE = re.compile(rf"(?<![\d.,/]){MARKED}(?![\d/.,])")


@dataclass(frozen=True, slots=True)
class DecimalVerdict:
    """The decimal mark of a file: a comma, a point, or empty when nothing shows it; ``reason`` is a sentence."""

    decimal: Decimal
    sure: bool
    reason: str
    evidence: CellRef | None = None
    problems: tuple[Problem, ...] = ()


def _shows(digits: str) -> Decimal:
    """The decimal mark that a number by itself shows; empty when it shows none."""
    marks = [c for c in digits if c in ".,"]
    kinds = set(marks)
    if len(kinds) == 2:
        last: Decimal = "," if marks[-1] == "," else "."
        return last if marks.count(last) == 1 else ""
    if len(marks) != 1:
        return ""
    before, after = digits.split(marks[0])
    if len(after) != 3 or before.startswith("0") or len(before.replace(" ", "")) > 3:
        return "," if marks[0] == "," else "."
    return ""


def judge_decimal(columns: Iterable[Sequence[Cell] | Cell | str]) -> DecimalVerdict:
    """Judge the decimal mark from texts that hold numbers.

    Parameters
    ----------
    columns : iterable
        Columns of cells, cells, or texts. Cells that hold a number of the file itself are passed over.

    Returns
    -------
    DecimalVerdict
        ``21,5`` and ``1.200,50`` show a comma, ``5.7`` a point; ``1,234`` alone shows nothing. Where both are used as
        decimal marks nothing is settled (empty), and only a number with three digits behind its mark stays open.
    """
    votes: Counter[Decimal] = Counter()
    first: dict[Decimal, Cell | str] = {}
    for item in columns:
        for entry in [item] if isinstance(item, Cell | str) else item:
            value = entry if isinstance(entry, str) else entry.value
            if not isinstance(value, str):
                continue
            for digits in _WHOLE.findall(value):
                if mark := _shows(digits):
                    votes[mark] += 1
                    first.setdefault(mark, entry)
    if not votes:
        return DecimalVerdict("", False, "")
    mark = votes.most_common(1)[0][0]
    cell = first[mark]
    where = cell.ref if isinstance(cell, Cell) else None
    text = cell.text if isinstance(cell, Cell) else cell
    word = "comma" if mark == "," else "point"
    if len(votes) == 1:
        return DecimalVerdict(mark, True, f"The decimal mark is a {word}: '{text}' shows it.", where)
    rare: Decimal = "." if mark == "," else ","
    odd = first[rare]
    problems = (Problem("numbers.decimal_mixed", odd.ref, {}, odd.text),) if isinstance(odd, Cell) else ()
    return DecimalVerdict("", False, "Both a comma and a point are used as the decimal mark.", where, problems)


def value_of(digits: str, decimal: Decimal) -> tuple[float, bool]:
    """Turn digits with marks into a value, and say whether the marks were open.

    A mark before any number of digits but three is a decimal mark whatever the file's is. What stays open (``1,234`` or
    ``1.234`` in a file that shows no mark) is read as in English: a comma splits off thousands, a point decimals.
    """
    digits = digits.replace(" ", "").replace("'", "")
    marks = [c for c in digits if c in ".,"]
    if not marks:
        return float(digits), False
    mark = _shows(digits)
    if mark:
        return float(digits.replace("," if mark == "." else ".", "").replace(mark, ".")), False
    if len(marks) > 1:
        return float(digits.replace(",", "").replace(".", "")), False
    if decimal:
        thousands = "." if decimal == "," else ","
        return float(digits.replace(thousands, "").replace(decimal, ".")), False
    return float(digits.replace(",", "")), True
