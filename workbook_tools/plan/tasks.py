"""What is due for each bin, when, and why."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.plan import occasions, reasons
from workbook_tools.plan.care import CARE, CHANGE, ORDER, SPLIT, TENDING, TRAP, URGENT, Care
from workbook_tools.plan.due import Due
from workbook_tools.plan.history import History
from workbook_tools.plan.learned.dates import crowded_day, learned_day, why_split
from workbook_tools.plan.learned.records import Estimates
from workbook_tools.plan.losses.looks import loss_looks, with_care
from workbook_tools.plan.losses.records import Losses
from workbook_tools.plan.records import NextChange, Task
from workbook_tools.plan.rhythm import Interval, Rhythm
from workbook_tools.plan.rounds import Rounds
from workbook_tools.plan.sifting import Batch, straggler_tasks
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef, Problem

ALL_BINS = "all bins"
HORIZON_DAYS = round(DEFAULTS["due.ahead"].value)


def due_tasks(
    past: History,
    changes: Sequence[NextChange],
    rhythm: Rhythm,
    wording: Wording,
    horizon_days: int = HORIZON_DAYS,
    estimates: Estimates | None = None,
    batches: Sequence[Batch] = (),
    losses: Losses | None = None,
) -> tuple[list[Task], list[Problem]]:
    """List what is overdue, due today and due within the horizon, in that order.

    Within each of the three, looks into deaths and bins to be kept apart stand first. Then bins follow their place on
    the shelves and then the keeper's order, so that one bin's tasks stand together: by their day, a change of substrate
    last. A look at leftovers that falls on the round of the bin's next feeding is part of it and no line of its own.

    Changes of substrate are those that ``changes`` expects. Resting and gone bins, and those that begin later, have
    no tasks; a straggler tub has only its moss corner and its trap. A due day is the last time plus the interval,
    moved to a round day, a change of substrate and a look the keeper asked for excepted. For a new bin it counts from
    its start. What was never logged for a bin that isn't new, or by the list of bins last done before the log began,
    is due today at the soonest: it isn't known to be late. A bin that no list has and that is logged on few days, so
    that its name may be a slip, has one line. A bin of which nothing is logged has one line in place of one for each
    kind of care, and so has a kind of care never logged for any bin, or, if it isn't essential, none and a note.

    With ``estimates``, moss corner, leaf litter and change of substrate are due by what was learned of a bin where
    there are notes enough, never later than by the rhythm; food says how much to give; and a bin that is crowded, or
    will be, is to be split. Old substrate of ``batches`` that waits is due for its next look; a tub that holds some is
    looked at by it, if that is sooner than by the rhythm. A bin in quarantine has its looks by its own rhythm.
    ``losses`` give a look to bins that lose more than usual, and to each finding what it calls for until it is
    settled.

    Returns
    -------
    list of Task, list of Problem
        The problem, if any, names the kinds of care that are left out because they were never logged.
    """
    ledger, on = past.ledger, past.on
    planner = _Planner(past, rhythm, wording, Rounds.of(ledger.settings), estimates or Estimates(on))
    found = [due for bin in ledger.bins.values() for due in planner.of_bin(bin)]
    found += planner.changes(changes)
    stragglers = straggler_tasks(batches, past, rhythm, wording)
    sooner = {due.bin for due in stragglers if due.task == TRAP.key}
    found = [due for due in found if due.task != TRAP.key or due.bin not in sooner] + stragglers
    found = with_care(found, list(loss_looks(losses, past, wording))) if losses else found
    found += planner.of_all()
    last_day = on + dt.timedelta(days=horizon_days)
    placed = [(*planner.placed(due), due) for due in found if due.due - dt.timedelta(days=6) <= last_day]
    placed = occasions.looks_within_feedings([one for one in placed if one[0] <= last_day], on)
    tasks = [_task(due, when, why, ledger, on) for when, why, due in placed]
    order = {name: place for place, name in enumerate(ledger.bins)}
    work = {key: place for place, key in enumerate(ORDER)}
    tasks.sort(
        key=lambda task: (
            0 if task.days > 0 else 1 if task.days == 0 else 2,
            task.task not in URGENT,
            task.bin in order,
            not task.place,
            natural(task.place),
            order.get(task.bin, 0),
            task.task == CHANGE[0],
            task.due,
            work.get(task.task, len(work)),
            task.task,
        )
    )
    return tasks, planner.notes()


def moss_days(
    past: History, rhythm: Rhythm, wording: Wording, estimates: Estimates | None = None
) -> dict[str, dt.date]:
    """The day of the next look at each moss corner, as :func:`due_tasks` has it but without its horizon."""
    planner = _Planner(past, rhythm, wording, Rounds.of(past.ledger.settings), estimates or Estimates(past.on))
    found = (due for bin in past.ledger.bins.values() for due in planner.of_bin(bin) if due.task == "moss")
    return {due.bin: planner.placed(due)[0] for due in found}


def natural(text: str) -> tuple[tuple[int, int, str], ...]:
    """Give the key that sorts names with numbers as people do: Shelf 2 before Shelf 10."""
    parts = re.findall(r"[0-9]+|[^0-9]+", text.casefold())
    return tuple((0, int(part), "") if part[0] in "0123456789" else (1, 0, part.strip()) for part in parts)


def _task(due: Due, when: dt.date, why: str, ledger: Ledger, on: dt.date) -> Task:
    bin = ledger.bins.get(due.bin)
    return Task(
        bin=due.bin,
        species=bin.species if bin else "",
        place=bin.place if bin else "",
        task=due.task,
        label=due.label,
        due=when,
        days=(on - when).days,
        why=why,
        last=due.last,
        rests_on=due.rests_on,
    )


@dataclass(frozen=True)
class _Planner:
    past: History
    rhythm: Rhythm
    wording: Wording
    rounds: Rounds
    estimates: Estimates

    def placed(self, due: Due) -> tuple[dt.date, str]:
        """Move a due day to a round day and say so.

        Where the round before it has passed and no other comes in time, the due day stays: nothing is called overdue
        while its interval still runs.
        """
        when = self.rounds.move(due.due, due.counts_from)
        if when == due.due or not due.moves:
            return due.due, due.why
        if when < self.past.on <= due.due:
            return due.due, f"{due.why} Your round before that, on {self.wording.weekday(when)}, has passed."
        return when, f"{due.why} Moved to your round on {self.wording.weekday(when)}."

    def of_bin(self, bin: Bin) -> Iterator[Due]:
        """What one bin needs and when, before rounds and horizon."""
        status = self.past.status[bin.name].word
        birth = self.past.birth(bin)
        if status in ("resting", "gone") or (bin.started is not None and bin.started.first > self.past.on):
            return
        kinds: Sequence[Care] = (CARE[0], TRAP) if status == "straggler tub" else CARE
        if bin.doubtful:
            kind = next(care for care in CARE if care.key == "look")
            yield Due(bin.name, kind.key, kind.label, self.past.on, reasons.NOT_LISTED, moves=False)
            return
        if bin.name not in self.past.cared_for and not self._is_new(bin, birth):
            if self._no_care:
                return
            kind = TRAP if status == "straggler tub" else next(care for care in CARE if care.key == "look")
            yield Due(bin.name, kind.key, kind.label, self.past.on, reasons.NOTHING_LOGGED, moves=False)
        else:
            yield from (due for care in kinds if (due := self._care(bin, care, birth)) is not None)
            if status != "straggler tub":
                yield from occasions.leftovers(bin, self.past, self.rhythm, self.wording)
            yield from self._split(bin)
        if status == "quarantine":
            yield from occasions.quarantine_end(bin, self.past, self.rhythm, self.wording)
        yield from occasions.look_again(bin, self.past, self.wording)

    def _is_new(self, bin: Bin, birth: dt.date | None) -> bool:
        week = self.rhythm.days("every.moss", bin).days
        return birth is not None and (self.past.on - birth).days <= week

    def _interval(self, bin: Bin, care: Care) -> tuple[Interval, str]:
        """How often a kind of care is due for a bin, and in words where it is due sooner as it is in quarantine."""
        interval = self.rhythm.days(care.every, bin)
        apart = self.rhythm.days("every.quarantine", bin)
        if care.key != "look" or self.past.status[bin.name].word != "quarantine" or apart.days >= interval.days:
            return interval, ""
        return apart, f"{reasons.every(apart, self.wording)} in quarantine"

    def _care(self, bin: Bin, care: Care, birth: dt.date | None) -> Due | None:
        if care.key == "look" and self._no_care:
            return None
        interval, apart = self._interval(bin, care)
        entry = self.past.latest(bin.name, care.acts)
        if entry is not None and entry.when is not None:
            day = entry.when.first
            ceiling = self._ceiling(care, bin, interval)
            latest = day + dt.timedelta(days=ceiling.days)
            learned = learned_day(care.key, bin, day, latest, ceiling, self.estimates, self.wording)
            why = reasons.last_time(care, entry, interval, self.wording, learned.rule or apart)
            due, more = self._seen_then(bin, care, entry, learned.due)
            said = " ".join(part for part in (why, learned.more, *more) if part)
            if due < self.past.on and self.past.before_log(entry):
                due, said = self.past.on, f"{said} {reasons.BEFORE_LOG}"
            return Due(bin.name, care.key, care.label, due, said, day, (entry.where,), last=day)
        began = self.past.first_logged(care.acts)
        if began is None and care is not TRAP:
            if not self.rhythm.set_by_keeper(care.every):
                return None
            began = min(self.past.first_of_bin.values(), default=None)
        if birth is None:
            return None
        where = bin.facts["started"].cell.ref if bin.started else bin.where
        if bin.started and began and birth >= began:
            interval = self.rhythm.days(care.first or care.every, bin)
            due = birth + dt.timedelta(days=interval.days)
            due = due if self._is_new(bin, birth) else max(due, self.past.on)
            why = reasons.first_time(bin.started, interval, self.wording, new=bool(care.first))
            return Due(bin.name, care.key, care.label, due, why, birth, (where,), moves=due > self.past.on)
        return self._never_here(bin, care, interval, birth, began, where)

    def _never_here(
        self, bin: Bin, care: Care, interval: Interval, birth: dt.date, began: dt.date | None, where: CellRef
    ) -> Due:
        """Care never logged for a bin that isn't known to be new: it may have been done, so it is never late."""
        if began and began > birth:
            since, said = began, reasons.KIND_BEGAN.format(day=self.wording.date(began))
        elif bin.started:
            since, said = birth, reasons.BIN_SET_UP.format(day=self.wording.counted_from(bin.started))
        else:
            since, said = birth, reasons.BIN_BEGAN.format(day=self.wording.date(birth))
        due = max(since + dt.timedelta(days=interval.days), self.past.on)
        why = reasons.never_here(said, interval, self.wording)
        rests_on = () if began and began > birth else (where,)
        return Due(bin.name, care.key, care.label, due, why, since, rests_on, moves=due > self.past.on)

    def _ceiling(self, care: Care, bin: Bin, interval: Interval) -> Interval:
        """The longest time that a learned day may lie ahead: the keeper's own rhythm, else the ceiling for it."""
        leaf = self.estimates.leaf.get(bin.name) if care.key == "leaf" else None
        if leaf is None or not leaf.basis.learned or interval.whose:
            return interval
        return self.rhythm.days("ceiling.leaf", bin)

    def _split(self, bin: Bin) -> Iterator[Due]:
        """A split or a bigger box, where the bin is crowded or will be by its learned number."""
        numbers = self.estimates.numbers.get(bin.name)
        due = crowded_day(numbers, self.past.on)
        if numbers is not None and due is not None:
            why = why_split(numbers, self.past.on, self.wording)
            where = bin.facts["target"].cell.ref if "target" in bin.facts else bin.where
            yield Due(bin.name, *SPLIT, due, why, rests_on=(where,), moves=False)

    def _seen_then(self, bin: Bin, care: Care, entry: Entry, due: dt.date) -> tuple[dt.date, tuple[str, ...]]:
        """What was seen the last time: a dry moss corner that wasn't watered is due at once, a wet one needs none."""
        if care.key == "food" and occasions.leftovers_unseen(bin, self.past) and due <= self.past.on:
            return due, (reasons.LOOK_FIRST,)
        if care.key != "moss":
            return due, ()
        seen = self.past.latest(bin.name, ("moss",))
        if seen is None or seen.when is None or entry.when is None or seen.when.first < entry.when.first:
            return due, ()
        state = seen.state("moss")
        watered = self.past.latest(bin.name, ("water",))
        wet_since = watered is not None and watered.when is not None and watered.when.first >= seen.when.first
        if state in ("wet", "soaked") and not wet_since and not self._too_wet(bin):
            return due, (f"It was {state} then, so look, but give no water unless it has dried.",)
        if state == "dry" and not wet_since and self.past.first_logged(("water",)) is not None:
            return min(due, seen.when.first + dt.timedelta(days=1)), ("It was dry then, and no water is logged since.",)
        return due, ()

    def _too_wet(self, bin: Bin) -> bool:
        moss = self.estimates.moss.get(bin.name)
        return moss is not None and bool(moss.too_wet)

    def of_all(self) -> Iterator[Due]:
        """One line for each kind of essential care that was never logged for any bin."""
        for care in CARE:
            never = care.essential and self._never(care) and self.past.cared_for
            if never or (care.key == "look" and self._no_care):
                yield Due(ALL_BINS, care.key, care.label, self.past.on, reasons.never_for_any(care), moves=False)

    @property
    def _no_care(self) -> bool:
        """Whether a log is kept that holds no care at all, such as a book of animals in and out."""
        return bool(self.past.first_of_act) and self.past.first_logged(TENDING) is None

    def changes(self, expected: Sequence[NextChange]) -> Iterator[Due]:
        """The changes of substrate expected; those by the starts of bins alone in one line, where none was ever logged.

        Without any change or look in the log it isn't known whether changes are logged at all.
        """
        known = [change for change in expected if change.due is not None]
        never = self.past.first_logged(("substrate_change", "substrate_look")) is None
        late = {c.bin for c in known if c.due and c.due <= self.past.on and not self._says_worn(c.bin)}
        if never and len(late) > 1:
            yield Due(ALL_BINS, *CHANGE, self.past.on, reasons.no_change(len(late), self.wording), moves=False)
        for one in known:
            if one.due is not None and not (never and len(late) > 1 and one.bin in late):
                yield Due(one.bin, *CHANGE, one.due, one.why, rests_on=one.rests_on, last=one.last, moves=False)

    def _says_worn(self, name: str) -> bool:
        return name in self.past.ledger.bins and "substrate" in self.past.ledger.bins[name].facts

    def notes(self) -> list[Problem]:
        """Name the kinds of care that are left out because they were never logged."""
        left_out = [f"'{care.label}'" for care in CARE if not care.essential and self._never(care)]
        if not left_out or not self.past.cared_for:
            return []
        return [Problem("plan.never_logged", CellRef(""), {"tasks": self.wording.listing(left_out)})]

    def _never(self, care: Care) -> bool:
        return self.past.first_logged(care.acts) is None and not self.rhythm.set_by_keeper(care.every)
