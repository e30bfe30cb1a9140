"""Substrate: the share still recognisable, when it is spent, how much to renew."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np
from numpy.typing import NDArray

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.substrate import (
    SUBSTRATE,
    Changes,
    Filled,
    Looks,
    Substrate,
    follow_substrate,
    looks_at_depth,
)
from workbook_tools.estimate.warmth import YEAR, pace, yearly_warmth
from workbook_tools.ledger.series.room import room_series
from workbook_tools.ledger.series.substrate import SubstrateSeries, filled_with, substrate_series
from workbook_tools.plan.learned.frame import Frame, range_of
from workbook_tools.plan.learned.numbers import Numbers
from workbook_tools.plan.learned.records import Point, SubstrateForecast

SEASONS_AHEAD = 3 * round(YEAR)
"""Days ahead for which the warmth of the season is reckoned with; from then on that of the year."""
COMING = tuple(range(0, 28 * 14, 28))
PAST_WEEKS = 52


def forecast_substrate(frame: Frame, numbers: Numbers, *, history: bool = True) -> dict[str, SubstrateForecast]:
    """Forecast the substrate of every bin of which its start, a change or a look is known."""
    series = substrate_series(frame.ledger, frame.on)
    substrate, first_day = substrate_of(frame, series, numbers, history=history)
    months = frame.rhythm.days("lasts.substrate").days / 30.4375
    smallest = substrate.smallest_share(months)
    looks = np.bincount(np.concatenate([series.seen_bin, series.sunk_bin]), minlength=frame.size)
    noted = {*series.bin.tolist(), *series.seen_bin.tolist(), *series.sunk_bin.tolist()}
    found = {}
    for place, bin in enumerate(frame.bins):
        known = place in noted or (bin.started is not None and bin.started.first <= frame.on)
        if not known or not frame.wanted(place):
            continue
        share = float(smallest[place])
        found[bin.name] = SubstrateForecast(
            bin=bin.name,
            basis=frame.basis(place, looks, inherits=True),
            share=range_of(substrate.share[:, place]),
            spent=frame.dates(substrate.spent[:, place], substrate.beyond[:, place]),
            smallest=share if math.isfinite(share) else None,
            months=months,
            simple=simple_substrate(frame, series, place),
            path=_path(frame, substrate, place, first_day, numbers),
        )
    return found


def substrate_of(
    frame: Frame, series: SubstrateSeries, numbers: Numbers, *, history: bool = False
) -> tuple[Substrate, int]:
    """Follow the substrate of every bin; also the first day that was followed."""
    first_day = numbers.population.first_day
    ahead, ahead_sd = numbers.exposure_ahead(SUBSTRATE.power)
    started = np.array([_start(bin.started.middle if bin.started else None) for bin in frame.bins], dtype=np.int64)
    warm = _pace(frame, np.arange(first_day, frame.today + SEASONS_AHEAD))
    now = frame.today - first_day + 1
    substrate = follow_substrate(
        Changes(series.bin, series.day, series.share),
        _looks(series),
        exposure=numbers.exposure(first_day, SUBSTRATE.power),
        first_day=first_day,
        species=frame.species,
        appetite=frame.appetite,
        start_day=started,
        filled=_filled(frame),
        ahead=ahead,
        ahead_sd=ahead_sd,
        doubt=(SUBSTRATE.power * numbers.error) ** 2,
        parent=frame.parent,
        pace=warm[:now],
        pace_ahead=np.append(warm[now:], warm[-round(YEAR) :].mean()),
        horizon=COMING,
        history=history,
    )
    return substrate, first_day


def simple_substrate(frame: Frame, series: SubstrateSeries, place: int) -> dt.date | None:
    """Where a straight line from fresh at the last renewal through the last look since then reaches spent."""
    own = series.seen_bin == place
    if not own.any():
        return None
    seen = int(series.seen_day[own][-1])
    share = float(series.low[own][-1] + series.high[own][-1]) / 2
    renewed = series.day[(series.bin == place) & (series.day < seen)]
    started = frame.bins[place].started
    reset = int(renewed[-1]) if renewed.size else started.middle.toordinal() if started else 0
    lost = SUBSTRATE.fresh - share
    if not reset or reset >= seen or lost <= 0:
        return None
    days = (SUBSTRATE.fresh - SUBSTRATE.spent) / lost * (seen - reset)
    return dt.date.fromordinal(reset + int(days)) if days < 3650 else None


def _pace(frame: Frame, days: NDArray[np.int64]) -> NDArray[np.float64]:
    """How fast animals and microbes work on each day by the readings of the room; 1 while there are too few."""
    room = room_series(frame.ledger, frame.on)
    if len(room.day) < DEFAULTS["room.readings"].value:
        return np.ones(len(days))
    return pace(yearly_warmth(room.day, room.temperature, days))


def _looks(series: SubstrateSeries) -> Looks:
    """What was seen, in words or shares, and what the depth says."""
    sunk = looks_at_depth(series.sunk_bin, series.sunk_day, series.ratio)
    found = np.zeros(series.seen_bin.size, dtype=np.bool_)
    return Looks(
        np.concatenate([series.seen_bin, sunk.bin]),
        np.concatenate([series.seen_day, sunk.day]),
        np.concatenate([series.low, sunk.low]),
        np.concatenate([series.high, sunk.high]),
        np.concatenate([found, sunk.after]),
    )


def _filled(frame: Frame) -> Filled:
    """Old substrate with which bins were set up."""
    places = {bin.name: place for place, bin in enumerate(frame.bins)}
    found = [(places[name], places[one.source], one) for name, one in filled_with(frame.ledger, frame.on).items()]
    return Filled(
        np.array([place for place, _, _ in found], dtype=np.int64),
        np.array([source for _, source, _ in found], dtype=np.int64),
        np.array([one.share for _, _, one in found], dtype=np.float64),
        np.array([one.error for _, _, one in found], dtype=np.float64),
    )


def _start(day: dt.date | None) -> int:
    return day.toordinal() if day else 0


def _path(frame: Frame, substrate: Substrate, place: int, first_day: int, numbers: Numbers) -> tuple[Point, ...]:
    points = []
    if substrate.past is not None:
        begun = max(first_day, int(numbers.series.start_day[place]))
        for back in range(7 * PAST_WEEKS, 0, -7):
            day = frame.today - back
            if day >= begun:
                middle, low, high = (float(part) for part in substrate.past[:, place, day - first_day])
                points.append(Point(dt.date.fromordinal(day), low, middle, high))
    for column, days_ahead in enumerate(substrate.horizon):
        low, middle, high = (float(part) for part in substrate.path[:, place, column])
        points.append(Point(dt.date.fromordinal(frame.today + days_ahead), low, middle, high))
    return tuple(points)
