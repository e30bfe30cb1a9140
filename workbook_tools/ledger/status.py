"""What each bin is on a day: active, in quarantine, a straggler tub, resting or gone."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, replace

from workbook_tools.ledger.moved import moved_by
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.problems import CellRef

TURNS = {"start": "active", "end": "gone", "rest": "resting", "quarantine": "quarantine", "release": "active"}
"""Acts of the log that change what a bin is."""
LIFTS = frozenset({"start", "animals_in", "release"})
"""Acts that wake a bin that was resting or gone."""
ASIDE = frozenset({"end", "rest", "release", "quarantine", "note", "freeze", "discard", "rename"})
"""Acts that may follow the end of a bin without meaning that it lives on."""


@dataclass(frozen=True, slots=True)
class Status:
    """What a bin is, since when if that is known, and the cell that says so; ``differs`` if list and log disagree."""

    word: str
    since: dt.date | None
    where: CellRef
    differs: str = ""


def statuses(ledger: Ledger, on: dt.date) -> dict[str, Status]:
    """Return the status of every bin on a day.

    The list of bins, where it says anything, tells what a bin is today. The log overrules it in three cases: the bin
    was closed or put to rest and nothing was done in it since; it was put into quarantine after the list's start and
    not let out; or it was let out of quarantine. Without a word in the list the last such entry of the log holds.
    A bin that nothing is said of is active. Animals moved into a bin wake it, in whichever bin the move is written.
    """
    by_bin: dict[str, list[Entry]] = {name: [] for name in ledger.bins}
    for entry in ledger.entries:
        if entry.when is not None and entry.when.first <= on:
            for name in entry.bins:
                by_bin[name].append(entry)
            for name in moved_by(entry, ledger.bins).targets:
                if name not in entry.bins:
                    by_bin[name].append(replace(entry, act="animals_in"))
    return {name: _status(bin, by_bin[name]) for name, bin in ledger.bins.items()}


def _status(bin: Bin, entries: list[Entry]) -> Status:
    listed = bin.word("status")
    where = bin.facts["status"].cell.ref if listed else bin.where
    turn: Entry | None = None
    later: list[str] = []
    for entry in entries:
        if entry.act in TURNS or (entry.act == "animals_in" and turn is not None and turn.act in ("end", "rest")):
            turn, later = entry, []
        elif turn is not None and entry.act not in ASIDE:
            later.append(entry.act)
    if turn is None or turn.when is None:
        return Status(listed or "active", None, where)
    logged = TURNS.get(turn.act, "active")
    holds = _overrules(listed, logged, bool(later))
    if not listed or holds:
        return Status(logged, turn.when.first, turn.where, listed if listed and listed != logged else "")
    return Status(listed, turn.when.first if listed == logged else None, where)


def _overrules(listed: str, logged: str, lived_on: bool) -> bool:
    """Whether the last turn in the log counts for more than the word in the list."""
    if logged in ("gone", "resting"):
        return listed not in ("gone", "straggler tub") and not lived_on
    if logged == "quarantine":
        return listed == "active"
    return logged == "active" and listed == "quarantine"


def ends(ledger: Ledger, words: Mapping[str, Status]) -> dict[str, dt.date]:
    """The day on which each gone bin was closed, where the log tells it."""
    return {name: status.since for name, status in words.items() if status.word == "gone" and status.since is not None}
