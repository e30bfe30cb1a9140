"""Rows of the workbook into the ledger: bins, and entries by date."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.settings import Settings
from workbook_tools.intake.tables import Row
from workbook_tools.intake.values import Fact, When
from workbook_tools.ledger.acts import RowActs, acts_of, says_something
from workbook_tools.ledger.listed import read_bins
from workbook_tools.ledger.mentions import Mentions
from workbook_tools.ledger.moved import OUT, moved_by
from workbook_tools.ledger.names import alike_key, looks_like_code
from workbook_tools.ledger.parents import first_days, with_parents
from workbook_tools.ledger.records import Bin, Entry, Ledger, said
from workbook_tools.ledger.renames import ACT, as_one, former_names, name_on, renames, settings_now
from workbook_tools.problems import CellRef, Problem, merged

HOUSE_ACTS = frozenset({"room", "house", "stock", "note"})
"""Acts that need no bin."""
BEGINS = frozenset({"split", "move_up", "start"})
"""Acts whose target is a bin that begins then, if nothing else says when it began."""


def build_ledger(rows: Sequence[Row], settings: Settings, *, on: dt.date) -> tuple[Ledger, list[Problem]]:
    """Build the ledger of a workbook; ``checks.check`` looks at what came of it.

    Parameters
    ----------
    rows : sequence of Row
        Rows of all tables; those that are neither of a list of bins nor of a log are passed over.
    settings : Settings
        Kept with the ledger.
    on : date
        The day of the report: a start after it, read from the log, begins no bin.

    Returns
    -------
    Ledger, list of Problem
        Entries are in the order of their dates, those without a date first.
    """
    bins, entries, problems, used = read_bins(rows)
    by_list = bool(bins)
    bins |= former_names(bins)
    log = [(row, acts_of(row)) for row in rows if row.role == "log"]
    noted = 0
    mentions = Mentions(bins)
    mentions.begun.update(_begun(log))
    mentions.renamed.update(_renamed(log), (alike_key(name) for name, bin in bins.items() if not bin.listed))
    mentions.learn(fact for row, taken in log for fact in (*_named_in(row, taken), *_targets(row, taken)))
    if log and not by_list and bins:
        problems.append(Problem("bins.no_list", CellRef(log[0][0].where.sheet), {"count": len(bins)}))
    if by_list:
        _doubt(bins, log, mentions)
    spans = _spans(bins, log, mentions)
    for row, taken in log:
        found, row_problems = _entries(row, taken, mentions, spans)
        entries += found
        problems += row_problems
        kept = len(found) == len(taken.acts)
        only_note = all(act == "note" for act, _ in taken.acts)
        used += kept and not only_note
        noted += kept and only_note
    _take_species(bins, log, mentions)
    entries.sort(key=lambda e: (e.when.last if e.when else dt.date.min, _clock(e), e.where, e.act))
    renamed, unsure = renames(bins, entries, mentions)
    bins, entries = as_one(bins, entries, renamed)
    made, told = with_parents(
        _with_starts(bins, entries, on),
        entries,
        lambda text: [name_on(name, dt.date.max, renamed) for name in mentions.surely(text)],
        on,
    )
    ledger = Ledger(
        bins=made,
        entries=tuple(entries),
        settings=settings_now(settings, made, renamed),
        rows_read=sum(row.role in ("bins", "log") for row in rows),
        rows_used=used,
        rows_noted=noted,
    )
    return ledger, merged([*problems, *unsure, *told, *mentions.problems, *mentions.spellings()])


def _needs_no_bin(taken: RowActs) -> bool:
    return all(act in HOUSE_ACTS for act, _ in taken.acts)


def _named_in(row: Row, taken: RowActs) -> list[Fact]:
    """Cells that name the bins of a row; those of the room or the house name none that isn't known."""
    house = all(act in HOUSE_ACTS - {"note"} for act, _ in taken.acts)
    return [] if house else [fact for fact in row.facts.get("bins", ()) if says_something(fact)]


def _targets(row: Row, taken: RowActs) -> list[Fact]:
    """Cells that name a bin to which animals were split or moved, when they look like a code; or its new name.

    Animals out to a code of the letters of their own bin went to a bin; any other text is a person or a place.
    """
    begins = any(act in BEGINS for act, _ in taken.acts)
    after, to = row.facts.get("bin_after", ()), row.facts.get("to_bin", ())
    source = said(row.first("from_bin"))
    if begins and not after and not to and looks_like_code(source):
        to = tuple(fact for fact in row.facts.get("bins", ()) if said(fact) != source)
    elif not begins and any(act == "animals_out" for act, _ in taken.acts):
        own = [_letters(said(fact)) for fact in row.facts.get("bins", ())]
        to = tuple(fact for fact in to if own and own[0] and _letters(said(fact)) == own[0])
        begins = True
    renamed = to if any(act == ACT for act, _ in taken.acts) else ()
    return [*renamed, *(fact for fact in (*(to if begins else ()), *after) if looks_like_code(said(fact)))]


def _letters(text: str) -> str:
    """The letters of a text that looks like the code of one bin."""
    return "".join(re.findall(r"[^\W\d_]", text)).casefold() if looks_like_code(text) else ""


def _clock(entry: Entry) -> dt.time:
    if entry.when and entry.when.time:
        return entry.when.time
    fact = entry.facts.get("time")
    return fact.value if fact and isinstance(fact.value, dt.time) else dt.time.max


def _day(row: Row) -> When | None:
    return next((fact.value for fact in row.facts.get("when", ()) if isinstance(fact.value, When)), None)


def _take_species(bins: dict[str, Bin], log: Sequence[tuple[Row, RowActs]], mentions: Mentions) -> None:
    """Give a bin that no list has the species that the log writes beside it first."""
    for row, _ in log:
        fact, species = row.first("bins"), row.first("species")
        if fact is None or species is None or not said(species).strip() or mentions.whole_group(said(fact)):
            continue
        for name in mentions.known(said(fact)):
            if not bins[name].listed and not bins[name].species:
                bins[name] = replace(bins[name], facts={**bins[name].facts, "species": species})


def _begun(log: Sequence[tuple[Row, RowActs]]) -> dict[str, str]:
    """What is split or moved off into bins that look like new ones, by the key of their name: what they come from."""
    found: dict[str, str] = {}
    for row, taken in log:
        parent = said(row.first("from_bin") or row.first("bins")).strip()
        if parent and any(act in BEGINS | OUT for act, _ in taken.acts):
            for fact in _targets(row, taken):
                found.setdefault(alike_key(said(fact)), parent)
    return found


def _renamed(log: Sequence[tuple[Row, RowActs]]) -> Iterator[str]:
    """Old and new names of bins that the log renames, by the key of each."""
    for row, taken in log:
        if any(act == ACT for act, _ in taken.acts):
            for key in ("bins", "from_bin", "to_bin"):
                yield from (alike_key(said(fact)) for fact in row.facts.get(key, ()))


def _doubt(bins: dict[str, Bin], log: Sequence[tuple[Row, RowActs]], mentions: Mentions) -> None:
    """Mark bins that no list has as doubtful, unless they are named on enough days or are seen to begin."""
    days: dict[str, set[dt.date]] = {name: set() for name, bin in bins.items() if not bin.listed}
    begun: set[str] = set()
    for row, taken in log if days else ():
        when, fact = _day(row), row.first("bins")
        starts = any(act == "start" for act, _ in taken.acts)
        if fact is not None and when is not None and not mentions.whole_group(said(fact)):
            named = [name for name in mentions.known(said(fact)) if name in days]
            begun.update(named if starts else ())
            for name in named:
                days[name].add(when.first)
        begun.update(name for fact in _targets(row, taken) for name in mentions.known(said(fact)))
    for name, on in days.items():
        if name not in begun and len(on) < DEFAULTS["unlisted.days"].value:
            bins[name] = replace(bins[name], doubtful=True)


def _spans(
    bins: Mapping[str, Bin], log: Sequence[tuple[Row, RowActs]], mentions: Mentions
) -> dict[str, tuple[dt.date, dt.date]]:
    """The first and last day on which each bin can have been, for entries on whole groups of bins.

    Where there is a list, a bin it doesn't have is there from the day it is first named; a doubtful one never is.
    """
    by_list = any(bin.listed for bin in bins.values())
    spans = {bin.name: (bin.started.first if bin.started else dt.date.min, dt.date.max) for bin in bins.values()}
    spans |= {name: (dt.date.max, dt.date.max) for name, bin in bins.items() if by_list and not bin.listed}
    for row, taken in log:
        acts = {act for act, _ in taken.acts}
        when, fact = _day(row), row.first("bins")
        own = fact is not None and not mentions.whole_group(said(fact))
        named = [name for one in (fact,) if one and own for name in mentions.known(said(one))]
        named += [name for one in _targets(row, taken) for name in mentions.known(said(one))]
        for name in named:
            if when is not None and by_list and not (bins[name].listed or bins[name].doubtful):
                spans[name] = (min(spans[name][0], when.first), spans[name][1])
        if when is None or fact is None or not own:
            continue
        for name in mentions.known(said(fact)) if acts & {"start", "end"} else ():
            first, last = spans[name]
            spans[name] = (when.first, last) if "start" in acts and first == dt.date.min else (first, last)
            if "end" in acts:
                spans[name] = (spans[name][0], when.last)
    return spans


def _entries(
    row: Row, taken: RowActs, mentions: Mentions, spans: Mapping[str, tuple[dt.date, dt.date]]
) -> tuple[list[Entry], list[Problem]]:
    """The entries of one row of a log, one for each act.

    None when its date can't be told; those of the room alone when its bin can't.
    """
    problems = list(taken.problems)
    when = _day(row)
    if when is None:
        cell = row.first("when")
        where = cell.cell.ref if cell else row.where
        return [], [Problem("entries.no_date", where, {}, cell.text if cell else "")]
    facts = [fact for fact in row.facts.get("bins", ()) if says_something(fact)]
    house = _needs_no_bin(taken)
    names: tuple[str, ...] = ()
    for fact in facts:
        if house and not mentions.known(said(fact)):
            continue
        found = mentions.find(fact)
        if mentions.whole_group(said(fact)):
            found = tuple(n for n in found if spans[n][0] <= when.last and when.first <= spans[n][1])
        elif not found:
            return _of_the_room(row, taken, when), problems
        names += found
    names = tuple(dict.fromkeys(names))
    if not names and not house:
        left_out = Problem("entries.no_bin", row.where, {}, said(facts[0]) if facts else "")
        return _of_the_room(row, taken, when), [*problems, left_out]
    return [Entry(act, when, names, row.where, _named(own, mentions)) for act, own in taken.acts], problems


def _of_the_room(row: Row, taken: RowActs, when: When) -> list[Entry]:
    """What a row says of the room or the house, which is so whatever bin it was written for."""
    return [Entry(act, when, (), row.where, dict(own)) for act, own in taken.acts if act in ("room", "house")]


def _named(facts: Mapping[str, Fact], mentions: Mentions) -> Mapping[str, Fact]:
    """Replace the text of From and To by the bins' own names where they name bins."""
    if "to_bin" not in facts and "from_bin" not in facts:
        return facts
    out = dict(facts)
    for key in ("to_bin", "from_bin"):
        fact = facts.get(key)
        if fact is not None and (names := mentions.known(said(fact))):
            out[key] = replace(fact, value=", ".join(names))
    return out


def _with_starts(bins: Mapping[str, Bin], entries: Sequence[Entry], on: dt.date) -> dict[str, Bin]:
    """Give bins without a start the one that the log tells: set up, or split or moved off another bin.

    A bin that no list has begins with the first animals of another. A bin in which something was done before lived
    already, and doesn't begin with a split into it.
    """
    starts: dict[str, Fact] = {}
    first = first_days(entries)
    for entry in entries:
        day = entry.facts.get("when")
        if entry.when is None or entry.when.first > on or day is None:
            continue
        moved = moved_by(entry, bins)
        for name in moved.targets:
            if entry.act not in BEGINS and (bins[name].listed or not moved.sources):
                continue
            if entry.act == "start" or first.get(name, entry.when.last) >= entry.when.first:
                starts.setdefault(name, replace(day, field="started", value=entry.when))
    return {
        name: replace(bin, facts={**bin.facts, "started": starts[name]}) if name in starts and not bin.started else bin
        for name, bin in bins.items()
    }
