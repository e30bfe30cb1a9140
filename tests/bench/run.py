"""How long reading takes, as a multiple of merely loading the same file with python-calamine in the same run.

Run by hand: ``python tests/bench/run.py``. It reports and never fails; figures of two machines can't be compared, the
multiples can.
"""

from __future__ import annotations

import datetime as dt
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from random import Random

import python_calamine
import xlsxwriter

from workbook_tools import pipeline

DEMO = Path(__file__).parents[2] / "demo" / "cellar-bins.xlsx"
ON = dt.date(2026, 11, 25)
ROWS = 50_000


def long_log(path: Path) -> Path:
    """Write a workbook of 60 bins and a log of 50,000 plain rows."""
    chance = Random(ROWS)
    book = xlsxwriter.Workbook(path)
    day_format = book.add_format({"num_format": "yyyy-mm-dd"})
    bins = book.add_worksheet("Bins")
    bins.write_row(0, 0, ("Bin", "Species", "Place", "Started"))
    names = [f"B{number:02d}" for number in range(1, 61)]
    for row, name in enumerate(names, start=1):
        bins.write_row(row, 0, (name, "Porcellio scaber", "Shelf A"))
        bins.write_datetime(row, 3, dt.date(2015, 1, 1), day_format)
    log = book.add_worksheet("Log")
    log.write_row(0, 0, ("Date", "Bin", "Done", "Water (ml)", "Moss corner", "Leaves", "Dead", "Note"))
    for row in range(1, ROWS + 1):
        log.write_datetime(row, 0, dt.date(2016, 1, 1) + dt.timedelta(days=row // 13), day_format)
        moss = chance.choice(("dry", "drying", "damp"))
        log.write_row(row, 1, (chance.choice(names), "water", chance.randrange(20, 60, 5), moss))
        log.write_row(row, 5, (chance.choice(("", "1/2 L", "handful")), chance.choice(("", 0, 1)), ""))
    book.close()
    return path


def seconds(work: Callable[[], object]) -> float:
    """The best of three runs."""
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def floor(path: Path) -> None:
    """Load every sheet into lists and do nothing with it."""
    with python_calamine.CalamineWorkbook.from_path(path) as book:
        for name in book.sheet_names:
            book.get_sheet_by_name(name).to_python(skip_empty_area=False)


def main() -> None:
    """Time the demo and the long log."""
    with tempfile.TemporaryDirectory() as folder:
        for name, path in (("demo", DEMO), (f"{ROWS} rows", long_log(Path(folder) / "long.xlsx"))):
            least = seconds(lambda path=path: floor(path))
            reading = seconds(lambda path=path: pipeline.read(path, ON))
            print(f"{name}: loading {least:.2f} s, reading {reading:.2f} s = {reading / least:.1f} times")


if __name__ == "__main__":
    main()
