"""Sheet Changes: what has changed since a day, and each bin's substrate: changed when, how, how much, what is next."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.values import When
from workbook_tools.plan.records import NextChange, SubstrateChange
from workbook_tools.plan.wording import Wording
from workbook_tools.report import cautions
from workbook_tools.report.columns import Column, Place, SheetSpec, TableSpec, Value
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import bins

NAME = "Changes"
_LATEST = dt.date.max


@dataclass(frozen=True, slots=True)
class BinSubstrate:
    """The substrate of one bin: its last change, if any, and the next one expected, if known."""

    bin: str
    last: SubstrateChange | None
    next: NextChange | None


def sheet(findings: Findings) -> SheetSpec:
    """Make the sheet from happenings, substrate changes and the next ones expected."""
    wording = Wording(findings.region)
    since = wording.date(findings.since)
    by_bin = _by_bin(findings)
    tables = (
        TableSpec(
            "WhatChanged",
            _happening_columns(wording),
            findings.happenings,
            title=f"What has changed since {since}",
            when_empty=f"Your log names no change since {since}.",
        ),
        TableSpec(
            "SubstrateByBin",
            _substrate_columns(wording),
            by_bin,
            title="Substrate by bin",
            when_empty="No bin is known.",
        ),
        TableSpec(
            "AllSubstrateChanges",
            _change_columns(wording),
            findings.changes,
            title="All changes of substrate",
            when_empty="Your log and list of bins name no change of substrate.",
        ),
    )
    warned = (
        f"{cautions.LAW_FIRST} {cautions.DISPOSAL}",
        f"{cautions.FREEZING.format(hours=DEFAULTS['freeze.hours'].value)} {cautions.DUST}",
    )
    return SheetSpec(NAME, _answer(findings, by_bin, wording), tables, cautions=warned, frozen_columns=1)


def _answer(findings: Findings, by_bin: Sequence[BinSubstrate], wording: Wording) -> str:
    if not findings.ledger.bins:
        return "Nothing can be said of changes: no bin was read."
    since = wording.date(findings.since)
    number = len(findings.happenings)
    changed = len({happening.bin for happening in findings.happenings})
    first = (
        f"{wording.count(number, 'change')} in {wording.count(changed, 'bin')} since {since}"
        if number
        else f"No change in any bin since {since}"
    )
    due = [row for row in by_bin if row.next and row.next.due and row.next.due <= findings.on]
    if due:
        named = wording.listing([row.bin for row in due[:5]]) if len(due) <= 5 else ""
        second = f"new substrate is due in {wording.count(len(due), 'bin')}" + (f" ({named})" if named else "")
    else:
        coming = min(
            (row.next for row in by_bin if row.next and row.next.due), key=lambda n: n.due or _LATEST, default=None
        )
        second = (
            f"next change of substrate: {coming.bin}, expected {wording.date(coming.due)}"
            if coming and coming.due
            else "no change of substrate can be expected from what is written"
        )
    return f"{first}; {second}."


def _by_bin(findings: Findings) -> list[BinSubstrate]:
    last: dict[str, SubstrateChange] = {}
    for change in findings.changes:
        known = last.get(change.bin)
        if known is None or (change.when_last or dt.date.min) >= (known.when_last or dt.date.min):
            last[change.bin] = change
    expected = {change.bin: change for change in findings.next_changes}
    names = dict.fromkeys((*findings.ledger.bins, *last, *expected))
    return [BinSubstrate(name, last.get(name), expected.get(name)) for name in names]


def _day(wording: Wording, change: SubstrateChange | None) -> Value:
    if change is None:
        return "no change written"
    if change.when_first is None or change.when_last is None:
        return "no date written"
    if change.when_first == change.when_last:
        return change.when_last
    return wording.when(When(change.when_first, change.when_last))


def _share(change: SubstrateChange | None) -> Value:
    return None if change is None else "not written" if change.share is None else change.share


def _bin_column() -> Column:
    return Column(
        "Bin",
        lambda row: row.bin,
        "link",
        10,
        "The link leads to the bin's line on the sheet Bins.",
        link=lambda row: Place(bins.NAME, row.bin),
    )


def _happening_columns(wording: Wording) -> tuple[Column, ...]:
    return (
        _bin_column(),
        Column("When", lambda row: row.day or "no date written", "date", 13, "The day, by your log."),
        Column("What", lambda row: row.what, width=20, note="What changed."),
        Column("Detail", lambda row: row.detail, width=50, note="More about it, from the same row."),
        Column("From cell", lambda row: str(row.where), width=16, note="The row of your workbook that says so."),
    )


def _substrate_columns(wording: Wording) -> tuple[Column, ...]:
    return (
        _bin_column(),
        Column("Last change", lambda row: _day(wording, row.last), "date", 13, "The last change of substrate."),
        Column(
            "Next expected",
            lambda row: row.next.due or "not known" if row.next else "not known",
            "date",
            20,
            "When the substrate is expected to need a change.",
        ),
        Column("Why", lambda row: row.next.why if row.next else None, width=50, note="What that day rests on."),
        Column("Share", lambda row: _share(row.last), "share", 16, "How much was replaced at the last change."),
        Column("Way", lambda row: row.last.way if row.last else None, width=20, note="How it was done, in your words."),
        Column(
            "Old substrate went",
            lambda row: row.last.old_went if row.last else None,
            width=20,
            note="Where the old substrate went, in your words.",
        ),
    )


def _change_columns(wording: Wording) -> tuple[Column, ...]:
    return (
        _bin_column(),
        Column("When", lambda row: _day(wording, row), "date", 13, "The day, or as near as you wrote it."),
        Column("Share", lambda row: _share(row), "share", 20, "How much was replaced."),
        Column("Way", lambda row: row.way, width=50, note="How it was done, in your words."),
        Column("From cell", lambda row: str(row.where), width=16, note="The row of your workbook that says so."),
        Column("Old substrate went", lambda row: row.old_went, width=20, note="Where it went, in your words."),
    )
