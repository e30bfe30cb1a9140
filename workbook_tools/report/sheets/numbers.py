"""Sheet Numbers: how many animals there are, how they grow, which bins get crowded."""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from dateutil.relativedelta import relativedelta

from workbook_tools.plan.learned.census import MARKS, PASSES, WORKED_OUT
from workbook_tools.plan.learned.dates import animals
from workbook_tools.plan.learned.records import MarksCount, NumberForecast, Range
from workbook_tools.plan.learned.totals import added, added_paths
from workbook_tools.plan.wording import Wording
from workbook_tools.report.columns import ChartSpec, Column, SheetSpec, TableSpec, Value
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import learned
from workbook_tools.report.sheets.learned import Row

NAME = "Numbers"
SOON = relativedelta(months=6)
LINES = 12
"""Charts of lines on the sheet, the most numerous first."""
_NO_LINE = "no line written"
_BY = {MARKS: "by marks", PASSES: "by passes"}


@dataclass(frozen=True)
class LineTotal:
    """The animals of all bins of one line of a species."""

    species: str
    line: str
    bins: int
    now: Range
    said: str


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from the forecasts: bins by the day they are crowded, then lines with a chart each."""
    wording = Wording(findings.region)
    rows = sorted(learned.rows_of(findings, findings.estimates.numbers), key=lambda row: _first(row.of, findings.on))
    crowding = [row for row in rows if row.of.crowding is not None]
    most = crowding or sorted(rows, key=lambda row: -row.of.now.middle)
    columns = _columns(findings.on, wording)
    whole = TableSpec(
        "AnimalNumbers", columns, rows, "All bins", "There is no bin to number.", key=lambda row: row.bin.name
    )
    title = "Crowded first" if crowding else "Most animals"
    short = (TableSpec("CrowdedFirst", columns, most[: learned.URGENT], title),) if len(rows) > learned.SHORT else ()
    lines = _lines_of(rows)
    totals = TableSpec("AnimalsByLine", _TOTAL_COLUMNS, _totals(lines, rows, wording), "By line")
    charts = _bin_charts(most, findings.on, (*short, whole)[0].name, wording)
    charts += _line_charts(lines, findings.on, totals.name, wording)
    return SheetSpec(
        NAME,
        answer(rows, findings.on, wording),
        (*short, whole, *((totals,) if rows else ())),
        _lines(rows, lines, wording),
        frozen_columns=1,
        repeated_headings=True,
        charts=tuple(charts),
    )


def answer(rows: Sequence[Row[NumberForecast]], on: dt.date, wording: Wording) -> str:
    """Say how many animals there are in all, and how many bins are or will be crowded."""
    if not rows:
        return "Nothing can be said of numbers: there is no bin in use."
    counted = [row for row in rows if row.of.counted]
    total = added(row.of.now for row in rows)
    said = f"About {animals(total.middle, wording)} animals in {wording.count(len(rows), 'bin')}"
    if not counted:
        said = f"A starting guess of {animals(total.middle, wording)} animals in {wording.count(len(rows), 'bin')}"
    if not any(row.of.crowding for row in rows):
        return f"{said}; no crowding number is written, so when a bin gets crowded can't be said."
    until = on + SOON
    now = sum(row.of.already for row in rows)
    soon = sum(_crowded(row.of, on, until) for row in rows)
    if not now and not soon:
        return f"{said}; none crowded by {wording.month(until)}."
    parts = [f"{now} crowded now"] if now else []
    parts += [f"{soon} {'more ' if now else ''}crowded by {wording.month(until)}"] if soon else []
    return f"{said}; {wording.listing(parts)}."


def _crowded(numbers: NumberForecast, on: dt.date, until: dt.date) -> bool:
    middle = numbers.crowded.middle if numbers.crowded else None
    return not numbers.already and middle is not None and on < middle <= until


def _first(numbers: NumberForecast, on: dt.date) -> tuple[bool, dt.date, float]:
    day = on if numbers.already else numbers.crowded.middle if numbers.crowded else None
    full = numbers.now.middle / numbers.crowding if numbers.crowding else 0.0
    return numbers.crowding is None, day or dt.date.max, -full


def _lines(
    rows: Sequence[Row[NumberForecast]], lines: Sequence[tuple[str, str, list[Row[NumberForecast]]]], wording: Wording
) -> tuple[str, ...]:
    silent = sum(not row.of.counted for row in rows)
    said = [
        learned.INTERVALS,
        "A count sees only some of the animals, by the way it is made: it is set against that share first, so the "
        "estimate is mostly above your last count.",
    ]
    if any(row.of.last_method in WORKED_OUT or row.of.marks for row in rows):
        said.append(
            "A count by marks is worked out from how many of those caught again carried one, less what moults took off "
            "since; a count by passes from how finds fell from pass to pass. Both have an error of their own, which is "
            "counted in."
        )
    if any(row.of.by_eating for row in rows):
        said.append(
            "What a bin eats, beside others of its kind and appetite, has a small say: it tells hungry bins from "
            "full ones, and large from small ones, only roughly."
        )
    if silent:
        said.append(
            f"{wording.count(silent, 'bin')} {'was' if silent == 1 else 'were'} never counted: what stands there is a "
            "starting guess, or by what the bin eats."
        )
    if rows and any(row.of.crowding is None for row in rows):
        said.append("Where your list of bins gives no crowding number, nothing is said of crowding.")
    if len(lines) > LINES:
        said.append(f"Charts show the {LINES} most numerous of {wording.count(len(lines), 'line')}.")
    return (" ".join(said),)


def _lines_of(rows: Sequence[Row[NumberForecast]]) -> list[tuple[str, str, list[Row[NumberForecast]]]]:
    groups: defaultdict[tuple[str, str], list[Row[NumberForecast]]] = defaultdict(list)
    named: dict[tuple[str, str], tuple[str, str]] = {}
    for row in rows:
        species, line = (" ".join(text.split()) for text in (row.bin.species, row.bin.line))
        said = (species or "no species written", line or _NO_LINE)
        groups[named.setdefault((species.casefold(), line.casefold()), said)].append(row)
    lines = [(species, line, group) for (species, line), group in groups.items()]
    return sorted(lines, key=lambda one: -added(row.of.now for row in one[2]).middle)


def _totals(
    lines: Sequence[tuple[str, str, list[Row[NumberForecast]]]], rows: Sequence[Row[NumberForecast]], wording: Wording
) -> list[LineTotal]:
    totals = [_total(species, line, group, wording) for species, line, group in lines]
    return [*totals, _total("all", "", rows, wording)] if len(totals) > 1 else totals


def _total(species: str, line: str, rows: Sequence[Row[NumberForecast]], wording: Wording) -> LineTotal:
    now = added(row.of.now for row in rows)
    low, middle, high = (animals(x, wording) for x in (now.low, now.middle, now.high))
    said = learned.between(low, middle, high)
    return LineTotal(species, line, len(rows), now, said[:1].upper() + said[1:])


def _bin_charts(rows: Sequence[Row[NumberForecast]], on: dt.date, below: str, wording: Wording) -> list[ChartSpec]:
    return [
        learned.path_chart(
            f"Bin {row.bin.name}: animals",
            row.of.path,
            on,
            below,
            wording,
            up="Animals",
            mark=("crowded", row.of.crowding) if row.of.crowding else None,
        )
        for row in rows[: learned.PATHS]
        if row.of.path
    ]


def _line_charts(
    lines: Sequence[tuple[str, str, list[Row[NumberForecast]]]], on: dt.date, below: str, wording: Wording
) -> list[ChartSpec]:
    charts = []
    for species, line, rows in lines[:LINES]:
        path = added_paths(row.of.path for row in rows)
        if len(path) > 1:
            title = f"Animals: {species}" + (f", {line}" if line != _NO_LINE else "")
            title += f" ({wording.count(len(rows), 'bin')})"
            charts.append(learned.path_chart(title, path, on, below, wording, up="Animals"))
    return charts


def _said(row: Row[NumberForecast], on: dt.date, wording: Wording) -> str:
    numbers = row.of
    low, middle, high = (animals(x, wording) for x in (numbers.now.low, numbers.now.middle, numbers.now.high))
    there = learned.between(low, middle, high)
    grows = "growing" if numbers.growth.low > 0 else "shrinking" if numbers.growth.high < 0 else "no clear growth"
    clear = numbers.growth.low > 0
    said = f"{there[:1].upper()}{there[1:]}; {grows}"
    middle_day = numbers.crowded.middle if numbers.crowded else None
    if numbers.already:
        said += "; crowded now"
    elif middle_day is not None:
        said += f"; crowded {'by' if clear else 'perhaps by'} {wording.month(middle_day)}"
    elif numbers.crowding is not None:
        said += "; not crowded in years to come"
    if numbers.counted:
        return said
    by = "by what it eats" if numbers.by_eating else "starting guess"
    return f"Never counted; {by}: {said[:1].lower()}{said[1:]}"


def _doubles(numbers: NumberForecast) -> Value:
    if numbers.doubles is None:
        return None
    return learned.day_or_words(numbers.doubles.middle if numbers.growth.low > 0 else None)


def _crowded_on(row: Row[NumberForecast], on: dt.date) -> Value:
    if row.of.crowding is None:
        return None
    if row.of.already:
        return on
    return learned.day_or_words(row.of.crowded.middle if row.of.crowded else None)


def _columns(on: dt.date, wording: Wording) -> tuple[Column, ...]:
    return (
        *learned.bin_columns(line=True),
        Column(
            "In words", lambda row: _said(row, on, wording), width=46, note="How many there are and where that goes."
        ),
        Column(
            "Animals", lambda row: _rounded(row.of.now.middle), "number", 9, "Today's number; as likely fewer as more."
        ),
        Column("From", lambda row: _rounded(row.of.now.low), "number", 8, "The lower end of today's number."),
        Column("To", lambda row: _rounded(row.of.now.high), "number", 8, "The upper end of today's number."),
        Column(
            "Growth a month",
            lambda row: round(row.of.growth.middle, 3),
            "share",
            9,
            "Growth of the number in a month as it is now, crowding counted in. Not clear where In words says so.",
        ),
        Column(
            "Twice as many",
            lambda row: _doubles(row.of),
            "date",
            11,
            "The day by which the number doubles, about; can't say: perhaps never, as where there is no clear growth.",
        ),
        Column("Crowding number", lambda row: row.of.crowding, "number", 10, "As your list of bins has it."),
        Column(
            "Crowded about",
            lambda row: _crowded_on(row, on),
            "date",
            11,
            "The day on which the crowding number is reached; the day of this report where it is passed.",
        ),
        Column(
            "Simple reckoning",
            lambda row: round(row.of.last_count) if row.of.last_method in WORKED_OUT else row.of.last_count,
            "number",
            11,
            "Your last count as it stands, whatever share it saw; by marks or passes, what it works out to.",
        ),
        Column("Counted", lambda row: row.of.last_day, "date", 11, "The day of that count."),
        Column(
            "By",
            lambda row: _BY.get(row.of.last_method, row.of.last_method),
            width=10,
            note="How it was made; unsaid where that isn't written.",
        ),
        Column(
            "By marks",
            lambda row: _by_marks(row.of.marks, wording),
            width=20,
            note="The last number worked out from marks, whatever was counted since, and the day of its last catch.",
        ),
        *learned.basis_columns(),
    )


def _by_marks(marks: MarksCount | None, wording: Wording) -> str | None:
    if marks is None:
        return None
    day = wording.date(marks.day)
    if marks.high is None:
        return f"{animals(marks.number, wording)} or more; {day}"
    between = learned.between(*(animals(x, wording) for x in (marks.low, marks.number, marks.high)))
    return f"{between[:1].upper()}{between[1:]}; {day}"


def _rounded(value: float) -> int:
    """A number of animals to two digits, as it isn't known better."""
    step = 10 ** max(len(str(round(value))) - 2, 0)
    return int(round(value / step) * step)


_TOTAL_COLUMNS = (
    Column("Bins", lambda one: one.bins, "number", 9, "Bins in use."),
    Column("Species", lambda one: one.species, width=25, note="As your list of bins has it."),
    Column("Line", lambda one: one.line, width=12, note="As your list of bins has it."),
    Column("Animals", lambda one: _rounded(one.now.middle), "number", 10, "In all bins of the line together."),
    Column(
        "In words",
        lambda one: one.said,
        width=42,
        note="Added up as if the bins' errors had nothing in common, so the interval is rather too narrow.",
    ),
)
