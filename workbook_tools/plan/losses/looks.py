"""Looks that losses and findings call for, until a later look says that all is well."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS, FINDINGS, THINGS, WELL, Finding
from workbook_tools.plan.care import LOSSES, OPENS, SPLIT
from workbook_tools.plan.due import Due
from workbook_tools.plan.history import History
from workbook_tools.plan.losses.records import Alarm, Cluster, Losses, Sight
from workbook_tools.plan.losses.wording import dead, usual
from workbook_tools.plan.wording import Wording

_SHARED = frozenset({SPLIT[0], "calcium", "hides"})
"""Tasks that may be due by themselves too."""
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
        found = FINDINGS[sight.finding]
        why = f"{sight_found(sight, wording)}: {found.do}. Stays until {settled_by(found, wording)}."
        yield Due(sight.bin, found.task, found.label, sight.due, why, rests_on=(sight.where,), moves=False)


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


def sight_found(sight: Sight, wording: Wording) -> str:
    """Say what was found and when."""
    since = f", first on {wording.date(sight.first)}" if sight.first < sight.day else ""
    return f"{sight.finding[:1].upper()}{sight.finding[1:]} seen {wording.date(sight.day)}{since}"


def settled_by(finding: Finding, wording: Wording) -> str:
    """Say what settles a finding: what is logged or written, or looks that say nothing of it."""
    acts = [f"'{act.label}'" for act in ACTS.values() if act.key in finding.acts]
    settled = () if finding.only_well else (THINGS[finding.about].settled,)
    words = [f"'{word}'" for word in (*settled, WELL)]
    ways = [f"you log {wording.listing(acts, either=True)}"] if acts else []
    ways.append(f"{'' if acts else 'you '}write {wording.listing(words, either=True)}")
    ways += [f"find the {name} {wording.listing(states, either=True)}" for name, states in finding.sights.items()]
    if finding.quiet:
        looks = DEFAULTS[finding.quiet].value
        ways.append(f"{wording.count(looks, 'look')} {'says' if looks == 1 else 'say'} nothing of it")
    return ", or ".join(ways)


def with_care(care: Sequence[Due], looks: Sequence[Due]) -> list[Due]:
    """Make a task that a finding calls for and the same one that was due anyway into one, due by the sooner day.

    A finding that is due sooner gives the reason; one that is due later adds its own.
    """
    called = {(due.bin, due.task): due for due in looks if due.task in _SHARED}
    kept: list[Due] = []
    for due in care:
        one = called.pop((due.bin, due.task), None)
        if one is None:
            kept.append(due)
        elif one.due < due.due:
            kept.append(replace(one, last=due.last))
        else:
            kept.append(replace(due, why=f"{due.why} {one.why}", rests_on=(*due.rests_on, *one.rests_on)))
    return [*kept, *called.values(), *(due for due in looks if due.task not in _SHARED)]
