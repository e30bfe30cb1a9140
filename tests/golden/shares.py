"""Print how much of each golden workbook was understood: ``python tests/golden/shares.py``.

A cell is *used* when a fact or a known heading was read from it and no problem says that it was left out, *kept* when
a problem names it and it was used all the same, *passed over* when it is a title, a total, a key or says nothing, and
*left out* when a problem says so.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from pathlib import Path

import openpyxl

sys.path.insert(0, str(Path(__file__).parents[1]))

from golden.test_golden import CASES, ON
from tools.grid import workbook_from_text
from workbook_tools import pipeline
from workbook_tools.problems import CellRef, Severity

WORDS = ("used", "kept", "passed over", "left out")


def shares(case: Path) -> Counter[str]:
    """How many cells of one golden workbook ended how."""
    with tempfile.TemporaryDirectory() as folder:
        file = workbook_from_text((case / "workbook.txt").read_text(encoding="utf-8"), Path(folder) / "workbook.xlsx")
        reading = pipeline.read(file, ON)
        filled = [
            CellRef(sheet.title, cell.row, cell.column)
            for sheet in openpyxl.load_workbook(file).worksheets
            for row in sheet.iter_rows()
            for cell in row
            if cell.value is not None
        ]
    used = {one.cell.ref for row in reading.intake.rows for facts in row.facts.values() for one in facts}
    used |= {head.cell.ref for table in reading.intake.tables for head in table.headings.values() if head.field}
    dropped = {ref for one in reading.problems if one.severity is not Severity.KEPT for ref in one.cells}
    kept = {ref for one in reading.problems if one.severity is Severity.KEPT for ref in one.cells}

    def ended(ref: CellRef) -> str:
        if ref in dropped or CellRef(ref.sheet, ref.row) in dropped or CellRef(ref.sheet, 0, ref.col) in dropped:
            return "left out"
        if ref in used:
            return "kept" if ref in kept else "used"
        return "kept" if ref in kept else "passed over"

    return Counter(ended(ref) for ref in filled)


def main() -> None:
    """Print one line a case."""
    print(f"{'case':18}{'cells':>6}" + "".join(f"{word:>13}" for word in WORDS))
    for case in CASES:
        found = shares(case)
        total = sum(found.values())
        print(f"{case.name:18}{total:6}" + "".join(f"{found[word] / total:13.0%}" for word in WORDS))


if __name__ == "__main__":
    main()
