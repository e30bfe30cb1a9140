"""The look back itself: estimates for many past days, each from the log as it then stood."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from dateutil.relativedelta import relativedelta

from workbook_tools.defaults import DEFAULTS
from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.backtest.records import Backtest, Comparison
from workbook_tools.plan.backtest.score import scores, scores_by_day
from workbook_tools.plan.backtest.seen import Seen
from workbook_tools.plan.estimates import estimate_all


def past_days(ledger: Ledger, on: dt.date) -> tuple[dt.date, ...]:
    """The days estimates are made for: one a month from the end of the warm-up to two weeks before the last entry.

    The log begins where one entry in fifty has been written, so that single early dates, such as a bin's start, don't
    stretch it.
    """
    days = sorted(e.when.first for e in ledger.entries if e.when is not None and e.when.first <= on)
    if not days:
        return ()
    first = days[len(days) // 50] + dt.timedelta(days=int(DEFAULTS["backtest.warm_up"].value))
    last = days[-1] - dt.timedelta(days=14)
    found = []
    day = first
    while day <= last:
        found.append(day)
        day = first + relativedelta(months=len(found))
    return tuple(found)


def look_back(ledger: Ledger, on: dt.date, tell: Callable[[dt.date], None] = lambda day: None) -> Backtest:
    """Estimate everything for many past days and compare it with what was seen next.

    Parameters
    ----------
    ledger : Ledger
        As it is known on ``on``; for each past day only what was written up to it is used. What the list of bins says
        carries no date and is taken to have been so all the time, but for guesses of numbers.
    on : date
        Nothing after it is used.
    tell : callable
        Called with each day before it is estimated.

    Returns
    -------
    Backtest
        Empty where the log is too short.

    Notes
    -----
    Looks of one bin in neighbouring months hang together, so the scores rest on fewer notes than they count. What is
    seen is coarse: a note that fits an interval doesn't prove it.
    """
    days = past_days(ledger, on)
    comparisons: list[Comparison] = []
    if days:
        seen = Seen.of(ledger, on)
        for day in days:
            tell(day)
            comparisons += seen.beside(estimate_all(ledger, day, history=False))
    return Backtest(on, days, tuple(comparisons), scores(comparisons), scores_by_day(comparisons))
