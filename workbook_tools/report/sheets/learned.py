"""What the sheets of what was learned have in common: rows, columns, words for intervals, charts of a path."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from workbook_tools.ledger.records import Bin
from workbook_tools.plan.learned.dates import animals
from workbook_tools.plan.learned.records import Point
from workbook_tools.plan.wording import Wording
from workbook_tools.report.columns import ChartSpec, Column, Place, Series, TableSpec, Value
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import bins

T = TypeVar("T")

URGENT = 8
"""Bins in the short table at the top."""
SHORT = 12
"""A sheet with no more bins than this has no short table."""
PATHS = 3
"""Charts of single bins on a sheet."""
CANT_SAY = "can't say"
BAND = "4 times in 5 between"
INTERVALS = (
    "Four times in five the truth lies between From and To, taken over all bins. Notes counts what you wrote that "
    "tells something of it."
)


@dataclass(frozen=True)
class Row(Generic[T]):
    """One bin and what is known of it."""

    bin: Bin
    of: T


def rows_of(findings: Findings, known: Mapping[str, T]) -> list[Row[T]]:
    """Pair every bin that has a forecast with it, in the keeper's order."""
    return [Row(bin, known[bin.name]) for bin in findings.ledger.bins.values() if bin.name in known]


def bin_columns(*, line: bool = False) -> tuple[Column, ...]:
    """Which bin it is and where."""
    return (
        Column(
            "Bin",
            lambda row: row.bin.name,
            "link",
            9,
            "The bin as you name it. The link leads to its line on the sheet Bins.",
            link=lambda row: Place(bins.NAME, row.bin.name),
        ),
        Column("Species", lambda row: row.bin.species, width=25, note="As your list of bins has it."),
        *((Column("Line", lambda row: row.bin.line, width=12, note="As your list of bins has it."),) if line else ()),
        Column("Place", lambda row: row.bin.place, width=13, note="The shelf or rack."),
    )


def basis_columns() -> tuple[Column, ...]:
    """How many notes there are, and whether due days rest on them."""
    return (
        Column(
            "Notes", lambda row: row.of.basis.notes, "number", 8, "Your notes of this bin that tell something of it."
        ),
        Column(
            "Rests on",
            lambda row: "your notes" if row.of.basis.learned else row.of.basis.said,
            width=17,
            note="Whether the estimate rests on your notes of this bin. Where it is not yet learned it is a starting "
            "guess from common practice, from like bins and from the bin it was split off; due days keep to your "
            "rhythm.",
        ),
    )


def guess(row: Row[Any], said: str) -> str:
    """Mark what was not learned here as a starting guess."""
    return said if row.of.basis.learned else f"Starting guess: {said[:1].lower()}{said[1:]}"


def between(low: str, middle: str, high: str, unit: str = "") -> str:
    """Say a number with its interval: about 6 days, between 5 and 7; without it where the three read the same."""
    unit = f" {unit}" if unit else ""
    return f"about {middle}{unit}" + ("" if low == high else f", between {low} and {high}")


def day_or_words(day: dt.date | None) -> Value:
    """The day, or that it can't be said."""
    return day if day is not None else CANT_SAY


def tables(
    name: str, columns: tuple[Column, ...], rows: Sequence[Row[Any]], *, urgent: str, title: str, when_empty: str
) -> tuple[TableSpec, ...]:
    """The most urgent bins in a short table, then all bins, the most urgent first; one table where there are few.

    The charts belong below the first of them.
    """
    whole = TableSpec(name, columns, rows, title, when_empty, key=lambda row: row.bin.name)
    if len(rows) <= SHORT:
        return (whole,)
    return (TableSpec(f"{name}First", columns, rows[:URGENT], urgent), whole)


def by_species(rows: Sequence[Row[T]]) -> dict[str, list[Row[T]]]:
    """Group rows by species, as first written; bins without one under "no species written"."""
    named: dict[str, str] = {}
    groups: defaultdict[str, list[Row[T]]] = defaultdict(list)
    for row in rows:
        species = " ".join(row.bin.species.split())
        groups[named.setdefault(species.casefold(), species or "no species written")].append(row)
    return dict(groups)


def path_chart(
    title: str,
    path: Sequence[Point],
    on: dt.date,
    below: str,
    wording: Wording,
    *,
    up: str,
    across: int = 3,
    share: bool = False,
    mark: tuple[str, float] | None = None,
) -> ChartSpec:
    """Draw what was and what is expected, between the two ends of the interval, and a line at a mark.

    ``mark`` is a name and a value, such as the share at which substrate is spent.
    """
    points = sorted(path, key=lambda point: point.day)
    last = max((point.day for point in points if point.day <= on), default=points[0].day)
    series = [
        Series(BAND, "edge", tuple(round(point.low, 4) for point in points)),
        Series("", "edge", tuple(round(point.high, 4) for point in points)),
        Series("so far", "so far", tuple(round(p.middle, 4) if p.day <= last else None for p in points)),
        Series("expected", "ahead", tuple(round(p.middle, 4) if p.day >= last else None for p in points)),
    ]
    if mark:
        series.append(Series(mark[0], "mark", (mark[1],) * len(points)))
    now, end = next(point for point in points if point.day == last), points[-1]

    def said(value: float) -> str:
        if share:
            return f"{wording.number(value * 100)} %"
        return wording.number(value, 1) if value < 10 else animals(value, wording)

    says = f"{title}. {wording.date(now.day)}: about {said(now.middle)}; {wording.date(end.day)}: about "
    says += f"{said(end.middle)}, between {said(end.low)} and {said(end.high)}."
    return ChartSpec(
        title, says, "line", tuple(p.day for p in points), "Day", up, tuple(series), below, across, share=share
    )
