"""The table of lines on the sheet Bins: founders, numbers, and the variation each line is likely to lose."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.defaults import DEFAULTS
from workbook_tools.plan.learned.records import LineForecast
from workbook_tools.plan.wording import Wording
from workbook_tools.report.columns import Column, TableSpec, Value

FEW = 0.9
"""A line that has likely kept less than this share is said to have lost much."""
NAMED = 3
LOSES = (
    "Variation kept is a rough guide from numbers alone: every generation of few animals loses some, and about "
    f"{10 * DEFAULTS['line.breeders'].value:.0f} in ten of those there are count as parents. It is counted from the "
    "line's first bin in this workbook, as if its bins exchanged animals. How: sheet Methods & sources."
)


def kept_share(line: LineForecast | None) -> Value:
    """The share of its variation that a line is likely to have kept."""
    return round(line.kept.middle, 3) if line else None


def line_table(lines: Sequence[LineForecast], wording: Wording) -> TableSpec:
    """All lines, those that lost most first."""
    rows = sorted(lines, key=lambda line: (not line.alive, line.kept.middle))
    return TableSpec(
        "AllLines",
        _columns(wording),
        rows,
        title="Lines, all bins of each together",
        when_empty="No line of whose numbers anything is written.",
    )


def least_kept(lines: Sequence[LineForecast], wording: Wording) -> tuple[str, ...]:
    """Name the lines that have likely lost most, and what would bring some back; nothing where none lost much."""
    lost = sorted((line for line in lines if line.alive and line.kept.middle < FEW), key=lambda line: line.kept.middle)
    if not lost:
        return ()
    named = [f"{line.line or line.species} ({wording.number(100 * line.kept.middle)} % kept)" for line in lost[:NAMED]]
    more = f" and {wording.count(len(lost) - NAMED, 'line')} more" if len(lost) > NAMED else ""
    listed = ", ".join(named) if more else wording.listing(named)
    return (
        f"Likely to have lost more than {wording.number(100 * (1 - FEW))} % of their variation: {listed}{more}. "
        "Animals of the same line from another keeper would bring some back.",
    )


def _columns(wording: Wording) -> tuple[Column, ...]:
    breeders = DEFAULTS["line.breeders"]
    return (
        Column("Line", lambda line: line.line or "no name", width=11, note="The line, morph or generation kept apart."),
        Column("Species", lambda line: line.species, width=24, note="As your list of bins has it."),
        Column("Bins alive", lambda line: line.alive, "number", 11, "Bins of it that aren't gone."),
        Column("Bins in all", lambda line: len(line.bins), "number", 10, "With those that are gone."),
        Column(
            "Began", lambda line: line.began, "date", 11, "Its first bin in this workbook, at most five years back."
        ),
        Column(
            "Founders",
            lambda line: line.founders,
            "number",
            11,
            "Animals its first bin began with; empty where they aren't written.",
        ),
        Column("Animals", lambda line: round(line.now), "number", 9, "Animals today in all its bins, estimated."),
        Column("Fewest", lambda line: round(line.least), "number", 11, "The fewest it ever had, estimated."),
        Column(
            "Breed in effect",
            lambda line: round(line.breeders, 1),
            "amount",
            11,
            f"Ne: {breeders.value:g} of the animals there were, as one number over all generations (harmonic mean).",
        ),
        Column(
            "Generations",
            lambda line: round(line.generations, 1),
            "amount",
            11,
            "So many have passed, by the usual time from one to the next for its appetite.",
        ),
        Column("Kept", kept_share, "share", 11, "The share of its variation (expected heterozygosity) likely kept."),
        Column(
            "If few breed",
            lambda line: round(line.kept.low, 3),
            "share",
            11,
            f"The same if only {breeders.low:g} of the animals breed in effect.",
        ),
        Column(
            "If many breed",
            lambda line: round(line.kept.high, 3),
            "share",
            11,
            f"The same if {breeders.high:g} of the animals breed in effect.",
        ),
    )
