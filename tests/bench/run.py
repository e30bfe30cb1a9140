"""How long reading takes, as a multiple of merely loading the same file with python-calamine in the same run.

And how many seconds the rates of 1000 bins with 1000 observations each take.

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

import numpy as np
import python_calamine
import xlsxwriter

from workbook_tools import pipeline
from workbook_tools.estimate.drying import Visits, fit_drying
from workbook_tools.estimate.eating import Feedings, fit_eating

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


def moss_looks(bins: int, each: int) -> Visits:
    """Looks every one to three days; water when dry or drying."""
    chance = np.random.default_rng(bins)
    usual = np.exp(chance.normal(1.6, 0.5, bins))
    day, watered = np.zeros(bins), np.zeros(bins)
    dry_in = usual * np.exp(0.25 * chance.normal(size=bins))
    days, states, sinces = [], [], []
    for _ in range(each):
        day = day + chance.integers(1, 4, bins)
        state = 3 - np.searchsorted([1 / 2.7, 1 / 1.5, 1.0], (day - watered) / dry_in, side="right")
        days.append(day)
        states.append(state)
        sinces.append(day - watered)
        watered = np.where(state <= 1, day, watered)
        dry_in = np.where(state <= 1, usual * np.exp(0.25 * chance.normal(size=bins)), dry_in)
    which = np.tile(np.arange(bins), each)
    whole = np.concatenate(days).astype(np.int64)
    return Visits(which, whole, np.concatenate(states), np.concatenate(sinces))


def dishes(bins: int, each: int) -> Feedings:
    """Portions of many sizes, looked at one to three days later."""
    chance = np.random.default_rng(each)
    size = bins * each
    which, day = np.tile(np.arange(bins), each), np.repeat(np.arange(each), bins) * 3
    grams, days = np.round(chance.uniform(0.05, 2, size), 2), chance.integers(1, 4, size).astype(float)
    return Feedings(which, day, grams, days, chance.integers(0, 3, size), np.round(chance.uniform(20, 400, size)))


def estimates(bins: int, each: int) -> None:
    """Time the rates of many bins with many observations."""
    kind = np.arange(bins) % 3
    looks, food = moss_looks(bins, each), dishes(bins, each)
    now = int(food.day.max())
    for name, work in (
        ("moss", lambda: fit_drying(looks, bins=bins, airing=kind, now=int(looks.day.max()))),
        (
            "food",
            lambda: fit_eating(food, bins=bins, species=kind, appetite=kind, number=np.full(bins, 100.0), now=now),
        ),
    ):
        begun = time.perf_counter()
        work()
        print(f"{name}: {bins} bins, {each} observations each: {time.perf_counter() - begun:.1f} s")


def main() -> None:
    """Time the demo, the long log and the rates."""
    estimates(1000, 1000)
    with tempfile.TemporaryDirectory() as folder:
        for name, path in (("demo", DEMO), (f"{ROWS} rows", long_log(Path(folder) / "long.xlsx"))):
            least = seconds(lambda path=path: floor(path))
            reading = seconds(lambda path=path: pipeline.read(path, ON))
            print(f"{name}: loading {least:.2f} s, reading {reading:.2f} s = {reading / least:.1f} times")


if __name__ == "__main__":
    main()
