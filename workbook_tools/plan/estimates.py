"""All that can be learned of the bins from the log as it stood on a day."""

from __future__ import annotations

import datetime as dt

from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.learned.food import Fed, eaters_of, fed_of, food_swings, forecast_food
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.leaf import forecast_leaf
from workbook_tools.plan.learned.moss import forecast_moss
from workbook_tools.plan.learned.numbers import Numbers, forecast_numbers, numbers_by_eating, numbers_of
from workbook_tools.plan.learned.records import Estimates
from workbook_tools.plan.learned.substrate import forecast_substrate
from workbook_tools.plan.learned.variation import forecast_lines


def numbers_and_eating(frame: Frame) -> tuple[Numbers, Fed]:
    """Follow the animals of every bin, first by what was counted, then by what they eat as well; and that eating."""
    counted = numbers_of(frame)
    fed = fed_of(frame, counted)
    return numbers_by_eating(frame, counted, eaters_of(frame, fed, counted)), fed


def estimate_all(ledger: Ledger, on: dt.date, *, history: bool = True) -> Estimates:
    """Learn the rates, numbers and lifetimes of all bins.

    Numbers come first, for leaf litter and substrate go by how many animals eat, and food tells how many do.

    Parameters
    ----------
    ledger : Ledger
        Entries after ``on`` aren't used.
    on : date
        The day for which it is known what was written.
    history : bool
        Whether the paths of litter and substrate hold the past, which takes a second run of each.

    Returns
    -------
    Estimates
        Every bin that lives has what can be said of it; nothing in it is NaN.

    Notes
    -----
    Intervals hold the truth four times in five on the whole, not for each bin. A bin with few notes has what its like
    have, and with none what is usual.
    """
    frame = Frame.of(ledger, on)
    if not frame.size:
        return Estimates(on)
    numbers, fed = numbers_and_eating(frame)
    moss, readings = forecast_moss(frame)
    found, problems = forecast_numbers(frame, numbers)
    return Estimates(
        on,
        moss=moss,
        food=forecast_food(frame, fed),
        leaf=forecast_leaf(frame, numbers, history=history),
        substrate=forecast_substrate(frame, numbers, history=history),
        numbers=found,
        lines=forecast_lines(frame, numbers),
        readings=readings,
        food_swings=food_swings(frame, fed),
        problems=tuple(problems),
    )
