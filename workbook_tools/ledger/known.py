"""The ledger as it was known on a day, for a report of a day before the last entry."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from dataclasses import replace

from workbook_tools.ledger.build import BEGINS
from workbook_tools.ledger.moved import moved_by
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.status import ASIDE, TURNS

DAYS = 3
"""Days of entries after a day from which on the workbook counts as kept on beyond it: fewer may be slips of dates."""
UNDATED = ("substrate",)
"""What the list of bins says of a bin's state without a date."""


def as_known(ledger: Ledger, on: dt.date) -> Ledger:
    """Leave out of a ledger what can't have been known on a day.

    Entries that begin after it are left out, and so are bins that begin after it or that only later entries name. Of
    the list of bins, which says what is so when the workbook was last kept, a status is left out where the dated log
    shows that it came later: the bin was closed, put to rest or put into quarantine after the day, or was still cared
    for after it though it is said to be gone. Numbers and states without a date are left out where the log was kept
    on for some days after the day.

    Returns
    -------
    Ledger
        The same ledger where nothing in it is of a later day.

    Notes
    -----
    Misleads where the list of bins alone tells what a bin is: that is taken to have been so on any day.
    """
    after: dict[str, list[Entry]] = defaultdict(list)
    named: set[str] = set()
    days: set[dt.date] = set()
    for entry in ledger.entries:
        if entry.when is not None and entry.when.first > on:
            days.add(entry.when.first)
            for name in dict.fromkeys((*entry.bins, *moved_by(entry, ledger.bins).targets)):
                after[name].append(entry)
        elif entry.when is not None:
            named.update(entry.bins, moved_by(entry, ledger.bins).targets)
    kept_on = len(days) >= DAYS
    entries = tuple(
        entry for entry in ledger.entries if (not kept_on if entry.when is None else entry.when.first <= on)
    )
    bins = {
        name: _as_known(bin, after[name], kept_on)
        for name, bin in ledger.bins.items()
        if name in named or not _begins_later(bin, after[name], on)
    }
    return replace(ledger, bins=bins, entries=entries)


def _begins_later(bin: Bin, after: list[Entry], on: dt.date) -> bool:
    """Whether a bin that nothing is logged for up to a day isn't known to be there on it."""
    if bin.started is not None:
        return bin.started.first > on
    return bool(after) and (not bin.listed or any(entry.act in BEGINS for entry in after[:1]))


def _as_known(bin: Bin, after: list[Entry], kept_on: bool) -> Bin:
    untold = set(UNDATED) if kept_on else set()
    word = bin.word("status")
    turned = any(TURNS.get(entry.act) == word for entry in after)
    lived = kept_on and word == "gone" and any(entry.act not in ASIDE for entry in after)
    if word in ("gone", "resting", "quarantine") and (turned or lived):
        untold.add("status")
    if not untold & set(bin.facts):
        return bin
    return replace(bin, facts={key: fact for key, fact in bin.facts.items() if key not in untold})
