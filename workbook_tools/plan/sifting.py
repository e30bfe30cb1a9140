"""Old substrate that waits for its stragglers: what is probably left, what to do next, when to look again."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.sifting import Left, sift_left
from workbook_tools.ledger.series.sifting import Check, OldSubstrate, old_substrate
from workbook_tools.plan.care import DECIDE, SIFT, TRAP
from workbook_tools.plan.due import Due
from workbook_tools.plan.history import History
from workbook_tools.plan.reasons import every
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.sift_advice import Advice, Next, advise
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef

OPEN, CLOSED, LAPSED = "open", "closed", "not known"
NOT_SIFTED = (
    "No pass and no check with a number is logged, so nothing can be said of what is left. Sort through it once and "
    "log how many you find."
)
ENDED = {"freeze": "frozen", "discard": "discarded", "went": "done with at the change"}


@dataclass(frozen=True, slots=True)
class Batch:
    """Old substrate of one bin from one change.

    Attributes
    ----------
    state : str
        ``open`` while it waits, ``closed`` once frozen or discarded, ``not known`` where nothing has been written of it
        for long.
    begun : date
        Day of the change; without one (``changed`` False) of the first pass or check.
    went, tub : str
        Where it went in the keeper's words; the straggler tub that holds it, if one of the list does.
    passes, traps : tuple of int
        Finds of each pass by hand and of each check of a trap, in order.
    minutes : float or None
        Minutes a find took in the last pass that found any and says how long it took.
    left : Left or None
        What is probably left; None where no number is logged.
    advice : Advice or None
        What to do next; None with ``left``, and once it isn't open.
    next_check : date or None
        When to look again; None once it isn't open.
    last : date
        The last day on which it was looked at.
    ended, how : date or None, str
        When and how it was done with.
    doubtful : date or None
        The last day of a find that may have been made in it, of which ``left`` doesn't know.
    """

    bin: str
    state: str
    begun: dt.date
    changed: bool
    went: str
    tub: str
    passes: tuple[int, ...]
    traps: tuple[int, ...]
    minutes: float | None
    left: Left | None
    advice: Advice | None
    next_check: dt.date | None
    last: dt.date
    ended: dt.date | None
    how: str
    where: CellRef
    doubtful: dt.date | None = None

    @property
    def found(self) -> int:
        """Animals found in it in all."""
        return sum(self.passes) + sum(self.traps)


def batches(past: History, rhythm: Rhythm) -> tuple[Batch, ...]:
    """All old substrate up to a day: what waits by its next look, then what is done with, the latest first.

    Passes and checks count in the order of their days, a pass before the checks of its day: empty checks begin after
    the last find of either kind. Where nothing is written of it for long, it may or may not wait still: it gets no
    task. A check of one bin's old substrate in a tub is a look at all that waits there.
    """
    lots = old_substrate(past.ledger, past.on).lots
    looked: dict[str, int] = {}
    for lot in lots:
        if lot.tub:
            days = [one.day for one in (*lot.passes, *lot.traps)]
            looked[lot.tub] = max([looked.get(lot.tub, 0), *days])
    found = [_batch(lot, past, rhythm, looked.get(lot.tub, 0)) for lot in lots]
    found.sort(key=lambda one: -(one.ended or one.last).toordinal())
    return tuple(sorted(found, key=lambda one: (one.next_check or dt.date.max, one.state != CLOSED)))


def _batch(lot: OldSubstrate, past: History, rhythm: Rhythm, tub_looked: int) -> Batch:
    last = dt.date.fromordinal(lot.last)
    closed = dt.date.fromordinal(lot.closed) if lot.closed is not None else None
    looked = past.latest(lot.tub, (TRAP.key,)) if lot.tub and closed is None else None
    if looked is not None and looked.when is not None:
        last = max(last, looked.when.first)
    if closed is None and tub_looked:
        last = max(last, dt.date.fromordinal(tub_looked))
    lapsed = (past.on - last).days > DEFAULTS["sifting.lapse"].value
    state = CLOSED if closed else LAPSED if lapsed else OPEN
    passes, traps = tuple(one.found for one in lot.passes), tuple(one.found for one in lot.traps)
    before = [sum(check.day < one.day for check in lot.traps) for one in lot.passes]
    doubted = sum(check.day <= max(lot.doubtful, default=0) for check in lot.traps)
    left = sift_left(passes, traps, checks_before=before, doubted=doubted) if passes or traps else None
    interval = rhythm.days("every.straggler", past.ledger.bins[lot.bin])
    advice = advise(left, _minutes(lot.passes), _empty_days(lot), interval.days) if left and state == OPEN else None
    return Batch(
        lot.bin,
        state,
        dt.date.fromordinal(lot.begun),
        lot.changed,
        lot.went,
        lot.tub,
        passes,
        traps,
        _a_find(lot.passes),
        left,
        advice,
        last + dt.timedelta(days=interval.days) if state == OPEN else None,
        last,
        closed,
        ENDED.get(lot.ended, ""),
        lot.where,
        dt.date.fromordinal(lot.doubtful[-1]) if lot.doubtful else None,
    )


def _minutes(passes: Sequence[Check]) -> tuple[float, ...]:
    """Minutes of all passes; none where one of them doesn't say."""
    minutes = tuple(one.minutes for one in passes)
    return minutes if all(value > 0 for value in minutes) else ()


def _a_find(passes: Sequence[Check]) -> float | None:
    for one in reversed(passes):
        if one.found and one.minutes > 0 and not math.isinf(one.minutes):
            return one.minutes / one.found
    return None


def _empty_days(lot: OldSubstrate) -> float | None:
    """Days from the last find, or what may have been one, to the last check of the trap."""
    if not lot.traps:
        return None
    finds = [*lot.doubtful, *(one.day for one in (*lot.passes, *lot.traps) if one.found)]
    return float(max(lot.traps[-1].day - max(finds, default=lot.begun), 0))


def straggler_tasks(found: Sequence[Batch], past: History, rhythm: Rhythm, wording: Wording) -> list[Due]:
    """The next look at old substrate that waits: one for each bin's own, one for each straggler tub.

    A tub is looked at as soon as one that waits in it is to be.
    """
    tasks = []
    tubs: dict[str, list[Batch]] = {}
    for one in found:
        if one.next_check is None:
            continue
        if one.tub:
            tubs.setdefault(one.tub, []).append(one)
            continue
        interval = rhythm.days("every.straggler", past.ledger.bins[one.bin])
        why = f"Old substrate {_since(one, wording)} waits; last looked at {wording.date(one.last)}; "
        why += f"{every(interval, wording)}. {one.advice.say if one.advice else NOT_SIFTED}"
        act = one.advice.act if one.advice else Next.PASS
        task = SIFT if act is Next.PASS else DECIDE if act is Next.DECIDE else (TRAP.key, TRAP.label)
        tasks.append(Due(one.bin, *task, one.next_check, why, one.last, (one.where,), one.last))
    for tub, waiting in tubs.items():
        first = waiting[0]
        assert first.next_check is not None
        interval = rhythm.days("every.straggler", past.ledger.bins[first.bin])
        bins = wording.listing(list(dict.fromkeys(one.bin for one in waiting)))
        why = f"Old substrate of {bins} waits in it; last looked at {wording.date(first.last)}; "
        why += f"{every(interval, wording)}. Log what you find with its bin, 0 for none; Sifting says what to do."
        where = tuple(one.where for one in waiting)
        tasks.append(Due(tub, TRAP.key, TRAP.label, first.next_check, why, first.last, where, first.last))
    return tasks


def _since(one: Batch, wording: Wording) -> str:
    return f"of the change on {wording.date(one.begun)}" if one.changed else f"sifted first {wording.date(one.begun)}"
