"""Sheet Leaf litter: how much a week, how much is left, which bins run out first."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.plan.learned.records import LeafForecast, Range
from workbook_tools.plan.learned.totals import added
from workbook_tools.plan.wording import Wording
from workbook_tools.report.columns import Column, SheetSpec, TableSpec
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import learned
from workbook_tools.report.sheets.learned import Row

NAME = "Leaf litter"
WEEK = dt.timedelta(days=7)
_SUM_NOTE = "Added up as if the bins' errors had nothing in common, so rather too narrow."


@dataclass(frozen=True)
class Need:
    """What the bins of one species use in a week."""

    species: str
    bins: int
    litres: Range
    grams: Range
    soon: int
    said: str


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from the forecasts: first the bins that run out first, then the need of each species."""
    wording = Wording(findings.region)
    rows = sorted(learned.rows_of(findings, findings.estimates.leaf), key=lambda row: _first(row.of))
    found = learned.tables(
        "LeafLitter",
        _columns(findings.on, wording),
        rows,
        urgent="Run out first",
        title="All bins",
        when_empty="No top-up of leaf litter and no look at it is logged.",
    )
    charts = tuple(
        learned.path_chart(
            f"Bin {row.bin.name}: leaf litter left",
            row.of.path,
            findings.on,
            found[0].name,
            wording,
            up="Litres",
        )
        for row in rows[: learned.PATHS]
        if row.of.path
    )
    need = _needs(rows, findings.on, wording)
    totals = (TableSpec("LeafBySpecies", _need_columns(), need, "A week's need, by species"),) if rows else ()
    return SheetSpec(
        NAME,
        answer(rows, findings.on, wording),
        (*found, *totals),
        _lines(findings, rows, wording),
        frozen_columns=1,
        repeated_headings=True,
        charts=charts,
    )


def answer(rows: Sequence[Row[LeafForecast]], on: dt.date, wording: Wording) -> str:
    """Say what all bins use in a week, and how many run out within one."""
    if not rows:
        return "Nothing can be said of leaf litter: no top-up and no look at it is logged."
    litres, grams = added(row.of.a_week for row in rows), added(row.of.grams_a_week for row in rows)
    soon = sum(_soon(row.of, on) for row in rows)
    runs = f"{wording.count(soon, 'bin')} may run out within a week" if soon else "no bin is about to run out"
    return (
        f"About {wording.number(litres.middle, 0 if litres.middle >= 10 else 1)} litres of leaf litter a week in all "
        f"({_grams(grams.middle, wording)}); {runs}."
    )


def _grams(grams: float, wording: Wording) -> str:
    return f"{wording.number(round(grams, -1) if grams >= 100 else grams)} g"


def _first(leaf: LeafForecast) -> tuple[dt.date, dt.date]:
    return leaf.next or dt.date.max, leaf.runs_out.middle or dt.date.max


def _soon(leaf: LeafForecast, on: dt.date) -> bool:
    return leaf.next is not None and leaf.next <= on + WEEK


def _needs(rows: Sequence[Row[LeafForecast]], on: dt.date, wording: Wording) -> list[Need]:
    groups = learned.by_species(rows)
    needs = [_need(species, group, on, wording) for species, group in groups.items()]
    needs.sort(key=lambda need: -need.litres.middle)
    return [*needs, _need("all", rows, on, wording)] if len(needs) > 1 else needs


def _need(species: str, rows: Sequence[Row[LeafForecast]], on: dt.date, wording: Wording) -> Need:
    litres, grams = added(row.of.a_week for row in rows), added(row.of.grams_a_week for row in rows)
    low, middle, high = (wording.number(x, 1) for x in (litres.low, litres.middle, litres.high))
    said = learned.between(low, middle, high, "litres a week")
    return Need(species, len(rows), litres, grams, sum(_soon(row.of, on) for row in rows), said[:1].upper() + said[1:])


def _lines(findings: Findings, rows: Sequence[Row[LeafForecast]], wording: Wording) -> tuple[str, ...]:
    lines = [learned.INTERVALS]
    lines.append(
        "Top up by is the day by which it has run out one time in ten. Due may ask for it earlier: by your ceiling, or "
        "as it falls on a round."
    )
    silent = len(findings.ledger.bins) - len(rows)
    if rows and silent:
        has = "has" if silent == 1 else "have"
        lines.append(f"{wording.count(silent, 'bin')} {has} no line: gone, resting, or nothing logged of leaf litter.")
    return (" ".join(lines),)


def _said(row: Row[LeafForecast], on: dt.date, wording: Wording) -> str:
    leaf = row.of
    low, middle, high = (wording.number(x, 1) for x in (leaf.left.low, leaf.left.middle, leaf.left.high))
    left = learned.between(low, middle, high, "litres") + " left"
    if leaf.runs_out.middle is None:
        until = "lasts for years"
    elif leaf.runs_out.middle <= on:
        until = "as good as used up"
    else:
        until = f"lasts until about {wording.date(leaf.runs_out.middle)}"
    return learned.guess(row, f"{left[:1].upper()}{left[1:]}; {until}")


def _columns(on: dt.date, wording: Wording) -> tuple[Column, ...]:
    return (
        *learned.bin_columns(),
        Column("In words", lambda row: _said(row, on, wording), width=54, note="What is left and how long it lasts."),
        Column(
            "Litres a week",
            lambda row: round(row.of.a_week.middle, 2),
            "amount",
            9,
            "Loose leaf litter to give for what is used in the coming week.",
        ),
        Column("From", lambda row: round(row.of.a_week.low, 2), "amount", 8, "The lower end of litres a week."),
        Column("To", lambda row: round(row.of.a_week.high, 2), "amount", 8, "The upper end of litres a week."),
        Column("Grams a week", lambda row: round(row.of.grams_a_week.middle, 1), "amount", 9, _grams_note()),
        Column(
            "Simple reckoning",
            lambda row: None if row.of.simple is None else round(row.of.simple, 2),
            "amount",
            11,
            "Litres a week over your last three top-ups. Empty where there aren't as many.",
        ),
        Column("Top up by", lambda row: learned.day_or_words(row.of.next), "date", 11, "Run out by then 1 time in 10."),
        Column(
            "Run out about",
            lambda row: learned.day_or_words(row.of.runs_out.middle),
            "date",
            11,
            "As likely before as after. Run out: less than a twentieth of a full layer is left.",
        ),
        Column(
            "Not after",
            lambda row: learned.day_or_words(row.of.runs_out.high),
            "date",
            11,
            "Run out by then 9 times in 10; can't say: perhaps not within ten years.",
        ),
        *learned.basis_columns(),
    )


def _grams_note() -> str:
    return f"The same in grams, at {DEFAULTS['leaf.grams'].value:g} g a litre of loose dry leaves."


def _need_columns() -> tuple[Column, ...]:
    return (
        Column("Bins", lambda need: need.bins, "number", 9, "Bins that have an estimate."),
        Column("Species", lambda need: need.species, width=25, note="As your list of bins has it."),
        Column("Run out", lambda need: need.soon, "number", 10, "Bins that may run out within a week."),
        Column("In words", lambda need: need.said, width=54, note="The need of a week."),
        Column("Litres a week", lambda need: round(need.litres.middle, 2), "amount", 9, _SUM_NOTE),
        Column("From", lambda need: round(need.litres.low, 2), "amount", 8, "The lower end of litres a week."),
        Column("To", lambda need: round(need.litres.high, 2), "amount", 8, "The upper end of litres a week."),
        Column("Grams a week", lambda need: round(need.grams.middle), "number", 9, _grams_note()),
    )
