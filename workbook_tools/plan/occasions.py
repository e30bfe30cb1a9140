"""Jobs that come from one entry rather than from the rhythm: leftovers, a look the keeper asked for, quarantine."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from workbook_tools.intake.values import When
from workbook_tools.ledger.records import Bin, Entry
from workbook_tools.plan import quarantine
from workbook_tools.plan.care import LEFTOVERS, LOOK_AGAIN, OPENS, QUARANTINE
from workbook_tools.plan.due import Due
from workbook_tools.plan.history import History
from workbook_tools.plan.reasons import LOOK_FIRST
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.wording import Wording
from workbook_tools.vocabulary.presence import Presence, words_of

Placed = tuple[dt.date, str, Due]
"""A due job with the day it was moved to and the reason as it is then said."""
ASK_SINCE = "Log the day it went into quarantine, or that it is over."


def leftovers_unseen(bin: Bin, past: History) -> Entry | None:
    """The last feeding of a bin, if its leftovers weren't looked at on a later day."""
    fed = past.latest(bin.name, ("feed",))
    if fed is None or fed.when is None:
        return None
    seen = past.latest(bin.name, ("leftovers", "look"))
    if seen is not None and seen.when is not None and seen.when.first > fed.when.first:
        return None
    return fed


def leftovers(bin: Bin, past: History, rhythm: Rhythm, wording: Wording) -> Iterator[Due]:
    """The look at what is left of the last feeding.

    Only the last feeding counts. A later look at the leftovers or over the bin settles it. Once the next feeding is
    overdue it is no job of its own any more: the feeding says to look first.
    """
    fed = leftovers_unseen(bin, past)
    if fed is None or fed.when is None or not fed.when.exact:
        return
    day = fed.when.first
    if (past.on - day).days > rhythm.days("every.food", bin).days:
        return
    after = rhythm.days("after.leftovers", bin)
    what = fed.text("food").strip()
    why = (
        f"Fed{f' {what}' if what.casefold() not in (*words_of(Presence.DONE), '') else ''} {wording.date(day)}; "
        f"to be looked at {wording.count(after.days, 'day')} after{after.whose}."
    )
    seen = past.latest(bin.name, (LEFTOVERS[0],))
    last = seen.when.first if seen and seen.when else None
    due = day + dt.timedelta(days=after.days)
    yield Due(bin.name, *LEFTOVERS, due, why, day, (fed.where,), last=last)


def looks_within_feedings(placed: list[Placed], on: dt.date) -> list[Placed]:
    """Make the look at leftovers part of the bin's feeding, where both fall on one round.

    Whatever is late is done on the round of ``on``. A look whose round comes before that of the feeding stays.
    """
    rounds = {due.bin: max(when, on) for when, _, due in placed if due.task == "food"}
    looks = {due.bin for when, _, due in placed if due.task == LEFTOVERS[0] and rounds.get(due.bin) == max(when, on)}
    return [
        (when, _looking_first(why) if due.task == "food" and due.bin in looks else why, due)
        for when, why, due in placed
        if due.task != LEFTOVERS[0] or due.bin not in looks
    ]


def _looking_first(why: str) -> str:
    return why if LOOK_FIRST in why else f"{why} {LOOK_FIRST}"


def look_again(bin: Bin, past: History, wording: Wording) -> Iterator[Due]:
    """The looks the keeper asked for; opening the bin on that day or later settles one."""
    opened = past.latest(bin.name, OPENS)
    last = opened.when.first if opened and opened.when else None
    newest: dict[dt.date, Entry] = {}
    for entry in past.reminders.get(bin.name, ()):
        asked = entry.facts["look_again"].value
        if isinstance(asked, When) and (last is None or asked.first > last):
            newest[asked.first] = entry
    for day, entry in newest.items():
        written = wording.date(entry.when.first) if entry.when else ""
        why = f"On {written} you noted to look again on {wording.date(day)}."
        yield Due(bin.name, *LOOK_AGAIN, day, why, rests_on=(entry.where,), last=last, moves=False)


def quarantine_end(bin: Bin, past: History, rhythm: Rhythm, wording: Wording) -> Iterator[Due]:
    """The look at a bin in quarantine on the day it has lasted long enough.

    It counts from the day the log put it there, else from the last arrival from outside. Where neither is logged, only
    the list says that it is in quarantine, and not since when. It can't have been so before the bin was set up, so it
    isn't over before that day plus its length; past that, the keeper is asked for the day.
    """
    status = past.status[bin.name]
    lasts = rhythm.days("quarantine.days", bin)
    length = f"it lasts {wording.count(lasts.days, 'day')}{lasts.whose}"
    since = quarantine.since(bin, past)
    if since is None:
        started = bin.started
        soonest = started.first + dt.timedelta(days=lasts.days) if started else past.on
        if started and soonest > past.on:
            why = f"Set up {wording.counted_from(started)}, in quarantine by your list; {length}."
        else:
            why, soonest = f"In quarantine by your list, but since when isn't written. {ASK_SINCE}", past.on
        yield Due(bin.name, *QUARANTINE, soonest, why, rests_on=(status.where,), moves=False)
        return
    told = f"In quarantine since {wording.date(since)}" if status.since else f"Arrived {wording.date(since)}"
    due = since + dt.timedelta(days=lasts.days)
    yield Due(bin.name, *QUARANTINE, due, f"{told}; {length}.", since, (status.where,))
