"""New arrivals apart from others: since when, until when, and arrivals that went in with others at once."""

from __future__ import annotations

import datetime as dt

from workbook_tools.ledger.moved import FOUNDING
from workbook_tools.ledger.records import Bin, Entry
from workbook_tools.ledger.series.sifting import BEFORE, old_substrate
from workbook_tools.plan.history import History
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.problems import Problem


def from_outside(entry: Entry, past: History) -> bool:
    """Whether an entry brings animals that came from none of the keeper's bins, as far as it says."""
    own = any(name in past.ledger.bins for name in entry.text("from_bin").split(", "))
    return entry.act == "animals_in" and not own and entry.where not in past.moved_here


def since(bin: Bin, past: History) -> dt.date | None:
    """The day from which a bin in quarantine counts.

    The day the log put it there, else that of the last arrival from outside; None where neither is written.
    """
    status = past.status[bin.name]
    if status.since is not None:
        return status.since
    entry = past.latest(bin.name, ("animals_in",))
    if entry is None or entry.when is None or not from_outside(entry, past):
        return None
    return entry.when.first


def apart_until(bin: Bin, past: History, rhythm: Rhythm) -> dt.date | None:
    """The day until which a bin in quarantine stays apart; None for other bins, or where it isn't known."""
    begun = since(bin, past) if past.status[bin.name].word == "quarantine" else None
    return begun + dt.timedelta(days=rhythm.days("quarantine.days", bin).days) if begun else None


def not_apart(past: History, rhythm: Rhythm) -> list[Problem]:
    """Name arrivals from outside that went in with animals that lived there already, within the time of a quarantine.

    Earlier ones are past; stragglers that came back out of old substrate are no arrivals.
    """
    sifted = old_substrate(past.ledger, past.on)
    back = [(lot.bin, one.found, one.day) for lot in sifted.lots for one in (*lot.passes, *lot.traps) if one.arrived]
    found = []
    for entry in past.ledger.entries:
        when = entry.when
        if when is None or when.first > past.on or not from_outside(entry, past):
            continue
        for name in entry.bins:
            bin = past.ledger.bins[name]
            number = entry.number("number")
            lasts = rhythm.days("quarantine.days", bin).days
            birth = past.birth(bin)
            days = (past.on - when.first).days
            lived_in = birth is not None and (when.first - birth).days > FOUNDING
            if not lived_in or days > lasts or past.status[name].word not in ("active", "resting"):
                continue
            if number is not None and any(
                (name, round(min(number.best, 1e9))) == (lot, count) and 0 <= when.first.toordinal() - day <= BEFORE
                for lot, count, day in back
            ):
                continue
            facts = {"bin": name, "days": days, "lasts": lasts}
            found.append(Problem("entries.not_apart", entry.cell("bins"), facts, entry.text("bins")))
    return found
