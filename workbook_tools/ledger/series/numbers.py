"""How many animals each bin began with, what came in and went out, and every count with its method."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import combinations

from workbook_tools.fields import STATES
from workbook_tools.intake.values import Amount, Number
from workbook_tools.ledger.moved import FOUNDING, MOVES, animals, moved_by
from workbook_tools.ledger.records import Bin, Ledger
from workbook_tools.ledger.series.noted import Days, Floats, Noted, best, day_of, floats, ints, last_day, noted
from workbook_tools.ledger.series.sifting import old_substrate, put_back
from workbook_tools.ledger.series.transfers import Transfer, times, transfers
from workbook_tools.problems import CellRef

PASSES = "passes"
"""The method of a count made pass by pass: the number is worked out from how finds fall, see `census`."""
UNKNOWN = "unsaid"
"""The method of a count that doesn't say how it was made."""
ACTS = MOVES | {"count", "dead"}
ALL = 1.0
MANY = 8
"""Arrivals about a start of which every choice is tried for the founders the keeper wrote."""


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
    A count or a move of several bins at once is shared out evenly. Moves are those of `transfers`, each with both of
    its ends: what leaves a bin for another arrives there. What comes to a bin about the day it began founds it; where
    the keeper wrote how many founders there were, it is among them as far as it fits. What else came or left by then is
    given the day after, for a bin must hold its founders first. Stragglers found in old substrate left their bin with
    it and come back when found; those found on the day of the change change nothing. A guess of the list of bins that
    carries no date is of the last day of the log, and is used only when ``on`` isn't before that.
    """
    gathered = _Gathered(ledger, on)
    for one in noted(ledger, on, ACTS):
        gathered.take(one)
    gathered.undated()
    gathered.moved()
    back = put_back(old_substrate(ledger, on), gathered.places)
    gathered.moves += [Move(bin, day, change, math.nan, False, where) for bin, day, change, where in back]
    starts = [gathered.start(place, bin) for place, bin in enumerate(ledger.bins.values())]
    gathered.moves = [gathered.after_start(move, *starts[move.bin][:2]) for move in gathered.moves]
    moved = {(move.bin, move.day) for move in gathered.moves if not move.dead}
    gathered.counts = [replace(c, day=c.day - 1, before=1) if (c.bin, c.day) in moved else c for c in gathered.counts]
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
        number = animals(one.entry)[1]
        if number is None:
            return
        if act == "count":
            if method_of(one.entry.text("way"), one.entry.text("did")) != PASSES:
                self.counts.append(_count(one, number))
        elif act == "dead":
            if 0 < number.best < math.inf:
                gone = -number.best / one.among
                self.moves.append(Move(one.bin, one.day, gone, math.nan, True, one.entry.where))
        elif act == "start" and 0 < number.best < math.inf:
            targets = moved_by(one.entry, self.places).targets
            for name in targets:
                self.founders.setdefault(self.places[name], times(number, 1 / len(targets)))

    def moved(self) -> None:
        """Take the animals that went from bin to bin, came in and left."""
        shares: dict[tuple[CellRef, int], Move] = {}
        by_target: dict[int, list[Transfer]] = {}
        for one in transfers(self.ledger, self.on):
            by_target.setdefault(one.target, []).append(one)
        for target, came in by_target.items():
            for one in self._arrived(target, came) if target >= 0 else came:
                if one.source < 0:
                    continue
                if one.number is not None:
                    self.moves.append(Move(one.source, one.day, -one.number.best, math.nan, False, one.where))
                    continue
                key = one.where, one.source
                share = min(one.share + (shares[key].share if key in shares else 0.0), ALL)
                shares[key] = Move(one.source, one.day, math.nan, share, False, one.where)
        self.moves += shares.values()

    def _arrived(self, target: int, came: list[Transfer]) -> list[Transfer]:
        """Let animals arrive in a bin: as its founders where it began then. What came, as it is known now."""
        day = min(one.day for one in came)
        stated = _founders(list(self.ledger.bins.values())[target]) or self.founders.get(target)
        begins = self.begins[target]
        if not begins and stated is not None and day <= self.first.get(target, day):
            begins = day
        self.first[target] = min(day, self.first.get(target, day))
        founding = _founding(came, begins)
        later = [one for one in came if one not in founding]
        if stated is not None:
            founding, more = _fitting(stated, founding)
            later += more
        elif any(one.number is None for one in founding):
            self.moves += [_into(replace(one, day=begins)) for one in founding]
        elif founding:
            self.founders[target] = _sum([one.number for one in founding if one.number])
        self.moves += [_into(one) for one in later]
        return [*founding, *later]

    def after_start(self, move: Move, began: int, founders: float) -> Move:
        """Give what left a bin about its start, or came to it beside the founders known, the day after the start."""
        founds = (move.change > 0 or move.source >= 0) and math.isnan(founders)
        known = self.begins[move.bin] > 0 or not math.isnan(founders)
        if founds or not known or not began - FOUNDING <= move.day <= began or began >= self.on.toordinal():
            return move
        return replace(move, day=began + 1)

    def undated(self) -> None:
        """Take the guesses of the list of bins, which carry no date."""
        last = last_day(self.ledger)
        if last is not None and self.on < last:
            return
        day = (last or self.on).toordinal()
        for entry in self.ledger.entries:
            number = animals(entry)[1] if entry.act == "count" and entry.when is None else None
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


def _into(one: Transfer) -> Move:
    """What came into a bin: a number, or a share of the animals of the bin it came from."""
    if one.number is not None:
        return Move(one.target, one.day, one.number.best, math.nan, False, one.where)
    return Move(one.target, one.day, math.nan, one.share, False, one.where, one.source)


def _founding(came: Sequence[Transfer], begins: int) -> list[Transfer]:
    """What a bin began with: what came about that day, else what came last before it."""
    about = [one for one in came if begins and abs(one.day - begins) <= FOUNDING]
    before = [one.day for one in came if one.day < begins]
    return about or [one for one in came if before and one.day == max(before)]


def _fitting(stated: Number, founding: Sequence[Transfer]) -> tuple[list[Transfer], list[Transfer]]:
    """What is among the founders the keeper wrote, and what came besides.

    Of what came, those are among them that fill their number best without going beyond it; the first to come where
    none fits. Where no number is written of what came, it is what is missing of the founders; all animals of another
    bin stay all.
    """
    numbered = [one for one in founding if one.number is not None]
    first = numbered[:MANY]
    fitting = [
        some
        for size in range(1, len(first) + 1)
        for some in combinations(first, size)
        if sum(one.number.low for one in some if one.number) <= stated.high * (1 + 1e-9)
    ]
    inside = list(max(fitting, key=_animals) if fitting else first[:1])
    more = list(numbered)
    for one in inside:
        more.remove(one)
    taken = _animals(inside)
    shares = [one for one in founding if one.number is None and one.share < ALL]
    left = max(stated.best - taken, 0.0)
    number = times(stated, left / stated.best / len(shares)) if shares and left else None
    inside += [replace(one, number=number) if one in shares else one for one in founding if one.number is None]
    return inside, more


def _animals(some: Iterable[Transfer]) -> float:
    return sum(one.number.best for one in some if one.number)


def _sum(numbers: Sequence[Number]) -> Number:
    return Number(*(sum(getattr(number, part) for number in numbers) for part in ("best", "low", "high")))


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
