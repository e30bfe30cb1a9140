"""Sheet Due: what is due today, why, and since when; with boxes to fill in on the round."""

from __future__ import annotations

from workbook_tools.fields import FINDINGS, STATES, THINGS, WELL
from workbook_tools.plan.care import CARE, CHANGE, URGENT
from workbook_tools.plan.records import Task
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import Severity
from workbook_tools.report.addresses import cell_spans
from workbook_tools.report.columns import Column, Place, SheetSpec, TableSpec
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import bins, losses, reading

NAME = "Due"
_SEEN = {
    "moss": tuple(STATES["moss"]),
    "leftovers": tuple(STATES["leftovers"]),
    "substrate": tuple(STATES["substrate"]),
    "food": tuple(STATES["leftovers"]),
    "look": tuple(STATES["finding"]),
    "losses": tuple(STATES["finding"]),
}
_FOUND = {(one.task, one.label): one for one in FINDINGS.values() if one.task not in {care.key for care in CARE}}
_MOST_ROWS_NAMED = 3

COLUMNS = (
    Column(
        "Bin",
        lambda task: task.bin,
        "link",
        9,
        "The bin as you name it. The link leads to its line on the sheet Bins.",
        link=lambda task: Place(bins.NAME, task.bin),
    ),
    Column("Species", lambda task: task.species, width=23, note="As your list of bins has it."),
    Column("Place", lambda task: task.place, width=10, note="The shelf or rack, as your list of bins has it."),
    Column("Task", lambda task: task.label, width=19, note="What is due."),
    Column("Due", lambda task: task.due, "date", 11, "The day it falls due, moved to a round day if you set those."),
    Column(
        "Days", lambda task: task.days, "days", 8, "Days late, today, or days to come. As a number: above 0 is late."
    ),
    Column("Why", lambda task: _why(task), width=66, note="What the due day rests on, and the rows it was read from."),
    Column("Last done", lambda task: task.last, "date", 11, "The last day it was done, by your log or list of bins."),
    Column("Done on", lambda task: None, "box_date", 11, "Empty, for you: the day you did it."),
    Column(
        "Seen",
        lambda task: None,
        "box",
        12,
        "Empty, for you: what you saw. The list offers words; your own will do.",
        choices_for=lambda task: _choices(task),
    ),
    Column("Amount", lambda task: None, "box", 10, "Empty, for you: how much, with its unit."),
    Column("Note", lambda task: None, "box", 14, "Empty, for you: anything else."),
)


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from the tasks: late ones first, then today's, then those to come, each bin by bin."""
    wording = Wording(findings.region)
    tasks = sorted(findings.tasks, key=lambda task: 0 if task.days > 0 else 1 if task.days == 0 else 2)
    table = TableSpec(
        "DueTasks",
        COLUMNS,
        tasks,
        when_empty="Nothing is due in the days ahead.",
        tone=lambda task: "late" if task.days > 0 else "today" if task.days == 0 else "soon",
        toned=("Days",),
    )
    said = losses.cautions_of(findings.losses) if findings.losses else ()
    return SheetSpec(
        NAME, answer(findings, wording), (table,), _lines(findings, wording), cautions=said, frozen_columns=1
    )


def answer(findings: Findings, wording: Wording) -> str:
    """Say how much is late and due today, and what is most urgent; the first line of the sheet and of the screen.

    Most urgent are deaths above the usual and a bin to be kept apart, then what is late by the most days; a change of
    substrate only where no other job is late, since it takes an evening and mostly rests on a starting guess.
    """
    if not findings.ledger.bins:
        return "Nothing can be said of what is due: no bin was read."
    late = [task for task in findings.tasks if task.days > 0]
    today = [task for task in findings.tasks if task.days == 0]
    if not late and not today:
        coming = min(findings.tasks, key=lambda task: task.due, default=None)
        ahead = f" Next: {_named(coming)}, {wording.days(coming.days)}." if coming else ""
        return f"Nothing is overdue and nothing is due today.{ahead}"
    urgent = min(late or today, key=lambda task: (task.task not in URGENT, task.task == CHANGE[0], -task.days))
    if late and today:
        counts = f"{_tasks(wording, len(late))} overdue and {wording.number(len(today))} due today"
    else:
        counts = f"{_tasks(wording, len(late or today))} {'overdue' if late else 'due today'}"
    return f"{counts}; most urgent: {_named(urgent)}, {wording.days(urgent.days)}."


def _choices(task: Task) -> tuple[str, ...]:
    """Words for the box of what was seen; for a finding, first the words that settle it."""
    one = _FOUND.get((task.task, task.label))
    if one is None:
        return _SEEN.get(task.task, ())
    settled = () if one.only_well else (THINGS[one.about].settled,)
    return (WELL, *settled, *FINDINGS)


def _tasks(wording: Wording, number: int) -> str:
    return f"{wording.count(number, 'task')} {'is' if number == 1 else 'are'}"


def _named(task: Task) -> str:
    return f"{task.bin}, {task.label[:1].lower()}{task.label[1:]}"


def _why(task: Task) -> str:
    spans = cell_spans(task.rests_on)
    if not spans:
        return task.why
    named, more = ", ".join(spans[:_MOST_ROWS_NAMED]), len(spans) - _MOST_ROWS_NAMED
    return f"{task.why} From {named}{f' and {more} more' if more > 0 else ''}."


def _lines(findings: Findings, wording: Wording) -> tuple[str, ...]:
    with_tasks = len({task.bin for task in findings.tasks if task.bin in findings.ledger.bins})
    line = f"{wording.weekday(findings.on)}, from {findings.source}. "
    line += f"{wording.count(with_tasks, 'bin')} of {wording.number(len(findings.ledger.bins))} in this list. "
    left_out = sum(problem.severity is not Severity.KEPT for problem in findings.problems)
    if left_out:
        line += f"Not all that you wrote could be used: see {reading.NAME}. "
    line += "Where Why names no setting of yours, how often is common practice. "
    return (line + "Fill in the boxes at the right as you go.",)
