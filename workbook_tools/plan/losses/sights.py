"""What was seen in a bin and wants another look: huddling, ways out, film under the lid, fungus, pests."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, field

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.values import Words
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.plan.losses.records import Sight
from workbook_tools.problems import CellRef

AGAIN = {
    "huddling": 0,
    "way out": 0,
    "sour smell": 0,
    "too dry": 0,
    "pests": 0,
    "too wet": 1,
    "condensation": 2,
    "mould": 2,
}
"""Findings that want another look, and days until it is due: what can cost animals at once is due the same day."""
WELL = "all well"


@dataclass
class _Open:
    """What was last seen in one bin, and the days of looks since that said nothing of it."""

    day: dt.date
    seen: tuple[str, ...]
    where: CellRef
    silent: set[dt.date] = field(default_factory=set)


def sights_of(ledger: Ledger, on: dt.date) -> tuple[Sight, ...]:
    """What was seen and isn't settled, a bin at most once, in the order of the bins.

    A later look that says 'all well' settles it. So do ``sights.silent`` later days on which the bin was looked over
    and nothing of the kind was written, since not everybody writes that all is well. What is seen anew takes the place
    of the old.
    """
    open_now: dict[str, _Open] = {}
    for entry in ledger.entries:
        if entry.act == "look" and entry.when is not None and entry.when.first <= on:
            for name in entry.bins:
                _look(open_now, name, entry, entry.when.first)
    return tuple(_sights(ledger, open_now))


def found_in(entry: Entry) -> tuple[str, ...]:
    """The findings of an entry, as our own words."""
    fact = entry.facts.get("seen")
    return fact.value.keys if fact is not None and isinstance(fact.value, Words) else ()


def _look(open_now: dict[str, _Open], name: str, entry: Entry, day: dt.date) -> None:
    found = found_in(entry)
    seen = tuple(key for key in found if key in AGAIN)
    before = open_now.get(name)
    if seen:
        together = before is not None and before.day == day
        both = (*before.seen, *seen) if before is not None and together else seen
        open_now[name] = _Open(day, tuple(dict.fromkeys(both)), entry.where)
    elif before is not None and day > before.day:
        before.silent.add(day)
        if WELL in found or len(before.silent) >= DEFAULTS["sights.silent"].value:
            del open_now[name]


def _sights(ledger: Ledger, open_now: dict[str, _Open]) -> Iterator[Sight]:
    for name in ledger.bins:
        if name in open_now:
            one = open_now[name]
            due = one.day + dt.timedelta(days=min(AGAIN[key] for key in one.seen))
            yield Sight(name, one.day, one.seen, due, one.where)
