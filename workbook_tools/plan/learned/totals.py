"""Sums over bins: of a week's need, of animals, of their paths, with an interval for the sum."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence

from workbook_tools.plan.learned.records import Point, Range

EIGHTY = 1.2816
"""Standard deviations from the middle to either end of an 80 % interval of a normal."""
_LEAST = 1e-9
_LOWEST = 1 / 20
"""A lower end below this part of the middle is as good as 0, and tells nothing of a spread in proportion."""


def added(ranges: Iterable[Range]) -> Range:
    """Add numbers that are each known only within an interval.

    Parameters
    ----------
    ranges : iterable of Range
        Each taken as log-normal, its spread from the ratio of ``high`` to ``low``, or to the middle where ``low`` is
        as good as 0; one whose middle is 0 adds nothing.

    Returns
    -------
    Range
        The log-normal with the mean and the variance of the sum; its middle is above the sum of the middles, as what
        is above the middle adds more than what is below it takes away. All 0 when there is nothing to add.

    Notes
    -----
    Misleads when all bins are off the same way, as when every count sees less than is usual: the errors are taken to
    have nothing in common, so that the interval of a sum is then too narrow. Source: moments of sums of log-normals
    (Fenton and Wilkinson).
    """
    known = [one for one in ranges if one.middle > _LEAST]
    if len(known) == 1:
        return known[0]
    mean = variance = 0.0
    for one in known:
        square = _spread(one) ** 2
        here = one.middle * math.exp(square / 2)
        mean += here
        variance += here**2 * math.expm1(square)
    if not mean:
        return Range(0.0, 0.0, 0.0)
    square = math.log1p(variance / mean**2)
    middle, reach = mean * math.exp(-square / 2), math.exp(EIGHTY * math.sqrt(square))
    return Range(middle / reach, middle, middle * reach)


def _spread(one: Range) -> float:
    """Standard deviation of the natural log."""
    above = math.log(max(one.high, one.middle) / one.middle)
    if one.low < one.middle * _LOWEST:
        return above / EIGHTY
    return (above + math.log(one.middle / min(one.low, one.middle))) / (2 * EIGHTY)


def added_paths(paths: Iterable[Sequence[Point]]) -> tuple[Point, ...]:
    """Add paths day by day; a bin counts from its first point on."""
    by_day: defaultdict[object, list[Point]] = defaultdict(list)
    for path in paths:
        for point in path:
            by_day[point.day].append(point)
    sums = []
    for points in by_day.values():
        total = added(Range(point.low, point.middle, point.high) for point in points)
        sums.append(Point(points[0].day, total.low, total.middle, total.high))
    return tuple(sorted(sums, key=lambda point: point.day))
