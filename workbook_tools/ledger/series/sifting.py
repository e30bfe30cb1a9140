"""Old substrate of each bin after a change: passes that sifted it, checks of its trap, what came back, its end."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from workbook_tools.defaults import DEFAULTS
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.noted import Noted, best, noted
from workbook_tools.ledger.status import statuses
from workbook_tools.problems import CellRef, Problem

ACTS = frozenset({"substrate_change", "sift", "trap", "freeze", "discard", "animals_in", "animals_out", "split"})
BEFORE = 3
"""Days by which a pass may be written before its change, and an arrival after the find that it tells of again."""
BETWEEN = 21
"""Days after a change, or after a pass, by which a pass is one more unless it says that it is of old substrate."""
WAITS = re.compile(r"straggl|\btub|corner|\btrap|\bbait|\bwait|\bhold|\bheld\b|kept|set aside", re.IGNORECASE)
"""Words for old substrate that is kept for a while."""
ENDS = re.compile(
    r"freez|froz|\bbin\b|binned|waste|rubbish|trash|discard|thrown?|away|bak(?:ed|ing)|oven", re.IGNORECASE
)
"""Words for old substrate that is done with."""
OLD = re.compile(r"\bold\b|straggl|\bspent\b", re.IGNORECASE)
"""Words by which a pass without a change is one of old substrate, and no count of the bin."""


SEXES = re.compile(r"\d\.\d")
"""Numbers of males and females."""


@dataclass(frozen=True, slots=True)
class Check:
    """One pass, or one check of a trap, of a bin's old substrate.

    ``minutes`` is NaN where not written. ``back`` is the bin the animals went to, empty for elsewhere. ``arrived`` says
    that the log tells of their arrival a second time, as animals in.
    """

    day: int
    found: int
    minutes: float
    back: str
    arrived: bool
    where: CellRef


@dataclass(frozen=True, slots=True)
class OldSubstrate:
    """Old substrate of one bin from one change.

    Attributes
    ----------
    begun : int
        Day number of the change; without one, of the first pass or check.
    went, tub : str
        Where it went in the keeper's words, and the straggler tub of the list that holds it; empty if none does.
    changed : bool
        Whether a change is written.
    passes, traps : tuple of Check
        By day.
    closed : int or None
        Day number of its end: frozen, discarded, or gone at the change. None while it waits.
    ended : str
        ``freeze``, ``discard`` or ``went`` (by the words of the change); empty while it waits.
    doubtful : tuple of int
        Day numbers of finds that may have been made in it: found in a tub where more waits, of several bins at once, or
        at a look without a number. The trap can't be called silent since an earlier day.
    """

    bin: str
    begun: int
    went: str
    tub: str
    changed: bool
    passes: tuple[Check, ...]
    traps: tuple[Check, ...]
    closed: int | None
    ended: str
    where: CellRef
    doubtful: tuple[int, ...] = ()

    @property
    def last(self) -> int:
        """The last day anything was done with it, its end apart."""
        return max([self.begun, *(one.day for one in (*self.passes, *self.traps)), *self.doubtful])

    @property
    def found(self) -> int:
        """Animals found in it in all."""
        return sum(one.found for one in (*self.passes, *self.traps))


@dataclass(frozen=True)
class Sifted:
    """All old substrate of a ledger.

    ``loose`` are finds in a straggler tub of which no bin's old substrate can be told but that were put into a bin:
    each with that bin. ``apart`` are passes with a number that belong to no old substrate. ``problems`` are finds
    without a number, or of which the bin can't be told.
    """

    lots: tuple[OldSubstrate, ...]
    loose: tuple[Check, ...]
    apart: tuple[Noted, ...]
    problems: tuple[Problem, ...]


def old_substrate(ledger: Ledger, on: dt.date) -> Sifted:
    """Gather the old substrate of every bin up to a day, by bin and then by the day of the change.

    A change opens it if its old substrate went to a straggler tub or corner, or if passes or checks follow. It is
    closed by a freeze or discard of the bin (or of the tub), or at once where the change says that it went there. A
    pass up to three days before a change belongs to it; one without any change only if its words say that it was of
    old substrate, for otherwise it counted the bin. An empty check of a tub is one for all that waits in it; finds in
    a tub are of the bin that the row names under From or To, or of the only one that waits there; others are doubtful
    for all that waits. Passes added up in one cell (``41+22+9``) are passes.
    """
    gathered = _Gathered(ledger, on)
    taken = list(noted(ledger, on, ACTS))
    for one in taken:
        gathered.change(one)
    gathered.end(taken)
    for one in taken:
        gathered.check(one)
    gathered.unnumbered()
    for one in taken:
        gathered.arrival(one)
    order = {name: place for place, name in enumerate(ledger.bins)}
    lots = [lot for each in gathered.lots.values() for lot in each if lot.passes or lot.traps or lot.waits]
    lots.sort(key=lambda lot: (order[lot.bin], lot.begun))
    made = tuple(lot.frozen() for lot in lots)
    return Sifted(made, tuple(gathered.loose), tuple(gathered.apart), tuple(gathered.problems))


def passes_in(entry: Entry) -> tuple[int, ...]:
    """Animals found in each pass that an entry tells of: ``41+22+9`` are three. Empty without a number.

    Males and females (``8.3``) were found in one pass.
    """
    number = entry.number("number")
    if number is None or math.isnan(value := best(number)) or value < 0:
        return ()
    if len(number.parts) > 1 and all(part >= 0 for part in number.parts) and not SEXES.search(entry.text("number")):
        return tuple(round(part) for part in number.parts)
    return (round(value),)


def put_back(sifted: Sifted, places: Mapping[str, int]) -> list[tuple[int, int, float, CellRef]]:
    """What finds do to the numbers of bins: place of the bin, day, change, cell.

    Those found later than the change left the bin with its old substrate on that day, and came back when they were
    found. What was found on the day itself and put back changes nothing. An arrival that is written as animals in too
    is not given again.
    """
    moves = [(places[one.back], one.day, float(one.found), one.where) for one in sifted.loose]
    for lot in sifted.lots:
        left = 0
        for one in (*lot.passes, *lot.traps):
            if not one.found or (one.day <= lot.begun and one.back == lot.bin and not one.arrived):
                continue
            left += one.found
            if one.back in places and not one.arrived:
                moves.append((places[one.back], max(one.day, lot.begun), float(one.found), one.where))
        if left:
            moves.append((places[lot.bin], lot.begun, -float(left), lot.where))
    return moves


@dataclass
class _Lot:
    bin: str
    begun: int
    went: str
    tub: str
    changed: bool
    where: CellRef
    closed: int | None = None
    ended: str = ""
    passes: list[Check] = field(default_factory=list)
    traps: list[Check] = field(default_factory=list)
    doubtful: set[int] = field(default_factory=set)

    @property
    def waits(self) -> bool:
        return bool(self.tub or WAITS.search(self.went))

    @property
    def last(self) -> int:
        return max([self.begun, *(one.day for one in (*self.passes, *self.traps)), *self.doubtful])

    @property
    def sifted(self) -> int:
        return max([self.begun, *(one.day for one in self.passes)])

    def open_on(self, day: int) -> bool:
        return self.begun <= day and (self.closed is None or day <= self.closed)

    def frozen(self) -> OldSubstrate:
        closed, ended = self.closed, self.ended
        if closed is None and not self.traps and not self.waits and ENDS.search(self.went):
            closed, ended = self.last, "went"
        return OldSubstrate(
            self.bin,
            self.begun,
            self.went,
            self.tub,
            self.changed,
            tuple(sorted(self.passes, key=lambda one: one.day)),
            tuple(sorted(self.traps, key=lambda one: one.day)),
            closed,
            ended,
            self.where,
            tuple(sorted(self.doubtful)),
        )


class _Gathered:
    def __init__(self, ledger: Ledger, on: dt.date) -> None:
        self.names = list(ledger.bins)
        self.tubs = [name for name, status in statuses(ledger, on).items() if status.word == "straggler tub"]
        self.lots: dict[str, list[_Lot]] = {name: [] for name in self.names}
        self.problems: list[Problem] = []
        self.loose: list[Check] = []
        self.apart: list[Noted] = []
        self.looks: list[tuple[Noted, list[_Lot]]] = []
        """Looks at a tub without a number, with what waited in it."""
        self.lapse = round(DEFAULTS["sifting.lapse"].value)

    def change(self, one: Noted) -> None:
        """A change of substrate opens a lot."""
        if one.entry.act != "substrate_change":
            return
        went = one.entry.text("old_went") or one.entry.text("to_bin")
        name = self.names[one.bin]
        self.lots[name].append(_Lot(name, one.day, went, self._tub(one.entry, went), True, one.entry.where))

    def _tub(self, entry: Entry, went: str) -> str:
        named = [name for name in (*_named(entry, "to_bin"), went.strip()) if name in self.tubs]
        if named:
            return named[0]
        tub = len(self.tubs) == 1 and WAITS.search(went) and not re.search("corner", went, re.IGNORECASE)
        return self.tubs[0] if tub else ""

    def end(self, taken: Sequence[Noted]) -> None:
        """A freeze or discard closes what waits of the bin, or in the tub."""
        for one in taken:
            if one.entry.act not in ("freeze", "discard"):
                continue
            name = self.names[one.bin]
            for lot in (lot for each in self.lots.values() for lot in each if name in (lot.bin, lot.tub)):
                if lot.closed is None and lot.begun <= one.day:
                    lot.closed, lot.ended = one.day, one.entry.act

    def check(self, one: Noted) -> None:
        """A pass, or a check of a trap, with its number."""
        entry, name = one.entry, self.names[one.bin]
        if entry.act not in ("sift", "trap"):
            return
        found = passes_in(entry)
        if entry.act == "trap":
            found = found and (sum(found),)
        if name in self.tubs:
            self._in_tub(one, name, found)
            return
        lot = self._lot(one, name)
        if lot is None:
            if found and entry.act == "sift":
                self.apart.append(one)
        elif not found:
            lot.doubtful.add(one.day)
            self._problem("entries.finds_not_written", one, bin=name)
        elif one.among > 1 and any(found):
            lot.doubtful.add(one.day)
            self._problem("entries.whose_stragglers", one, number=str(sum(found)), place="several bins")
        else:
            self._add(lot, one, found)

    def _problem(self, code: str, one: Noted, **facts: str) -> None:
        self.problems.append(Problem(code, one.entry.cell("number"), facts, one.entry.text("number")))

    def _lot(self, one: Noted, name: str) -> _Lot | None:
        """The lot that a pass or check of a bin belongs to; one without a change begins with it."""
        entry = one.entry
        old = bool(OLD.search(" ".join(entry.text(key) for key in ("did", "way", "note"))))
        lots = [lot for lot in self.lots[name] if lot.open_on(one.day) and one.day - lot.last <= self.lapse]
        if entry.act == "sift" and not old:
            lots = [lot for lot in lots if one.day - lot.sifted <= BETWEEN]
        if lots:
            return lots[-1]
        if entry.act == "sift":
            coming = [lot for lot in self.lots[name] if 0 < lot.begun - one.day <= BEFORE]
            if coming:
                return coming[0]
            if not old:
                return None
        if not passes_in(entry) or one.among > 1:
            return None
        lot = _Lot(name, one.day, "", "", False, entry.where)
        self.lots[name].append(lot)
        self.lots[name].sort(key=lambda each: each.begun)
        return lot

    def _waiting(self, one: Noted, tub: str) -> list[_Lot]:
        waiting = [lot for each in self.lots.values() for lot in each if lot.tub == tub and lot.open_on(one.day)]
        return [lot for lot in waiting if one.day - lot.last <= self.lapse]

    def _in_tub(self, one: Noted, tub: str, found: tuple[int, ...]) -> None:
        waiting = self._waiting(one, tub)
        told = [lot for key in ("from_bin", "to_bin") for lot in waiting if lot.bin in _named(one.entry, key)]
        if not found:
            self.looks.append((one, told or waiting))
        elif not any(found):
            for lot in waiting:
                self._add(lot, one, found)
        elif told or len(waiting) == 1:
            self._add((told or waiting)[0], one, found)
        else:
            for lot in waiting:
                lot.doubtful.add(one.day)
            to = _named(one.entry, "to_bin")
            back = next((name for name in to if name in self.lots and name not in self.tubs), "")
            if back:
                self.loose.append(Check(one.day, sum(found), math.nan, back, False, one.entry.where))
            elif waiting:
                self._problem("entries.whose_stragglers", one, number=str(sum(found)), place=tub)

    def unnumbered(self) -> None:
        """Looks at a tub without a number: bait renewed where the day has a number too, else nobody knows."""
        for one, waiting in self.looks:
            lots = [lot for lot in waiting if all(check.day != one.day for check in lot.traps)]
            for lot in lots:
                lot.doubtful.add(one.day)
            if any(check.day < one.day for lot in lots for check in lot.traps):
                self._problem("entries.finds_not_written", one, bin=self.names[one.bin])

    def _add(self, lot: _Lot, one: Noted, found: tuple[int, ...]) -> None:
        entry = one.entry
        to = _named(entry, "to_bin")
        back = lot.bin if not entry.text("to_bin") else next((name for name in to if name in self.lots), "")
        minutes = entry.number("minutes")
        each = [best(minutes)] if len(found) == 1 else list(minutes.parts) if minutes else []
        if len(each) != len(found):
            each = [math.nan] * len(found)
        checks = lot.passes if entry.act == "sift" else lot.traps
        for number, took in zip(found, each, strict=True):
            checks.append(Check(one.day, number, took, back, False, entry.where))

    def arrival(self, one: Noted) -> None:
        """Animals in that came out of old substrate: the find again, or a find that is only written so."""
        entry = one.entry
        value = best(entry.number("number"), best(entry.number("amount")))
        if entry.act not in ("animals_in", "animals_out", "split") or not value > 0 or one.among > 1:
            return
        name = self.names[one.bin]
        if entry.act == "animals_in":
            source, target = _named(entry, "from_bin")[:1], name
        else:
            source, target = [name], next(iter(_named(entry, "to_bin")), "")
        from_tub = bool(source) and source[0] in self.tubs
        if target not in self.lots or (source and not from_tub) or (entry.text("from_bin") and not source):
            return
        found = round(value)
        for place, check in enumerate(self.loose):
            if (check.back, check.found) == (target, found) and 0 <= one.day - check.day <= BEFORE:
                del self.loose[place]
                return
        for lot in (lot for lot in self.lots[target] if lot.begun <= one.day):
            for checks in (lot.passes, lot.traps):
                recent = [check for check in checks if not check.arrived and 0 <= one.day - check.day <= BEFORE]
                for where in dict.fromkeys(check.where for check in recent):
                    if sum(check.found for check in recent if check.where == where) == found:
                        checks[:] = [
                            replace(check, back=target, arrived=True) if check.where == where else check
                            for check in checks
                        ]
                        return
        if from_tub:
            waiting = [lot for lot in self.lots[target] if lot.tub == source[0] and lot.open_on(one.day)]
            for lot in waiting[-1:]:
                lot.traps.append(Check(one.day, found, math.nan, target, True, entry.where))
            if not waiting:
                for lot in self._waiting(one, source[0]):
                    lot.doubtful.add(one.day)


def _named(entry: Entry, key: str) -> list[str]:
    return [name for name in entry.text(key).split(", ") if name]
