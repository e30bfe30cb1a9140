"""What has changed in each bin since a day, from the dated log alone."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from workbook_tools.intake.values import Amount, Number
from workbook_tools.ledger.moved import moved_by
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.series.transfers import transfers
from workbook_tools.plan.records import Happening, SubstrateChange
from workbook_tools.plan.wording import Wording

NEW = "New bin"
WHAT = {
    "end": "Closed",
    "rest": "Resting",
    "quarantine": "Into quarantine",
    "release": "Out of quarantine",
    "move_place": "Moved place",
    "rename": "Renamed",
    "move_up": "Moved up a size",
    "split": "Split",
    "animals_in": "Animals in",
    "animals_out": "Animals out",
    "dead": "Deaths",
}
INTO = {"split": "split off {bin}", "move_up": "moved from {bin}", "animals_out": "from {bin}"}
"""What is said of the bin that animals went to."""
NUMBERS = ("number", "dead", "amount")
"""Fields that may say how many, the surest first."""
COUNTED = ("dead", "animals_in", "animals_out", "split")
MORE = re.compile(r"[^\W\d_]|\?")
"""Letters or a question mark: more than a number."""


def happenings(
    ledger: Ledger, changes: Sequence[SubstrateChange], since: dt.date, on: dt.date, wording: Wording
) -> tuple[Happening, ...]:
    """List what changed in each bin from ``since`` to ``on``, both days included, by bin and then by day.

    Bins new or gone, put aside or back, moved, split, animals in and out, deaths, substrate changed. Nothing is kept
    between runs: the same log and days give the same list. A move that is written in both of its bins is told in each
    by its own row. A vague date counts if any of it lies in the time.
    """
    places = {name: place for place, name in enumerate(ledger.bins)}
    both = [move for move in transfers(ledger, on) if move.other is not None]
    twice = {(move.where, move.target) for move in both} | {(move.other, move.source) for move in both}
    found = [h for bin in ledger.bins.values() for h in _new(bin, ledger, since, on, wording)]
    for entry in ledger.entries:
        if entry.when is None or entry.when.first > on or entry.when.last < since:
            continue
        if entry.act in WHAT:
            told = _of_entry(entry, ledger, wording)
            found += [one for one in told if one.bin in entry.bins or (one.where, places[one.bin]) not in twice]
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
    detail += f" with {_founders(bin, wording)}" if founders else ""
    yield Happening(bin.name, started.first, NEW, f"{detail}.", bin.facts["started"].cell.ref)


def _of_entry(entry: Entry, ledger: Ledger, wording: Wording) -> Iterator[Happening]:
    """What an entry tells of the bins it is written for, and of those at the other end of a move."""
    assert entry.when is not None
    day = entry.when.first
    moved = moved_by(entry, ledger.bins)
    number = _number(entry)
    many = wording.ranged(number) if number else ""
    off = INTO.get(entry.act, "").format(bin=wording.listing(moved.sources))
    arrived = Happening("", day, WHAT["animals_in"], _sentence(f"{many} {off}".strip()), entry.where)
    for name in entry.bins:
        if off and moved.coming and name in moved.targets:
            yield replace(arrived, bin=name)
        else:
            yield Happening(name, day, WHAT[entry.act], _detail(entry, wording), entry.where)
    for name in moved.targets if off else ():
        if name not in entry.bins:
            yield replace(arrived, bin=name)
    left = WHAT[entry.act] if off else WHAT["animals_out"]
    animals = f"{wording.ranged(number, 'animal', 'animals')}, " if number else ""
    for name in moved.sources:
        if name not in entry.bins:
            detail = _sentence(f"{animals}to {wording.listing(moved.targets)}")
            yield Happening(name, day, left, detail, entry.where)


def _number(entry: Entry) -> Number | None:
    """How many animals; None where no number is read, or one of something else such as litres."""
    for field in NUMBERS:
        fact = entry.facts.get(field)
        if fact is None or (isinstance(fact.value, Amount) and fact.value.unit not in ("", "count")):
            continue
        if (number := entry.number(field)) is not None:
            return number
    return None


def _founders(bin: Bin, wording: Wording) -> str:
    number = bin.facts["founders"].value
    if isinstance(number, Number):
        return wording.ranged(number, "animal", "animals")
    return f"{bin.text('founders')} animals"


def _written(entry: Entry) -> str:
    """The keeper's words about how many, where they say more than a number."""
    text = next((text for field in NUMBERS if (text := entry.text(field).strip())), "")
    return f"you wrote: '{text}'" if MORE.search(text) else ""


def _detail(entry: Entry, wording: Wording) -> str:
    parts = []
    number = _number(entry)
    if number:
        nouns = ("dead", "dead") if entry.act == "dead" else ("animal", "animals")
        parts.append(wording.ranged(number, *nouns))
    if to := entry.text("to_bin"):
        parts.append(f"to {to}")
    if source := entry.text("from_bin"):
        parts.append(f"from {source}")
    if len(entry.bins) > 1:
        parts.append(f"logged for {wording.listing(entry.bins)} together")
    if entry.when and not entry.when.exact:
        parts.append(f"the log says only {wording.when(entry.when)}")
    text = "; ".join(part for part in (", ".join(parts), _written(entry)) if part)
    if text:
        return _sentence(text)
    return "How many isn't written." if entry.act in COUNTED else "Nothing more is written."


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _substrate(change: SubstrateChange, wording: Wording) -> Happening:
    parts = [
        f"{wording.number(change.share * 100)} % replaced" if change.share is not None else "how much isn't written",
        *([change.way] if change.way else []),
        *([f"the old went to: {change.old_went}"] if change.old_went else []),
    ]
    return Happening(change.bin, change.when_first, "Substrate changed", _sentence(", ".join(parts)), change.where)
