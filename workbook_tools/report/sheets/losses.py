"""Sheet Losses: which bins lose more than is usual, which lose together and after what, what to look at first."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import FINDINGS
from workbook_tools.ledger.records import Bin
from workbook_tools.plan.losses.looks import alarm_found
from workbook_tools.plan.losses.records import Alarm, BinLosses, Cluster, Losses, Question, Sight
from workbook_tools.plan.losses.wording import dead, one_in, usual
from workbook_tools.plan.wording import Wording
from workbook_tools.report import cautions
from workbook_tools.report.columns import ChartSpec, Column, Place, Series, SheetSpec, TableSpec
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import bins, learned

NAME = "Losses"
HINT = "A hint, never a cause: what happened before the deaths need not be why."
SLOW = (
    "What this can't see: a slow die-off. A bin whose deaths rise little by little, or stay at three times the usual, "
    "is mostly missed, and what is usual rises with it. Nor can it see deaths that nobody found or wrote down. No "
    "alarm doesn't mean that all is well; your own eyes go first."
)


@dataclass(frozen=True)
class Line:
    """One bin with its deaths, and its alarm if there is one."""

    bin: Bin
    of: BinLosses
    alarm: Alarm | None
    in_notes: int = 0
    """Rows whose notes speak of deaths that aren't counted."""


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet: alarms first, then bins that lose together, what to ask, what was seen, and all bins."""
    wording = Wording(findings.region)
    losses = findings.losses or Losses(findings.on)
    alarms = {alarm.bin: alarm for alarm in losses.alarms}
    known = findings.ledger.bins
    lines = [
        Line(bin, losses.bins[name], alarms.get(name), losses.in_notes.get(name, 0))
        for name, bin in known.items()
        if name in losses.bins
    ]
    raised = [Line(known[a.bin], losses.bins[a.bin], a) for a in losses.alarms if a.bin in known]
    tables = [
        TableSpec(
            "LossAlarms",
            _alarm_columns(wording),
            raised,
            title="Bins that lose more than is usual",
            when_empty="None in the last weeks.",
            tone=lambda line: "late" if line.alarm.tier == "alarm" else "today",
            toned=("Says",),
            key=lambda line: line.bin.name,
        ),
        TableSpec(
            "LossesTogether",
            _together_columns(wording),
            losses.clusters,
            title="Bins that lose together",
            when_empty="None of those that share a place, a source, a batch written down, or a house event.",
        ),
    ]
    if losses.questions:
        title = "What to look at first, in the order that your entries suggest"
        tables.append(TableSpec("LookFirst", _question_columns(), list(enumerate(losses.questions, start=1)), title))
    tables.append(
        TableSpec(
            "SeenAgain",
            _seen_columns(known, wording),
            [sight for sight in losses.sights if sight.bin in known],
            title="Seen, and not settled yet",
            when_empty="Nothing that wants another look.",
        )
    )
    tables.append(
        TableSpec(
            "LossesAll",
            _bin_columns(wording),
            sorted(lines, key=lambda line: (-line.of.found, -line.of.year)),
            title="All bins, the most found first",
            when_empty="No dead animal is logged.",
        )
    )
    return SheetSpec(
        NAME,
        answer(losses, wording),
        tuple(tables),
        _lines(losses, len(lines), wording),
        frozen_columns=1,
        frozen_headings=False,
        charts=_charts(losses, wording),
        cautions=cautions_of(losses, deaths=True),
    )


def cautions_of(losses: Losses, *, deaths: bool = False) -> tuple[str, ...]:
    """The cautions that go with what was found and isn't settled; where animals die, that of the virus too."""
    named = {FINDINGS[sight.finding].caution for sight in losses.sights}
    if deaths and any(alarm.well is None for alarm in losses.alarms):
        named.add("virus")
    return tuple(text for key, text in cautions.OF_FINDINGS.items() if key in named)


def answer(losses: Losses, wording: Wording) -> str:
    """Say which bins lose more than is usual, whether together, and after what."""
    if not losses.bins:
        return "Nothing can be said of losses: no dead animal is logged."
    open_now = [alarm for alarm in losses.alarms if alarm.well is None]
    alarmed = [alarm.bin for alarm in open_now if alarm.tier == "alarm"]
    looks = [alarm.bin for alarm in open_now if alarm.tier != "alarm"]
    if not alarmed and not looks and not losses.clusters:
        return "No bin loses more than is usual, as far as finds tell."
    parts = []
    if alarmed:
        loses = "loses" if len(alarmed) == 1 else "lose"
        parts.append(f"{wording.count(len(alarmed), 'bin')} {loses} more than usual: {_some(alarmed, wording)}")
    if looks:
        parts.append(f"{_some(looks, wording)} {'is' if len(looks) == 1 else 'are'} worth a look")
    for cluster in losses.clusters[:1]:
        after = f", after {_event_names(cluster, wording)}" if cluster.events else ""
        parts.append(f"{wording.count(len(cluster.bins), 'bin')} {cluster.shares} lose together{after}")
    return "; ".join(parts) + "."


def _some(names: Sequence[str], wording: Wording) -> str:
    """Name the first few, and how many more."""
    if len(names) <= 4:
        return wording.listing(names)
    return f"{', '.join(names[:3])} and {len(names) - 3} more"


def _event_names(cluster: Cluster, wording: Wording) -> str:
    return wording.listing([f"'{event.says}' on {wording.date(event.day)}" for event in cluster.events])


def _lines(losses: Losses, watched: int, wording: Wording) -> tuple[str, ...]:
    if not losses.bins:
        return (*_notes_line(losses, wording), SLOW)
    alarm, look = (DEFAULTS[key].value for key in ("deaths.false", "deaths.false_look"))
    share = watched / 50
    lines = [
        f"An alarm: so many found in {wording.count(DEFAULTS['deaths.window'].value, 'day')} are rare where nothing is "
        f"wrong. Of 50 bins about {wording.number(alarm, 1)} a year has one though nothing is wrong, and "
        f"{wording.number(look)} more are called worth a look; of your {wording.count(watched, 'bin')} about "
        f"{wording.number(alarm * share, 1)} and {wording.number(look * share)}. One or two deaths in a bin of many "
        "raise none.",
        SLOW,
    ]
    if losses.vague:
        entries = "entry of deaths has" if losses.vague == 1 else "entries of deaths have"
        lines.append(f"{wording.number(losses.vague)} {entries} no day that is known well enough, and isn't counted.")
    return (*_notes_line(losses, wording), *lines)


def _notes_line(losses: Losses, wording: Wording) -> tuple[str, ...]:
    """Say in how many bins notes speak of deaths that aren't counted."""
    if not losses.in_notes:
        return ()
    bins = wording.count(len(losses.in_notes), "bin")
    return (f"Your notes of {bins} speak of deaths that aren't counted here; 'How it was read' names them.",)


def _alarm_columns(wording: Wording) -> tuple[Column, ...]:
    return (
        *learned.bin_columns(),
        Column(
            "In words",
            lambda line: f"{_upper(alarm_found(line.alarm, wording))}.",
            width=50,
            note="What was found, what is usual in this bin in that time, and what was found since.",
        ),
        Column("Says", lambda line: line.alarm.tier, width=13, note="An alarm, or worth a look: less sure than that."),
        Column("Raised", lambda line: line.alarm.day, "date", 12, "The day of the find that raised it."),
        Column(
            "By luck",
            lambda line: _upper(one_in(line.alarm.chance, wording)),
            width=16,
            note="Roughly the chance of finding so many in that time in one bin where nothing is wrong.",
        ),
        Column(
            "All well",
            lambda line: line.alarm.well,
            "date",
            12,
            "The day of a later look that says all is well. Empty: it is on Due.",
        ),
    )


def _together_columns(wording: Wording) -> tuple[Column, ...]:
    return (
        Column("Bins", lambda one: f"{len(one.bins)} of {one.of}", width=9, note="How many of them lost more."),
        Column("Which", lambda one: ", ".join(one.bins), width=25, note="Those that lost more than usual."),
        Column("In common", lambda one: one.shares, width=13, note="What they have in common."),
        Column("In words", lambda one: _together(one, wording), width=50, note=f"What is known of it. {HINT}"),
        Column("Found", lambda one: round(one.found, 1), "amount", 13, "Dead found in all bins of the group."),
        Column("First", lambda one: one.first, "date", 12, "The first find of those counted."),
        Column(
            "By luck",
            lambda one: _upper(one_in(one.luck, wording)),
            width=16,
            note="Roughly the chance that any of the groups looked at shows as much if nothing joins them.",
        ),
    )


def _together(cluster: Cluster, wording: Wording) -> str:
    said = (
        f"{dead(cluster.found, wording)} up to {wording.date(cluster.last)}, where {usual(cluster.expected, wording)} "
        "usual."
    )
    if not cluster.events:
        return f"{said} No house event is logged in the weeks before. {HINT}"
    events = [
        f"{_upper(event.says)}{f' ({event.note})' if event.note and event.note != event.says else ''} is logged on "
        f"{wording.date(event.day)}, {_before(cluster.first, event.day, wording)}."
        for event in cluster.events
    ]
    return " ".join([said, *events, HINT])


def _before(first: dt.date, day: dt.date, wording: Wording) -> str:
    days = (first - day).days
    if days < 0:
        return f"{wording.count(-days, 'day')} after the first find"
    return f"{wording.count(days, 'day')} before the first find" if days else "the day of the first find"


def _question_columns() -> tuple[Column, ...]:
    return (
        Column("Order", lambda row: row[0], "number", 9, "What more of these bins' entries speak for comes first."),
        Column("Look at", lambda row: row[1].topic, width=25, note="What it may have to do with."),
        Column(
            "Noted", lambda row: "yes" if row[1].noted else "nothing", width=13, note="Whether entries speak for it."
        ),
        Column("Ask", _asked, width=50, note="A question, not a verdict, and what your entries say of it."),
    )


def _asked(row: tuple[int, Question]) -> str:
    question = row[1]
    return f"{question.asks} Logged: {'; '.join(question.noted)}." if question.noted else question.asks


def _seen_columns(known: Mapping[str, Bin], wording: Wording) -> tuple[Column, ...]:
    return (
        Column(
            "Bin",
            lambda one: one.bin,
            "link",
            9,
            "The bin as you name it. The link leads to its line on the sheet Bins.",
            link=lambda one: Place(bins.NAME, one.bin),
        ),
        Column("Species", lambda one: known[one.bin].species, width=25, note="As your list of bins has it."),
        Column("Place", lambda one: known[one.bin].place, width=13, note="The shelf or rack."),
        Column("Seen", _seen, width=50, note="What you logged, in our words, and what to do or to look at first."),
        Column("On", lambda one: one.day, "date", 13, "The day it was last seen."),
        Column("Due", lambda one: one.due, "date", 12, "The day on which Due asks for it, and says what settles it."),
    )


def _seen(one: Sight) -> str:
    return f"{_upper(one.finding)}: {FINDINGS[one.finding].do}."


def _bin_columns(wording: Wording) -> tuple[Column, ...]:
    window = wording.count(DEFAULTS["deaths.window"].value, "day")
    return (
        *learned.bin_columns(),
        Column("In words", lambda line: _said(line, window, wording), width=50, note="What was found of late."),
        Column("Found now", lambda line: round(line.of.found, 1), "amount", 13, f"Dead found in the last {window}."),
        Column(
            "Usual",
            lambda line: round(line.of.expected, 1),
            "amount",
            12,
            f"What is usual in this bin in the last {window}, by its animals and the days it was opened.",
        ),
        Column("In a year", lambda line: round(line.of.year, 1), "amount", 16, "Dead found in the last year."),
        Column(
            "A month per 100",
            lambda line: _rate(line.of, 1),
            "amount",
            12,
            "Dead found in a month for each hundred animals, over the last year. More may have died unseen.",
        ),
        Column(
            "From",
            lambda line: _rate(line.of, 0),
            "amount",
            8,
            "The lower end of that rate if deaths come singly; four times in five it lies between.",
        ),
        Column("To", lambda line: _rate(line.of, 2), "amount", 8, "The upper end of that rate."),
        Column("Last found", lambda line: line.of.last, "date", 12, "The last day on which any were found dead."),
    )


def _said(line: Line, window: str, wording: Wording) -> str:
    one = line.of
    if not one.opened:
        return "Never opened, as far as your log tells."
    if not one.year and line.in_notes:
        rows = wording.count(line.in_notes, "row")
        return f"None counted in the last year, but your notes speak of deaths in {rows}."
    if not one.year:
        return "None found in the last year."
    now = f"{dead(one.found, wording)} in the last {window}" if one.found else f"None in the last {window}"
    return f"{now}, where {usual(one.expected, wording)} usual; {wording.number(one.year, 1)} in a year."


def _rate(one: BinLosses, which: int) -> float | None:
    if one.a_month is None:
        return None
    return round((one.a_month.low, one.a_month.middle, one.a_month.high)[which], 2)


def _charts(losses: Losses, wording: Wording) -> tuple[ChartSpec, ...]:
    """Dead found week by week, in bins that have an alarm and in the others."""
    if not losses.by_week or not any(theirs + others for _, theirs, others in losses.by_week):
        return ()
    days = tuple(day for day, _, _ in losses.by_week)
    theirs = tuple(number for _, number, _ in losses.by_week)
    others = tuple(number for _, _, number in losses.by_week)
    series = [Series("other bins", "guess", others)]
    if any(theirs):
        series.append(Series("bins named above", "learned", theirs))
    title = "Dead found, week by week"
    most = max(range(len(days)), key=lambda week: theirs[week] + others[week])
    says = (
        f"{title}. The most: {wording.number(theirs[most] + others[most])} in the week to {wording.date(days[most])}, "
        f"{wording.number(theirs[most])} of them in bins that have an alarm or are worth a look."
    )
    names = tuple(f"{day.day} {wording.month(day).split()[0]}" for day in days)
    return (ChartSpec(title, says, "bar", names, "Week to", "Dead", tuple(series), "LossesTogether", 1, whole=True),)


def _upper(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
