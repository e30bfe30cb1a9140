"""Substrate changes made, and the next one expected for each bin."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS, Default
from workbook_tools.intake.values import Amount, Number
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.series.substrate import PART, WHOLE, Filled, filled_with
from workbook_tools.plan.history import History
from workbook_tools.plan.learned.dates import learned_change
from workbook_tools.plan.learned.records import Estimates, SubstrateForecast
from workbook_tools.plan.records import NextChange, SubstrateChange
from workbook_tools.plan.rhythm import SOURCES, Rhythm
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef

MONTH_DAYS = 30.4375
DAY = dt.timedelta(days=1)
WORN = ("spent", "mostly frass")
SOUND = ("fresh", "good")


def substrate_changes(ledger: Ledger) -> tuple[SubstrateChange, ...]:
    """List every change of substrate, by bin in the keeper's order and then by date.

    A date in the list of bins that a change in the log falls into is that change and not listed again.
    """
    by_bin: dict[str, list[Entry]] = {name: [] for name in ledger.bins}
    for entry in ledger.entries:
        if entry.act == "substrate_change":
            for name in entry.bins:
                by_bin[name].append(entry)
    return tuple(_change(name, entry) for name, entries in by_bin.items() for entry in _each_once(entries))


def _each_once(entries: Sequence[Entry]) -> list[Entry]:
    logged = [entry for entry in entries if "last_substrate_change" not in entry.facts]
    return [
        entry
        for entry in entries
        if "last_substrate_change" not in entry.facts
        or not any(
            e.when and entry.when and entry.when.first <= e.when.last and e.when.first <= entry.when.last
            for e in logged
        )
    ]


def _change(name: str, entry: Entry) -> SubstrateChange:
    words = " ".join(entry.text(key) for key in ("did", "last_substrate_change"))
    way = entry.text("way") or (entry.text("did") if WHOLE.search(words) or PART.search(words) else "")
    share = _share(entry)
    if share is None and WHOLE.search(f"{words} {way}") and not PART.search(f"{words} {way}"):
        share = 1.0
    when = entry.when
    return SubstrateChange(
        name, when.first if when else None, when.last if when else None, way, share, entry.text("old_went"), entry.where
    )


def _share(entry: Entry) -> float | None:
    for key in ("share", "amount"):
        fact = entry.facts.get(key)
        if fact is None:
            continue
        if isinstance(fact.value, Amount) and fact.value.unit in ("share", "percent"):
            best = fact.value.number.best / (100 if fact.value.unit == "percent" else 1)
        elif isinstance(fact.value, Number) and key == "share":
            best = fact.value.best
        else:
            continue
        if 0 < best <= 1:
            return best
    return None


def next_changes(
    past: History,
    changes: Sequence[SubstrateChange],
    rhythm: Rhythm,
    wording: Wording,
    estimates: Estimates | None = None,
) -> tuple[NextChange, ...]:
    """Say for every bin when its substrate is expected to need a change, and what that rests on.

    ``changes`` are those of :func:`substrate_changes`; ones after the day of ``past`` are passed over.

    Fresh substrate lasts as many months as the default for the bin's appetite, medium when none is given. A change of
    the share f takes f of the age away (age becomes age x (1 - f)), which is the rule R <- R (1 - f) + f for a
    recognisable share R that falls evenly from 1 to 0. A change without a share counts as whole, one called partial
    as a third. Substrate seen mostly frass or spent since the last change is due at once; a change on the day of that
    look or later answers it, since one looks before one changes, and a change of a part then counts from a whole age.
    A bin that was split or moved off another begins with as much of that one's age as it holds of its substrate.
    Seen good or fresh when it should have been spent, it is due again at the next look. A first day stands for a vague
    date.

    That is a starting guess: it knows nothing of how many animals there are, nor of what they eat. Where
    ``estimates`` learned enough of the bin, the day is that on which it is spent by them, never later than the longest
    time between changes. What was seen worn out is due at once all the same.

    ``due`` is None for a bin that is gone, resting or a straggler tub, where neither start nor change is known, and
    where a change may have been made before the log began: no change is logged and by its start one was due before.
    """
    bins = past.ledger.bins
    made: dict[str, list[SubstrateChange]] = {name: [] for name in bins}
    for change in changes:
        if change.when_first is not None and change.when_first <= past.on:
            made[change.bin].append(change)
    learned = estimates.substrate if estimates else {}
    filled = filled_with(past.ledger, past.on)
    return tuple(
        _next(bin, made[name], past, rhythm, wording, learned.get(name), _first_age(name, bins, made, filled))
        for name, bin in bins.items()
    )


@dataclass(frozen=True)
class _Clock:
    """How worn the substrate was on a day, as an age in days."""

    day: dt.date
    age_days: float
    where: tuple[CellRef, ...]
    worn: bool = False
    """Whether it was found worn out just before the last change."""


@dataclass(frozen=True)
class _Old:
    """The age that a bin's substrate had at its start, for what it held of another's."""

    of: str = ""
    share: float = 0.0
    days: float = 0.0


def _first_age(
    name: str, bins: Mapping[str, Bin], made: Mapping[str, Sequence[SubstrateChange]], filled: Mapping[str, Filled]
) -> _Old:
    old, started = filled.get(name), bins[name].started
    if old is None or started is None:
        return _Old()
    parent, before = bins[old.source], _first_age(old.source, bins, made, filled)
    changes = [one for one in made[old.source] if one.when_first is not None and one.when_first < started.first]
    life = _life(parent).value * MONTH_DAYS
    clock = _clock(parent, changes, life, before)
    if clock is None or clock.day >= started.first:
        return _Old()
    age = min(clock.age_days + (started.first - clock.day).days, life) / life * _life(bins[name]).value * MONTH_DAYS
    return _Old(old.source, old.share, age * old.share)


def _life(bin: Bin) -> Default:
    return DEFAULTS[f"substrate.life.{bin.word('appetite') or 'medium'}"]


def _part(change: SubstrateChange) -> float:
    if change.share is not None:
        return change.share
    return DEFAULTS["change.part"].value if PART.search(change.way) else 1.0


def _clock(
    bin: Bin,
    changes: Sequence[SubstrateChange],
    life_days: float,
    old: _Old,
    worn_on: dt.date | None = None,
) -> _Clock | None:
    started = bin.started
    where = (bin.facts["started"].cell.ref,) if started else ()
    clock = _Clock(started.first, old.days, where) if started else None
    for change in changes:
        assert change.when_first is not None
        part = _part(change)
        if clock is None or part >= 1:
            clock = _Clock(change.when_first, 0.0, (change.where,))
            continue
        worn = worn_on is not None and clock.day < worn_on <= change.when_first
        age = life_days if worn else min(clock.age_days + max((change.when_first - clock.day).days, 0), life_days)
        clock = _Clock(change.when_first, age * (1 - part), (*clock.where[:1], change.where), worn)
    return clock


def _next(
    bin: Bin,
    changes: Sequence[SubstrateChange],
    past: History,
    rhythm: Rhythm,
    wording: Wording,
    learned: SubstrateForecast | None,
    old: _Old,
) -> NextChange:
    on = past.on
    status = past.status[bin.name].word
    last = changes[-1].when_first if changes else None
    if status in ("gone", "resting", "straggler tub"):
        return NextChange(bin.name, None, f"None expected: the bin is {_called(status)}.", last)
    life = _life(bin)
    looked = past.latest(bin.name, ("substrate_look",))
    seen_on = looked.when.first if looked and looked.when else None
    found = looked.state("substrate") if looked else ""
    since = last or (bin.started.first - DAY if bin.started else None)
    seen = found if seen_on and (since is None or seen_on > since) else ""
    clock = _clock(bin, changes, life.value * MONTH_DAYS, old, seen_on if found in WORN else None)
    if looked and seen_on and seen in WORN:
        why = f"Found {seen} {wording.date(seen_on)}; no change is logged since."
        return NextChange(bin.name, seen_on, why, last, (looked.where,))
    stated = bin.facts.get("substrate")
    if stated and seen_on is None and bin.word("substrate") in WORN:
        why = f"Your list of bins says that it is {bin.word('substrate')}."
        return NextChange(bin.name, on, why, last, (stated.cell.ref,))
    ceiling = rhythm.days("every.change", bin)
    change = learned_change(learned, clock.day if clock else None, ceiling, on, wording)
    if change is not None:
        where = (*(clock.where if clock else ()), *((looked.where,) if looked else ()))
        return NextChange(bin.name, change.due, change.why, last, where)
    if clock is None:
        return NextChange(bin.name, None, "Not known: neither the start of the bin nor a change is logged.", last)
    due = clock.day + dt.timedelta(days=round(life.value * MONTH_DAYS - clock.age_days))
    log_begins = min(past.first_of_act.values(), default=None)
    if not changes and (log_begins is None or due < log_begins):
        began = f"your log begins {wording.date(log_begins)}" if log_begins else "there is no log"
        why = f"Not known: it was set up {_set_up(bin, clock, wording)}, {began}, and no change is logged."
        return NextChange(bin.name, None, why, last, clock.where)
    why = f"{_counted_from(bin, changes, clock, old, wording)}; {_lasts(bin, life.value, life.source, wording)}"
    if looked and seen_on and seen in SOUND and seen_on >= due:
        again = rhythm.days("every.substrate", bin)
        due = seen_on + dt.timedelta(days=again.days)
        why += f" Found {seen} on {wording.date(seen_on)}, so it is put off to the next look at it."
        return NextChange(bin.name, due, why, last, (*clock.where, looked.where))
    return NextChange(bin.name, due, why, last, clock.where)


def _called(status: str) -> str:
    return f"a {status}" if status == "straggler tub" else status


def _set_up(bin: Bin, clock: _Clock, wording: Wording) -> str:
    return wording.counted_from(bin.started) if bin.started else wording.date(clock.day)


def _counted_from(bin: Bin, changes: Sequence[SubstrateChange], clock: _Clock, old: _Old, wording: Wording) -> str:
    if not changes:
        share = f"{wording.number(old.share * 100)} %"
        filled = f" with old substrate of {old.of} in it, taken as {share}" if old.of else ""
        return f"No change logged since it was set up {_set_up(bin, clock, wording)}{filled}"
    change = changes[-1]
    part = _part(change)
    if change.share is None:
        how = "Changed in part, taken as a third," if part < 1 else "Changed, taken as all of it,"
    else:
        how = "All changed" if part >= 1 else f"{wording.number(part * 100)} % changed"
    vague = "" if change.when_first == change.when_last else " at the earliest"
    off = f"{wording.number(part * 100)} % off its age" + (", as worn out as it was found" if clock.worn else "")
    back = "" if part >= 1 else f", which takes {off}"
    return f"{how} {wording.date(clock.day)}{vague}{back}"


def _lasts(bin: Bin, months: float, source: str, wording: Wording) -> str:
    appetite = bin.word("appetite")
    of_parents = f"as {' and '.join(bin.parents)}; " if "appetite" in bin.inherited else ""
    eater = f"{appetite} eaters ({of_parents}" if appetite else "medium eaters (no appetite is given; "
    return f"it lasts about {wording.number(months)} months with {eater}{SOURCES.get(source, source)})."
