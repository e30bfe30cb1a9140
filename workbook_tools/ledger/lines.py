"""Lines that must not be mixed: entries that move animals between bins of different lines or species."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator
from itertools import product

from workbook_tools.ledger.moved import FOUNDING, MOVES, moved_by
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.series.sifting import OldSubstrate, old_substrate
from workbook_tools.ledger.status import statuses
from workbook_tools.problems import Problem

FOUND = frozenset({"sift", "trap"})
"""Acts that find animals, which may go into another bin then."""
ANY = frozenset({"any", "all", "anything", "yes", "y"})


def plain(text: str) -> str:
    """A name of a species or line as it is compared: without case and spare blanks."""
    return " ".join(text.casefold().split())


def line_of(bin: Bin) -> tuple[str, str]:
    """The line a bin belongs to: species and line, each empty where it isn't written."""
    return plain(bin.species), plain(bin.line)


def named(bin: Bin) -> str:
    """Species and line of a bin, in the keeper's words."""
    return ", ".join(text for text in (bin.species, bin.line) if text) or "no line written"


def may_mix(one: Bin, other: Bin, *, founding: bool = False) -> bool:
    """Whether animals of one bin may go in with those of the other, by species, line and what the keeper allows.

    What isn't written of one of them can't differ. ``founding``: animals that found a bin mix with none, so that only
    the species is compared; a new line begins so.
    """
    (species, line), (other_species, other_line) = line_of(one), line_of(other)
    differ = bool(species and other_species and species != other_species)
    differ = differ or (not founding and bool(line and other_line and line != other_line))
    return not differ or _allowed(one, other) or _allowed(other, one)


def _allowed(bin: Bin, other: Bin) -> bool:
    """Whether a bin's 'May mix with' names the other bin, its line or its species."""
    whole = bin.text("mixes")
    names = [plain(whole), *(plain(part) for part in re.split(r"[,;+/&]|\band\b|\bor\b", whole))]
    own = {plain(other.name), *(name for name in line_of(other) if name)}
    return any(name in ANY or name in own for name in names if name)


def lines_mixed(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find entries that put animals of one line in with those of another, straggler tubs apart.

    Animals out of a straggler tub are named where old substrate of another line of their species waited in it too, for
    such animals look alike. A move between bins of which the line or species isn't written can't be judged.
    """
    bins = ledger.bins
    tubs = {name for name, status in statuses(ledger, on).items() if status.word == "straggler tub"}
    lots = old_substrate(ledger, on).lots if tubs else ()
    found = []
    for entry in ledger.entries:
        if entry.when is None or entry.when.first > on:
            continue
        for source, target in dict.fromkeys(_moves(entry, ledger)):
            if target in tubs:
                continue
            one, other = bins[source], bins[target]
            key = "to_bin" if "to_bin" in entry.facts else "from_bin" if "from_bin" in entry.facts else "bins"
            if source in tubs:
                found += _in_tub(entry, key, source, other, lots, ledger)
            elif not may_mix(one, other, founding=_founds(entry, other)):
                facts = {"from_bin": source, "from_line": named(one), "to_bin": target, "to_line": named(other)}
                found.append(Problem("entries.lines_mixed", entry.cell(key), facts, entry.text(key)))
    return found


def _moves(entry: Entry, ledger: Ledger) -> Iterator[tuple[str, str]]:
    """From which bins to which an entry moves animals, both of the ledger."""
    if entry.act in MOVES:
        found = moved_by(entry, ledger.bins)
        yield from product(found.sources, found.targets)
    elif entry.act in FOUND:
        targets = _names(entry, "to_bin", ledger)
        for source in _names(entry, "from_bin", ledger) or (entry.bins if targets else ()):
            yield from ((source, name) for name in targets or entry.bins if name != source)


def _names(entry: Entry, key: str, ledger: Ledger) -> tuple[str, ...]:
    return tuple(name for name in entry.text(key).split(", ") if name in ledger.bins)


def _founds(entry: Entry, bin: Bin) -> bool:
    started = bin.started
    if started is None or entry.when is None:
        return not bin.listed
    return (entry.when.first - started.last).days <= FOUNDING


def _in_tub(
    entry: Entry, key: str, tub: str, other: Bin, lots: tuple[OldSubstrate, ...], ledger: Ledger
) -> list[Problem]:
    assert entry.when is not None
    day = entry.when.first.toordinal()
    for lot in lots:
        one = ledger.bins[lot.bin]
        waits = lot.tub == tub and lot.begun <= day and (lot.closed is None or day <= lot.closed)
        if waits and plain(one.species) == plain(other.species) and not may_mix(one, other):
            facts = {
                "tub": tub,
                "to_bin": other.name,
                "to_line": named(other),
                "from_bin": one.name,
                "from_line": named(one),
            }
            return [Problem("entries.lines_in_tub", entry.cell(key), facts, entry.text(key))]
    return []
