"""The stragglers of a few changes: what was truly left in the old substrate, and the passes and trap checks written.

The animals of one lot of old substrate differ in how easily a hand or a trap gets them. Those found are put back in
their bin; those still in it when it is frozen die.
"""

from __future__ import annotations

import datetime as dt
import math
from random import Random

from diary import Row, Year
from scenario import LAST, SUNDAY, WEDNESDAY, Bin, poisson

SIFTED = (
    ("B01", dt.date(2026, 8, 23)),
    ("D03", dt.date(2026, 8, 23)),
    ("S05", dt.date(2026, 9, 13)),
    ("D07", dt.date(2026, 9, 20)),
    ("C06", dt.date(2026, 10, 25)),
    ("B02", dt.date(2026, 11, 1)),
    ("S21", dt.date(2026, 11, 15)),
    ("S04", dt.date(2026, 11, 22)),
)
"""Bins and days of the changes whose old substrate was sifted; the last two still wait on the day of the report."""
STAYED_IN = 0.3
"""Share of the animals of the old substrate that weren't picked out with the hides."""
MOST_PASSES, ENOUGH = 4, 3
"""Passes at most; no more after one that found so many or fewer."""
HAND, TRAP = (0.2, 0.8), (-1.3, 0.7)
"""Mean and spread of the log odds that a pass, or a check of a trap, gets an animal."""


def odds(mean: float, spread: float, chance: Random) -> float:
    """Draw how easily one animal is got."""
    return 1 / (1 + math.exp(-chance.gauss(mean, spread)))


def caught(animals: list[tuple[float, float]], way: int, chance: Random) -> tuple[int, list[tuple[float, float]]]:
    """Give how many are got now, and those that are left."""
    left = [animal for animal in animals if chance.random() >= animal[way]]
    return len(animals) - len(left), left


def lot(one: Bin, change: Row, frozen: dt.date | None, chance: Random) -> tuple[list[Row], dict[str, object]]:
    """Sift the old substrate of one change and look at its trap until it is frozen."""
    share = float(change.acts[0][1][0])  # type: ignore[index]
    number = poisson(STAYED_IN * share * one.number, chance)
    animals = [(odds(*HAND, chance), odds(*TRAP, chance)) for _ in range(number)]
    rows, passes, traps = [], [], []

    def write(day: dt.date, act: str, found: int, **cells: object) -> None:
        rows.append(Row("Diary", day, (one.name,), {"count": found, **cells}, [(act, found)]))

    most = 1 if change.day == LAST else MOST_PASSES
    while len(passes) < most and (not passes or passes[-1] > ENOUGH):
        found, animals = caught(animals, 0, chance)
        minutes = round(12 + 4 * share * one.litres + chance.uniform(-3, 3))
        passes.append(found)
        write(change.day, "sift", found, did="sifted", min=minutes, note="old soil" if len(passes) == 1 else "")
    day = change.day + dt.timedelta(days=1)
    while day <= LAST and (frozen is None or day < frozen):
        if day.weekday() in (WEDNESDAY, SUNDAY):
            found, animals = caught(animals, 1, chance)
            traps.append(found)
            write(day, "trap", found, did="straggler check", note="put back" if found else "")
        day += dt.timedelta(days=1)
    if frozen is not None:
        one.numbers = [(when, n - len(animals) if when > frozen.isoformat() else n, s) for when, n, s in one.numbers]
    true = {
        "bin": one.name,
        "changed": change.day.isoformat(),
        "stayed_in": number,
        "passes": passes,
        "traps": traps,
        "left": len(animals),
        "frozen": frozen.isoformat() if frozen else None,
    }
    return rows, true


def stragglers(year: Year, chance: Random) -> tuple[list[Row], list[dict[str, object]]]:
    """Give the rows of all lots, and what is true of each."""
    rows: list[Row] = []
    truths = []
    for name, day in SIFTED:
        one = next(bin for bin in year.bins if bin.name == name)
        change = next(
            row for row in year.rows if row.sheet == "Soil changes" and row.bins == (name,) and row.day == day
        )
        ends = [row.day for row in year.rows if row.bins == (name,) and row.day > day and row.acts[0][0] == "freeze"]
        made, true = lot(one, change, min(ends, default=None), chance)
        rows += made
        truths.append(true)
    return rows, truths
