"""All that can be learned of the bins from the log as it stood on a day."""

from __future__ import annotations

import datetime as dt

from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.learned.food import forecast_food
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.leaf import forecast_leaf
from workbook_tools.plan.learned.moss import forecast_moss
from workbook_tools.plan.learned.numbers import forecast_numbers, numbers_of
from workbook_tools.plan.learned.records import Estimates
from workbook_tools.plan.learned.substrate import forecast_substrate
from workbook_tools.plan.learned.variation import forecast_lines


def estimate_all(ledger: Ledger, on: dt.date, *, history: bool = True) -> Estimates:
    """Learn the rates, numbers and lifetimes of all bins.

    Numbers come first, for food, leaf litter and substrate go by how many animals eat.

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
    numbers = numbers_of(frame)
    moss, readings = forecast_moss(frame)
    counted, problems = forecast_numbers(frame, numbers)
    return Estimates(
        on,
        moss=moss,
        food=forecast_food(frame, numbers),
        leaf=forecast_leaf(frame, numbers, history=history),
        substrate=forecast_substrate(frame, numbers, history=history),
        numbers=counted,
        lines=forecast_lines(frame, numbers),
        readings=readings,
        problems=tuple(problems),
    )
