"""Simple rules that a keeper's spreadsheet could hold, worked from what was written and nothing else.

Each gives one value a bin for one forecast day, NaN where the rule has nothing to go on.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any

import numpy as np

from simulator.colony import Floats
from simulator.keeper import WAYS, Diary, Note
from simulator.world import FRESH, SPENT, World

PERCENT_OF = {"fresh": 90, "good": 70, "part frass": 50, "mostly frass": 30, "spent": 10}
LEFT_OF = {"gone": 0.0, "some": 0.35, "most": 0.8, "mouldy": 0.5}
HANDFUL = 0.4
DOZENS = 40
HALF_SEEN = 65.0
"""Substrate is scored once less than this percentage of it was seen to be recognisable."""
STEADY = 30.4 * 9

Told = Mapping[str, list[tuple[int, Any]]]
Rule = Callable[[Told, int, World, int], float]


def told_by(diary: Diary, day: int) -> list[Told]:
    """For each bin and heading the days and values written up to a day."""
    out: list[dict[str, list[tuple[int, Any]]]] = [defaultdict(list) for _ in diary.fill]
    for note in sorted((note for note in diary.notes if note.day <= day), key=_when):
        for key, value in note.facts.items():
            out[note.bin][key].append((note.day, value))
    return out


def _when(note: Note) -> int:
    return note.day


def litres(text: str) -> float:
    """Litres of a top-up as written."""
    found = re.match(r"[\d.]+", text)
    amount = float(found[0]) if found else 1.0
    return amount * HANDFUL if "handful" in text else amount


def _gaps(told: Told) -> list[int]:
    days = [day for day, _ in told.get("water", [])]
    return [later - earlier for earlier, later in pairwise(days)]


def last_three_gaps(told: Told, day: int, world: World, bin: int) -> float:
    """Mean of the last three intervals between waterings."""
    return float(np.mean(_gaps(told)[-3:])) if _gaps(told) else np.nan


def last_gap(told: Told, day: int, world: World, bin: int) -> float:
    """The last interval between waterings."""
    return float(_gaps(told)[-1]) if _gaps(told) else np.nan


def four_days(told: Told, day: int, world: World, bin: int) -> float:
    """Always four days."""
    return 4.0


def _grams_a_day(told: Told) -> list[float]:
    fed, out = told.get("food", []), []
    for seen, word in told.get("leftovers", []):
        given = [(day, grams) for day, grams in fed if day < seen]
        if given and seen - given[-1][0] <= 7:
            day, grams = given[-1]
            out.append(grams * (1 - LEFT_OF[word]) / (seen - day))
    return out


def last_three_eaten(told: Told, day: int, world: World, bin: int) -> float:
    """Mean of the last three amounts eaten in a day."""
    return float(np.mean(_grams_a_day(told)[-3:])) if _grams_a_day(told) else np.nan


def _litter(told: Told) -> tuple[float, float, int] | None:
    """Litres used in a day over the last three top-ups, litres of the last one, and its day."""
    given = [(day, litres(text)) for day, text in told.get("leaf", [])][-4:]
    if len(given) < 2:
        return None
    span = given[-1][0] - given[0][0]
    return sum(amount for _, amount in given[1:]) / span, given[-1][1], given[-1][0]


def used_over_last_three(told: Told, day: int, world: World, bin: int) -> float:
    """The last top-up lasts as long as the amount used over the last three says."""
    known = _litter(told)
    return max(known[1] / known[0] - (day - known[2]), 0.0) if known else np.nan


def full_at_last(told: Told, day: int, world: World, bin: int) -> float:
    """The same, but the floor is taken to have been covered 3 cm deep after the last top-up."""
    known = _litter(told)
    return max(world.traits.floor[bin] * 0.3 / known[0] - (day - known[2]), 0.0) if known else np.nan


def _looks(told: Told) -> list[tuple[int, float]]:
    words = [(day, float(PERCENT_OF[word])) for day, word in told.get("substrate", [])]
    return sorted([*words, *((day, float(value)) for day, value in told.get("percent", []))])


def _reset(told: Told, before: int) -> tuple[int, float]:
    """Day of the last change and the percentage after it."""
    changes = told.get("share", [])
    if not changes:
        return before, 100 * FRESH
    day, share = changes[-1]
    earlier = [seen for when, seen in _looks(told) if when <= day]
    return day, 100 * FRESH * share + (1 - share) * (earlier[-1] if earlier else 35.0)


def last_seen(told: Told, day: int, before: int) -> float:
    """Percentage recognisable at the last look since the last change; NaN without one."""
    since = _reset(told, before)[0] + 14
    looks = [seen for when, seen in _looks(told) if when >= since]
    return looks[-1] if looks else np.nan


def straight_line(before: int) -> Rule:
    """A straight line from the last reset through the last look down to a fifth."""

    def rule(told: Told, day: int, world: World, bin: int) -> float:
        begun, full = _reset(told, before)
        looks = [(when, seen) for when, seen in _looks(told) if when >= begun + 14]
        if not looks:
            return np.nan
        when, seen = looks[-1]
        fall = (full - seen) / (when - begun)
        return 1e4 if fall <= 0 else max((seen - 100 * SPENT) / fall - (day - when), 0.0)

    return rule


def _number(text: str) -> float:
    return max(float(re.sub(r"\D", "", text) or DOZENS), 1.0)


def last_count(told: Told, day: int, world: World, bin: int) -> float:
    """The last count as it was written, whatever the way."""
    return _number(told["count"][-1][1]) if told.get("count") else np.nan


def last_count_by_way(told: Told, day: int, world: World, bin: int) -> float:
    """The last count, made larger by the share that its way shows as a rule."""
    return last_count(told, day, world, bin) / WAYS[told["way"][-1][1]] if told.get("count") else np.nan


def over_bins(rule: Rule, told: list[Told], day: int, world: World) -> Floats:
    """One rule for every bin."""
    return np.array([rule(own, day, world, bin) for bin, own in enumerate(told)])
