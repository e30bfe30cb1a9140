"""What has changed in each bin since a day, from the dated log alone."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from workbook_tools.fields import ACTS
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.plan.records import Happening, SubstrateChange
from workbook_tools.plan.wording import Wording

NEW = "New bin"
WHAT = {
    "end": "Closed",
    "rest": "Resting",
    "quarantine": "Into quarantine",
    "release": "Out of quarantine",
    "move_place": "Moved place",
    "move_up": "Moved up a size",
    "split": "Split",
    "animals_in": "Animals in",
    "animals_out": "Animals out",
    "dead": "Deaths",
}
INTO = {"split": "split off {bin}", "move_up": "moved from {bin}", "animals_out": "from {bin}"}
"""What is said of the bin that animals went to."""


def happenings(
    ledger: Ledger, changes: Sequence[SubstrateChange], since: dt.date, on: dt.date, wording: Wording
) -> tuple[Happening, ...]:
    """List what changed in each bin from ``since`` to ``on``, both days included, by bin and then by day.

    Bins new or gone, put aside or back, moved, split, animals in and out, deaths, substrate changed. Nothing is kept
    between runs: the same log and days give the same list. A vague date counts if any of it lies in the time.
    """
    found = [h for bin in ledger.bins.values() for h in _new(bin, ledger, since, on, wording)]
    for entry in ledger.entries:
        if entry.when is None or entry.when.first > on or entry.when.last < since:
            continue
        if entry.act in WHAT:
            found += _of_entry(entry, ledger, wording)
    for change in changes:
        if change.when_first and change.when_last and change.when_first <= on and change.when_last >= since:
            found.append(_substrate(change, wording))
    order = {name: place for place, name in enumerate(ledger.bins)}
    found.sort(key=lambda h: (order[h.bin], h.day or dt.date.min, h.what != NEW, h.where, h.what))
    return tuple(found)


def _new(bin: Bin, ledger: Ledger, since: dt.date, on: dt.date, wording: Wording) -> Iterator[Happening]:
    started = bin.started
    if started is None or started.first > on or started.last < since:
        return
    detail = f"Set up {wording.when(started)}"
    founders = bin.text("founders")
    detail += f" with {_animals(founders)}" if founders else ""
    yield Happening(bin.name, started.first, NEW, f"{detail}.", bin.facts["started"].cell.ref)


def _of_entry(entry: Entry, ledger: Ledger, wording: Wording) -> Iterator[Happening]:
    assert entry.when is not None
    day = entry.when.first
    for name in entry.bins:
        yield Happening(name, day, WHAT[entry.act], _detail(entry, wording), entry.where)
    for target in _bins(entry, "to_bin", ledger):
        if entry.act in INTO and target not in entry.bins:
            number = _number(entry)
            said = INTO[entry.act].format(bin=wording.listing(entry.bins))
            detail = f"{number} {said}." if number else f"{said[0].upper()}{said[1:]}."
            yield Happening(target, day, "Animals in", detail, entry.where)


def _bins(entry: Entry, field: str, ledger: Ledger) -> list[str]:
    fact = entry.facts.get(field)
    names = str(fact.value).split(", ") if fact else []
    return [name for name in names if name in ledger.bins]


def _number(entry: Entry) -> str:
    return entry.text("number") or entry.text("dead") or entry.text("amount")


def _animals(number: str) -> str:
    return f"{number} animal" if number == "1" else f"{number} animals"


def _detail(entry: Entry, wording: Wording) -> str:
    parts = []
    number = _number(entry)
    if number:
        parts.append(_animals(number) if entry.act != "dead" else f"{number} dead")
    if to := entry.text("to_bin"):
        parts.append(f"to {to}")
    if source := entry.text("from_bin"):
        parts.append(f"from {source}")
    if len(entry.bins) > 1:
        parts.append(f"logged for {wording.listing(entry.bins)} together")
    if entry.when and not entry.when.exact:
        parts.append(f"the log says only {wording.when(entry.when)}")
    text = ", ".join(parts)
    return f"{text[0].upper()}{text[1:]}." if text else f"Logged as {ACTS[entry.act].label}."


def _substrate(change: SubstrateChange, wording: Wording) -> Happening:
    parts = [
        f"{wording.number(change.share * 100)} % replaced" if change.share is not None else "how much isn't written",
        *([change.way] if change.way else []),
        *([f"the old went to: {change.old_went}"] if change.old_went else []),
    ]
    text = ", ".join(parts)
    return Happening(change.bin, change.when_first, "Substrate changed", f"{text[0].upper()}{text[1:]}.", change.where)
