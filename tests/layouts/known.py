"""The known log: bins and what was done, drawn from a seed, before any keeper has written it down."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from random import Random

TODAY = dt.date(2025, 6, 20)
"""The day on which every workbook is read."""
SPECIES = (
    "Porcellio scaber", "Armadillidium vulgare", "Oniscus asellus", "Porcellio laevis", "Cubaris murina",
    "Armadillidium maculatum", "Porcellionides pruinosus", "Trichorhina tomentosa", "Porcellio dilatatus",
)  # fmt: skip
FOODS = ("carrot", "courgette", "cucumber", "fish flakes", "mushroom", "potato", "apple", "pumpkin", "dried shrimp")
NAMES = ("Fern", "Willow", "Slate", "Cobble", "Thistle", "Bramble", "Heron", "Juniper")


@dataclass(frozen=True)
class Fact:
    """One fact: of a bin (``day`` is None: species, volume, started) or of what was done on a day.

    ``value`` is a number or a word; None where only that it was done is known.
    """

    bin: str
    day: dt.date | None
    act: str
    value: object = None
    also: object = None
    """Grams of a feeding, the way of a count."""


@dataclass(frozen=True)
class Known:
    """The bins with what is known of each, and what was done, by day."""

    bins: tuple[str, ...]
    of_bins: tuple[Fact, ...]
    deeds: tuple[Fact, ...]

    def of(self, name: str) -> dict[str, Fact]:
        """What is known of one bin, by act."""
        return {fact.act: fact for fact in self.of_bins if fact.bin == name}


def _names(rng: Random) -> list[str]:
    count = rng.randint(3, 6)
    style = rng.randrange(5)
    if style == 0:
        return rng.sample(NAMES, count)
    first = rng.randint(1, 12)
    letter = rng.choice("ABCDEKRT")
    form = ("{letter}{n}", "{letter}-{n:02}", "Tub {n}", "{letter}{n:02}")[style - 1]
    return [form.format(letter=letter, n=first + at) for at in range(count)]


def _deed(rng: Random, name: str, day: dt.date, act: str) -> Fact:
    also: object = None
    value: object = None
    if act == "water":
        value = rng.choice((20, 25, 30, 35, 40, 50, 60, 75, 80))
    elif act == "feed":
        value, also = rng.choice(FOODS), rng.choice((0.2, 0.3, 0.4, 0.5, 0.8, 1.2, 1.5))
    elif act == "leaf":
        value = rng.choice((0.2, 0.25, 0.5, 1, 1.5))
    elif act == "count":
        value, also = rng.randint(12, 180), rng.choice(("hide lift", "trap", "hand sort", "sieve"))
    elif act == "dead":
        value = rng.randint(1, 6)
    elif act == "substrate_change":
        value = rng.choice(("1/4", "1/3", "1/2", "2/3", "all"))
    elif act == "moss":
        value = rng.choice(("dry", "drying", "damp", "wet"))
    else:
        value = rng.randint(3, 30)
    return Fact(name, day, act, value, also)


SHARES = {"1/4": 0.25, "1/3": 1 / 3, "1/2": 0.5, "2/3": 2 / 3, "all": 1.0}
OFTEN = ("water",) * 6 + ("feed",) * 5 + ("moss",) * 4 + ("leaf",) * 2 + ("dead", "count", "substrate_change")


def draw(rng: Random, movements: bool = False) -> Known:
    """Draw a known log: three to six bins, some two months of work, no act twice for one bin on one day."""
    names = _names(rng)
    of_bins = []
    for name in names:
        start = dt.date(2023, 1, 1) + dt.timedelta(days=rng.randrange(700))
        volume = rng.choice((3, 5.7, 6, 8, 11, 14.5, 17, 22))
        of_bins += [
            Fact(name, None, "species", rng.choice(SPECIES)),
            Fact(name, None, "volume", volume),
            Fact(name, None, "started", start),
        ]
    first = dt.date(2025, 3, 1) + dt.timedelta(days=rng.randrange(40))
    days = sorted(rng.sample(range(55), rng.randint(6, 10)))
    deeds: dict[tuple[str, dt.date, str], Fact] = {}
    acts = ("animals_in", "animals_out") if movements else OFTEN
    for offset in days:
        day = first + dt.timedelta(days=offset)
        for name in rng.sample(names, rng.randint(1, len(names))):
            for act in rng.sample(acts, 1 if movements else rng.randint(1, 3)):
                deeds.setdefault((name, day, act), _deed(rng, name, day, act))
    return Known(tuple(names), tuple(of_bins), tuple(deeds.values()))
