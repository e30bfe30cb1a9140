"""The check on dates far out of order with the rows around them, such as last year's year typed in January."""

from __future__ import annotations

import datetime as dt
from bisect import bisect_right

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.values import Fact, When
from workbook_tools.ledger.records import Ledger
from workbook_tools.problems import Problem


def out_of_order(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Find dates that lie far from both neighbours in a column of dates that otherwise runs one way.

    Dates after the day of the report are named already, by another check.
    """
    columns: dict[tuple[str, int], dict[int, Fact]] = {}
    for entry in ledger.entries:
        fact = entry.facts.get("when")
        if fact is not None and entry.bins and isinstance(fact.value, When) and fact.value.exact:
            ref = fact.cell.ref
            columns.setdefault((ref.sheet, ref.col), {})[ref.row] = fact
    return [problem for facts in columns.values() for problem in _of_column([facts[row] for row in sorted(facts)], on)]


def _of_column(facts: list[Fact], on: dt.date) -> list[Problem]:
    days = [fact.value.first.toordinal() for fact in facts if isinstance(fact.value, When)]
    kept = in_order(days)
    if len(days) < DEFAULTS["log.least_dates"].value or len(kept) < DEFAULTS["log.in_order"].value * len(days):
        return []
    found = []
    for place, fact in enumerate(facts):
        after = bisect_right(kept, place)
        if (after and kept[after - 1] == place) or days[place] > on.toordinal():
            continue
        far = min(abs(days[place] - days[near]) for near in kept[max(after - 1, 0) : after + 1])
        if far > DEFAULTS["date.out_of_order"].value:
            found.append(Problem("entries.out_of_order", fact.cell.ref, {"days": far}, fact.text))
    return found


def in_order(days: list[int]) -> list[int]:
    """Give the places that stay when as few as can be are left out so that the days run one way, up or down.

    Of two choices that leave out as few, the one whose days lie closer together is taken.
    """
    last = len(days) - 1
    runs = []
    for sign in (1, -1):
        runs.append(_rising([sign * day for day in days]))
        runs.append([last - place for place in reversed(_rising([-sign * day for day in reversed(days)]))])
    return min(runs, key=lambda run: (-len(run), abs(days[run[-1]] - days[run[0]]) if run else 0))


def _rising(days: list[int]) -> list[int]:
    """Give the places of a longest run that never falls, by patience sorting."""
    tails: list[int] = []
    places: list[int] = []
    before: list[int] = []
    for place, day in enumerate(days):
        pile = bisect_right(tails, day)
        tails[pile : pile + 1] = [day]
        places[pile : pile + 1] = [place]
        before.append(places[pile - 1] if pile else -1)
    run = places[-1:]
    while run and before[run[-1]] >= 0:
        run.append(before[run[-1]])
    return run[::-1]
