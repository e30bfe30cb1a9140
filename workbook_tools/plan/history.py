"""What is known of the past of each bin on a day: last times, first times, births."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from workbook_tools.fields import BIN_FIELDS
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.series.entries import entries_table, last_done
from workbook_tools.ledger.series.transfers import transfers
from workbook_tools.ledger.status import Status, statuses
from workbook_tools.problems import CellRef

ARRIVAL = frozenset({"start", "animals_in", "note", "quarantine", "move_place", "rename"})
"""Acts that don't mean that a bin is being cared for yet."""
BIN_KEYS = frozenset(field.key for field in BIN_FIELDS)


@dataclass(frozen=True)
class History:
    """The past of a ledger up to a day; entries after it are left out.

    Attributes
    ----------
    last : dict
        By bin and act: the last day it was begun and the place of that entry.
    first_of_bin, first_of_act : dict
        The first day that anything was logged for a bin, or that an act was logged for any bin.
    cared_for : frozenset of str
        Bins of which more is logged than their arrival.
    reminders : dict
        By bin: entries in which the keeper asked for another look on some day.
    """

    ledger: Ledger
    on: dt.date
    status: dict[str, Status]
    last: dict[tuple[str, str], tuple[dt.date, int]]
    first_of_bin: dict[str, dt.date]
    first_of_act: dict[str, dt.date]
    cared_for: frozenset[str]
    reminders: dict[str, list[Entry]]

    @classmethod
    def of(cls, ledger: Ledger, on: dt.date) -> History:
        """Gather the past of a ledger."""
        table = entries_table(ledger, until=on)
        reminders: dict[str, list[Entry]] = {}
        for name, place in zip(table["bin"], table["entry"], strict=True):
            if "look_again" in ledger.entries[place].facts:
                reminders.setdefault(name, []).append(ledger.entries[place])
        care = table[~table["act"].isin(ARRIVAL)]
        return cls(
            ledger,
            on,
            statuses(ledger, on),
            last_done(table),
            dict(table.groupby("bin")["first"].min()) if len(table) else {},
            dict(table.groupby("act")["first"].min()) if len(table) else {},
            frozenset(care["bin"]),
            reminders,
        )

    @cached_property
    def log_begins(self) -> dt.date | None:
        """The first day of the log itself, without the days of the list of bins."""
        days = (e.when.first for e in self.ledger.entries if e.when is not None and not of_list(e))
        return min((day for day in days if day <= self.on), default=None)

    @cached_property
    def moved_here(self) -> frozenset[CellRef]:
        """Rows that tell of animals out of one of the keeper's bins, seen from the bin they came to."""
        moves = transfers(self.ledger, self.on)
        return frozenset(move.other or move.where for move in moves if move.source >= 0 and move.target >= 0)

    def before_log(self, entry: Entry) -> bool:
        """Whether an entry is one of the list of bins, of a day before the log begins."""
        if entry.when is None or self.log_begins is None or not of_list(entry):
            return False
        return entry.when.first < self.log_begins

    def latest(self, name: str, acts: Iterable[str]) -> Entry | None:
        """The latest entry of a bin with one of these acts; of several on one day, the first act named."""
        best: tuple[dt.date, int] | None = None
        for act in acts:
            found = self.last.get((name, act))
            if found is not None and (best is None or found[0] > best[0]):
                best = found
        return self.ledger.entries[best[1]] if best else None

    def birth(self, bin: Bin) -> dt.date | None:
        """The day a bin began, as far as known: its start, else its first entry."""
        return bin.started.first if bin.started else self.first_of_bin.get(bin.name)

    def first_logged(self, acts: Iterable[str]) -> dt.date | None:
        """The first day that one of these acts was logged for any bin."""
        return min((self.first_of_act[act] for act in acts if act in self.first_of_act), default=None)


def of_list(entry: Entry) -> bool:
    """Whether an entry is what the list of bins says, not a row of the log: its day stands in a column of the list."""
    day = entry.facts.get("when")
    return day is not None and day.field in BIN_KEYS
