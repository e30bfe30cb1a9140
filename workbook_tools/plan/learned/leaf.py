"""Leaf litter: how much is left, how much a week, when it runs out."""

from __future__ import annotations

import datetime as dt

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.litter import LITTER, Litter, Sights, TopUps, Visits, follow_litter
from workbook_tools.ledger.series.litter import LitterSeries, litter_series
from workbook_tools.plan.learned.frame import Frame, range_of
from workbook_tools.plan.learned.numbers import Numbers
from workbook_tools.plan.learned.records import LeafForecast, Point, Range

COMING = tuple(range(0, 7 * 17, 7))
PAST_WEEKS = 26


def forecast_leaf(frame: Frame, numbers: Numbers, *, history: bool = True) -> dict[str, LeafForecast]:
    """Forecast the leaf litter of every bin that was ever topped up or looked at, and of those split off such bins."""
    series = litter_series(frame.ledger, frame.on)
    noted = {*series.bin.tolist(), *series.seen_bin.tolist()}
    if not noted:
        return {}
    litter, first_day = litter_of(frame, series, numbers, history=history)
    grams = DEFAULTS["leaf.grams"].value
    found = {}
    for place, bin in enumerate(frame.bins):
        if not noted & {place, int(frame.parent[place])} or not frame.wanted(place):
            continue
        a_week = range_of(litter.week[:, place])
        runs_out = frame.dates(litter.runs_out[:, place], litter.beyond[:, place])
        found[bin.name] = LeafForecast(
            bin=bin.name,
            basis=frame.basis(place, litter.notes, inherits=True),
            left=range_of(litter.left[:, place]),
            a_week=a_week,
            grams_a_week=Range(a_week.low * grams, a_week.middle * grams, a_week.high * grams),
            simple=simple_leaf(series, place),
            runs_out=runs_out,
            next=runs_out.low,
            path=_path(frame, litter, place, first_day, series),
        )
    return found


def litter_of(frame: Frame, series: LitterSeries, numbers: Numbers, *, history: bool = False) -> tuple[Litter, int]:
    """Follow the litter of every bin, from the first top-up of any; also that first day."""
    noted = np.concatenate([series.day, series.seen_day])
    first_day = int(noted.min()) if noted.size else frame.today
    first_day = max(first_day, numbers.population.first_day)
    ahead, ahead_sd = numbers.exposure_ahead(LITTER.power)
    known = np.array([bin.amount("floor") is not None or bin.amount("volume") is not None for bin in frame.bins])
    litter = follow_litter(
        TopUps(series.bin, series.day, series.litres),
        Sights(
            series.seen_bin,
            series.seen_day,
            series.low,
            series.high,
            np.zeros(series.seen_bin.size, dtype=np.bool_),
        ),
        exposure=numbers.exposure(first_day, LITTER.power),
        first_day=first_day,
        species=frame.species,
        appetite=frame.appetite,
        full=np.where(known, series.full, np.nan),
        start_day=numbers.series.start_day,
        visits=Visits(series.passed_bin, series.passed_day),
        ahead=ahead,
        ahead_sd=ahead_sd,
        doubt=(LITTER.power * numbers.error) ** 2,
        parent=frame.parent,
        horizon=COMING,
        history=history,
    )
    return litter, first_day


def simple_leaf(series: LitterSeries, place: int) -> float | None:
    """Litres a week over the last three top-ups: those before the last, over the days they lasted."""
    days, litres = series.given(place)
    if days.size < 4 or not np.isfinite(litres[-4:-1]).all():
        return None
    return float(litres[-4:-1].sum() / (days[-1] - days[-4]) * 7)


def _path(frame: Frame, litter: Litter, place: int, first_day: int, series: LitterSeries) -> tuple[Point, ...]:
    points = []
    if litter.past is not None:
        days = series.day[series.bin == place]
        begun = int(days.min()) if days.size else first_day
        for back in range(7 * PAST_WEEKS, 0, -7):
            day = frame.today - back
            if day >= max(first_day, begun):
                middle, low, high = (float(part) for part in litter.past[:, place, day - first_day])
                points.append(Point(dt.date.fromordinal(day), low, middle, high))
    for column, days_ahead in enumerate(litter.horizon):
        low, middle, high = (float(part) for part in litter.path[:, place, column])
        points.append(Point(dt.date.fromordinal(frame.today + days_ahead), low, middle, high))
    return tuple(points)
