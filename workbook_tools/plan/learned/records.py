"""What was learned of each bin, in numbers and dates: plain records for tasks and sheets."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from workbook_tools.problems import CellRef, Problem


@dataclass(frozen=True, slots=True)
class Range:
    """A number with its 80 % interval: one chance in ten that it is below ``low``, one that it is above ``high``."""

    low: float
    middle: float
    high: float


@dataclass(frozen=True, slots=True)
class DateRange:
    """A day with its 80 % interval; None stands for later than can be said (more than ten years ahead)."""

    low: dt.date | None
    middle: dt.date | None
    high: dt.date | None


@dataclass(frozen=True, slots=True)
class Point:
    """One point of a chart."""

    day: dt.date
    low: float
    middle: float
    high: float


NOT_YET = "common practice, not yet learned here"
"""What due days rest on where too little is learned of the bin itself."""


@dataclass(frozen=True, slots=True)
class Basis:
    """What an estimate rests on.

    ``notes`` counts the keeper's notes of this bin that tell something of it. ``learned`` says whether they are
    enough for due dates to rest on it, and ``said`` says it in words: "learned from 9 notes", that it begins with what
    was learned of the bin it was split off, or `NOT_YET`.
    """

    notes: int
    learned: bool
    said: str


@dataclass(frozen=True, slots=True)
class MossForecast:
    """The moss corner of one bin.

    ``days`` is the time from watering to dry as the air is now. ``simple`` is the mean of the last three times between
    waterings. ``dry`` is when it is dry after the last watering, ``next`` when to look (never later than the ceiling;
    ``by_ceiling`` where that came first); both None where no watering is known. ``found`` is the state at the last
    look since. ``too_wet`` says what shows that it is too wet, empty if nothing does.
    """

    bin: str
    basis: Basis
    days: Range
    simple: float | None
    watered: dt.date | None
    dry: DateRange | None
    next: dt.date | None
    by_ceiling: bool
    found: str
    looked: dt.date | None
    too_wet: str
    too_wet_where: CellRef | None


@dataclass(frozen=True, slots=True)
class FoodForecast:
    """One kind of food in one bin.

    ``a_day`` is grams eaten in a day by today's animals. ``portion`` is gone by the next day four times in five;
    ``limited`` is -1 or 1 where it was kept to half or twice the last one, which would have been ``wanted``.
    ``simple`` is the mean grams a day of the last three feedings seen. ``left`` is what was found of the last feeding.
    """

    bin: str
    kind: str
    basis: Basis
    a_day: Range
    simple: float | None
    portion: float
    wanted: float
    limited: int
    last_grams: float | None
    last_food: str
    last_day: dt.date
    left: str


@dataclass(frozen=True, slots=True)
class LeafForecast:
    """The leaf litter of one bin: litres left, litres and grams used a week, when it runs out.

    ``simple`` is litres a week over the last three top-ups. ``next`` is the day by which it has run out one time in
    ten. ``path`` holds weekly points of the past and ahead.
    """

    bin: str
    basis: Basis
    left: Range
    a_week: Range
    grams_a_week: Range
    simple: float | None
    runs_out: DateRange
    next: dt.date | None
    path: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class SubstrateForecast:
    """The substrate of one bin: the share still recognisable, when it is spent.

    ``smallest`` is the smallest of a third, a half, two thirds, three quarters and all that lasts ``months`` if
    renewed now, None where none does. ``simple`` is where a straight line from the last renewal ends.
    """

    bin: str
    basis: Basis
    share: Range
    spent: DateRange
    smallest: float | None
    months: float
    simple: dt.date | None
    path: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class MarksCount:
    """The last number of a bin's animals worked out from marks, with its limits; ``high`` None where there is none."""

    number: float
    low: float
    high: float | None
    day: dt.date


@dataclass(frozen=True, slots=True)
class NumberForecast:
    """The animals of one bin.

    ``growth`` is a month, as a share. ``doubles`` and ``crowded`` are None where there is nothing to say: no crowding
    number is given; ``already`` where it is crowded now, more likely than not. ``crowding`` is the keeper's number.
    ``last_count`` with its day and method is what simple reckoning goes by. ``counted`` is False where nothing at all
    is written of how many there are; ``by_eating`` where what they eat, beside like bins, had a say. ``marks``
    is the last number by marks, whatever was counted since.
    """

    bin: str
    basis: Basis
    now: Range
    growth: Range
    doubles: DateRange | None
    crowding: float | None
    crowded: DateRange | None
    already: bool
    last_count: float | None
    last_day: dt.date | None
    last_method: str
    counted: bool
    path: tuple[Point, ...]
    marks: MarksCount | None = None
    by_eating: bool = False


@dataclass(frozen=True, slots=True)
class LineForecast:
    """One line over all its bins, and the variation it is likely to keep.

    ``bins`` names all of them, ``alive`` counts those not gone. ``began`` is the day of the first one, or where numbers
    begin to be followed; ``founders`` its founders, None where they aren't written. ``now`` and ``least`` are animals
    in all bins together, today and at the lowest; ``breeders`` the animals that bred in effect (Ne), the harmonic mean
    over generations. A generation is ``months``; so many ``generations`` have passed.
    ``kept`` is the share of its expected heterozygosity since it began; its two ends are for the fewest and the most of
    the animals that may breed in effect, and no 80 % interval.
    """

    species: str
    line: str
    bins: tuple[str, ...]
    alive: int
    began: dt.date
    founders: float | None
    now: float
    least: float
    breeders: float
    months: float
    generations: float
    kept: Range


@dataclass(frozen=True, slots=True)
class FoodSwing:
    """By how much all bins together eat more or less of a kind of food than usual for them, and since about when.

    ``share`` is 0.3 for three tenths more, -0.3 for three tenths less.
    """

    kind: str
    share: float
    since: dt.date


@dataclass(frozen=True)
class Estimates:
    """All that was learned, by bin; a bin that is gone or resting has none, one of a kind without notes may have some.

    ``readings`` is the number of room readings that set the pace of drying; 0 where the days were counted as they
    are, and then the season is only a wider uncertainty. ``food_swings`` names kinds of food of which all bins eat more
    or less than usual just now.
    """

    on: dt.date
    moss: Mapping[str, MossForecast] = field(default_factory=dict)
    food: Mapping[str, tuple[FoodForecast, ...]] = field(default_factory=dict)
    leaf: Mapping[str, LeafForecast] = field(default_factory=dict)
    substrate: Mapping[str, SubstrateForecast] = field(default_factory=dict)
    numbers: Mapping[str, NumberForecast] = field(default_factory=dict)
    lines: tuple[LineForecast, ...] = ()
    readings: int = 0
    food_swings: tuple[FoodSwing, ...] = ()
    problems: tuple[Problem, ...] = ()
