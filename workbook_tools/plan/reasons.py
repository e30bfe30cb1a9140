"""The sentences that say why a task is due."""

from __future__ import annotations

import datetime as dt

from workbook_tools.fields import ACTS
from workbook_tools.ledger.records import Entry
from workbook_tools.plan.care import LAST, Care
from workbook_tools.plan.rhythm import Interval
from workbook_tools.plan.wording import Wording


def every(interval: Interval, wording: Wording) -> str:
    """Say how often: due every 7 days (common practice)."""
    return f"due every {wording.count(interval.days, 'day')} ({interval.said})"


def last_time(care: Care, entry: Entry, interval: Interval, wording: Wording, on: dt.date) -> str:
    """Say when a kind of care was last done, how often it is due, and what a vague date was counted from."""
    assert entry.when is not None
    first = entry.when.first
    ago = wording.ago((on - first).days)
    act = entry.act
    if act in LAST and not (care.key == "look" and act != "look"):
        done = f"{LAST[act]} {wording.date(first)} ({ago})"
    else:
        done = f"Last opened {wording.date(first)} ({ago}; logged: {ACTS[act].label})"
    why = f"{done}; {every(interval, wording)}."
    if not entry.when.exact:
        why += f" The log says only {wording.when(entry.when)}, so it counts from the first day of that."
    return why


def first_time(birth: dt.date, started: bool, interval: Interval, wording: Wording, *, new: bool) -> str:
    """Say that something isn't logged yet for a bin, and what it counts from.

    ``new`` says that the interval is the one for a new bin.
    """
    since = "set up" if started else "whose first entry is of"
    rule = (
        f"the first time is after {wording.count(interval.days, 'day')} ({interval.said})"
        if new
        else every(interval, wording)
    )
    return f"Not logged yet for this bin, {since} {wording.date(birth)}; {rule}."


def later_kind(began: dt.date, interval: Interval, wording: Wording) -> str:
    """Say that something isn't logged for this bin and counts from the day it was first logged for another."""
    return (
        f"Never logged for this bin; counted from {wording.date(began)}, when you first logged it for another; "
        f"{every(interval, wording)}."
    )


NOTHING_LOGGED = (
    "Nothing is logged for this bin, so it isn't known when it was last watered or fed. "
    "Look it over and log what you see."
)


NOT_LISTED = (
    "The log names this bin on few days and your list of bins doesn't have it. "
    "If there is such a bin, add it to the list; if not, correct the name in the log."
)


def never_for_any(care: Care) -> str:
    """Say that a kind of care was never logged for any bin."""
    return f"You have never logged '{care.label}' for any bin, so it can't be said for which one it is due."
