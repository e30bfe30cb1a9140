"""The check that no more animals leave a bin than can have been in it."""

from __future__ import annotations

import datetime as dt
import math

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.values import Number
from workbook_tools.ledger.moved import INTO, animals, moved_by
from workbook_tools.ledger.records import Bin, Ledger
from workbook_tools.problems import Problem

MONTH_DAYS = 30.4375


def too_many_out(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find more animals taken out, or found dead, than can have been in a bin.

    Generous: what is known to have been there (founders, animals in, counts taken for the smallest share that a
    count sees) has grown since at the fastest rate believed, up to what its volume can hold. A bin of which no number
    is known is passed over, also when animals come in: nobody knows to how many. Once more has left than there can
    have been, the number was wrong, and nothing is known until the next count.
    """
    most: dict[str, tuple[float, dt.date]] = {}
    for name, bin in ledger.bins.items():
        founders = bin.facts.get("founders")
        if founders is not None and isinstance(founders.value, Number) and bin.started is not None:
            most[name] = (founders.value.high, bin.started.first)
    found = []
    for entry in ledger.entries:
        field, number = animals(entry)
        if entry.when is None or number is None:
            continue
        day = entry.when.last
        targets = moved_by(entry, ledger.bins).targets
        for name in entry.bins:
            before = _before(name, entry.when.first, day, ledger, most)
            if entry.act == "count":
                seen = number.high / DEFAULTS["least.seen"].value
                most[name] = (seen if before is None else max(seen, before), day)
            elif entry.act == "start":
                most[name] = ((before or 0.0) + number.high, day)
            elif entry.act == "animals_in" and before is not None:
                most[name] = (before + number.high, day)
            elif entry.act in ("animals_out", "dead") and name in most and len(entry.bins) == 1 and name not in targets:
                can_be = min(_grown(most[name], day), _room(ledger.bins[name]))
                most[name] = (can_be - number.low, day)
                if number.low > can_be:
                    del most[name]
                    told = {"bin": name, "number": f"{number.best:g}", "most": f"{can_be:.0f}"}
                    found.append(Problem("entries.too_many_out", entry.cell(field), told, entry.text(field)))
        for target in targets if entry.act not in INTO else ():
            before = _before(target, entry.when.first, day, ledger, most)
            if before is not None:
                most[target] = (before + number.high, day)
    return found


def _before(
    name: str, first: dt.date, day: dt.date, ledger: Ledger, most: dict[str, tuple[float, dt.date]]
) -> float | None:
    """The most that can have been there: none in a bin that begins that day, None where nothing is known."""
    if name in most:
        return _grown(most[name], day)
    started = ledger.bins[name].started
    return 0.0 if started is not None and started.first >= first else None


def _room(bin: Bin) -> float:
    """The most animals that a bin of its volume can hold, without end when that isn't known."""
    volume = bin.amount("volume")
    return volume.number.high * DEFAULTS["most.per_litre"].value if volume and volume.unit == "l" else math.inf


def _grown(known: tuple[float, dt.date], day: dt.date) -> float:
    months = max((day - known[1]).days, 0) / MONTH_DAYS
    return known[0] * math.exp(min(DEFAULTS["most.growth"].value * months, 50))
