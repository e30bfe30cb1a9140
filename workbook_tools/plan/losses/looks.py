"""Looks that losses and findings call for, until a later look says that all is well."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from workbook_tools.defaults import DEFAULTS
from workbook_tools.plan.care import LOSSES, OPENS, SIGHT
from workbook_tools.plan.due import Due
from workbook_tools.plan.history import History
from workbook_tools.plan.losses.records import Alarm, Cluster, Losses, Sight
from workbook_tools.plan.losses.wording import dead, usual
from workbook_tools.plan.wording import Wording

UNTIL = "It stays here until a look says 'all well'"


def loss_looks(losses: Losses, past: History, wording: Wording) -> Iterator[Due]:
    """Give a look for each bin with an alarm, each that lost more with others, and each in which something was seen.

    It is due on the day of the alarm, or of the last find. A bin that rests or is gone has none, nor has a straggler
    tub.
    """
    for due in _wanted(losses, wording):
        if due.bin in past.status and past.status[due.bin].word not in ("resting", "gone", "straggler tub"):
            opened = past.latest(due.bin, OPENS)
            yield replace(due, last=opened.when.first if opened is not None and opened.when is not None else None)


def _wanted(losses: Losses, wording: Wording) -> Iterator[Due]:
    alarmed = {alarm.bin for alarm in losses.alarms}
    for alarm in losses.alarms:
        if alarm.well is None:
            why = alarm_reason(alarm, wording)
            yield Due(alarm.bin, *LOSSES, alarm.day, why, rests_on=alarm.rests_on, moves=False)
    for cluster in losses.clusters:
        for name in cluster.bins:
            if name not in alarmed:
                yield Due(name, *LOSSES, cluster.last, _with_others(cluster, wording), moves=False)
    for sight in losses.sights:
        yield Due(sight.bin, *SIGHT, sight.due, _seen(sight, wording), rests_on=(sight.where,), moves=False)


def alarm_reason(alarm: Alarm, wording: Wording) -> str:
    """Say what was found against what is usual, and how long that stands."""
    quiet = wording.count(DEFAULTS["deaths.quiet"].value, "day")
    which = "an alarm" if alarm.tier == "alarm" else "worth a look"
    return f"{alarm_found(alarm, wording)}: {which}. {UNTIL}, {quiet} at most."


def alarm_found(alarm: Alarm, wording: Wording) -> str:
    """Say what was found against what is usual, as a part of a sentence."""
    days = wording.count(DEFAULTS["deaths.window"].value, "day")
    since = f", and {wording.number(alarm.after, 1)} since" if alarm.after else ""
    return (
        f"{dead(alarm.found, wording)} found in the {days} to {wording.date(alarm.day)}, where "
        f"{usual(alarm.expected, wording)} usual{since}"
    )


def _with_others(cluster: Cluster, wording: Wording) -> str:
    return (
        f"{wording.count(len(cluster.bins), 'bin')} {cluster.shares} lost more than usual together, the last on "
        f"{wording.date(cluster.last)}. What to look at first stands on Losses."
    )


def _seen(sight: Sight, wording: Wording) -> str:
    seen = wording.listing(list(sight.seen))
    return f"{seen[:1].upper()}{seen[1:]} seen {wording.date(sight.day)}. {UNTIL}."
