"""One number that isn't taken from the workbook."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Default:
    """One number with where it comes from.

    ``low`` and ``high`` bound what a keeper may set instead, or, for a quantity of the trade, its plausible range. They
    are equal where the value is fixed by its source.
    """

    value: float
    unit: str
    low: float
    high: float
    source: str
    says: str
