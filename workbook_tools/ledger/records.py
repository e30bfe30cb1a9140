"""Bins, entries and the ledger that holds them: frozen, each knowing the cells it came from."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from workbook_tools.intake.settings import Settings
from workbook_tools.intake.values import Amount, Fact, Number, When, Words
from workbook_tools.problems import CellRef


def said(fact: Fact | None) -> str:
    """The keeper's text of a fact, with a ditto mark filled in; empty when there is none."""
    if fact is None:
        return ""
    return fact.value if isinstance(fact.value, str) else fact.text


@dataclass(frozen=True)
class Bin:
    """One bin, with every fact of its row by field key (see ``fields.BIN_FIELDS``)."""

    name: str
    where: CellRef
    facts: Mapping[str, Fact] = field(default_factory=dict)
    listed: bool = True
    """False for a bin that only the log names."""
    doubtful: bool = False
    """Whether the name may be a slip: the log has it on few days, and the list of bins doesn't have it."""
    parents: tuple[str, ...] = ()
    """The bins whose animals founded it: those it was split or moved off."""
    inherited: tuple[str, ...] = ()
    """Fields whose facts are those of its parents, as nothing is written for the bin itself."""

    def text(self, key: str) -> str:
        """The keeper's text of a field, a ditto mark filled in; empty when missing."""
        return said(self.facts.get(key))

    @property
    def species(self) -> str:
        """Species as the keeper writes it."""
        return self.text("species")

    @property
    def line(self) -> str:
        """Line as the keeper writes it."""
        return self.text("line")

    @property
    def place(self) -> str:
        """Shelf or rack as the keeper writes it."""
        return self.text("place")

    def word(self, key: str, otherwise: str = "") -> str:
        """One of our own words for a CHOICE field (status, appetite, ventilation)."""
        fact = self.facts.get(key)
        if fact is None or not isinstance(fact.value, Words) or not fact.value.keys:
            return otherwise
        return fact.value.keys[0]

    @property
    def started(self) -> When | None:
        """When it was set up, if that is known."""
        fact = self.facts.get("started")
        return fact.value if fact and isinstance(fact.value, When) else None

    def amount(self, key: str) -> Amount | None:
        """A measure such as ``volume`` (l), ``floor`` (dm2), ``depth`` (cm)."""
        fact = self.facts.get(key)
        return fact.value if fact and isinstance(fact.value, Amount) else None


@dataclass(frozen=True)
class Entry:
    """One logged fact: one act on one day for one bin or several.

    ``bins`` holds the names as the ledger knows them; empty for an entry of the room or the house. ``when`` is None
    for a fact of the bin list that carries no date. ``facts`` are those of its row that belong to this act.
    """

    act: str
    when: When | None
    bins: tuple[str, ...]
    where: CellRef
    facts: Mapping[str, Fact] = field(default_factory=dict)

    def text(self, key: str) -> str:
        """The keeper's text of a field, a ditto mark filled in; empty when missing."""
        return said(self.facts.get(key))

    def state(self, key: str) -> str:
        """The first of our own words for a STATE field, empty when missing."""
        fact = self.facts.get(key)
        if fact is None or not isinstance(fact.value, Words) or not fact.value.keys:
            return ""
        return fact.value.keys[0]

    def number(self, key: str) -> Number | None:
        """The number of a NUMBER or AMOUNT field."""
        fact = self.facts.get(key)
        if fact is None:
            return None
        if isinstance(fact.value, Amount):
            return fact.value.number
        return fact.value if isinstance(fact.value, Number) else None

    def cell(self, key: str) -> CellRef:
        """The cell of a field, that of the row when there is none."""
        fact = self.facts.get(key)
        return fact.cell.ref if fact else self.where

    @property
    def day(self) -> dt.date | None:
        """The last day it can have been. A due day counts from the first one, ``when.first``."""
        return self.when.last if self.when else None


@dataclass(frozen=True)
class Ledger:
    """All that was read: bins by name in the keeper's order, entries by date, settings, and how much was used.

    ``rows_used`` are rows from which something was learned; ``rows_noted`` those kept as a note and no more.
    """

    bins: Mapping[str, Bin]
    entries: tuple[Entry, ...]
    settings: Settings = field(default_factory=Settings)
    rows_read: int = 0
    rows_used: int = 0
    rows_noted: int = 0
