"""A bin whose animals are marked and caught again: they differ in how easily they are caught, and moult.

`python -m simulator.marks` from `tests/` prints what the intervals hold, for the seeds given in it.
"""

import math
from dataclasses import dataclass

import numpy as np

from workbook_tools.estimate.counting import EIGHTY, METHOD_INDEX, METHODS, Counts, as_seen
from workbook_tools.ledger.series.census import Catch, Census, CensusSeries
from workbook_tools.plan.learned.census import NO_LIMIT, worked_out
from workbook_tools.problems import CellRef

ROW = CellRef("Log", 2)
SINGLE, SEVERAL, SPARSE = (0, 5), (0, 3, 6, 9, 12), (0, 12)


@dataclass(frozen=True)
class Held:
    """Runs that gave a number, how many intervals held the truth, and the errors of the log numbers."""

    runs: int
    held: float
    errors: np.ndarray


def catches(draw, animals, easy, unlike, moult, days):
    """Catches of a bin: every animal caught is marked and let go; a mark goes with the next moult."""
    chance = 1 / (1 + np.exp(-(math.log(easy / (1 - easy)) + unlike * draw.standard_normal(animals))))
    due = draw.uniform(0, moult, animals) if moult else np.full(animals, np.inf)
    marked, batches, made = np.full(animals, False), [], []
    for day in days:
        moulted = due <= day
        marked &= ~moulted
        due[moulted] += moult
        caught = draw.random(animals) < chance
        again = int((caught & marked).sum())
        if batches and caught.any():
            made.append(Catch(100 + day, int(caught.sum()), again, tuple((day - d, n) for d, n in batches), ROW))
        if caught.sum() > again:
            batches.append((day, float(caught.sum() - again)))
        marked |= caught
    return made


def held(seed, *, unlike, moult=33, easy=(0.1, 0.4), days=SINGLE, runs=200):
    """Whether the 80 % interval that the numbers go by holds the truth, over bins of 60 to 400 animals."""
    draw = np.random.default_rng(seed)
    hits, errors = [], []
    for _ in range(runs):
        animals = int(draw.integers(60, 400))
        made = catches(draw, animals, draw.uniform(*easy), unlike, moult, days)
        counts = worked_out(CensusSeries((Census(0, tuple(made)),) if made else (), (), (), ()), ["A"], ()).counts
        if not counts:
            continue
        low, middle, high = believed(counts[0])
        hits.append(low <= animals <= high)
        errors.append(math.log(middle / animals) if math.isfinite(high) else math.nan)
    return Held(len(hits), float(np.mean(hits)), np.array(errors))


def believed(count):
    """The interval of the number of animals that a worked-out count stands for, its way's own error included."""
    method = METHODS[METHOD_INDEX["marks"]]
    if count.high >= NO_LIMIT:
        return count.low / method.high, count.low, math.inf
    row = [np.array([x]) for x in (0, 0, math.sqrt(count.low * count.high), count.low, count.high)]
    seen = as_seen(Counts(*row, np.array([METHOD_INDEX["marks"]])))
    middle, reach = float(seen.value[0]), EIGHTY * math.sqrt(float(seen.variance[0] + seen.hold[0] ** 2))
    return math.exp(middle - reach), math.exp(middle), math.exp(middle + reach)


if __name__ == "__main__":
    for unlike in (0, 0.8, 1.3):
        for moult in (0, 33):
            for days, easy in ((SINGLE, (0.1, 0.4)), (SEVERAL, (0.05, 0.25)), (SPARSE, (0.05, 0.15))):
                found = held(11, unlike=unlike, moult=moult, easy=easy, days=days, runs=300)
                print(
                    f"logit sd {unlike}, moult every {moult or 'never'} d, caught {easy} on days {days}: "
                    f"held {found.held:.2f} of {found.runs}, median log error {np.nanmedian(found.errors):+.2f}"
                )
