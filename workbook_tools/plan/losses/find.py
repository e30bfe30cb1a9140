"""Who loses more than is usual, alone or together: from the ledger through the watch over deaths to records."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.deaths import ALARM, at_risk, follow_deaths, poisson_limits
from workbook_tools.ledger.death_notes import death_notes
from workbook_tools.ledger.records import Ledger
from workbook_tools.ledger.series.deaths import DeathSeries, death_series
from workbook_tools.ledger.status import statuses
from workbook_tools.plan.learned.records import NumberForecast, Range
from workbook_tools.plan.losses.groups import events_of, groups_of
from workbook_tools.plan.losses.questions import questions
from workbook_tools.plan.losses.records import Alarm, BinLosses, Cluster, Losses
from workbook_tools.plan.losses.sights import said_well, sights_of
from workbook_tools.plan.losses.together import Lost, clusters
from workbook_tools.plan.wording import Wording

Floats = NDArray[np.float64]
WEEKS = 26
UNCOUNTED = 50.0
"""Animals that a bin is taken to hold where no bin of the log has a number."""
MONTH, YEAR = 30.4, 365


def losses_of(ledger: Ledger, on: dt.date, numbers: Mapping[str, NumberForecast], wording: Wording) -> Losses:
    """Watch all bins up to a day.

    Parameters
    ----------
    ledger : Ledger
        Entries after ``on`` aren't used.
    on : date
        The day for which it is known what was written.
    numbers : mapping
        The animals of each bin, as estimated; a bin without has as many as the middle one of the others.
    wording : Wording
        How dates are written.

    Returns
    -------
    Losses
        An alarm of the last ``deaths.quiet`` days stays in it, also where a later look says that all is well; one of a
        bin that is gone doesn't. Without any bin or any death written, there are no alarms, but there may be sights.
    """
    gone = {name for name, status in statuses(ledger, on).items() if status.word == "gone"}
    sights = tuple(sight for sight in sights_of(ledger, on) if sight.bin not in gone)
    series = death_series(ledger, on)
    if not ledger.bins or not series.finds:
        return Losses(on, sights=sights, vague=series.vague, in_notes=_in_notes(ledger, on))
    animals = _animals(ledger, series, numbers)
    risk = at_risk(series.looked, animals, series.began)
    watch = follow_deaths(series.found, risk, animals)
    lost = Lost(tuple(ledger.bins), series.first_day, series.found, risk, watch)
    alarms = tuple(alarm for alarm in _alarms(ledger, series, lost) if alarm.bin not in gone)
    back = sum(DEFAULTS[key].value for key in ("losses.recent", "losses.after", "deaths.window"))
    events = events_of(ledger, on - dt.timedelta(days=round(back)), on)
    together = clusters(lost, groups_of(ledger, on), events)
    concerned = list(dict.fromkeys([a.bin for a in alarms if a.well is None] + [b for c in together for b in c.bins]))
    return Losses(
        on,
        {of.bin: of for of in _bins(series, lost, animals) if of.year or not ledger.bins[of.bin].doubtful},
        alarms,
        together,
        questions(ledger, concerned, _first(alarms, together, on), on, events, wording),
        sights,
        _by_week(series, lost, {alarm.bin for alarm in alarms}),
        series.vague,
        _in_notes(ledger, on),
    )


def _in_notes(ledger: Ledger, on: dt.date) -> dict[str, int]:
    """By bin, rows of the last year whose notes speak of deaths that their row doesn't log."""
    since = on - dt.timedelta(days=YEAR)
    entries = death_notes(ledger, on).values()
    return dict(Counter(name for one in entries if one.when and one.when.first > since for name in one.bins))


def _first(alarms: tuple[Alarm, ...], together: tuple[Cluster, ...], on: dt.date) -> dt.date:
    """The day from which the losses are traced back."""
    width = dt.timedelta(days=round(DEFAULTS["deaths.window"].value) // 2)
    return min([cluster.first for cluster in together] or [alarm.day - width for alarm in alarms], default=on)


def _animals(ledger: Ledger, series: DeathSeries, numbers: Mapping[str, NumberForecast]) -> Floats:
    """(B, T) animals of each bin on each day, between the weekly points of what was estimated."""
    days = np.arange(series.found.shape[1]) + series.first_day
    known = {name: one for name, one in numbers.items() if one.path}
    usual = float(np.median([one.now.middle for one in known.values()])) if known else UNCOUNTED
    rows = []
    for name in ledger.bins:
        one = known.get(name)
        if one is None:
            rows.append(np.full(days.size, max(usual, 1.0)))
            continue
        at = [point.day.toordinal() for point in one.path]
        rows.append(np.exp(np.interp(days, at, np.log([max(point.middle, 1.0) for point in one.path]))))
    return np.array(rows)


def _alarms(ledger: Ledger, series: DeathSeries, lost: Lost) -> Iterator[Alarm]:
    """The last alarm of each bin within the quiet time, the least likely by luck first."""
    watch, width = lost.watch, round(DEFAULTS["deaths.window"].value)
    since = lost.last - round(DEFAULTS["deaths.quiet"].value)
    well = said_well(ledger, lost.day(lost.last))
    found = []
    for place, name in enumerate(lost.names):
        raised = np.flatnonzero(watch.raised[place, max(since, 0) :]) + max(since, 0)
        if not raised.size:
            continue
        at = int(raised[-1])
        dead = np.flatnonzero(series.found[place]) + series.first_day
        last = dt.date.fromordinal(int(dead[-1]))
        rows = [f.where for f in series.finds if f.bin == place and f.day > series.first_day + at - width]
        found.append(
            Alarm(
                name,
                "alarm" if watch.raised[place, at] == ALARM else "worth a look",
                lost.day(at),
                float(watch.found[place, at]),
                float(watch.expected[place, at]),
                float(watch.chance[place, at]),
                float(series.found[place, at + 1 :].sum()),
                last,
                well[name] if name in well and well[name] > last else None,
                tuple(rows),
            )
        )
    yield from sorted(found, key=lambda alarm: (alarm.tier != "alarm", alarm.chance, alarm.bin))


def _bins(series: DeathSeries, lost: Lost, animals: Floats) -> Iterator[BinLosses]:
    watch = lost.watch
    year = slice(max(lost.last - YEAR + 1, 0), lost.last + 1)
    days = np.arange(lost.last + 1)[year]
    for place, name in enumerate(lost.names):
        dead, opened = float(series.found[place, year].sum()), bool(lost.risk[place, year].any())
        lived = np.where(days >= series.began[place], animals[place, year], 0.0)
        rate = None
        if opened and np.count_nonzero(lived) >= MONTH:
            low, high = poisson_limits(dead, 0.8)
            rate = Range(*(MONTH * 100 * value / float(lived.sum()) for value in (low, dead, high)))
        found = np.flatnonzero(series.found[place])
        yield BinLosses(
            name,
            float(watch.found[place, -1]),
            float(watch.expected[place, -1]),
            dead,
            rate,
            lost.day(int(found[-1])) if found.size else None,
            opened,
        )


def _by_week(series: DeathSeries, lost: Lost, alarmed: set[str]) -> tuple[tuple[dt.date, float, float], ...]:
    """Dead found in each of the last weeks, in bins with an alarm and in the others, the oldest first."""
    theirs = np.array([name in alarmed for name in lost.names])
    weeks = []
    for back in range(WEEKS - 1, -1, -1):
        last = lost.last - 7 * back
        if last >= 0:
            week = series.found[:, max(last - 6, 0) : last + 1].sum(axis=1)
            weeks.append((lost.day(last), float(week[theirs].sum()), float(week[~theirs].sum())))
    return tuple(weeks)
