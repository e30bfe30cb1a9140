"""Bins that were split or moved off others: which ones those are, and what the new bin takes after them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from workbook_tools.ledger.moved import FOUNDING, moved_by
from workbook_tools.ledger.records import Bin, Entry
from workbook_tools.problems import Problem

Find = Callable[[str], Sequence[str]]
TAKEN = ("species", "line", "appetite", "ventilation")
"""What a new bin takes after its parents, where nothing is written for the bin itself."""


def with_parents(
    bins: Mapping[str, Bin], entries: Sequence[Entry], find: Find, on: dt.date
) -> tuple[dict[str, Bin], list[Problem]]:
    """Give bins their parents, and what they take after them; what is written for a bin itself always wins.

    The parents are the bins whose animals founded it: those that came about the day it began, or, where no start is
    known, before anything else was done in it. Without such a move they are the bins that the list names under 'Came
    from'. What several parents don't share is taken from none, and nothing is of parents of another species.

    Parameters
    ----------
    bins, entries
        Of the ledger; bins with their starts, entries by date.
    find : callable
        Gives the bins that a text under 'Came from' names.
    on : date
        Moves after it are passed over.
    """
    made = dict(bins)
    for name, parents in _parents(bins, entries, find, on).items():
        made[name] = replace(made[name], parents=parents)
    found = {name: bin for name, bin in made.items() if bin.parents}
    for _ in found:
        before = {name: made[name] for name in found}
        for name in found:
            made[name] = _after_parents(made[name], [made[parent] for parent in made[name].parents])
        if all(made[name] == before[name] for name in found):
            break
    return made, [_said(bin) for bin in made.values() if bin.inherited and bin.listed]


def _parents(bins: Mapping[str, Bin], entries: Sequence[Entry], find: Find, on: dt.date) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    first = first_days(entries)
    for entry in entries:
        moved = moved_by(entry, bins)
        if entry.when is None or entry.when.first > on or not moved.sources:
            continue
        for name in moved.targets:
            started = bins[name].started
            if started is not None:
                late = (entry.when.first - started.last).days > FOUNDING
                founds = not late and (started.first - entry.when.last).days <= FOUNDING
            else:
                founds = first.get(name, entry.when.last) >= entry.when.first
            if founds:
                found[name] = _joined(found.get(name, ()), moved.sources, name, bins, found)
    for name, bin in bins.items():
        if name not in found:
            found[name] = _joined((), find(bin.text("came_from")), name, bins, found)
    return {name: parents for name, parents in found.items() if parents}


def first_days(entries: Sequence[Entry]) -> dict[str, dt.date]:
    """The day by which something was first written for each bin."""
    first: dict[str, dt.date] = {}
    for entry in entries:
        if entry.when is not None:
            for name in entry.bins:
                first[name] = min(first.get(name, entry.when.last), entry.when.last)
    return first


def _joined(
    known: tuple[str, ...],
    more: Sequence[str],
    name: str,
    bins: Mapping[str, Bin],
    parents: Mapping[str, tuple[str, ...]],
) -> tuple[str, ...]:
    """Add parents: no straggler tub, and no bin that itself comes of this one."""
    new = [
        one
        for one in more
        if one not in known and bins[one].word("status") != "straggler tub" and not _comes_of(one, name, parents)
    ]
    return (*known, *new)


def _comes_of(name: str, ancestor: str, parents: Mapping[str, tuple[str, ...]]) -> bool:
    return name == ancestor or any(_comes_of(one, ancestor, parents) for one in parents.get(name, ()))


def _after_parents(bin: Bin, parents: Sequence[Bin]) -> Bin:
    own = bin.species.casefold()
    if own and "species" not in bin.inherited and any(p.species and p.species.casefold() != own for p in parents):
        return bin
    facts, inherited = dict(bin.facts), bin.inherited
    for key in TAKEN:
        told = {parent.text(key).casefold(): parent.facts.get(key) for parent in parents}
        fact = next(iter(told.values()))
        if len(told) == 1 and fact is not None and not bin.text(key):
            facts[key] = replace(fact, guessed=True)
            inherited = (*inherited, key)
    return replace(bin, facts=facts, inherited=inherited)


def _said(bin: Bin) -> Problem:
    told = {"bin": bin.name, "parents": " and ".join(bin.parents), "what": " and ".join(bin.inherited)}
    return Problem("bins.takes_after", bin.where, told, bin.name)
