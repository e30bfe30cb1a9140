"""The table of estimates of an export: each quantity of each bin by a plain key."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from workbook_tools.plan.learned.records import Basis, DateRange, Estimates, Range
from workbook_tools.plan.sifting import OPEN
from workbook_tools.report.findings import Findings

Value = str | float | bool | dt.date | dt.time | None
"""What a cell of an export holds."""
DIGITS = 6
"""Significant digits of an estimate."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """One thing that is estimated: its key, its unit (date for a day) and what it says."""

    key: str
    unit: str
    says: str


QUANTITIES: dict[str, Quantity] = {
    one.key: one
    for one in (
        Quantity("moss_dry_after", "days", "From watering to a dry moss corner, as the air is now."),
        Quantity("moss_dry", "date", "The day the moss corner is dry after the last watering."),
        Quantity("moss_look", "date", "The day to look at the moss corner next."),
        Quantity("food_dry_a_day", "g", "Dry food that is eaten in a day."),
        Quantity("food_dry_portion", "g", "The next portion of dry food."),
        Quantity("food_fresh_a_day", "g", "Fresh food that is eaten in a day."),
        Quantity("food_fresh_portion", "g", "The next portion of fresh food."),
        Quantity("litter_left", "l", "Leaf litter that is left."),
        Quantity("litter_a_week", "l", "Leaf litter that is used in a week."),
        Quantity("litter_a_week_weight", "g", "The same by weight."),
        Quantity("litter_runs_out", "date", "The day the leaf litter has run out."),
        Quantity("litter_top_up", "date", "The day by which it has run out one time in ten."),
        Quantity("substrate_recognisable", "share", "The share of the substrate that can still be recognised."),
        Quantity("substrate_spent", "date", "The day the substrate is spent."),
        Quantity("substrate_smallest_change", "share", "The smallest share that lasts long enough if renewed now."),
        Quantity("substrate_change", "date", "The day its next change is expected, as on the sheet Changes."),
        Quantity("animals", "count", "Animals in the bin."),
        Quantity("animals_growth", "share", "Growth in a month: 0.03 is three in a hundred more."),
        Quantity("animals_double", "date", "The day they are twice as many."),
        Quantity("animals_crowded", "date", "The day they are as many as you call crowded."),
        Quantity("animals_by_marks", "count", "The last number worked out from marked animals."),
        Quantity("deaths_a_month", "percent", "Dead in a month for each hundred animals, over the last year."),
        Quantity("stragglers_left", "count", "Animals left in old substrate that waits: a likely lower bound."),
        Quantity("line_breeders", "count", "Animals that bred in effect, over all bins of its line."),
        Quantity("line_variation_kept", "share", "Variation its line has probably kept since it began, over all bins."),
    )
}
"""Every quantity by its key."""


def estimate_rows(findings: Findings) -> Iterator[tuple[Value, ...]]:
    """Yield bin by bin, in the keeper's order, what is estimated; nothing where there is nothing to say.

    A day that is later than can be said is left empty.
    """
    changes = {one.bin: one for one in findings.next_changes}
    lines = {name: line for line in findings.estimates.lines for name in line.bins}
    for bin in findings.ledger.bins:
        yield from _learned(findings.estimates, bin)
        if bin in changes and changes[bin].due is not None:
            yield _row(bin, "substrate_change", changes[bin].due, changes[bin].why)
        if findings.losses and (losses := findings.losses.bins.get(bin)) and losses.a_month:
            yield _row(bin, "deaths_a_month", losses.a_month, f"{losses.year:g} found in a year")
        for batch in findings.batches:
            if batch.bin == bin and batch.state == OPEN and batch.left:
                left = (batch.left.middle, batch.left.low, batch.left.high)
                looks = f"{len(batch.passes)} passes by hand, {len(batch.traps)} checks of a trap"
                yield _line(bin, "stragglers_left", left, looks, len(batch.passes) + len(batch.traps))
        if bin in lines:
            rests_on = f"{len(lines[bin].bins)} bins of its line since {lines[bin].began.isoformat()}"
            yield _row(bin, "line_breeders", lines[bin].breeders, rests_on)
            yield _row(bin, "line_variation_kept", lines[bin].kept, rests_on)


def _learned(estimates: Estimates, bin: str) -> Iterator[tuple[Value, ...]]:
    """What was learned of one bin, each with the notes it rests on."""
    found: list[tuple[Basis, str, _Estimate]] = []
    if moss := estimates.moss.get(bin):
        found.append((moss.basis, "moss_dry_after", moss.days))
        found += [(moss.basis, "moss_dry", moss.dry)] if moss.dry else []
        found += [(moss.basis, "moss_look", moss.next)] if moss.next else []
    for food in estimates.food.get(bin, ()):
        found.append((food.basis, f"food_{food.kind}_a_day", food.a_day))
        found.append((food.basis, f"food_{food.kind}_portion", food.portion))
    if leaf := estimates.leaf.get(bin):
        found.append((leaf.basis, "litter_left", leaf.left))
        found.append((leaf.basis, "litter_a_week", leaf.a_week))
        found.append((leaf.basis, "litter_a_week_weight", leaf.grams_a_week))
        found.append((leaf.basis, "litter_runs_out", leaf.runs_out))
        found += [(leaf.basis, "litter_top_up", leaf.next)] if leaf.next else []
    if substrate := estimates.substrate.get(bin):
        found.append((substrate.basis, "substrate_recognisable", substrate.share))
        found.append((substrate.basis, "substrate_spent", substrate.spent))
        if substrate.smallest is not None:
            found.append((substrate.basis, "substrate_smallest_change", substrate.smallest))
    if numbers := estimates.numbers.get(bin):
        found.append((numbers.basis, "animals", numbers.now))
        found.append((numbers.basis, "animals_growth", numbers.growth))
        found += [(numbers.basis, "animals_double", numbers.doubles)] if numbers.doubles else []
        found += [(numbers.basis, "animals_crowded", numbers.crowded)] if numbers.crowded else []
    for basis, key, estimate in found:
        yield _row(bin, key, estimate, basis.said, basis.notes)
    if numbers and (marks := numbers.marks):
        ends = (marks.number, marks.low, marks.high)
        yield _line(bin, "animals_by_marks", ends, f"marked animals caught again on {marks.day.isoformat()}")


_Estimate = Range | DateRange | float | dt.date | None


def _row(bin: str, key: str, estimate: _Estimate, rests_on: str, notes: int | None = None) -> tuple[Value, ...]:
    """One line; what has no interval has its low and high left empty."""
    if isinstance(estimate, Range | DateRange):
        return _line(bin, key, (estimate.middle, estimate.low, estimate.high), rests_on, notes)
    return _line(bin, key, (estimate, None, None), rests_on, notes)


def _line(
    bin: str, key: str, ends: tuple[Value, Value, Value], rests_on: str, notes: int | None = None
) -> tuple[Value, ...]:
    middle, low, high = (float(f"{end:.{DIGITS}g}") if isinstance(end, float) else end for end in ends)
    return (bin, key, middle, low, high, QUANTITIES[key].unit, rests_on, notes)
