"""Sheet Sifting: what old substrate that waits probably still holds, what to do next, and what was done with."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.sifting import Left
from workbook_tools.plan.sifting import CLOSED, LAPSED, NOT_SIFTED, OPEN, Batch
from workbook_tools.plan.wording import Wording
from workbook_tools.report import cautions
from workbook_tools.report.columns import Column, Place, SheetSpec, TableSpec, Value
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import bins

NAME = "Sifting"
YEAR = dt.timedelta(days=365)
BOUND = (
    "Where a number of those left is given, it is a likely lower bound, never a clearance: young too small to see, "
    "animals in moult and those out of reach aren't in it. What is left behind is your decision."
)


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet: what waits stands first, by its next look; then what ended within a year."""
    wording = Wording(findings.region)
    waits = [one for one in findings.batches if one.state == OPEN]
    ended = [one for one in findings.batches if one.state != OPEN and _ended(one) >= findings.on - YEAR]
    done = [one for one in ended if one.left is not None or one.state == LAPSED]
    tables = (
        TableSpec(
            "OldSubstrateOpen",
            _columns(wording, waiting=True),
            waits,
            title="Old substrate that waits",
            when_empty="No old substrate waits, as far as your log tells.",
        ),
        TableSpec(
            "OldSubstrateClosed",
            _columns(wording, waiting=False),
            done,
            title="Done with, or not written of any more, in the last year",
            when_empty="No old substrate was sifted or trapped and then done with in the last year.",
        ),
    )
    lines = (BOUND, *_without(len(ended) - len(done), wording))
    warned = (
        cautions.LAW_FIRST,
        cautions.DUST,
        f"{cautions.DISPOSAL} {cautions.FREEZING.format(hours=DEFAULTS['freeze.hours'].value)}",
    )
    return SheetSpec(NAME, answer(waits, done, findings.on, wording), tables, lines, cautions=warned, frozen_columns=1)


def answer(waits: Sequence[Batch], done: Sequence[Batch], on: dt.date, wording: Wording) -> str:
    """Say how much old substrate waits, what may be left in it, and which is to be looked at next."""
    if not waits and not done:
        return "Nothing can be said of old substrate: no pass and no trap check is logged, and none went to a tub."
    if not waits:
        return _none_waits(done, wording)
    lots = f"Old substrate of {wording.count(len({one.bin for one in waits}), 'bin')} waits for stragglers"
    known = [one for one in waits if one.left is not None]
    most = max(known, key=_may_hold, default=None)
    parts = [lots]
    if most is not None and most.found:
        parts.append(f"most may be left in that of {most.bin} ({_left(most, wording)})")
    elif most is not None:
        parts.append(f"in that of {most.bin} {_left(most, wording)}")
    first = waits[0]
    assert first.next_check is not None
    late = (on - first.next_check).days
    parts.append(f"next look: {first.bin}, {wording.date(first.next_check)} ({wording.days(late)})")
    return "; ".join(parts) + "."


def _none_waits(done: Sequence[Batch], wording: Wording) -> str:
    """Say what was done with, and what nobody wrote of for so long that it may wait still."""
    silent = [one for one in done if one.state == LAPSED]
    ended = len(done) - len(silent)
    said = f"that of {wording.count(ended, 'change')} was sifted or trapped and done with in the last year."
    if not silent:
        return f"No old substrate waits; {said}"
    since = wording.date(max(one.last for one in silent)) + (" or before" if len(silent) > 1 else "")
    unknown = f"of that of {wording.count(len(silent), 'change')} nothing is written since {since}"
    return f"Whether old substrate waits isn't known: {unknown}" + (f"; {said}" if ended else ".")


def _without(number: int, wording: Wording) -> tuple[str, ...]:
    """Say how many lots were done with without a number logged; nothing for none."""
    if not number:
        return ()
    often = {1: "once", 2: "twice"}.get(number, f"{wording.number(number)} times")
    return (f"Besides, old substrate was done with {often} in the last year with no number of a pass or check logged.",)


def _ended(one: Batch) -> dt.date:
    return one.ended or one.last


def _may_hold(one: Batch) -> float:
    left = one.left
    if left is None or not left.found:
        return 0.0
    return float(left.high) if left.high is not None else 1e9 + left.low


def _left(one: Batch, wording: Wording) -> str:
    left = one.left
    if left is None:
        return "can't say"
    if not left.found:
        looks = wording.count(_looks(left), "look")
        return f"nothing was found in {looks}, which proves little"
    if left.middle is None or left.high is None:
        return f"at least {wording.number(left.low)}, no upper limit" if left.low else "no upper limit"
    if left.low == left.high:
        return f"about {wording.number(left.middle)}"
    return f"about {wording.number(left.middle)}, {wording.number(left.low)} to {wording.number(left.high)}"


def _to_do(one: Batch, wording: Wording) -> str:
    if one.advice is None:
        return NOT_SIFTED
    said = f"{one.advice.say} {one.advice.reason}"
    if one.found or one.left is None:
        return said
    return f"Nothing was found in {wording.count(_looks(one.left), 'look')}, which proves little. {said}"


def _looks(left: Left) -> int:
    return len(left.passes) + len(left.trap)


def _ending(one: Batch, wording: Wording) -> str:
    """How it ended, with what was probably left in it then."""
    left = "" if one.left is None else f"; probably left in it then: {_left(one, wording)}"
    if one.state == LAPSED:
        return f"Nothing is written of it since {wording.date(one.last)}. If it is done with, log a freeze or discard."
    said = one.how or "done with"
    return f"{said[:1].upper()}{said[1:]}{left}."


def _chance(one: Batch) -> Value:
    """The chance that none is left, where the finds tell something of it."""
    left = one.left
    doubtful = one.doubtful and left and left.empty_checks < DEFAULTS["sifting.empty_checks"].value
    if left is None or not left.depletes or (left.trap and not left.trap_proven) or doubtful:
        return "can't say" if left is not None else None
    return min(max(round(left.chance_none, 2), 0.01), 0.99)


def _low(one: Batch) -> Value:
    left = one.left
    return left.low if left is not None and (left.depletes or left.low) else None


def _high(one: Batch) -> Value:
    left = one.left
    return None if left is None else "no limit" if left.high is None else left.high


def _middle(one: Batch) -> Value:
    left = one.left
    return None if left is None else "can't say" if left.middle is None else left.middle


def _finds(numbers: Sequence[int]) -> str:
    return ", ".join(str(number) for number in numbers) or "none logged"


def _columns(wording: Wording, *, waiting: bool) -> tuple[Column, ...]:
    bin = Column(
        "Bin",
        lambda one: one.bin,
        "link",
        9,
        "The bin the old substrate came out of. The link leads to its line on the sheet Bins.",
        link=lambda one: Place(bins.NAME, one.bin),
    )
    begun = Column(
        "Changed",
        lambda one: one.begun if one.changed else f"sifted {wording.date(one.begun)}",
        "date",
        12,
        "The day of the change it came from; without a change in your log, the day it was first sifted.",
    )
    finds = (
        Column("Passes", lambda one: _finds(one.passes), width=15, note="Animals found in each pass by hand."),
        Column("Trap checks", lambda one: _finds(one.traps), width=15, note="Animals found at each look at the trap."),
        Column("Left about", _middle, "number", 9, "What is probably left; can't say: finds don't clearly fall."),
        Column(
            "From",
            _low,
            "number",
            7,
            "The lower end: so many are left or more, nine times in ten. Empty: nothing can be said.",
        ),
        Column("To", _high, "number", 9, "The upper end; no limit where finds don't clearly fall."),
        Column(
            "None left",
            _chance,
            "share",
            9,
            "The chance that none is left. Can't say: finds don't fall, the trap never caught anything, or something "
            "was found of late that may have come out of it.",
        ),
    )
    went = Column("Old substrate went", lambda one: one.went, width=15, note="Where it went, in your words.")
    cell = Column("From cell", lambda one: str(one.where), width=14, note="The row of your workbook it begins with.")
    if not waiting:
        return (
            bin,
            Column("How it ended", lambda one: _ending(one, wording), width=44, note="What became of it."),
            Column(
                "Ended",
                lambda one: one.ended if one.state == CLOSED else "not written",
                "date",
                12,
                "The day it was frozen or discarded, by your log.",
            ),
            begun,
            *finds,
            Column("Found", lambda one: one.found, "number", 8, "Animals found in it in all."),
            Column("Minutes a find", _minutes, "amount", 9, "In the last pass that found any and says how long."),
            went,
            cell,
        )
    return (
        bin,
        Column("What to do", lambda one: _to_do(one, wording), width=44, note="What to do next, and why."),
        Column("Next look", lambda one: one.next_check, "date", 12, "When it is to be looked at again."),
        begun,
        *finds,
        Column(
            "Next pass",
            lambda one: round(one.left.next_pass, 1) if one.left and one.left.depletes else None,
            "amount",
            8,
            "Finds expected of one more pass by hand; empty where finds don't clearly fall.",
        ),
        Column("Minutes a find", _minutes, "amount", 9, "In the last pass that found any and says how long it took."),
        went,
        cell,
    )


def _minutes(one: Batch) -> Value:
    return round(one.minutes, 1) if one.minutes is not None else None
