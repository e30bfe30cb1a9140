"""Lines: the animals of each over all its bins, and how much of its variation it is likely to have kept."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.variation import breeders_of, in_effect, kept
from workbook_tools.ledger.lines import line_of
from workbook_tools.ledger.records import Bin
from workbook_tools.ledger.status import ends, statuses
from workbook_tools.plan.learned.frame import APPETITES, Frame
from workbook_tools.plan.learned.numbers import Numbers
from workbook_tools.plan.learned.records import LineForecast, Range
from workbook_tools.plan.learned.totals import added

MONTH_DAYS = 30.4375


def forecast_lines(frame: Frame, numbers: Numbers) -> tuple[LineForecast, ...]:
    """Say of every line how many animals it had at least, and what share of its variation it is likely to keep.

    A line is all bins of one species and line name, also those that are gone; bins without a species, and straggler
    tubs, are of none. It is taken as one stock whose bins exchange animals. It begins with its first bin, no earlier
    than numbers are followed; what was lost before isn't known. Lines of whose numbers nothing is written are left out.
    """
    groups: dict[tuple[str, str], list[int]] = {}
    for place, bin in enumerate(frame.bins):
        if line_of(bin)[0] and frame.status[place] != "straggler tub" and _begun(bin, frame.on):
            groups.setdefault(line_of(bin), []).append(place)
    closed = ends(frame.ledger, statuses(frame.ledger, frame.on))
    found = (_line(places, frame, numbers, closed) for places in groups.values())
    return tuple(line for line in found if line is not None)


def _begun(bin: Bin, on: dt.date) -> bool:
    return bin.started is None or bin.started.first <= on


def _line(places: list[int], frame: Frame, numbers: Numbers, closed: dict[str, dt.date]) -> LineForecast | None:
    people, series = numbers.population, numbers.series
    if not any(people.counted[place] for place in places):
        return None
    days = np.arange(people.first_day, people.last_day + 1)
    total = np.zeros(len(days))
    starts = {}
    for place in places:
        start = int(series.start_day[place]) or frame.today
        end = closed.get(frame.bins[place].name)
        starts[place] = start
        there = (days >= start) & ((days < end.toordinal()) if end else True)
        total += np.where(there, np.exp(people.log_mean[place]), 0.0)
    lived = np.flatnonzero(total > 0)
    if not len(lived):
        return None
    since = total[lived[0] :]
    first = min(places, key=lambda place: starts[place])
    founders = float(series.start_number[first])
    appetite = APPETITES[int(frame.appetite[first])]
    months = DEFAULTS[f"line.generation.{appetite}"].value
    generation = months * MONTH_DAYS
    breeders = DEFAULTS["line.breeders"]
    low, middle, high = (
        kept(breeders_of(since, share), generation) for share in (breeders.low, breeders.value, breeders.high)
    )
    bins = tuple(frame.bins[place].name for place in places)
    return LineForecast(
        species=frame.bins[first].species,
        line=frame.bins[first].line,
        bins=bins,
        alive=sum(frame.status[place] != "gone" for place in places),
        began=dt.date.fromordinal(int(days[lived[0]])),
        founders=founders if math.isfinite(founders) else None,
        now=added(
            Range(*(float(one[place]) for one in people.today)) for place in places if frame.wanted(place)
        ).middle,
        least=float(since.min()),
        breeders=in_effect(np.maximum(breeders_of(since[:: round(generation)], breeders.value), 1.0)),
        months=months,
        generations=(len(since) - 1) / generation,
        kept=Range(low, middle, high),
    )
