"""Score what is said to be left of old substrate on simulated sifts.

``python tests/simulator/sifting.py --seeds 1000-1499`` prints two tables: how often the 80 % interval holds what is
left, and of the tubs called probably empty, how many truly are.

The animals here aren't those of the estimate: their chances to be found are spread as a logit-normal, or fall from pass
to pass as the easy places are looked through, and a trap may not reach animals in moult.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.sifting import Left, sift_left
from workbook_tools.plan.sift_advice import probably_empty


@dataclass(frozen=True)
class Animals:
    """How animals differ: ``sd`` of the logit of their chance to be found, ``wary`` by what it falls with each pass."""

    says: str
    sd: float = 0.0
    wary: float = 1.0

    def chances(self, number: int, chance: float, rng: np.random.Generator) -> np.ndarray:
        """Each animal's chance to be found in the first pass."""
        logit = np.log(chance / (1 - chance)) + self.sd * rng.standard_normal(number)
        return 1 / (1 + np.exp(-logit))


ALIKE = Animals("all alike")
KINDS = (ALIKE, Animals("logit sd 0.8", sd=0.8), Animals("logit sd 1.3", sd=1.3), Animals("x0.85 a pass", wary=0.85))
TUBS = ((150, 0.45, 5), (40, 0.60, 4), (40, 0.30, 4), (400, 0.30, 6), (120, 0.60, 3), (15, 0.45, 4))
"""Number of animals, chance of one of them to be found in a pass, passes."""


@dataclass(frozen=True)
class Trap:
    """A trap: the chance of an ordinary animal to be caught in a day, and the share of animals in moult, hidden."""

    chance: float
    sd: float
    moult: float = 0.0
    hidden: int = 8


TRAPS = (Trap(0.4, 0), Trap(0.3, 0.8), Trap(0.3, 0.8, 0.15), Trap(0.15, 0.8), Trap(0.1, 0.8), Trap(0.05, 0.8))
TRAPPED = ((120, 0.45), (40, 0.45))
LONGEST = 60
"""Days that a trap is kept."""


def sift(number: int, chance: float, passes: int, animals: Animals, rng: np.random.Generator) -> list[int]:
    """Finds of each pass."""
    left, finds = animals.chances(number, chance, rng), []
    for at in range(passes):
        found = rng.random(len(left)) < left * animals.wary**at
        finds.append(int(found.sum()))
        left = left[~found]
    return finds


def holds(said: Left, truly: int) -> bool:
    """Whether the interval holds what is truly left; one without an upper limit holds all from its lower one."""
    return said.low <= truly and (said.high is None or truly <= said.high)


@dataclass
class Covered:
    """What became of a run of simulated sifts."""

    runs: int = 0
    held: int = 0
    below: int = 0
    endless: int = 0
    endless_held: int = 0
    truly: int = 0
    middle: float = 0.0

    def add(self, said: Left, truly: int) -> None:
        """Take one more."""
        self.runs += 1
        self.held += holds(said, truly)
        self.below += truly < said.low
        self.endless += said.high is None
        self.endless_held += said.high is None and holds(said, truly)
        self.truly += truly
        self.middle += said.middle or 0

    @property
    def share(self) -> float:
        """Share of intervals that hold what is left."""
        return self.held / max(self.runs, 1)

    @property
    def limited(self) -> float:
        """The same of those with an upper limit."""
        return (self.held - self.endless_held) / max(self.runs - self.endless, 1)


def coverage(tub: tuple[int, float, int], animals: Animals, seeds: range) -> Covered:
    """How often the interval holds what is left of one kind of tub."""
    covered = Covered()
    number, chance, passes = tub
    for seed in seeds:
        finds = sift(number, chance, passes, animals, np.random.default_rng((seed, number, passes)))
        covered.add(sift_left(finds), number - sum(finds))
    return covered


def clear(number: int, chance: float, trap: Trap, seed: int) -> tuple[bool, int, int]:
    """Sort as long as a pass is worth it, then trap until it is called probably empty or for `LONGEST` days.

    Returns
    -------
    tuple
        Whether it was called probably empty, how many animals were left then, and the days of trapping.
    """
    rng = np.random.default_rng((seed, number, round(1000 * trap.chance)))
    animals = Animals("", sd=trap.sd)
    left = animals.chances(number, chance, rng)
    moult = rng.random(number) < trap.moult
    passes: list[int] = []
    while len(passes) < DEFAULTS["sifting.passes"].value:
        found = (rng.random(len(left)) < left) & ~moult
        passes.append(int(found.sum()))
        left, moult = left[~found], moult[~found]
        if len(passes) > 1 and sift_left(passes).next_pass < DEFAULTS["sifting.worth"].value:
            break
    return _trapped(len(left), trap, moult, passes, rng)


def _trapped(
    left: int, trap: Trap, moult: np.ndarray, passes: list[int], rng: np.random.Generator
) -> tuple[bool, int, int]:
    chances = Animals("", sd=trap.sd).chances(left, trap.chance, rng)
    back = np.where(moult, rng.integers(1, trap.hidden + 1, left), 0)
    checks: list[int] = []
    silent = int(DEFAULTS["sifting.empty_checks"].value)
    look = silent
    for day in range(LONGEST):
        caught = (rng.random(len(chances)) < chances) & (back <= day)
        checks.append(int(caught.sum()))
        chances, back = chances[~caught], back[~caught]
        if checks[-1]:
            look = len(checks) + silent
        if any(checks) and len(checks) >= look:
            said = sift_left(passes, checks)
            if probably_empty(said):
                return True, len(chances), day + 1
            look = LONGEST + 1 if said.empty_needed is None else len(checks) + max(said.empty_needed, 1)
    return False, len(chances), LONGEST


def _seeds(text: str) -> range:
    first, _, last = text.partition("-")
    return range(int(first), int(last or first) + 1)


def main() -> None:
    """Read the command, simulate, print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=_seeds, default="0-99", help="a seed or a range, 1000-1499")
    parser.add_argument("--only", choices=("left", "empty"), help="one of the two tables")
    asked = parser.parse_args()
    if asked.only != "empty":
        print(f"{'animals':>8} {'found':>6} {'passes':>6}  {'differ':<13}", end="")
        print(f" {'left':>6} {'median':>6} {'held':>5} {'below':>5} {'no upper limit':>14}")
        for tub in TUBS:
            for animals in KINDS:
                got = coverage(tub, animals, asked.seeds)
                print(
                    f"{tub[0]:>8} {tub[1]:>6.2f} {tub[2]:>6}  {animals.says:<13} {got.truly / got.runs:>6.1f}", end=""
                )
                print(f" {got.middle / got.runs:>6.1f} {got.share:>5.2f} {got.below / got.runs:>5.2f}", end="")
                print(f" {got.endless / got.runs:>14.2f}")
    if asked.only != "left":
        print(f"{'trap':>5} {'differ':>6} {'moult':>6} {'animals':>8}", end="")
        print(f" {'called empty':>13} {'truly empty':>12} {'one left':>9} {'days':>5}")
        for trap in TRAPS:
            for number, chance in TRAPPED:
                ends = [clear(number, chance, trap, seed) for seed in asked.seeds]
                called = [end for end in ends if end[0]]
                left = [sum(end[1] == many for end in called) / max(len(called), 1) for many in (0, 1)]
                days = np.median([end[2] for end in called]) if called else np.nan
                print(f"{trap.chance:>5.2f} {trap.sd:>6.1f} {trap.moult:>6.2f} {number:>8}", end="")
                print(f" {len(called):>6} of {len(ends):<4} {left[0]:>11.2f} {left[1]:>9.2f} {days:>5.0f}")


if __name__ == "__main__":
    main()
