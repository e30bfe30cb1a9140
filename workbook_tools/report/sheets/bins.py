"""Sheet Bins: one line a bin, with what was last done in it and how busy its log has been."""

from __future__ import annotations

import datetime as dt
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from workbook_tools.fields import ACTS, FINDINGS
from workbook_tools.ledger.records import Bin, Entry
from workbook_tools.plan.history import History
from workbook_tools.plan.learned.records import LineForecast
from workbook_tools.plan.losses.sights import found_in
from workbook_tools.plan.quarantine import apart_until
from workbook_tools.plan.wording import Wording
from workbook_tools.report.columns import Column, SheetSpec, Spark, TableSpec, Value
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets.lines import LOSES, kept_share, least_kept, line_table

NAME = "Bins"
WEEKS = 26
"""Weeks of the log that the small chart shows."""
LAST = {"water": "Watered", "feed": "Fed", "leaf": "Leaf litter", "substrate_change": "Substrate changed"}
"""Acts of which the last day is shown, with the heading of its column."""
_GOOD_SIGNS = frozenset(one.key for one in FINDINGS.values() if one.good)
_SAID = {"quarantine": "in quarantine", "straggler tub": "for stragglers"}


@dataclass(frozen=True)
class BinLine:
    """One bin with all that its line shows; ``weeks`` holds entries a week, the oldest first."""

    bin: Bin
    status: str
    started: Value
    last: Mapping[str, Value]
    count: Value
    counted: Value
    tasks: int
    problems: int
    weeks: tuple[int, ...] = field(default=(0,) * WEEKS)
    apart: dt.date | None = None
    """Until when a bin in quarantine stays apart, if that is known."""
    young: dt.date | None = None
    """The last day on which mancas or females with brood were seen."""
    of_line: LineForecast | None = None
    """What is known of its line, over all of the line's bins."""


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from the ledger, with the open tasks and problems of each bin counted."""
    wording = Wording(findings.region)
    lines = bin_lines(findings, wording)
    table = TableSpec(
        "AllBins",
        _columns(findings.on, wording),
        lines,
        when_empty="No bin was found.",
        key=lambda line: line.bin.name,
    )
    about = f"The small chart shows entries a week over the {WEEKS} weeks up to {wording.date(findings.on)}."
    tables = (table, line_table(findings.estimates.lines, wording))
    lines_said = (about, *least_kept(findings.estimates.lines, wording), LOSES)
    return SheetSpec(NAME, _answer(lines, wording), tables, lines_said, frozen_columns=1)


def _answer(lines: list[BinLine], wording: Wording) -> str:
    by_status = Counter(line.status for line in lines)
    named = wording.listing(
        [f"{wording.number(number)} {_SAID.get(status, status)}" for status, number in by_status.most_common()]
    )
    species = len({line.bin.species.casefold() for line in lines if line.bin.species})
    of_species = f" of {species} species" if species else ""
    said = f"{wording.count(len(lines), 'bin')}{of_species}: {named}" if lines else "No bin was found"
    busy = sum(line.tasks > 0 for line in lines)
    return (
        f"{said}. {wording.count(busy, 'bin')} {'has' if busy == 1 else 'have'} something due." if lines else said + "."
    )


def bin_lines(findings: Findings, wording: Wording) -> list[BinLine]:
    """Gather one record a bin, in the keeper's order."""
    entries: defaultdict[str, list[Entry]] = defaultdict(list)
    for entry in findings.ledger.entries:
        for name in entry.bins:
            entries[name].append(entry)
    tasks = Counter(task.bin for task in findings.tasks if task.days >= 0)
    at = _problems_at(findings)
    of_line = {name: line for line in findings.estimates.lines for name in line.bins}
    return [
        replace(
            _line(bin, findings.past, entries[bin.name], tasks[bin.name], at, wording),
            apart=apart_until(bin, findings.past, findings.rhythm),
            young=_young(entries[bin.name], findings.on),
            of_line=of_line.get(bin.name),
        )
        for bin in findings.ledger.bins.values()
    ]


def _line(
    bin: Bin,
    past: History,
    entries: list[Entry],
    tasks: int,
    problems_at: Mapping[tuple[str, int], set[int]],
    wording: Wording,
) -> BinLine:
    weeks = [0] * WEEKS
    counted: Entry | None = None
    for entry in entries:
        begun = _begun(entry)
        if begun > past.on:
            continue
        week = WEEKS - 1 - (past.on - begun).days // 7
        if week >= 0:
            weeks[week] += 1
        if entry.act == "count" and (counted is None or _begun(counted) <= begun):
            counted = entry
    rows = {(bin.where.sheet, bin.where.row), *((entry.where.sheet, entry.where.row) for entry in entries)}
    problems: set[int] = set().union(*(problems_at.get(row, set()) for row in rows))
    started = bin.started
    return BinLine(
        bin,
        past.status[bin.name].word,
        (started.first if started.exact else wording.when(started)) if started else None,
        {act: _last(bin, act, past, wording) for act in LAST},
        _count(counted, wording) if counted else None,
        _counted(counted, wording) if counted else None,
        tasks,
        len(problems),
        tuple(weeks),
    )


def _young(entries: Iterable[Entry], on: dt.date) -> dt.date | None:
    seen = (
        entry.when.first
        for entry in entries
        if entry.when
        and ((entry.act == "young" and entry.state("young") != "no") or not _GOOD_SIGNS.isdisjoint(found_in(entry)))
    )
    return max((day for day in seen if day <= on), default=None)


def _count(entry: Entry, wording: Wording) -> Value:
    """How many were counted; in the keeper's words only where no number was written."""
    number, text = entry.number("number"), entry.text("number")
    if number is None or not any(sign.isdigit() for sign in text):
        return text
    return round(number.best) if number.exact else wording.ranged(number)


def _counted(entry: Entry, wording: Wording) -> Value:
    if entry.when is not None:
        return entry.when.first if entry.when.exact else wording.when(entry.when)
    number = entry.facts.get("number")
    return "your list's guess" if number and number.field == "number_now" else "no date written"


def _begun(entry: Entry) -> dt.date:
    """The first day it can have been, from which a due day counts too; the earliest of all for no date."""
    return entry.when.first if entry.when else dt.date.min


def _last(bin: Bin, act: str, past: History, wording: Wording) -> Value:
    entry = past.latest(bin.name, (act,))
    if entry is None or entry.when is None:
        return None
    return entry.when.first if entry.when.exact else wording.when(entry.when)


def _problems_at(findings: Findings) -> Mapping[tuple[str, int], set[int]]:
    at: defaultdict[tuple[str, int], set[int]] = defaultdict(set)
    for i, problem in enumerate(findings.problems):
        for cell in problem.cells:
            if cell.row:
                at[cell.sheet, cell.row].add(i)
    return at


def _volume(line: BinLine) -> Value:
    amount = line.bin.amount("volume")
    return round(amount.number.best, 2) if amount else None


def _came_from(bin: Bin, wording: Wording) -> str:
    return bin.text("came_from") or wording.listing(bin.parents)


def _last_column(act: str, heading: str) -> Column:
    return Column(
        heading,
        lambda line: line.last.get(act),
        "date",
        11,
        f"Last entry of: {ACTS[act].label}. As near as you wrote it.",
    )


def _columns(on: dt.date, wording: Wording) -> tuple[Column, ...]:
    weeks = [wording.date(on - dt.timedelta(weeks=WEEKS - 1 - i)) for i in range(WEEKS)]
    return (
        Column("Bin", lambda line: line.bin.name, width=9, note="The bin as you name it."),
        Column(
            "Species",
            lambda line: line.bin.species,
            width=24,
            note="As your list of bins has it; where that is empty, as in the bin it was split or moved off.",
        ),
        Column("Line", lambda line: line.bin.line, width=11, note="The line, morph or generation kept apart."),
        Column("Place", lambda line: line.bin.place, width=10, note="The shelf or rack."),
        Column("Status", lambda line: line.status, width=11, note="Active unless you wrote otherwise."),
        Column(
            "Apart until",
            lambda line: line.apart,
            "date",
            11,
            "Until when a bin in quarantine stays apart, counted from the day it went there or its animals came.",
        ),
        Column("Founders", lambda line: line.bin.text("founders"), width=9, note="How many it began with, as written."),
        Column(
            "Came from",
            lambda line: _came_from(line.bin, wording),
            width=11,
            note="Where its animals came from, as written; without that, the bin of yours it was split or moved off. "
            "For your own report: leave it out of copies for others.",
        ),
        Column(
            "Variation kept",
            lambda line: kept_share(line.of_line),
            "share",
            9,
            "Of its whole line, all bins together: see the table of lines below. A rough guide.",
        ),
        Column("Litres", _volume, "amount", 9, "Volume of the box in litres."),
        Column("Started", lambda line: line.started, "date", 11, "When it was set up, as near as you wrote it."),
        *(_last_column(act, heading) for act, heading in LAST.items()),
        Column(
            "Last count",
            lambda line: line.count,
            "number",
            11,
            "The last count of animals seen, with the range you gave it; without one, what your list gives.",
        ),
        Column(
            "Counted", lambda line: line.counted, "date", 11, "When that count was made, or that it is no dated count."
        ),
        Column(
            "Young or brood",
            lambda line: line.young,
            "date",
            11,
            "The last day on which you wrote of mancas, young, or females with brood: a good sign.",
        ),
        Column("Open tasks", lambda line: line.tasks, "number", 9, "Tasks that are late or due today."),
        Column("Problems", lambda line: line.problems, "number", 11, "Problems in rows that name this bin."),
        Column(
            "Entries",
            lambda line: sum(line.weeks),
            "number",
            10,
            f"Entries in your log over the last {WEEKS} weeks.",
        ),
        Column(
            "By week",
            lambda line: None,
            width=18,
            note="The same entries week by week, the newest at the right. The numbers stand in hidden columns.",
            spark=Spark(tuple(f"to {week}" for week in weeks), lambda line: line.weeks),
        ),
    )
