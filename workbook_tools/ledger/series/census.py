"""Catches with marks, and passes through the whole content of a bin: what a number can be worked out from."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from dataclasses import dataclass, field

from workbook_tools.intake.values import Amount
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.noted import Noted, noted
from workbook_tools.ledger.series.numbers import PASSES, Count, Move, method_of
from workbook_tools.ledger.series.sifting import Sifted, old_substrate, passes_in
from workbook_tools.ledger.series.substrate import WHOLE, share_of
from workbook_tools.problems import CellRef, Problem

ONE_CENSUS = 14
"""Days from one catch to the next within which they are taken together."""
ACTS = frozenset({"mark", "recapture", "count", "sift", "substrate_change"})
LEAVE = frozenset({"dead", "animals_out", "split", "move_up"})
ALL = 0.999


@dataclass(frozen=True, slots=True)
class Catch:
    """One catch of a bin: how many were caught, and how many of these carried a mark.

    ``marks`` holds, for each marking before it, the days since and the marked animals that are still there as far as
    the log tells; those that lost their mark aren't taken out. ``in_place`` is for animals counted where they sat, of
    which one may be met twice.
    """

    day: int
    caught: int
    again: int
    marks: tuple[tuple[int, float], ...]
    where: CellRef
    in_place: bool = False

    @property
    def marked(self) -> float:
        """Marked animals there, never fewer than were met."""
        return max(sum(number for _, number in self.marks), float(self.again))


@dataclass(frozen=True, slots=True)
class Census:
    """Catches of one bin taken together: no more than two weeks apart, and nobody came or was taken out between."""

    bin: int
    catches: tuple[Catch, ...]


@dataclass(frozen=True, slots=True)
class Passes:
    """Passes through all of a bin, and checks of a trap that went on with them.

    ``changed`` says that they went through what a full change of substrate took out on ``day``: what wasn't found left
    the bin with it.
    """

    bin: int
    day: int
    catches: tuple[int, ...]
    trapped: tuple[int, ...]
    changed: bool
    where: CellRef


@dataclass(frozen=True, eq=False)
class CensusSeries:
    """All that numbers can be worked out from, by day; ``counts`` holds single passes, which are counts."""

    censuses: tuple[Census, ...]
    passes: tuple[Passes, ...]
    counts: tuple[Count, ...]
    problems: tuple[Problem, ...]


def census_series(ledger: Ledger, on: dt.date, moves: Iterable[Move]) -> CensusSeries:
    """Gather censuses and passes up to a day.

    Parameters
    ----------
    ledger : Ledger
        Entries ``mark``, ``recapture``, ``sift``, and ``count`` where it says how many carried a mark, or was made by
        passes.
    on : date
        The day up to which entries are known.
    moves : iterable of Move
        What came and went, as `number_series` gives it.

    Notes
    -----
    On one day animals are caught first, then marked, then moved. Marked animals among those that died or were taken
    out are taken out as the entry says under 'With a mark', else as many as their share among the next catch. A split
    takes its share of them. A marking without a number on the day of a catch is one of all that had no mark.
    """
    gathered = _Gathered(tuple(ledger.bins))
    entries = list(noted(ledger, on, ACTS))
    left = {(one.bin, one.entry.where): marked for one in noted(ledger, on, LEAVE) if (marked := _marked(one.entry))}
    events: list[tuple[int, int, int, Noted | Move]] = []
    for order, one in enumerate(entries):
        place = {"recapture": 0, "count": 0, "mark": 1}.get(one.entry.act, -1)
        if place >= 0 and (one.entry.act != "count" or _marked(one.entry) is not None):
            events.append((one.day, place, order, one))
    # what another bin gives is a share of what it held in the morning
    events += [(move.day, 2 if move.source >= 0 else 3, order, move) for order, move in enumerate(moves)]
    events.sort(key=lambda event: event[:3])
    marked_on = {(one.bin, one.day) for one in entries if one.entry.act == "mark"}
    for _, _, _, event in events:
        if isinstance(event, Move):
            gathered.move(event, left.get((event.bin, event.where)))
        elif event.among > 1:
            gathered.several(event)
        elif event.entry.act == "mark":
            gathered.mark(event)
        else:
            gathered.catch(event, (event.bin, event.day) in marked_on)
    gathered.close_all()
    sifted = old_substrate(ledger, on)
    passes, counts = _passes(entries, sifted, gathered.names)
    for one in sifted.apart:
        gathered.apart(one)
    return CensusSeries(
        tuple(sorted(gathered.censuses, key=lambda census: (census.catches[-1].day, census.bin))),
        tuple(passes),
        tuple(counts),
        tuple(gathered.problems),
    )


@dataclass
class _Marked:
    """The marks of one bin: batches of day and number, the most there can be, and losses not yet taken from them."""

    batches: list[tuple[int, float]] = field(default_factory=list)
    most: float = 0.0
    lost: list[tuple[int, float]] = field(default_factory=list)
    open: list[Catch] = field(default_factory=list)
    unmarked: int = 0
    """Caught without a mark in the last catch, and so perhaps marked then."""
    caught_on: int = 0

    @property
    def there(self) -> float:
        return sum(number for _, number in self.batches)

    def take(self, number: float, until: int) -> None:
        """Take so many marked animals out of what was marked up to a day, of each batch its share."""
        of = sum(n for day, n in self.batches if day <= until)
        keep = max(1 - number / of, 0.0) if of > 0 else 1.0
        self.batches = [(day, n * keep if day <= until else n) for day, n in self.batches]


@dataclass
class _Gathered:
    names: tuple[str, ...]
    censuses: list[Census] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    bins: dict[int, _Marked] = field(default_factory=dict)

    def of(self, place: int) -> _Marked:
        return self.bins.setdefault(place, _Marked())

    def problem(self, code: str, one: Noted, value: str, **facts: str) -> None:
        where = one.entry.cell("marked") if "marked" in one.entry.facts else one.entry.where
        self.problems.append(Problem(code, where, {"bin": self.names[one.bin], **facts}, value))

    def several(self, one: Noted) -> None:
        """Say once that a marking or catch names several bins."""
        if one.entry.bins[0] == self.names[one.bin]:
            facts = {"bins": ", ".join(one.entry.bins)}
            self.problems.append(Problem("census.several_bins", one.entry.where, facts, facts["bins"]))

    def apart(self, one: Noted) -> None:
        """Name a sift that is neither of old substrate nor through all of one bin."""
        if _through_all(one.entry):
            if one.among > 1:
                self.several(one)
        elif one.entry.bins[0] == self.names[one.bin]:
            facts = {"bin": ", ".join(one.entry.bins), "number": one.entry.text("number")}
            self.problems.append(Problem("census.sift_of_what", one.entry.cell("number"), facts, facts["number"]))

    def close(self, place: int) -> None:
        bin = self.of(place)
        if bin.open:
            self.censuses.append(Census(place, tuple(bin.open)))
            bin.open = []

    def close_all(self) -> None:
        for place in sorted(self.bins):
            self.close(place)

    def mark(self, one: Noted) -> None:
        bin = self.of(one.bin)
        number = _whole(one.entry)
        if number is None and bin.caught_on == one.day:
            number = bin.unmarked
        if number is None:
            self.problem("census.mark_unnumbered", one, one.entry.text("number"))
            return
        if number > 0:
            bin.batches.append((one.day, float(number)))
            bin.most += number

    def move(self, move: Move, marked: int | None) -> None:
        bin = self.of(move.bin)
        if not move.dead:
            self.close(move.bin)
        if math.isfinite(move.change):
            if move.change < 0 and marked is not None:
                bin.take(marked, move.day)
                bin.most = max(bin.most - marked, 0.0)
            elif move.change < 0:
                bin.lost.append((move.day, -move.change))
        elif move.source >= 0:
            source = self.of(move.source)
            bin.batches += [(day, number * move.share) for day, number in source.batches]
            bin.most += source.most
        else:
            bin.batches = [(day, number * (1 - move.share)) for day, number in bin.batches]
            if move.share >= ALL:
                bin.batches, bin.most = [], 0.0

    def catch(self, one: Noted, marked_today: bool) -> None:
        entry, bin = one.entry, self.of(one.bin)
        caught, again = _whole(entry), _marked(entry)
        if caught is None or again is None:
            self.problem("census.not_told", one, entry.text("marked") or entry.text("number"))
            return
        bin.unmarked, bin.caught_on = max(caught - again, 0), one.day
        if again > caught:
            self.problem("census.more_than_caught", one, str(again), marked=str(again), caught=str(caught))
        elif bin.most <= 0:
            # the first catch of a census in which all are marked has nothing to meet yet
            if again > 0 or not (marked_today or entry.act == "count"):
                self.problem("census.no_marking", one, str(again))
        elif again > bin.most + 0.5:
            self.problem("census.more_marked", one, str(again), marked=str(again), known=f"{bin.most:.0f}")
        elif caught == 0:
            self.problem("census.none_caught", one, "0")
        else:
            for day, number in bin.lost:
                bin.take(number * again / caught, day)
            bin.lost = []
            if bin.open and one.day - bin.open[-1].day > ONE_CENSUS:
                self.close(one.bin)
            marks = tuple((one.day - day, number) for day, number in bin.batches if number > 0)
            bin.open.append(Catch(one.day, caught, again, marks, entry.where, entry.act == "count"))


def _number(entry: Entry, key: str) -> int | None:
    fact = entry.facts.get(key)
    if fact is not None and isinstance(fact.value, Amount) and fact.value.unit not in ("", "count"):
        return None
    number = entry.number(key)
    return round(number.best) if number is not None and number.best >= 0 else None


def _whole(entry: Entry) -> int | None:
    number = _number(entry, "number")
    return number if number is not None else _number(entry, "amount")


def _marked(entry: Entry) -> int | None:
    return _number(entry, "marked")


def _passes(entries: list[Noted], sifted: Sifted, names: tuple[str, ...]) -> tuple[list[Passes], list[Count]]:
    """Group passes: those through a bin on days on end, and those through what a full change took out."""
    passes, counts = [], []
    lots = sifted.lots
    places = {name: place for place, name in enumerate(names)}
    full = {(one.bin, one.entry.where) for one in entries if one.entry.act == "substrate_change" and _full(one.entry)}
    old = {check.where for lot in lots for check in lot.passes}
    for lot in lots:
        bin, caught = places[lot.bin], tuple(one.found for one in lot.passes)
        if (bin, lot.where) not in full or not caught:
            continue
        trapped = tuple(one.found for one in lot.traps)
        if len(caught) > 1 or any(trapped):
            passes.append(Passes(bin, lot.begun, caught, trapped, True, lot.passes[-1].where))
        else:
            counts.append(_single(bin, lot.begun - 1, caught[0], "sieve", lot.passes[0].where))
    groups: dict[tuple[int, int], list[tuple[int, ...]]] = {}
    last: dict[int, tuple[int, int]] = {}
    where: dict[tuple[int, int], CellRef] = {}
    for one in entries:
        if one.among > 1 or one.entry.where in old or not _through_all(one.entry) or not (found := _found(one.entry)):
            continue
        began, before = last.get(one.bin, (one.day, one.day))
        last[one.bin] = (began, one.day) if one.day - before <= 1 else (one.day, one.day)
        key = (last[one.bin][0], one.bin)
        groups.setdefault(key, []).append(found)
        where[key] = one.entry.where
    for (day, bin), several in groups.items():
        caught = tuple(number for numbers in several for number in numbers)
        if len(caught) > 1:
            passes.append(Passes(bin, day, caught, (), False, where[day, bin]))
        else:
            counts.append(_single(bin, day, caught[0], "hand sort", where[day, bin]))
    passes.sort(key=lambda one: (one.day, one.bin))
    counts.sort(key=lambda one: (one.day, one.bin))
    return passes, counts


def _single(bin: int, day: int, found: int, method: str, where: CellRef) -> Count:
    return Count(bin, day, float(found), float(found), float(found), method, where)


def _through_all(entry: Entry) -> bool:
    """Whether an entry is a pass through all of a bin, by its own words."""
    texts = entry.text("way"), entry.text("did")
    if entry.act == "count":
        return method_of(*texts) == PASSES
    return entry.act == "sift" and (method_of(texts[0]) == PASSES or any(WHOLE.search(text) for text in texts))


def _found(entry: Entry) -> tuple[int, ...]:
    """Animals found in each pass that an entry tells of."""
    if found := passes_in(entry):
        return found
    whole = _whole(entry)
    return () if whole is None else (whole,)


def _full(entry: Entry) -> bool:
    """Whether an entry says itself that all of the substrate was changed; one that says nothing doesn't."""
    said = "share" in entry.facts or any(WHOLE.search(entry.text(key)) for key in ("did", "way"))
    return said and share_of(entry) >= ALL
