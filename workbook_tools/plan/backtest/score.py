"""Scores of many comparisons. A value that isn't finite fails loudly: it may not count as good."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

import numpy as np

from workbook_tools.plan.backtest.records import QUANTITIES, Comparison, Score


def score(quantity: str, comparisons: Sequence[Comparison]) -> Score | None:
    """Score the comparisons of one quantity; None if there are none.

    Raises
    ------
    ValueError
        An estimate or a rule is off by something that isn't finite.
    """
    own = [one for one in comparisons if one.quantity == quantity]
    if not own:
        return None
    off = np.array([one.off(one.estimate.middle) for one in own])
    rules = {}
    for rule in QUANTITIES[quantity].rules:
        able = [place for place, one in enumerate(own) if rule in one.rules]
        if able:
            theirs = np.abs([own[place].off(own[place].rules[rule]) for place in able])
            rules[rule] = (float(theirs.mean()), float(np.abs(off[able]).mean()), len(able))
    return Score(
        quantity,
        len(own),
        len({one.bin for one in own}),
        float(np.abs(off).mean()),
        float(off.mean()),
        sum(one.held for one in own) / len(own),
        rules,
    )


def scores(comparisons: Sequence[Comparison]) -> tuple[Score, ...]:
    """Score every quantity that was compared."""
    return tuple(made for key in QUANTITIES if (made := score(key, comparisons)) is not None)


def scores_by_day(comparisons: Sequence[Comparison]) -> tuple[tuple[dt.date, Score], ...]:
    """Score every quantity for each day estimates were made for: one bad month may hide in the whole."""
    days = sorted({one.on for one in comparisons})
    return tuple((day, made) for day in days for made in scores([one for one in comparisons if one.on == day]))
