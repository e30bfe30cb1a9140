"""Bins that got another name: one bin, under its new name, with all that was written under either."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from workbook_tools.intake.settings import Settings
from workbook_tools.intake.values import Fact
from workbook_tools.ledger.mentions import Mentions
from workbook_tools.ledger.names import alike_key, parts
from workbook_tools.ledger.records import Bin, Entry, said
from workbook_tools.problems import Problem

ACT = "rename"
ALWAYS = dt.date.max


@dataclass(frozen=True, slots=True)
class Rename:
    """One change of a name; ``last`` is the last day on which the old name means this bin, if another has it since."""

    old: str
    new: str
    day: dt.date | None
    last: dt.date = ALWAYS


def former_names(bins: Mapping[str, Bin]) -> dict[str, Bin]:
    """Names that the list gives bins as former ones and that no bin has now: as bins of their own, until `as_one`."""
    known = {alike_key(name) for name in bins}
    made: dict[str, Bin] = {}
    for bin in bins.values():
        for old in _formerly(bin):
            if alike_key(old) not in known:
                made.setdefault(old, Bin(old, bin.facts["formerly"].cell.ref, listed=False))
    return made


def _formerly(bin: Bin) -> list[str]:
    return parts(bin.text("formerly"))


def renames(
    bins: Mapping[str, Bin], entries: Sequence[Entry], mentions: Mentions
) -> tuple[list[Rename], list[Problem]]:
    """Find the renames that the list of bins and the log tell, and say which can't be used.

    Parameters
    ----------
    bins, entries
        All bins, those of former names too; the entries of the log under the names they were written with.
    mentions : Mentions
        Finds the bins that a former name means.
    """
    found: list[Rename] = []
    problems: list[Problem] = []
    for entry in entries:
        if entry.act != ACT or entry.when is None:
            continue
        old, new = (_one(mentions.known(entry.text(key))) for key in ("from_bin", "to_bin"))
        own = _one(entry.bins)
        old, new = old or (own if own != new else ""), new or (own if own != old else "")
        if old and new and old != new:
            found.append(Rename(old, new, entry.when.last))
        else:
            problems.append(Problem("bins.rename_what", entry.where, {}, entry.text("did")))
    logged = {(one.old, one.new) for one in found}
    for bin in bins.values():
        for text in _formerly(bin):
            old = _one(mentions.known(text))
            if old and old != bin.name and (old, bin.name) not in logged:
                found.append(Rename(old, bin.name, None))
    return [one for rename in found for one in _dated(rename, found, bins, entries, problems)], problems


def _one(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else ""


def _dated(
    rename: Rename,
    others: Iterable[Rename],
    bins: Mapping[str, Bin],
    entries: Sequence[Entry],
    problems: list[Problem],
) -> list[Rename]:
    """Say until when the old name means this bin, where it went to another bin later; none where that isn't known."""
    old, day = bins[rename.old], rename.day
    taken = any(one.new == old.name and one.day and day and one.day >= day for one in others)
    if not taken and old.listed and bins[rename.new].listed:
        started = old.started.first if old.started else None
        if day is None and started is None:
            where = bins[rename.new].facts["formerly"].cell
            problems.append(Problem("bins.rename_when", where.ref, {"old": old.name}, where.text))
            return []
        day = day or (started - dt.timedelta(days=1) if started else None)
        taken = (day is not None and started is not None and started >= day) or any(
            old.name in entry.bins and entry.when is not None and day is not None and entry.when.first > day
            for entry in entries
        )
    return [replace(rename, last=day)] if taken and day else [rename]


def name_on(name: str, day: dt.date, made: Sequence[Rename]) -> str:
    """The present name of the bin that a name meant on a day."""
    left = sorted(made, key=lambda one: (one.last, one.day or dt.date.min))
    while True:
        step = next((one for one in left if one.old == name and day <= one.last), None)
        if step is None:
            return name
        left.remove(step)
        name, day = step.new, max(day, step.day + dt.timedelta(days=1)) if step.day and step.day < ALWAYS else day


def as_one(
    bins: Mapping[str, Bin], entries: Sequence[Entry], made: Sequence[Rename]
) -> tuple[dict[str, Bin], list[Entry]]:
    """Put together what was written under the names of one bin; what the list says under the new name wins.

    A number that a row of the list under an old name gives without a date is left out where the new name has a row.
    """
    if not made:
        return dict(bins), list(entries)
    merged: dict[str, Bin] = {}
    for bin in bins.values():
        name = _present(bin.name, made)
        before = merged.get(name)
        merged[name] = bin if before is None and bin.name == name else _merged(name, bin, before)
    both = {
        name for name, bin in bins.items() if bin.listed and name not in merged and bins[_present(name, made)].listed
    }
    kept = [entry for entry in entries if entry.when is not None or both.isdisjoint(entry.bins)]
    return merged, [_now(entry, made) for entry in kept]


def _present(name: str, made: Sequence[Rename]) -> str:
    return name_on(name, ALWAYS, made)


def _merged(name: str, bin: Bin, before: Bin | None) -> Bin:
    """One bin of two rows, or of a row under an old name."""
    own, other = (bin, before) if bin.name == name or before is None else (before, bin)
    facts = {**(other.facts if other else {}), **own.facts}
    rows = [one for one in (own, other) if one is not None]
    listed = [one for one in rows if one.listed]
    return Bin(name, (listed or rows)[0].where, facts, bool(listed))


def _now(entry: Entry, made: Sequence[Rename]) -> Entry:
    day = entry.when.last if entry.when else ALWAYS
    names = tuple(dict.fromkeys(name_on(name, day, made) for name in entry.bins))
    facts = dict(entry.facts)
    if entry.act == ACT and "from_bin" not in facts and "to_bin" in facts and names != entry.bins:
        facts["from_bin"] = replace(facts.pop("to_bin"), field="from_bin", value=", ".join(entry.bins))
    elif entry.act != ACT:
        for key in ("from_bin", "to_bin"):
            if key in facts:
                facts[key] = _fact_now(facts[key], day, made)
    return replace(entry, bins=names, facts=facts)


def _fact_now(fact: Fact, day: dt.date, made: Sequence[Rename]) -> Fact:
    old = said(fact).split(", ")
    new = [name_on(name, day, made) for name in old]
    return fact if new == old else replace(fact, value=", ".join(dict.fromkeys(new)))


def settings_now(settings: Settings, bins: Mapping[str, Bin], made: Sequence[Rename]) -> Settings:
    """Settings made for a bin under an old name are for the bin."""
    names = {one.old.casefold(): _present(one.old, made) for one in made if one.old not in bins}
    return replace(
        settings,
        values=tuple(replace(one, scope=names.get(one.scope.casefold(), one.scope)) for one in settings.values),
    )
