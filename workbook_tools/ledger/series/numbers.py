"""How many animals each bin began with, what came in and went out, and every count with its method."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import lru_cache

from workbook_tools.fields import STATES
from workbook_tools.intake.values import Amount, Number
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.series.noted import Days, Floats, Noted, best, day_of, floats, ints, last_day, noted
from workbook_tools.ledger.series.sifting import old_substrate, put_back
from workbook_tools.problems import CellRef

PASSES = "passes"
"""The method of a count made pass by pass: the number is worked out from how finds fall, see `census`."""
UNKNOWN = "unsaid"
"""The method of a count that doesn't say how it was made."""
SAME_MOVE = 3
"""Days between two notes of one move, one in each of its two bins."""
BEGIN = 10
"""Animals that come within so many days of a bin's start are its founders."""
ACTS = frozenset({"count", "animals_in", "animals_out", "split", "move_up", "start", "dead"})
HALF, ALL = 0.5, 1.0


@dataclass(frozen=True, slots=True)
class Count:
    """One count: place of the bin, day, number, the range it may lie in, method by key, and its row."""

    bin: int
    day: int
    value: float
    low: float
    high: float
    method: str
    where: CellRef
    text: str = ""
    before: int = 0
    """Days by which ``day`` was put back: a count on a day of moves stands for the day before them."""


@dataclass(frozen=True, slots=True)
class Move:
    """Animals in (above 0) or out (below 0); or, with ``change`` NaN, a share of the animals.

    The share left this bin, or, where ``source`` is the place of another, came from there.
    """

    bin: int
    day: int
    change: float
    share: float
    dead: bool
    where: CellRef
    source: int = -1


@dataclass(frozen=True, eq=False)
class NumberSeries:
    """Numbers of all bins.

    Attributes
    ----------
    counts, moves
        By day.
    start_day : (B,) array
        The day each bin began, as far as known: else its first entry; 0 if nothing is known of it.
    start_number, start_sd : (B,) arrays
        Founders and how far off they may be on the log scale; NaN if not written.
    crowding : (B,) array
        The number at which the keeper calls the bin crowded; NaN if not written.
    """

    counts: tuple[Count, ...]
    moves: tuple[Move, ...]
    start_day: Days
    start_number: Floats
    start_sd: Floats
    crowding: Floats


def number_series(ledger: Ledger, on: dt.date) -> NumberSeries:
    """Gather counts and moves up to a day.

    What is counted on a day is counted before animals are sold, split off or brought in on it, so such a count is
    given the day before.
    A count or a move of several bins at once is shared out evenly. A move that is written in both of its bins within
    three days counts once. Stragglers found in old substrate left their bin with it and come
    back when found; those found on the day of the change change nothing. A guess of the list of bins that carries no
    date is of the last day of the log, and is used only when ``on`` isn't before that.
    """
    gathered = _Gathered(ledger, on)
    for one in noted(ledger, on, ACTS):
        gathered.take(one)
    gathered.undated()
    back = put_back(old_substrate(ledger, on), gathered.places)
    gathered.moves += [Move(bin, day, change, math.nan, False, where) for bin, day, change, where in back]
    moved = {(move.bin, move.day) for move in gathered.moves if not move.dead}
    gathered.counts = [replace(c, day=c.day - 1, before=1) if (c.bin, c.day) in moved else c for c in gathered.counts]
    starts = [gathered.start(place, bin) for place, bin in enumerate(ledger.bins.values())]
    return NumberSeries(
        counts=tuple(sorted(gathered.counts, key=lambda c: (c.day, c.bin))),
        moves=tuple(sorted(gathered.moves, key=lambda m: (m.day, m.bin))),
        start_day=ints([start[0] for start in starts]),
        start_number=floats([start[1] for start in starts]),
        start_sd=floats([start[2] for start in starts]),
        crowding=floats([_crowding(bin) for bin in ledger.bins.values()]),
    )


@lru_cache(maxsize=1)
def _phrases() -> tuple[tuple[re.Pattern[str], str], ...]:
    """Phrases of all methods, the longest first."""
    pairs = [(phrase, method) for method, phrases in STATES["method"].items() for phrase in phrases]
    pairs.sort(key=lambda pair: -len(pair[0]))
    return tuple((re.compile(rf"\b{re.escape(phrase)}\b"), method) for phrase, method in pairs)


@lru_cache(maxsize=4096)
def method_of(*texts: str) -> str:
    """The method a keeper's words mean, by the longest phrase known in the first text that has one."""
    for text in texts:
        plain = " ".join(re.sub(r"[^\w]+", " ", text.casefold()).split())
        for pattern, method in _phrases():
            if plain and pattern.search(plain):
                return method
    return UNKNOWN


@dataclass
class _Gathered:
    ledger: Ledger
    on: dt.date
    counts: list[Count] = field(default_factory=list)
    moves: list[Move] = field(default_factory=list)
    founders: dict[int, Number] = field(default_factory=dict)
    first: dict[int, int] = field(default_factory=dict)
    done: dict[tuple[int, int, float], int] = field(default_factory=dict)
    """Moves between two bins of the ledger, by source, target and number: the day."""

    def __post_init__(self) -> None:
        self.places = {name: place for place, name in enumerate(self.ledger.bins)}
        self.begins = [
            day_of(bin.started, self.on) if bin.started and bin.started.first <= self.on else 0
            for bin in self.ledger.bins.values()
        ]

    def take(self, one: Noted) -> None:
        """Take one entry of one bin."""
        self.first.setdefault(one.bin, one.day)
        act = one.entry.act
        number = _number(one.entry)
        if act == "count":
            if number is not None and method_of(one.entry.text("way"), one.entry.text("did")) != PASSES:
                self.counts.append(_count(one, number))
        elif act == "dead":
            if number is not None and 0 < number.best < math.inf:
                self.move(one, -number.best / one.among, dead=True)
        elif act == "start":
            if number is not None:
                self.founders.setdefault(one.bin, number)
        elif act == "animals_in":
            self._in(one, number)
        else:
            self._out(one, number)

    def move(self, one: Noted, change: float, *, share: float = math.nan, dead: bool = False, bin: int = -1) -> None:
        """Note a move of this bin, or of another."""
        self.moves.append(Move(one.bin if bin < 0 else bin, one.day, change, share, dead, one.entry.where))

    def _named(self, entry: Entry, key: str) -> list[int]:
        return [self.places[name] for name in entry.text(key).split(", ") if name in self.places]

    def _in(self, one: Noted, number: Number | None) -> None:
        if number is None or not 0 < number.best < math.inf:
            return
        if self.begins[one.bin] and one.day - self.begins[one.bin] <= BEGIN and self._has_founders(one.bin, number):
            return
        change = number.best / one.among
        sources = self._named(one.entry, "from_bin")
        for source in sources[:1]:
            if self._done_before(source, one.bin, change, one.day):
                return
            self.move(one, -change, bin=source)
        self.move(one, change)

    def _has_founders(self, place: int, number: Number) -> bool:
        """Whether the list names the founders already; if not, these are they."""
        bin = list(self.ledger.bins.values())[place]
        if _founders(bin) is None:
            self.founders.setdefault(place, number)
        return True

    def _out(self, one: Noted, number: Number | None) -> None:
        """Sold, split off or moved up, to a bin of the ledger or elsewhere."""
        act = one.entry.act
        targets = [place for place in self._named(one.entry, "to_bin") if place != one.bin]
        known = number is not None and 0 < number.best < math.inf
        if act == "move_up" and not targets:
            return
        if known and number is not None:
            change = number.best / one.among
            if targets and self._done_before(one.bin, targets[0], change, one.day):
                return
            self.move(one, -change)
            for target in targets:
                self._arrive(one, target, change / len(targets))
            return
        if act == "animals_out":
            return
        each = ALL / (len(targets) or 1) if act == "move_up" else ALL / (len(targets) + 1) if targets else HALF
        self.move(one, math.nan, share=each * (len(targets) or 1))
        for target in targets:
            begins = self.begins[target]
            day = begins if begins and abs(one.day - begins) <= BEGIN else one.day
            self.moves.append(Move(target, day, math.nan, each, False, one.entry.where, one.bin))

    def _arrive(self, one: Noted, target: int, change: float) -> None:
        begins = self.begins[target]
        if begins and abs(one.day - begins) <= BEGIN:
            self.founders.setdefault(target, Number.exactly(change))
        else:
            self.move(one, change, bin=target)

    def _done_before(self, source: int, target: int, change: float, day: int) -> bool:
        key = (source, target, change)
        before = self.done.get(key)
        if before is not None and day - before <= SAME_MOVE:
            return True
        self.done[key] = day
        return False

    def undated(self) -> None:
        """Take the guesses of the list of bins, which carry no date."""
        last = last_day(self.ledger)
        if last is not None and self.on < last:
            return
        day = (last or self.on).toordinal()
        for entry in self.ledger.entries:
            number = _number(entry) if entry.act == "count" and entry.when is None else None
            for name in entry.bins if number is not None else ():
                assert number is not None
                self.counts.append(_count(Noted(self.places[name], day, entry, len(entry.bins)), number, guess=True))

    def start(self, place: int, bin: Bin) -> tuple[int, float, float]:
        """The day a bin began, its founders, and how far off they may be on the log scale."""
        day = self.begins[place] or self.first.get(place, 0)
        number = _founders(bin) or self.founders.get(place)
        if number is None or not 0 < number.best < math.inf:
            return day, math.nan, math.nan
        high = number.high if math.isfinite(number.high) else 3 * number.best
        spread = math.log(max(high, number.best) / max(min(number.low, number.best), 0.5)) / 2.56
        return day, number.best, max(spread, 0.05)


def _count(one: Noted, number: Number, *, guess: bool = False) -> Count:
    entry, among = one.entry, one.among
    method = method_of(entry.text("way"), entry.text("did"))
    if method == UNKNOWN and (guess or among > 1):
        method = "guess"
    return Count(
        one.bin,
        one.day,
        number.best / among,
        number.low / among,
        number.high / among,
        method,
        entry.where,
        entry.text("way"),
    )


def _number(entry: Entry) -> Number | None:
    keys: Iterable[str] = ("dead", "number") if entry.act == "dead" else ("number", "amount")
    for key in keys:
        number = entry.number(key)
        if number is not None:
            return number
    return None


def _founders(bin: Bin) -> Number | None:
    fact = bin.facts.get("founders")
    value = fact.value if fact else None
    if isinstance(value, Amount):
        value = value.number
    return value if isinstance(value, Number) and 0 < value.best < math.inf else None


def _crowding(bin: Bin) -> float:
    target = bin.amount("target")
    value = best(target.number) if target is not None and target.unit == "count" else math.nan
    return value if value > 0 else math.nan
