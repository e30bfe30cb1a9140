"""Checks of the ledger, each a function that returns problems: what can't be, or is far from usual."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS
from workbook_tools.intake.date_words import fold, weekdays
from workbook_tools.intake.values import Amount, Fact, Number
from workbook_tools.ledger.at_most import too_many_out
from workbook_tools.ledger.death_notes import deaths_in_notes
from workbook_tools.ledger.known import as_known
from workbook_tools.ledger.lines import lines_mixed
from workbook_tools.ledger.order import out_of_order
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.numbers import UNKNOWN, method_of
from workbook_tools.ledger.series.sifting import old_substrate
from workbook_tools.ledger.status import ends, statuses
from workbook_tools.problems import CellRef, Problem

Check = Callable[[Ledger, dt.date], list[Problem]]
ENTRY_RANGES = {
    ("water", "amount"): "usual.water",
    ("water", "water"): "usual.water",
    ("feed", "amount"): "usual.feed",
    ("leaf", "amount"): "usual.leaf",
    ("leaf", "leaf"): "usual.leaf",
    ("calcium", "amount"): "usual.calcium",
    ("calcium", "calcium"): "usual.calcium",
    ("count", "number"): "usual.count",
    ("dead", "dead"): "usual.dead",
    ("room", "temperature"): "usual.temperature",
    ("room", "humidity"): "usual.humidity",
}
BIN_RANGES = {"volume": "usual.volume", "depth": "usual.depth"}


def _grouped(code: str, entries: Iterable[Entry], field: str, facts: Mapping[str, object]) -> list[Problem]:
    """One problem for several entries, its cells those of one field, each once; none for no entries."""
    texts: dict[CellRef, str] = {}
    for entry in entries:
        texts.setdefault(entry.cell(field), entry.text(field))
    cells = sorted(texts)
    if not cells:
        return []
    return [Problem(code, cells[0], facts, texts[cells[0]], tuple(cells[1:]))]


def in_the_future(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find entries that begin after the day of the report."""
    late = [entry for entry in ledger.entries if entry.when and entry.when.first > on]
    return _grouped("entries.future", late, "when", {"on": on.isoformat()})


def begins_later(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find bins that begin after the day of the report, by their own start."""
    known = as_known(ledger, on).bins
    return [
        Problem(
            "entries.begins_later",
            bin.facts["started"].cell.ref,
            {"bin": name, "day": bin.started.first.isoformat(), "on": on.isoformat()},
            bin.facts["started"].text,
        )
        for name, bin in ledger.bins.items()
        if bin.started is not None and name not in known
    ]


def before_start(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find entries of a bin that end before it began."""
    early: dict[str, list[Entry]] = {}
    for entry in ledger.entries:
        for name in entry.bins if entry.when else ():
            started = ledger.bins[name].started
            if started is not None and entry.when and entry.when.last < started.first:
                early.setdefault(name, []).append(entry)
    found = []
    for name, entries in early.items():
        start = ledger.bins[name].facts["started"]
        found += _grouped(
            "entries.before_start", entries, "when", {"bin": name, "started": start.text, "cell": start.cell.ref}
        )
    return found


def after_end(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find care of a bin after it was closed."""
    closed = ends(ledger, statuses(ledger, on))
    late: dict[str, list[Entry]] = {}
    for entry in ledger.entries:
        if entry.when is None or not ACTS[entry.act].opens:
            continue
        for name in entry.bins:
            if name in closed and entry.when.first > closed[name]:
                late.setdefault(name, []).append(entry)
    return [
        problem
        for name, entries in late.items()
        for problem in _grouped("entries.after_end", entries, "when", {"bin": name, "day": closed[name].isoformat()})
    ]


def status_differs(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find bins whose status in the list isn't what the log says last."""
    return [
        Problem(
            "entries.status_differs",
            ledger.bins[name].facts["status"].cell.ref,
            {"bin": name, "listed": status.differs, "logged": status.word, "cell": status.where},
            ledger.bins[name].text("status"),
        )
        for name, status in statuses(as_known(ledger, on), on).items()
        if status.differs
    ]


def start_differs(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find bins whose start in the list isn't that of the log."""
    found = []
    for entry in ledger.entries:
        if entry.act != "start" or entry.when is None:
            continue
        for name in entry.bins:
            started, fact = ledger.bins[name].started, ledger.bins[name].facts.get("started")
            if started is None or fact is None:
                continue
            if entry.when.last < started.first or started.last < entry.when.first:
                told = {"bin": name, "listed": fact.text, "cell": fact.cell.ref}
                found.append(Problem("entries.start_differs", entry.cell("when"), told, entry.text("when")))
    return found


def same_row_twice(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find rows that say the same of the same bins on the same day; both are used."""
    rows: dict[CellRef, list[Entry]] = {}
    for entry in ledger.entries:
        if entry.when is not None and "bins" in entry.facts:
            rows.setdefault(entry.where, []).append(entry)
    nearly: dict[object, list[CellRef]] = {}
    for where, entries in rows.items():
        nearly.setdefault(tuple((e.act, e.bins, e.day) for e in entries), []).append(where)
    first: dict[object, CellRef] = {}
    again: dict[CellRef, list[CellRef]] = {}
    for where in sorted(where for places in nearly.values() if len(places) > 1 for where in places):
        same = first.setdefault(frozenset(_content(entry) for entry in rows[where]), where)
        if same != where:
            again.setdefault(same, []).append(where)
    return [
        Problem("entries.same_row_twice", cells[0], {"first": same}, "", tuple(cells[1:]))
        for same, cells in again.items()
    ]


def _content(entry: Entry) -> object:
    values = frozenset((key, fact.value) for key, fact in entry.facts.items() if key != "bins")
    return (entry.act, entry.bins, entry.when, values)


def far_out(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find amounts, counts and measures far outside their kind."""
    found = []
    seen: set[CellRef] = set()
    for entry in ledger.entries:
        for (act, field), key in ENTRY_RANGES.items():
            fact = entry.facts.get(field)
            if entry.act == act and fact is not None and fact.cell.ref not in seen:
                seen.add(fact.cell.ref)
                found += _outside(fact, key, ACTS[act].label)
    for bin in ledger.bins.values():
        for field, key in BIN_RANGES.items():
            fact = bin.facts.get(field)
            if fact is not None and fact.cell.ref not in seen:
                seen.add(fact.cell.ref)
                found += _outside(fact, key, field)
    return found


def _outside(fact: Fact, key: str, kind: str) -> list[Problem]:
    """The problem of a value that is wholly outside the usual range; one in another unit is passed over."""
    usual = DEFAULTS[key]
    value = fact.value
    if isinstance(value, Amount):
        if value.unit != usual.unit:
            return []
        value = value.number
    if not isinstance(value, Number) or (value.high >= usual.low and value.low <= usual.high):
        return []
    told = {
        "kind": kind,
        "low": f"{usual.low:g}",
        "high": f"{usual.high:g}",
        "unit": usual.unit,
        "read": f"{value.best:g}",
    }
    return [Problem("entries.far_out", fact.cell.ref, told, fact.text)]


def weekday_differs(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find rows whose weekday isn't that of their date."""
    rows: dict[CellRef, Entry] = {}
    for entry in ledger.entries:
        word = fold(entry.text("weekday")).strip(". ")
        days = weekdays().get(word) if word else None
        if days and entry.when and entry.when.exact and entry.when.first.weekday() not in days:
            rows.setdefault(entry.where, entry)
    return [
        Problem(
            "entries.weekday_differs",
            entry.cell("weekday"),
            {"date": entry.when.first.isoformat(), "weekday": f"{entry.when.first:%A}"},
            entry.text("weekday"),
        )
        for entry in rows.values()
        if entry.when
    ]


def finds_unplaced(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find passes and checks of old substrate without a number, or of which the bin can't be told."""
    return list(old_substrate(ledger, on).problems)


def way_not_known(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Name words in a column of ways that are not known: the count is kept as one of an unknown way.

    Words beside a number in its own cell ('22 by the lid') often tell something else and are let pass.
    """
    del on
    found = [
        (way, entry.text("way"))
        for entry in ledger.entries
        if entry.act == "count" and (way := entry.facts.get("way")) and entry.cell("number") != way.cell.ref
        if entry.text("way") and method_of(entry.text("way"), entry.text("did")) == UNKNOWN
    ]
    return [Problem("entries.way_unknown", fact.cell.ref, {"way": text}, text) for fact, text in found]


CHECKS: tuple[Check, ...] = (
    in_the_future,
    begins_later,
    out_of_order,
    before_start,
    after_end,
    status_differs,
    start_differs,
    same_row_twice,
    far_out,
    too_many_out,
    lines_mixed,
    finds_unplaced,
    weekday_differs,
    way_not_known,
    deaths_in_notes,
)


def check(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Run every check on a ledger as it stands on a day."""
    return [problem for one in CHECKS for problem in one(ledger, on)]
