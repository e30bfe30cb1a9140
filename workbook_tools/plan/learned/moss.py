"""The moss corner: how long from watering to dry, and when to look next."""

from __future__ import annotations

import datetime as dt

import numpy as np
from numpy.typing import NDArray

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.drying import Checks, Drying, Visits, fit_drying
from workbook_tools.estimate.vapour import RoomAir, room_air
from workbook_tools.ledger.series.moss import MossSeries, moss_series
from workbook_tools.ledger.series.room import room_series
from workbook_tools.plan.learned.frame import Frame, range_of
from workbook_tools.plan.learned.records import DateRange, MossForecast

STATES = ("dry", "drying", "damp", "wet", "soaked")
_AIRING = {"low": 0, "medium": 1, "high": 2, "mesh": 2}
STEP = 0.08
RECENT = 60
"""Days within which readings of the room count as telling the air of now."""


def forecast_moss(frame: Frame) -> tuple[dict[str, MossForecast], int]:
    """Forecast every moss corner, and say how many room readings set the pace.

    Days are weighted by the room's vapour pressure deficit when at least three readings lie in the last 60 days.
    """
    series = moss_series(frame.ledger, frame.on)
    air, readings = _air(frame, series)
    drying = drying_of(frame, series, air)
    checks = _checks(frame, series, drying, air)
    days = np.stack([drying.quantile(p) for p in (0.1, 0.5, 0.9)])
    # Of a log with long gaps, looks long after a watering tell nothing: another one was surely not written.
    notes = np.where(drying.rates.notes > 0, np.bincount(series.bin, minlength=frame.size), 0)
    found = {}
    for place, bin in enumerate(frame.bins):
        if not frame.wanted(place, tub=True):
            continue
        watered = int(series.watered[place])
        gaps = series.gaps(place, frame.today)[-3:]
        too_wet, where = series.too_wet.get(place, ("", None))
        state = int(series.found[place])
        found[bin.name] = MossForecast(
            bin=bin.name,
            basis=frame.basis(place, notes),
            days=range_of(days[:, place]),
            simple=float(np.mean(gaps)) if len(gaps) == 3 else None,
            watered=dt.date.fromordinal(watered) if watered else None,
            dry=_dry(checks, place, watered) if watered else None,
            next=_day(watered, float(checks.after[place])) if watered else None,
            by_ceiling=bool(checks.by_ceiling[place]),
            found=STATES[state] if state >= 0 else "",
            looked=dt.date.fromordinal(int(series.looked[place])) if state >= 0 else None,
            too_wet=too_wet,
            too_wet_where=where,
        )
    return found, readings


def _air(frame: Frame, series: MossSeries) -> tuple[RoomAir | None, int]:
    room = room_series(frame.ledger, frame.on)
    recent = room.between(frame.today - RECENT, frame.today)
    if recent < DEFAULTS["room.readings"].value:
        return None, 0
    first = int((series.day - series.since).min()) if series.size else frame.today
    air = room_air(
        room.day,
        room.temperature,
        room.humidity,
        first_day=min(first, frame.today - RECENT),
        last_day=frame.today,
    )
    return air, int(room.day.size) if air is not None else 0


def drying_of(frame: Frame, series: MossSeries, air: RoomAir | None) -> Drying:
    """Fit the time to dry of every bin."""
    visits = Visits(
        series.bin,
        series.day,
        series.state,
        series.since.astype(np.float64),
        None if air is None else _stepped(air.clock(series.day - series.since, series.day)),
    )
    pace = None if air is None else np.full(frame.size, air.pace(frame.today))
    return fit_drying(
        visits,
        bins=frame.size,
        airing=np.array([_AIRING.get(bin.word("ventilation", ""), -1) for bin in frame.bins], dtype=np.int64),
        now=frame.today,
        pace=pace,
    )


def _stepped(clock: NDArray[np.float64]) -> NDArray[np.float64]:
    """Round to steps of 8 %: the air isn't known better, and like looks are then worked out once."""
    return np.asarray(np.exp(np.round(np.log(np.maximum(clock, 0.01)) / STEP) * STEP))


def _checks(frame: Frame, series: MossSeries, drying: Drying, air: RoomAir | None) -> Checks:
    watered = series.watered > 0
    looked = series.found >= 0
    until = np.where(looked, series.looked, frame.today)
    since = np.where(watered, until - series.watered, 0)
    clock = since.astype(np.float64) if air is None else air.clock(until - since, until)
    return drying.next_check(
        risk=frame.rhythm.share("risk.moss"),
        ceiling=np.array([frame.rhythm.days("every.moss", bin).days for bin in frame.bins], dtype=np.float64),
        state=np.where(watered, series.found, -1),
        since=since.astype(np.float64),
        clock=clock,
    )


def _dry(checks: Checks, place: int, watered: int) -> DateRange:
    low, middle, high = (_day(watered, float(part[place])) for part in (checks.low, checks.middle, checks.high))
    return DateRange(low, middle, high)


def _day(watered: int, after: float) -> dt.date:
    return dt.date.fromordinal(watered + int(min(after, 3650.0)))
