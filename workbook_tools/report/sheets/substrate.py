"""Sheet Substrate: how much can still be recognised, when it is spent, how much to renew."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

from dateutil.relativedelta import relativedelta

from workbook_tools.defaults import DEFAULTS
from workbook_tools.plan.learned.dates import SHARES
from workbook_tools.plan.learned.records import DateRange, SubstrateForecast
from workbook_tools.plan.records import NextChange
from workbook_tools.plan.wording import Wording
from workbook_tools.report.columns import ChartSpec, Column, Series, SheetSpec
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import learned
from workbook_tools.report.sheets.learned import Row

NAME = "Substrate"
SOON = relativedelta(months=4)
MONTHS = 12
"""Months ahead that the chart looks."""


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from the forecasts: what is spent first stands first."""
    wording = Wording(findings.region)
    changes = {change.bin: change for change in findings.next_changes}
    known = {name: _as_on_changes(one, changes.get(name)) for name, one in findings.estimates.substrate.items()}
    rows = sorted(learned.rows_of(findings, known), key=lambda row: _first(row.of))
    found = learned.tables(
        "SubstrateLeft",
        _columns(findings.on, rows[0].of.months if rows else 0.0, wording),
        rows,
        urgent="Spent first",
        title="All bins",
        when_empty="No start, no change of substrate and no look at it is logged.",
    )
    below = found[0].name
    spent = DEFAULTS["substrate.spent"].value
    charts = [_by_month(rows, findings.on, below, wording)] if rows else []
    charts += [
        learned.path_chart(
            f"Bin {row.bin.name}: substrate still recognisable",
            row.of.path,
            findings.on,
            below,
            wording,
            up="Share",
            share=True,
            mark=("spent", spent),
        )
        for row in rows[: learned.PATHS - 1]
        if row.of.path
    ]
    return SheetSpec(
        NAME,
        answer(rows, findings.on, wording),
        found,
        (
            f"{learned.INTERVALS} Spent means that {wording.number(spent * 100)} % of it can still be recognised. "
            "The day of a change is the same on Changes and Due; where it is not yet learned, it is that of your "
            "rhythm.",
        ),
        frozen_columns=1,
        repeated_headings=True,
        charts=tuple(charts),
    )


def answer(rows: Sequence[Row[SubstrateForecast]], on: dt.date, wording: Wording) -> str:
    """Say how many bins are spent now and how many will be within months."""
    if not rows:
        return "Nothing can be said of substrate: no start, no change and no look at it is logged."
    until = on + SOON
    days = [row.of.spent.middle for row in rows if row.of.spent.middle is not None]
    now, soon = sum(day <= on for day in days), sum(on < day <= until for day in days)
    needs = "needs" if now + soon == 1 else "need"
    if now and soon:
        said = f"{wording.count(now + soon, 'bin')} {needs} new substrate by {wording.date(until)}, {now} of them now"
    elif now or soon:
        said = (
            f"{wording.count(now + soon, 'bin')} {needs} new substrate {'now' if now else f'by {wording.date(until)}'}"
        )
    else:
        coming = min(days, default=None)
        first = f"; the first about {wording.date(coming)}" if coming else ""
        said = f"No bin needs new substrate by {wording.date(until)}{first}"
    return f"{said}, of {wording.number(len(rows))}." if now or soon else f"{said}."


def _as_on_changes(substrate: SubstrateForecast, change: NextChange | None) -> SubstrateForecast:
    """Give it the day that Changes has: one that isn't learned yet goes by the rhythm, any other no later than that."""
    if change is None:
        return substrate
    if not substrate.basis.learned:
        return replace(substrate, spent=DateRange(None, change.due, None))
    low, middle, high = substrate.spent.low, change.due or substrate.spent.middle, substrate.spent.high
    return replace(substrate, spent=DateRange(min(low, middle) if low and middle else low, middle, high))


def _first(substrate: SubstrateForecast) -> tuple[dt.date, dt.date]:
    return substrate.spent.middle or dt.date.max, substrate.spent.low or dt.date.max


def _by_month(rows: Sequence[Row[SubstrateForecast]], on: dt.date, below: str, wording: Wording) -> ChartSpec:
    """Bins whose substrate is spent, month by month, by the day that is as likely too early as too late."""
    months = [on.replace(day=1) + relativedelta(months=i) for i in range(MONTHS)]
    names = ["by now", *(wording.month(month) for month in months), "later"]
    counts = {True: [0.0] * len(names), False: [0.0] * len(names)}
    for row in rows:
        day = row.of.spent.middle
        if day is None or day >= months[-1] + relativedelta(months=1):
            place = len(names) - 1
        elif day <= on:
            place = 0
        else:
            place = 1 + (day.year - on.year) * 12 + day.month - on.month
        counts[row.of.basis.learned][place] += 1
    totals = [int(sum(pair)) for pair in zip(*counts.values(), strict=True)]
    listed = wording.listing([f"{name} {number}" for name, number in zip(names, totals, strict=True) if number])
    series = tuple(
        Series(name, look, tuple(counts[known]))
        for name, look, known in (("learned here", "learned", True), ("not yet learned here", "guess", False))
        if any(counts[known])
    )
    title = "Bins whose substrate is spent, month by month"
    return ChartSpec(
        title, f"{title}: {listed}.", "bar", tuple(names), "Spent about", "Bins", series, below, 3, whole=True
    )


def _said(row: Row[SubstrateForecast], on: dt.date, wording: Wording) -> str:
    substrate = row.of
    low, middle, high = (
        wording.number(x * 100) for x in (substrate.share.low, substrate.share.middle, substrate.share.high)
    )
    share = learned.between(low, middle, high, "%")
    when = substrate.spent.middle
    if when is None:
        until = "lasts for years" if substrate.basis.learned else "when it is spent isn't known"
    elif when <= on:
        until = "spent by now" if substrate.basis.learned else "by the rhythm its change is due now"
    elif not substrate.basis.learned:
        until = f"by the rhythm its change is due about {wording.month(when)}"
    else:
        until = f"spent about {wording.month(when)}"
        if substrate.spent.low is not None and substrate.spent.low > on:
            until += f", not before {wording.month(substrate.spent.low)}"
    return learned.guess(row, f"{share[:1].upper()}{share[1:]} can still be recognised; {until}")


def _smallest(row: Row[SubstrateForecast]) -> str:
    if row.of.smallest is None:
        return "not even all"
    return SHARES[min(SHARES, key=lambda share: abs(share - (row.of.smallest or 1.0)))]


def _columns(on: dt.date, months: float, wording: Wording) -> tuple[Column, ...]:
    return (
        *learned.bin_columns(),
        Column("In words", lambda row: _said(row, on, wording), width=52, note="How much of it is still good."),
        Column(
            "Recognisable",
            lambda row: round(row.of.share.middle, 3),
            "share",
            9,
            "The share of the substrate that can still be told from frass.",
        ),
        Column("From", lambda row: round(row.of.share.low, 3), "share", 8, "The lower end of that share."),
        Column("To", lambda row: round(row.of.share.high, 3), "share", 8, "The upper end of that share."),
        Column(
            "Not before",
            lambda row: learned.day_or_words(row.of.spent.low),
            "date",
            11,
            "Spent by then one time in ten.",
        ),
        Column(
            "Spent about",
            lambda row: learned.day_or_words(row.of.spent.middle),
            "date",
            11,
            "The day on which it is spent, as likely before as after; that on Changes, if that is sooner.",
        ),
        Column(
            "Not after",
            lambda row: learned.day_or_words(row.of.spent.high),
            "date",
            11,
            "Spent by then nine times in ten; can't say: perhaps not within ten years.",
        ),
        Column(
            "Simple reckoning",
            lambda row: row.of.simple,
            "date",
            11,
            "Where a straight line from the last renewal through your last look ends. Empty without such a look.",
        ),
        Column(
            "Renew",
            _smallest,
            width=11,
            note=f"The smallest part which, renewed now, lasts {wording.count(round(months), 'month')}.",
        ),
        *learned.basis_columns(),
    )
