"""What was found in a bin and isn't settled yet: each finding by itself, until its own way of being settled."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import FINDINGS, THINGS, WELL, Finding
from workbook_tools.fields.findings import BLUE, COLOURS
from workbook_tools.intake.values import Words
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.plan.losses.records import Sight
from workbook_tools.problems import CellRef

_THING_OF = {thing.settled: thing.key for thing in THINGS.values() if thing.settled}


@dataclass
class _Open:
    """A finding that isn't settled: when it was first and last seen, and the later days that say nothing of it."""

    finding: Finding
    first: dt.date
    day: dt.date
    where: CellRef
    silent: set[dt.date] = field(default_factory=set)

    @property
    def due(self) -> dt.date:
        """When it is to be seen to; where only 'all well' settles it, soon after each look again."""
        last = max((self.day, *self.silent))
        if self.finding.only_well and last > self.first:
            return last + _days("found.again")
        return self.day + _days(self.finding.days)


def sights_of(ledger: Ledger, on: dt.date) -> tuple[Sight, ...]:
    """What was found and isn't settled, in the order of the bins; of one bin in the order of our table of findings.

    It is heard from every entry that says what was seen. A finding is settled by its own acts from its row on; by what
    is seen on a later day: that it is gone, or that the thing it is about is well again, or 'all well'; and, if it is
    one that may pass by itself, by so many later looks that say nothing of it.
    """
    entries = [entry for entry in ledger.entries if entry.when is not None and entry.when.first <= on]
    beside: dict[CellRef, set[str]] = {}
    for entry in entries:
        beside.setdefault(entry.where, set()).add(entry.act)
    open_now: dict[str, dict[str, _Open]] = {}
    by_nature = {name for name, bin in ledger.bins.items() if _coloured(f"{name} {bin.species} {bin.line}")}
    for entry in entries:
        for name in entry.bins:
            found = found_in(entry)
            if name in by_nature and not _says_turned(entry):
                found = tuple(key for key in found if key != BLUE)
            _take(open_now.setdefault(name, {}), entry, found, beside[entry.where])
    return tuple(_sights(ledger, open_now))


def found_in(entry: Entry) -> tuple[str, ...]:
    """What an entry says was seen, as our own words."""
    return tuple(
        key
        for name, fact in entry.facts.items()
        if name.partition(".")[0] == "seen" and isinstance(fact.value, Words)
        for key in fact.value.keys
    )


def said_well(ledger: Ledger, on: dt.date) -> dict[str, dt.date]:
    """The last day up to ``on`` on which it was said of a bin that all is well, by bin."""
    return {
        name: entry.when.first
        for entry in ledger.entries
        if entry.when is not None and entry.when.first <= on and WELL in found_in(entry)
        for name in entry.bins
    }


def _take(open_now: dict[str, _Open], entry: Entry, found: Sequence[str], beside: Collection[str]) -> None:
    """Settle and open findings of one bin by what one entry says was ``found``; ``beside`` are all acts of its row."""
    day = entry.when.first if entry.when else dt.date.min
    for key, one in list(open_now.items()):
        if entry.act in one.finding.acts or (day > one.day and _settles(entry, found, one)):
            del open_now[key]
    for key in found:
        finding = FINDINGS.get(key)
        if finding is None or finding.good or not finding.acts.isdisjoint(beside):
            continue
        before = open_now.get(key)
        open_now[key] = _Open(finding, before.first if before else day, day, entry.where)


def _coloured(text: str) -> bool:
    """Whether a name says that animals are blue or violet by nature."""
    return not COLOURS.isdisjoint(text.casefold().replace("-", " ").split())


def _says_turned(entry: Entry) -> bool:
    """Whether an entry says that animals turned blue or violet, which a line that is so by nature doesn't."""
    words = " ".join(
        one.text.casefold() for key, one in entry.facts.items() if key.partition(".")[0] in ("seen", "did")
    )
    return any(word in words for word in ("turn", "going", "gone", "sheen", "virus", BLUE))


def _settles(entry: Entry, found: Collection[str], one: _Open) -> bool:
    """Whether what a later entry says, or doesn't say, settles a finding."""
    finding = one.finding
    if WELL in found:
        return True
    if (entry.act == "look" or found) and finding.key not in found and entry.when:
        one.silent.add(entry.when.first)
    if finding.only_well:
        return False
    if any(_THING_OF.get(key) == finding.about for key in found):
        return True
    if any(entry.state(name) in states for name, states in finding.sights.items()):
        return True
    return bool(finding.quiet) and len(one.silent) >= DEFAULTS[finding.quiet].value


def _sights(ledger: Ledger, open_now: Mapping[str, Mapping[str, _Open]]) -> Iterator[Sight]:
    for name in ledger.bins:
        for key in FINDINGS:
            if one := open_now.get(name, {}).get(key):
                yield Sight(name, key, one.first, one.day, one.due, one.where)


def _days(key: str) -> dt.timedelta:
    return dt.timedelta(days=DEFAULTS[key].value)
