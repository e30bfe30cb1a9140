"""All sheets of the report, in their order."""

from __future__ import annotations

from workbook_tools.report.columns import SheetSpec
from workbook_tools.report.findings import Findings
from workbook_tools.report.sheets import (
    bins,
    changes,
    due,
    leaf_litter,
    losses,
    methods,
    moss_food,
    numbers,
    reading,
    sifting,
    substrate,
)

SHEETS = (
    due.sheet,
    changes.sheet,
    bins.sheet,
    moss_food.sheet,
    leaf_litter.sheet,
    substrate.sheet,
    sifting.sheet,
    numbers.sheet,
    losses.sheet,
    reading.sheet,
    methods.sheet,
)


def report_sheets(findings: Findings) -> tuple[SheetSpec, ...]:
    """Make the sheets of the report as data, ready for :func:`~workbook_tools.report.writer.write_workbook`."""
    return tuple(make(findings) for make in SHEETS)
