"""Watch simulated bins for deaths: false alarms, die-offs found, and a plain control chart beside it.

``python tests/simulator/losses.py --seeds 600-639``

Each keeper has fifty bins for two years. Animals die singly and in bunches, more in summer; the dead lie for some days
and are eaten, so that a look finds only some of them; looks come at irregular times and stop while the keeper is away.
How much deaths bunch differs from keeper to keeper. Numbers are known with an error of a fifth. Scored from the
sixtieth day on.
"""

from __future__ import annotations

import argparse
import sys
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

sys.path.insert(0, str(Path(__file__).parents[1]))

from simulator.charts import c_limit
from workbook_tools.estimate.deaths import ALARM, Watch, at_risk, follow_deaths
from workbook_tools.plan.losses.records import Cluster, Event
from workbook_tools.plan.losses.together import Lost, clusters
from workbook_tools.problems import CellRef

Floats = NDArray[np.float64]
DAYS, BINS, FROM, QUIET = 730, 50, 60, 30
HIT = 4
"""Bins of a keeper that get a die-off, each at a time of its own."""
OVER = 8
"""Days over which the extra dead are found."""


@dataclass(frozen=True)
class Kept:
    """One keeper's bins: dead found, looks, animals as far as they are known; (B, T) each."""

    found: Floats
    looked: NDArray[np.bool_]
    animals: Floats


BUNCHES = {4: 1.5, 9: 2.0}
"""Days that a bunch of deaths lasts, and the middle shape of how much deaths rise and fall from one to the next.

About the time between two looks, or longer than a week: the longer, the more like a die-off.
"""


def keep(seed: int, growth: float = 0.02, *, known: bool = True, death: float = 1.0, bunch: int = 4) -> Kept:
    """Let the bins of one keeper live for two years; ``growth`` is a month, ``death`` times the usual deaths.

    Where numbers aren't ``known``, the bin is thought to hold what it began with.
    """
    chance = np.random.default_rng((seed, 77))
    began = np.exp(chance.normal(np.log(90), 0.7, BINS))
    a_month = growth + chance.normal(0, 0.02, BINS)
    animals = began[:, None] * np.exp(np.arange(DAYS) * a_month[:, None] / 30.4)
    season = 1 + 0.3 * np.sin(2 * np.pi * (np.arange(DAYS) / 365 + chance.random()))
    bins_rate = death * np.exp(chance.normal(np.log(2.2), 0.4) + chance.normal(0, 0.6, BINS)) / 3040
    shape = np.exp(chance.normal(np.log(BUNCHES[bunch]), 0.5))
    bunches = np.repeat(chance.gamma(shape, 1 / shape, (BINS, DAYS // bunch + 1)), bunch, axis=1)[:, :DAYS]
    dying = chance.poisson(bins_rate[:, None] * animals * season * bunches)
    looked = chance.random((BINS, DAYS)) < chance.uniform(0.2, 0.45)
    for away in chance.integers(30, DAYS - 30, 4):
        looked[:, away : away + int(chance.integers(7, 15))] = False
    found, lying = np.zeros((BINS, DAYS)), np.zeros(BINS, dtype=np.int64)
    seen = chance.uniform(0.35, 0.65, BINS)
    for day in range(DAYS):
        lying = chance.binomial(lying, 0.85) + dying[:, day]
        hit = np.where(looked[:, day], chance.binomial(lying, seen), 0)
        found[:, day] = hit
        lying -= hit
    wrong = np.repeat(chance.normal(0, 0.2, (BINS, DAYS // 60 + 1)), 60, axis=1)[:, :DAYS]
    thought = animals if known else np.repeat(began[:, None], DAYS, axis=1)
    return Kept(found, looked, thought * np.exp(wrong))


def die_off(kept: Kept, seed: int, extra: int) -> list[tuple[int, int]]:
    """Let so many more be found in a few bins, over some days; bins and first days. ``kept.found`` is changed."""
    chance = np.random.default_rng((seed, 78))
    hits = []
    for bin in chance.choice(BINS, HIT, replace=False):
        day = int(chance.integers(180, DAYS - 60))
        looks = np.flatnonzero(kept.looked[bin, day : day + OVER]) + day
        if not looks.size:
            looks = np.flatnonzero(kept.looked[bin, day:])[:1] + day
        np.add.at(kept.found[bin], chance.choice(looks, extra), 1)
        hits.append((int(bin), day))
    return hits


def window_alarms(kept: Kept) -> NDArray[np.int64]:
    """What the package raises."""
    risk = at_risk(kept.looked, kept.animals, np.zeros(BINS, dtype=np.int64))
    return follow_deaths(kept.found, risk, kept.animals).raised


def chart_alarms(kept: Kept) -> NDArray[np.bool_]:
    """A chart of counts with three-sigma limits about the mean of a bin's looks so far, and the same quiet time."""
    raised = np.zeros(kept.found.shape, dtype=np.bool_)
    for bin in range(BINS):
        total = looks = quiet = 0.0
        for day in np.flatnonzero(kept.looked[bin]):
            dead = kept.found[bin, day]
            if looks >= 10 and dead > c_limit(total / looks)[1] and day >= quiet:
                raised[bin, day] = True
                quiet = day + QUIET
            total, looks = total + dead, looks + 1
    return raised


@dataclass
class Tally:
    """False alarms over bin-years, die-offs found, and days until they were."""

    bins_years: float = 0.0
    false: float = 0.0
    hits: int = 0
    delays: list[int] | None = None

    def quiet_keeper(self, raised: NDArray[np.bool_]) -> None:
        self.false += float(raised[:, FROM:].sum())
        self.bins_years += BINS * (DAYS - FROM) / 365

    def struck(self, raised: NDArray[np.bool_], hits: list[tuple[int, int]]) -> None:
        self.delays = self.delays or []
        for bin, day in hits:
            found = np.flatnonzero(raised[bin, day : day + 31])
            self.hits += 1
            self.delays += [int(found[0])] if found.size else []

    @property
    def a_year(self) -> float:
        return 50 * self.false / self.bins_years

    @property
    def share(self) -> float:
        return len(self.delays or []) / max(self.hits, 1)

    @property
    def delay(self) -> float:
        return float(np.median(self.delays)) if self.delays else float("nan")


PLACES = {f"place {at}": tuple(range(8 * at, min(8 * at + 8, BINS))) for at in range(7)}
EVENTS = (150, 300, 450, 600)
"""Days of events in the house: they do nothing, but in a struck place deaths follow."""


def shelf_reports(
    seed: int, *, times: float = 1.0, noise: float = 0.0
) -> tuple[list[tuple[Cluster, ...]], list[tuple[Cluster, ...]]]:
    """What two reports after each event say: those on the fourteenth day, and those four weeks later.

    After each event one place has ``times`` the finds for a fortnight; places differ in their deaths by ``noise``.
    """
    chance = np.random.default_rng((seed, 79))
    kept = keep(seed)
    factor = np.ones_like(kept.found)
    for place in PLACES.values():
        factor[list(place)] *= np.exp(np.repeat(chance.normal(0, noise, DAYS // 30 + 1), 30)[:DAYS])
    for event in EVENTS:
        struck = PLACES[f"place {chance.integers(len(PLACES))}"]
        factor[list(struck), event + 1 : event + 15] *= times
    found = chance.poisson(kept.found * np.maximum(factor - 1, 0)) + chance.binomial(
        kept.found.astype(np.int64), np.minimum(factor, 1)
    )
    risk = at_risk(kept.looked, kept.animals, np.zeros(BINS, dtype=np.int64))
    watch = follow_deaths(found.astype(float), risk, kept.animals)
    names = tuple(f"B{bin}" for bin in range(BINS))
    soon, later = [], []
    for event in EVENTS:
        for days, kind in ((14, soon), (56, later)):
            end = event + days + 1
            seen = Watch(*(v[:, :end] if isinstance(v, np.ndarray) else v for v in vars(watch).values()))
            lost = Lost(names, 1, found[:, :end].astype(float), risk[:, :end], seen)
            logged = [Event(lost.day(event), "spray", "", False, CellRef("Log", 2))] if kind is soon else []
            kind.append(clusters(lost, PLACES, logged))
    return soon, later


def seeds(text: str) -> list[int]:
    first, _, last = text.partition("-")
    return list(range(int(first), int(last or first) + 1))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=seeds, default="0-9", help="a seed or a range, 600-639")
    asked = parser.parse_args()
    begun = time.perf_counter()
    print(f"seeds {asked.seeds[0]}-{asked.seeds[-1]}, {BINS} bins, {DAYS} days; false alarms per 50 bins and year:")
    quiet = (
        ("nothing wrong", {}),
        ("growth of 12 % a month", {"growth": 0.12}),
        ("the same, numbers not known", {"growth": 0.12, "known": False}),
        ("three times the deaths", {"death": 3.0}),
        ("bunches of nine days", {"bunch": 9}),
        ("bunches of nine days, growth", {"bunch": 9, "growth": 0.12}),
    )
    for name, changes in quiet:
        alarm, look, chart = Tally(), Tally(), Tally()
        for seed in asked.seeds:
            kept = keep(seed, **changes)
            raised = window_alarms(kept)
            alarm.quiet_keeper(raised == ALARM)
            look.quiet_keeper(raised > 0)
            chart.quiet_keeper(chart_alarms(kept))
        print(f"  {name:30} alarm {alarm.a_year:5.2f}   with 'worth a look' {look.a_year:5.2f}", end="   ")
        print(f"3-sigma chart {chart.a_year:6.1f}")
    print(f"extra dead found over {OVER} days in {HIT} bins a keeper; share found within 30 days (median days):")
    for extra, bunch in ((4, 4), (6, 4), (10, 4), (15, 4), (10, 9)):
        alarm, look, chart = Tally(), Tally(), Tally()
        for seed in asked.seeds:
            kept = keep(seed, bunch=bunch)
            hits = die_off(kept, seed, extra)
            raised = window_alarms(kept)
            alarm.struck(raised == ALARM, hits)
            look.struck(raised > 0, hits)
            chart.struck(chart_alarms(kept), hits)
        said = [f"{t.share:.2f} ({t.delay:.0f})" for t in (alarm, look, chart)]
        print(f"  {extra:3} more, bunches of {bunch} days", end="   ")
        print(f"alarm {said[0]}   with 'worth a look' {said[1]}   chart {said[2]}   of {alarm.hits}")
    print("reports that show bins losing together, two weeks after an event and six weeks later (nothing then):")
    for name, changes in (
        ("nothing wrong", {}),
        ("places differ by a third", {"noise": 0.3}),
        ("one place loses 3 times", {"times": 3.0}),
        ("one place loses 5 times", {"times": 5.0}),
    ):
        reports = [shelf_reports(seed, **changes) for seed in asked.seeds]
        soon, later = ([bool(one) for pair in reports for one in pair[at]] for at in (0, 1))
        print(f"  {name:30} {np.mean(soon):.3f}   {np.mean(later):.3f}   of {len(soon)}")
    print(f"{time.perf_counter() - begun:.0f} s", file=sys.stderr)


if __name__ == "__main__":
    main()
