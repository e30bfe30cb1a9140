"""The ledger as a table: one row for each bin of each entry, for grouping."""

from __future__ import annotations

import datetime as dt

import pandas as pd

from workbook_tools.ledger.records import Ledger


def entries_table(ledger: Ledger, *, until: dt.date | None = None) -> pd.DataFrame:
    """Return the dated entries as a table, an entry on three bins as three rows, in the order of the ledger.

    Parameters
    ----------
    ledger : Ledger
        Its entries without a date and those without a bin are left out.
    until : date, optional
        Entries that begin after this day are left out.

    Returns
    -------
    DataFrame
        ``bin`` and ``act`` (text), ``first`` and ``last`` (the days it lies between, as ``date``), and ``entry``, its
        place in ``ledger.entries``.
    """
    rows = [
        (name, entry.act, entry.when.first, entry.when.last, place)
        for place, entry in enumerate(ledger.entries)
        if entry.when is not None and (until is None or entry.when.first <= until)
        for name in entry.bins
    ]
    return pd.DataFrame(rows, columns=["bin", "act", "first", "last", "entry"])


def last_done(table: pd.DataFrame) -> dict[tuple[str, str], tuple[dt.date, int]]:
    """Return for each bin and act the last day it was begun and the place of that entry.

    A vague date counts from its first day, so that a task is rather too early than too late. Of several entries on
    one day the last of the ledger is taken.
    """
    if table.empty:
        return {}
    latest = table.sort_values("first", kind="stable").groupby(["bin", "act"], sort=False).tail(1)
    return {
        (name, act): (first, int(place))
        for name, act, first, place in zip(latest["bin"], latest["act"], latest["first"], latest["entry"], strict=True)
    }
