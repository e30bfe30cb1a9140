"""The keeper's own regular rhythm, where the log shows one that is slower than common practice."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from itertools import pairwise
from statistics import median

from workbook_tools.defaults import DEFAULTS
from workbook_tools.ledger.records import Ledger

KINDS = {"every.food": "feed"}
"""Kinds of care of which the keeper's own rhythm counts, with the act that does them."""
GAPS = 4
"""Times between that have to be alike."""
ALIKE = 0.3
"""Share of the middle one by which each may differ from it."""


def usual_days(ledger: Ledger, on: dt.date) -> dict[str, int]:
    """The days between, by kind of care, of a keeper who keeps to a regular rhythm slower than common practice.

    Regular is a bin of which the last times between are all alike; more than half of the bins of which the act is
    logged at all have to be so. A rhythm as fast as common practice, or faster, changes nothing. Entries after ``on``
    aren't used.
    """
    found = {}
    for key, act in KINDS.items():
        days: defaultdict[str, set[dt.date]] = defaultdict(set)
        for entry in ledger.entries:
            if entry.act == act and entry.when is not None and entry.when.first <= on:
                for name in entry.bins:
                    days[name].add(entry.when.first)
        regular = [middle for one in days.values() if (middle := _regular(one)) is not None]
        usual = round(median(regular)) if 2 * len(regular) > len(days) else 0
        default = DEFAULTS[key]
        if default.value < usual <= default.high:
            found[key] = usual
    return found


def _regular(days: set[dt.date]) -> float | None:
    """The middle one of the last times between; None where they aren't alike or too few."""
    last = sorted(days)[-GAPS - 1 :]
    gaps = [(after - before).days for before, after in pairwise(last)]
    if len(gaps) < GAPS:
        return None
    middle = median(gaps)
    return middle if all(abs(gap - middle) <= ALIKE * middle for gap in gaps) else None
