"""A made-up log of eight bins on two shelves: looked over every fourth day, one dead now and then."""

import datetime as dt

from tools.rows import bin_row, log_row, number, settings
from workbook_tools.ledger.build import build_ledger

FIRST, ON = dt.date(2025, 11, 1), dt.date(2026, 6, 1)
NAMES = [f"A{i}" for i in range(1, 5)] + [f"B{i}" for i in range(1, 5)]


def at(days):
    """The day so many days before the report."""
    return (ON - dt.timedelta(days=days)).isoformat()


def looks():
    """A look at all bins every fourth day up to two days before; a death in each bin once in about six weeks."""
    rows = []
    for step, day in enumerate(range((ON - FIRST).days, 1, -4)):
        for place, name in enumerate(NAMES):
            dead = {"dead": number(1)} if (step + 3 * place) % 11 == 0 else {}
            rows.append(log_row(at(day), name, "look", **dead))
    return rows


def log(*more, bins=None, on=ON):
    made = bins or [bin_row(name, place="Top" if name[0] == "A" else "Low") for name in NAMES]
    return build_ledger([*made, *looks(), *more], settings(), on=on)[0]


def dead(days, name, found):
    return log_row(at(days), name, "dead", number=number(found))
