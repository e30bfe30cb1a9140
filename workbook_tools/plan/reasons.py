"""The sentences that say why a task is due."""

from __future__ import annotations

from workbook_tools.fields import ACTS
from workbook_tools.intake.values import When, Words
from workbook_tools.ledger.records import Entry
from workbook_tools.plan.care import LAST, Care
from workbook_tools.plan.rhythm import Interval
from workbook_tools.plan.wording import Wording

LONGEST_GUESS = 40
"""Letters of a keeper's words that a reason quotes."""


def every(interval: Interval, wording: Wording) -> str:
    """Say how often: every 7 days; every 5 days (your setting)."""
    return f"every {wording.count(interval.days, 'day')}{interval.whose}"


def last_time(care: Care, entry: Entry, interval: Interval, wording: Wording, rule: str = "") -> str:
    """Say when a kind of care was last done, by which rule it is due, and what a vague date was counted from.

    Without a ``rule`` it is due by the interval.
    """
    assert entry.when is not None
    first = entry.when.first
    act = entry.act
    if act in LAST and not (care.key == "look" and act != "look"):
        done = f"{LAST[act]} {wording.date(first)}"
    else:
        done = f"Last opened {wording.date(first)} ({ACTS[act].label})"
    if not entry.when.exact:
        done += f" (your log says only {wording.when(entry.when)})"
    if guess := _guess(entry):
        done += f" (guessed from '{guess}')"
    return f"{done}; {rule or every(interval, wording)}."


def _guess(entry: Entry) -> str:
    """The words that an act was guessed from, cut short; empty where they plainly say it."""
    did = entry.facts.get("did")
    if did is None or not did.guessed or not isinstance(did.value, Words) or entry.act not in did.value.keys:
        return ""
    return did.text if len(did.text) <= LONGEST_GUESS else f"{did.text[: LONGEST_GUESS - 1].rstrip()}…"


def first_time(started: When, interval: Interval, wording: Wording, *, new: bool) -> str:
    """Say that something isn't logged yet for a bin, and that it counts from its start.

    ``new`` says that the interval is the one for a new bin.
    """
    rule = f"first after {wording.count(interval.days, 'day')}{interval.whose}" if new else every(interval, wording)
    return f"Not logged yet; set up {wording.counted_from(started)}; {rule}."


def never_here(since: str, interval: Interval, wording: Wording) -> str:
    """Say that something was never logged for a bin that isn't known to be new, and from when it counts."""
    return f"Never logged for this bin; {since}; {every(interval, wording)}."


KIND_BEGAN = "first logged for another {day}"
BIN_BEGAN = "its first entry is of {day}"
BIN_SET_UP = "set up {day}"

BEFORE_LOG = "That was before your log began, so it isn't called late."

LOOK_FIRST = "Look at what is left first."

NOTHING_LOGGED = (
    "No care is logged for this bin, so it isn't known when it was last watered or fed. "
    "Look it over and log what you see."
)


NOT_LISTED = (
    "The log names this bin on few days and your list of bins doesn't have it. "
    "If there is such a bin, add it to the list; if not, correct the name in the log."
)


def never_for_any(care: Care) -> str:
    """Say that a kind of care was never logged for any bin."""
    return f"You have never logged '{care.label}' for any bin, so it can't be said for which one it is due."


def no_change(bins: int, wording: Wording) -> str:
    """Say that no change of substrate is logged for any bin, and in how many it would be due."""
    return (
        "No change of substrate and no look at it is logged for any bin. Counted from their starts it would be due in "
        f"{wording.count(bins, 'bin')}; Changes says when for each."
    )
