"""Counts worked out from marks and from passes, each with its own error, as the numbers take them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate.counting import EIGHTY
from workbook_tools.estimate.recapture import ByMarks, bailey, chapman, schnabel, schumacher_eschmeyer
from workbook_tools.estimate.sifting import sift_left
from workbook_tools.ledger.series.census import Catch, Census, CensusSeries, Passes
from workbook_tools.ledger.series.numbers import Count, Move
from workbook_tools.problems import Problem

MARKS, PASSES = "marks", "passes"
WORKED_OUT = frozenset({MARKS, PASSES})
"""The ways of counts that are worked out, as `Count.method` has them."""
SHARE = 0.8
"""What the limits of a worked-out count hold."""
NO_LIMIT = 1e6
"""Animals that stand for no upper limit."""
TELLING = 3
"""Catches with marks to meet from which two ways of working them out are compared."""


@dataclass(frozen=True)
class WorkedOut:
    """Counts, what left bins with old substrate and was never found, and what is doubtful about them."""

    counts: tuple[Count, ...]
    moves: tuple[Move, ...]
    problems: tuple[Problem, ...]


def worked_out(series: CensusSeries, names: Sequence[str], moves: Iterable[Move]) -> WorkedOut:
    """Work out every census and every sifting of a whole bin.

    Parameters
    ----------
    series : CensusSeries
        As `census_series` gathers it.
    names : sequence of str
        Names of the bins, for problems.
    moves : iterable of Move
        What came and went: what is caught on such a day is caught before.
    """
    counts, problems = list(series.counts), list(series.problems)
    gone = [move for one in series.passes if (move := _never_found(one)) is not None]
    for census in series.censuses:
        count = _by_marks(census, names[census.bin], problems)
        if count is not None:
            counts.append(count)
    counts += [_by_passes(one, names[one.bin], problems) for one in series.passes]
    moved = {(move.bin, move.day) for move in (*moves, *gone) if not move.dead}
    counts = [replace(c, day=c.day - 1) if (c.bin, c.day) in moved else c for c in counts]
    return WorkedOut(tuple(sorted(counts, key=lambda c: (c.day, c.bin))), tuple(gone), tuple(problems))


@dataclass(frozen=True, slots=True)
class _Met:
    """A catch with the marks that are probably still borne; ``error`` is how far off that is, on the log scale."""

    catch: Catch
    marked: float
    error: float


def kept(days: int) -> tuple[float, float, float]:
    """The share of marks still borne so long after marking: lowest, middle, highest.

    Every animal moults once in so many days, so the share falls in a straight line.
    """
    moult = DEFAULTS["marks.moult"]
    low, middle, high = (max(1 - days / span, 0.0) for span in (moult.low, moult.value, moult.high))
    return low, middle, high


def _met(catch: Catch) -> _Met:
    low, middle, high = (sum(number * kept(days)[i] for days, number in catch.marks) for i in range(3))
    least = max(float(catch.again), 0.1 * high, 1e-6)
    low, middle, high = max(low, least), max(middle, least), max(high, least)
    return _Met(catch, middle, math.log(high / low) / (2 * EIGHTY))


def _by_marks(census: Census, name: str, problems: list[Problem]) -> Count | None:
    met = [_met(catch) for catch in census.catches if not _marks_gone(catch, name, problems)]
    if not met:
        return None
    found = _work_out(met, name, problems)
    weight = [one.catch.caught * one.marked for one in met]
    whole = sum(weight)
    error = sum(w * one.error for w, one in zip(weight, met, strict=True)) / whole
    day = round(sum(w * one.catch.day for w, one in zip(weight, met, strict=True)) / whole)
    least = float(max(found.least, max(one.catch.caught for one in met), 1.0))
    number = max(found.number, least)
    low = max(number * math.exp(-_with(number / max(found.low, 0.5), error)), least)
    if math.isinf(found.high):
        return Count(census.bin, day, low, low, NO_LIMIT, MARKS, met[-1].catch.where)
    high = min(number * math.exp(_with(max(found.high, number) / number, error)), NO_LIMIT)
    return Count(census.bin, day, number, low, high, MARKS, met[-1].catch.where)


def _with(times: float, error: float) -> float:
    """How far an 80 % limit is off on the log scale, with a further error."""
    return math.hypot(math.log(max(times, 1.0)), EIGHTY * error)


def _work_out(met: Sequence[_Met], name: str, problems: list[Problem]) -> ByMarks:
    if len(met) == 1:
        one = met[0]
        way = bailey if one.catch.in_place else chapman
        return way(max(round(one.marked), one.catch.again), one.catch.caught, one.catch.again, level=SHARE)
    marked = [one.marked for one in met]
    caught, again = [one.catch.caught for one in met], [one.catch.again for one in met]
    found = schnabel(marked, caught, again, level=SHARE)
    other = schumacher_eschmeyer(marked, caught, again, level=SHARE)
    wide = schnabel(marked, caught, again)
    if len(met) >= TELLING and math.isfinite(other.number) and not wide.low <= other.number <= wide.high:
        facts = {"bin": name, "one": f"{found.number:.0f}", "other": f"{other.number:.0f}"}
        problems.append(Problem("census.uneven", met[-1].catch.where, facts, f"{found.number:.0f}"))
    return found


def _marks_gone(catch: Catch, name: str, problems: list[Problem]) -> bool:
    """Whether a catch comes too long after the last marking; one that is only doubtful is named too."""
    days = min((days for days, _ in catch.marks), default=0)
    within = round(DEFAULTS["marks.within"].value)
    gone = days >= DEFAULTS["marks.moult"].low or not catch.marks
    if days > within:
        facts = {"bin": name, "days": str(days), "within": str(within)}
        problems.append(Problem("census.marks_gone" if gone else "census.late", catch.where, facts, str(days)))
    return gone


def _by_passes(one: Passes, name: str, problems: list[Problem]) -> Count:
    left = sift_left(one.catches, one.trapped, share=SHARE)
    low = float(max(left.found + left.low, 0))
    if left.middle is None or left.high is None:
        facts = {"bin": name, "finds": ", ".join(str(found) for found in one.catches), "found": str(left.found)}
        problems.append(Problem("census.no_fall", one.where, facts, facts["finds"]))
        return Count(one.bin, one.day, low, low, NO_LIMIT, PASSES, one.where)
    return Count(
        one.bin, one.day, float(left.found + left.middle), low, float(left.found + left.high), PASSES, one.where
    )


def _never_found(one: Passes) -> Move | None:
    """What went out with the old substrate of a full change and was found in no pass and no trap."""
    if not one.changed:
        return None
    left = sift_left(one.catches, one.trapped, share=SHARE).middle
    return Move(one.bin, one.day, -float(left), math.nan, False, one.where) if left else None
