"""What is true in the demo: one invented keeper's bins, and how each dries, eats, grows and wears down its substrate.

Everything here is made up. The rates are round numbers of a likely size, not measurements.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, field
from random import Random

FIRST = dt.date(2025, 5, 24)
LAST = dt.date(2026, 11, 22)
REPORT_ON = dt.date(2026, 11, 25)
START_NUMBER = 4217
TUESDAY, WEDNESDAY, SATURDAY, SUNDAY = 1, 2, 5, 6
ROUND_DAYS = (TUESDAY, WEDNESDAY, SATURDAY, SUNDAY)
HEATING_ON = (dt.date(2025, 10, 4), dt.date(2026, 10, 3))
PLUG_IN_SCENT = dt.date(2026, 6, 14)
"""A scent plug by the window: deaths follow there for nine days."""
SITTER = (dt.date(2026, 8, 3), dt.date(2026, 8, 16))
AWAY = (dt.date(2026, 2, 2), dt.date(2026, 2, 8))


@dataclass(frozen=True)
class Kind:
    """One species and line: appetite, growth a month when there is room, days a moss corner lasts, food."""

    species: str
    line: str
    appetite: str
    growth: float
    dry_days: float
    food_mg: float
    """Food eaten by one animal in a day, mg."""
    crowd: float
    """Animals a litre at which the keeper splits."""


KINDS = (
    Kind("Porcellio scaber", "Slate Rust", "medium", 0.28, 12.0, 1.6, 24),
    Kind("Porcellio scaber", "Tin Roof", "medium", 0.22, 13.2, 1.6, 24),
    Kind("Porcellio laevis", "Chalk Lane", "hearty", 0.42, 10.2, 4.2, 15),
    Kind("Porcellio dilatatus", "Barn Dusk", "hearty", 0.30, 14.4, 4.0, 14),
    Kind("Porcellio spinicornis", "Kiln Edge", "slow", 0.14, 19.2, 1.4, 22),
    Kind("Porcellionides pruinosus", "Fog Meal", "hearty", 0.50, 14.4, 1.2, 50),
    Kind("Armadillidium vulgare", "Amber Weir", "medium", 0.20, 16.8, 1.7, 22),
    Kind("Armadillidium maculatum", "Quarry Dots", "medium", 0.19, 16.8, 1.7, 22),
    Kind("Armadillidium nasatum", "Pale Harbour", "medium", 0.26, 15.6, 1.5, 24),
    Kind("Oniscus asellus", "Wall Foot", "slow", 0.15, 8.4, 1.5, 20),
    Kind("Trichorhina tomentosa", "Flour Loft", "slow", 0.38, 7.2, 0.25, 120),
    Kind("Cubaris murina", "Small Plum", "slow", 0.24, 9.6, 0.7, 45),
)
EATS_LEAF = {"slow": 0.7, "medium": 1.1, "hearty": 2.1}
WAYS = {"full sort": 0.95, "under bark": 0.18, "trap": 0.10}


@dataclass
class Bin:
    """One bin: what the keeper knows (name, kind, place, size) and what only this script knows (rates and state)."""

    name: str
    kind: Kind
    place: str
    litres: float
    started: dt.date
    came_from: str
    founders: int
    dry_days: float
    growth: float
    appetite: float
    air: str
    status: str = "active"
    ended: dt.date | None = None
    number: float = 0.0
    wet: float = 1.0
    leaf: float = 1.0
    fresh: float = 0.95
    """Share of the substrate that can still be recognised."""
    soil_changed: dt.date | None = None
    """The last change of substrate before the log begins."""
    fed_on: dt.date | None = None
    portion: float = 0.0
    left: float = 0.0
    dead_waiting: int = 0
    next_count: dt.date = FIRST
    next_soil: dt.date = FIRST
    numbers: list[tuple[str, int, float]] = field(default_factory=list)

    @property
    def species(self) -> str:
        return "mixed" if self.status == "straggler tub" else self.kind.species

    @property
    def line(self) -> str:
        return "" if self.status == "straggler tub" else self.kind.line

    @property
    def live(self) -> bool:
        return self.ended is None and self.status in ("active", "quarantine")

    @property
    def crowd(self) -> float:
        return self.kind.crowd * self.litres

    def pass_day(self, day: dt.date, dryness: float, chance: Random) -> None:
        """Let one day go by: the moss dries, food and leaf go, substrate wears, animals are born and die."""
        self.wet = max(0.0, self.wet - dryness / self.dry_days)
        eaten = self.kind.food_mg * self.appetite * self.number / 1000
        self.left = max(0.0, self.left - eaten)
        eats_leaf = 0.0002 * EATS_LEAF[self.kind.appetite] * self.appetite * self.number * self.kind.food_mg / 1.6
        self.leaf = max(0.0, self.leaf - eats_leaf - 0.002 * self.leaf)
        self.fresh *= math.exp(-(0.0009 + 0.0035 * eats_leaf / (0.016 * self.litres)))
        room = 1 - self.number / (1.3 * self.crowd)
        self.number = max(1.0, self.number * (1 + self.growth * room / 30.4))
        losses = 0.00008 * self.number * (3.0 if self.wet == 0 else 1.0)
        if self.place == "Window sill" and 0 < (day - PLUG_IN_SCENT).days <= 9:
            losses += 0.012 * self.number
        found = poisson(losses, chance)
        self.dead_waiting += found
        self.number = max(1.0, self.number - found)

    def moss_state(self) -> str:
        for word, least in (("wet", 0.75), ("damp", 0.40), ("drying", 0.10)):
            if self.wet > least:
                return word
        return "dry"

    def leftovers(self, day: dt.date) -> str:
        if not self.portion or self.fed_on is None:
            return ""
        share = self.left / self.portion
        if share > 0.35 and (day - self.fed_on).days >= 4:
            return "mouldy"
        return "gone" if share < 0.03 else "some" if share < 0.5 else "most"

    def soil_state(self) -> str:
        for word, least in (("fresh", 0.85), ("good", 0.60), ("part frass", 0.38), ("mostly frass", 0.18)):
            if self.fresh > least:
                return word
        return "spent"


def poisson(mean: float, chance: Random) -> int:
    """Draw a Poisson number by multiplying uniform ones; fine for the small means used here."""
    if mean > 30:
        return max(0, round(chance.gauss(mean, math.sqrt(mean))))
    limit, product, drawn = math.exp(-mean), chance.random(), 0
    while product > limit:
        product *= chance.random()
        drawn += 1
    return drawn


def room(day: dt.date, chance: Random) -> tuple[float, float]:
    """Give the temperature (C) and relative humidity (%) of a day."""
    season = math.cos(2 * math.pi * (day.timetuple().tm_yday - 200) / 365)
    heated = any(0 <= (day - on).days < 190 for on in HEATING_ON)
    warm = 19.5 + 3.0 * season + (1.5 if heated else 0.0) + chance.gauss(0, 0.5)
    humid = 62 + 5 * season - (13 if heated else 0) + chance.gauss(0, 3)
    return round(warm, 1), round(humid)


def dryness(warm: float, humid: float) -> float:
    """How fast moss dries on such a day: 1 at 20 C and 60 %, in proportion to the air's vapour pressure deficit."""
    deficit = 0.6108 * math.exp(17.27 * warm / (warm + 237.3)) * (1 - humid / 100)
    return deficit / 0.935


CELLAR = [f"{shelf}{number:02d}" for shelf in "ABCD" for number in range(1, 10)]
SPARE = [f"S{number:02d}" for number in range(1, 25)]


def place_of(name: str) -> str:
    """Where a bin stands: shelves A to D in the cellar, three places in the spare room."""
    if name == "Tub":
        return "Under the stairs"
    if name[0] != "S":
        return f"Shelf {name[0]}"
    number = int(name[1:])
    return "Window sill" if number <= 8 else "Rack top" if number <= 16 else "Rack low"


def new_bin(
    name: str, kind: Kind, started: dt.date, came_from: str, founders: int, litres: float, chance: Random
) -> Bin:
    """Set up one bin with rates of its own around those of its kind."""
    air = chance.choice(("low", "medium", "medium", "high"))
    airy = {"low": 1.2, "medium": 1.0, "high": 0.75}[air]
    return Bin(
        name=name,
        kind=kind,
        place=place_of(name),
        litres=litres,
        started=started,
        came_from=came_from,
        founders=founders,
        dry_days=round(kind.dry_days * airy * math.exp(chance.gauss(0, 0.12)), 2),
        growth=round(kind.growth * math.exp(chance.gauss(0, 0.2)), 3),
        appetite=round(math.exp(chance.gauss(0, 0.15)), 3),
        air=air,
        number=float(founders),
        leaf=round(0.08 * litres, 2),
        fresh=0.95,
        next_count=max(started, FIRST) + dt.timedelta(days=chance.randrange(10, 80)),
        next_soil=max(started, FIRST) + dt.timedelta(days=chance.randrange(7, 60)),
    )


def first_bins(chance: Random) -> list[Bin]:
    """Give the bins that stand there on the first day of the log: 22 in the cellar and 16 in the spare room."""
    names = [name for name in CELLAR if int(name[1:]) <= (6 if name[0] in "AB" else 5)] + SPARE[:16]
    bins = []
    for order, name in enumerate(names):
        kind = KINDS[order % len(KINDS)]
        age = chance.randrange(120, 900)
        litres = chance.choice((3.0, 5.7, 5.7, 9.0, 12.0))
        source = chance.choice(("swap", "club table", "own garden", "bred here", "gift"))
        made = new_bin(name, kind, FIRST - dt.timedelta(days=age), source, chance.randrange(8, 40), litres, chance)
        made.number = made.crowd * chance.uniform(0.2, 0.75)
        made.soil_changed = FIRST - dt.timedelta(days=chance.randrange(20, min(age, 300)))
        made.fresh = 0.95 * math.exp(-0.003 * (FIRST - made.soil_changed).days)
        made.wet = chance.uniform(0.3, 1.0)
        bins.append(made)
    tub = new_bin("Tub", KINDS[0], FIRST - dt.timedelta(days=300), "old soil", 0, 18.0, chance)
    tub.status = "straggler tub"
    return [*bins, tub]
