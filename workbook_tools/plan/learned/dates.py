"""Due days and reasons that rest on what was learned of a bin, never later than the keeper's ceiling."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from workbook_tools.ledger.records import Bin
from workbook_tools.plan.learned.records import (
    NOT_YET,
    Basis,
    Estimates,
    FoodForecast,
    LeafForecast,
    MossForecast,
    NumberForecast,
    SubstrateForecast,
)
from workbook_tools.plan.rhythm import Interval
from workbook_tools.plan.wording import Wording

DAY = dt.timedelta(days=1)
LEFT = {"gone": "all gone", "some": "some left", "most": "most left", "mouldy": "gone mouldy", "": "not looked at"}


@dataclass(frozen=True, slots=True)
class LearnedDay:
    """A due day, what replaces the rule in the reason, and a sentence to add to it; each empty where nothing is new."""

    due: dt.date
    rule: str = ""
    more: str = ""


def learned_day(
    key: str, bin: Bin, done: dt.date, due: dt.date, interval: Interval, estimates: Estimates, wording: Wording
) -> LearnedDay:
    """Give the day on which one kind of care is due by what was learned.

    Parameters
    ----------
    key : str
        The kind of care: moss, food or leaf; any other is left as it is.
    bin : Bin
        The bin.
    done, due : date
        When it was last done, and when the rhythm says that it is due: no later day is given.
    interval : Interval
        The rhythm.
    estimates : Estimates
        What was learned.
    wording : Wording
        How dates and numbers are written.
    """
    if key == "moss" and (moss := estimates.moss.get(bin.name)):
        return _moss(moss, done, due, interval, wording)
    if key == "leaf" and (leaf := estimates.leaf.get(bin.name)):
        return _leaf(leaf, done, due, interval, wording)
    if key == "food" and (foods := estimates.food.get(bin.name)):
        return LearnedDay(due, more=portion(foods, wording))
    return LearnedDay(due)


def _rule(interval: Interval, basis: Basis, wording: Wording, learned: str) -> str:
    """The rule by which something is due: learned, at most so often; or so often, not yet learned here."""
    days = wording.count(interval.days, "day")
    if basis.learned:
        return f"{learned} ({basis.said}), at most every {days}{interval.whose}"
    return f"every {days}{interval.whose or f' ({NOT_YET})'}"


def _moss(moss: MossForecast, done: dt.date, due: dt.date, interval: Interval, wording: Wording) -> LearnedDay:
    more = too_wet(moss, wording)
    if not moss.basis.learned or moss.next is None:
        return LearnedDay(due, _rule(interval, moss.basis, wording, ""), more)
    about = wording.count(max(round(moss.days.middle), 1), "day")
    rule = _rule(interval, moss.basis, wording, f"dry about {about} after watering")
    return LearnedDay(min(due, max(moss.next, done + DAY)), rule, more)


def too_wet(moss: MossForecast, wording: Wording) -> str:
    """Say that a bin is too wet and wants no water; empty if nothing shows that it is."""
    return f"It is too wet ({moss.too_wet}): look, but give no water." if moss.too_wet else ""


def _leaf(leaf: LeafForecast, done: dt.date, due: dt.date, interval: Interval, wording: Wording) -> LearnedDay:
    if not leaf.basis.learned:
        return LearnedDay(due, _rule(interval, leaf.basis, wording, ""))
    lasts = f"lasts until about {wording.date(leaf.runs_out.middle)}" if leaf.runs_out.middle else "lasts for years"
    if leaf.left.middle <= 0 or (leaf.runs_out.middle is not None and leaf.runs_out.middle <= done):
        lasts = "used up by now"
    rule = _rule(interval, leaf.basis, wording, lasts)
    return LearnedDay(min(due, max(leaf.next, done + DAY)) if leaf.next else due, rule)


def portion(foods: tuple[FoodForecast, ...], wording: Wording) -> str:
    """Say how much to give next of the food given last, if that was learned: about 0.8 g; last 1 g, all gone."""
    known = [food for food in foods if food.basis.learned and food.last_grams]
    if not known:
        return ""
    food = max(known, key=lambda one: one.last_day)
    last = f"{wording.number(food.last_grams or 0.0, 2)} g {food.last_food}".rstrip()
    step = {1: " (no more than twice the last)", -1: " (no less than half the last)"}.get(food.limited, "")
    amount = grams(food.portion, wording)
    return f"Give about {amount}{step}; last {last}, {LEFT[food.left]} ({food.basis.said})."


def grams(value: float, wording: Wording) -> str:
    """Write grams as exactly as they can be weighed out: 12 g, 1.4 g, 0.35 g."""
    return f"{wording.number(value, 0 if value >= 10 else 1 if value >= 1 else 2)} g"


@dataclass(frozen=True, slots=True)
class LearnedChange:
    """When the substrate is spent by what was learned, and why."""

    due: dt.date
    why: str


def learned_change(
    substrate: SubstrateForecast | None, since: dt.date | None, ceiling: Interval, on: dt.date, wording: Wording
) -> LearnedChange | None:
    """Give the day on which substrate is to be changed by what was learned; None where too little was.

    ``since`` is when it was last renewed; ``ceiling`` the longest time from then.
    """
    if substrate is None or not substrate.basis.learned:
        return None
    latest = since + dt.timedelta(days=ceiling.days) if since else None
    spent = substrate.spent.middle
    if spent is None and latest is None:
        return None
    due = min(day for day in (spent, latest) if day is not None)
    share = f"About {wording.number(substrate.share.middle * 100)} % of it can still be recognised"
    if spent is None:
        when = "it lasts for years"
    elif spent <= on:
        when = "it is spent"
    else:
        when = f"spent about {wording.date(spent)}{_between(substrate, wording)}"
    why = f"{share}; {when} ({substrate.basis.said})."
    if latest is not None and due == latest and (spent is None or latest < spent):
        why += f" To be changed at least every {wording.count(ceiling.days, 'day')}{ceiling.whose}."
    if substrate.smallest is not None:
        why += f" {_smallest(substrate, wording)}"
    return LearnedChange(due, why)


def _between(substrate: SubstrateForecast, wording: Wording) -> str:
    low, high = substrate.spent.low, substrate.spent.high
    if low is None:
        return ""
    return f", not before {wording.date(low)}" + (f" nor after {wording.date(high)}" if high else "")


SHARES = {1 / 3: "a third", 1 / 2: "half", 2 / 3: "two thirds", 3 / 4: "three quarters", 1.0: "all"}


def _smallest(substrate: SubstrateForecast, wording: Wording) -> str:
    share = min(SHARES, key=lambda one: abs(one - (substrate.smallest or 1.0)))
    return f"Renewing {SHARES[share]} lasts {wording.count(round(substrate.months), 'month')}."


def crowded_day(numbers: NumberForecast | None, on: dt.date) -> dt.date | None:
    """The day on which a bin is crowded, ``on`` if it is so already; None where too little is known."""
    if numbers is None or not numbers.basis.learned or numbers.crowded is None:
        return None
    return on if numbers.already else numbers.crowded.middle


def why_split(numbers: NumberForecast, on: dt.date, wording: Wording) -> str:
    """Say how many animals there are and since or from when that is too many."""
    now = numbers.now
    low, high = animals(now.low, wording), animals(now.high, wording)
    there = f"About {animals(now.middle, wording)} animals, between {low} and {high}"
    crowded = crowded_day(numbers, on)
    when = "crowded now" if crowded is None or crowded <= on else f"crowded by {wording.date(crowded)}"
    return f"{there}; {when}, at {animals(numbers.crowding or 0.0, wording)} ({numbers.basis.said})."


def animals(value: float, wording: Wording) -> str:
    """Write a number of animals to two digits, as it isn't known better: 7, 85, 180, 1,200."""
    step = 10 ** max(len(str(round(value))) - 2, 0)
    return wording.number(round(value / step) * step)
