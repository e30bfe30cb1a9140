"""What bins share: a place, where they came from, a batch of leaves or food, and events in the house."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping

from workbook_tools.defaults import DEFAULTS
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.plan.losses.records import Event

BATCH = re.compile(
    r"\b((?i:batch|lot|bag|sack))(?:\s*(?i:no\.?|nr\.?|number|#)\s*|\s+|(?=[0-9]))([0-9]+[A-Za-z]?|[A-Z])\b"
)
HEAT = re.compile(
    r"\bheat|\bpower\b|\bwindow open|\bopen(?:ed)? window|\bdraught|\bcold\b|\bwarm|\bhot\b", re.IGNORECASE
)
GIVEN = {"leaf": "leaf litter", "feed": "food"}


def groups_of(ledger: Ledger, on: dt.date) -> dict[str, tuple[int, ...]]:
    """Bins that share something, by what it is; groups of one bin are left out.

    Batches are known only where a note, an amount or the name of a food says so (batch 3, bag B), and only those given
    within ``losses.batch`` days count.
    """
    shared: dict[str, list[int]] = {}
    for place, bin in enumerate(ledger.bins.values()):
        if bin.place.strip():
            shared.setdefault(f"at {_plain(bin.place)}", []).append(place)
        if bin.text("came_from").strip():
            shared.setdefault(f"that came from {_plain(bin.text('came_from'))}", []).append(place)
    for batch, bins in _batches(ledger, on).items():
        shared[batch] = bins
    named: dict[str, tuple[str, tuple[int, ...]]] = {}
    for what, bins in shared.items():
        known = named.get(what.casefold())
        named[what.casefold()] = (known[0] if known else what, tuple(sorted({*(known[1] if known else ()), *bins})))
    return {what: bins for what, bins in named.values() if len(bins) > 1}


def _plain(text: str) -> str:
    return " ".join(text.split())


def _batches(ledger: Ledger, on: dt.date) -> Mapping[str, list[int]]:
    places = {name: place for place, name in enumerate(ledger.bins)}
    since = on - dt.timedelta(days=round(DEFAULTS["losses.batch"].value))
    found: dict[str, list[int]] = {}
    for entry in ledger.entries:
        kind = GIVEN.get(entry.act)
        if kind is None or entry.when is None or not since <= entry.when.first <= on:
            continue
        for batch in sorted(batches_in(entry)):
            bins = found.setdefault(f"given {kind} of {batch}", [])
            bins += [places[name] for name in entry.bins if name in places]
    return found


def batches_in(entry: Entry) -> set[str]:
    """The batches an entry names, such as batch 3 or bag B."""
    said = (entry.text(key) for key in ("note", "amount", "food", "leaf"))
    return {f"{word.lower()} {mark.upper()}" for text in said for word, mark in BATCH.findall(text)}


def events_of(ledger: Ledger, first: dt.date, on: dt.date) -> tuple[Event, ...]:
    """House events from a day on, by day."""
    found = []
    for entry in ledger.entries:
        if entry.act == "house" and entry.when is not None and first <= entry.when.first <= on:
            did, note = _plain(entry.text("did")), _plain(entry.text("note"))
            heat = HEAT.search(f"{did} {note}") is not None
            found.append(Event(entry.when.first, did or note or "house event", note, heat, entry.where, entry.bins))
    return tuple(sorted(found, key=lambda event: event.day))
