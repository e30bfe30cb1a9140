"""What would have come of a bin after a forecast day if nobody had done anything more to it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simulator.colony import Floats
from simulator.world import DRY, RUN_OUT, SPENT, TAIL, State, World, appetite_now, bitten, litter, number, pass_day

AHEAD = 60
"""Days ahead for which the number is forecast."""
AMPLE = 20.0


@dataclass(frozen=True, eq=False)
class Truth:
    """The truths of one forecast day, one value a bin. Days are counted from that day.

    A day beyond the end of the world is given as that end (``limit``).
    """

    day: int
    limit: int
    dry: Floats
    """Days till the moss is dry, if it is given the keeper's usual water on the forecast day and then no more."""
    eaten: Floats
    """Grams eaten by the next day of a dish that holds more than enough."""
    able: Floats
    out: Floats
    """Days till the litter is down to a twentieth of full cover, if not topped up."""
    spent: Floats
    """Days till a fifth of the substrate can be recognised, if not changed."""
    now: Floats
    later: Floats
    """Animals past the manca stage, now and ``AHEAD`` days on without moves."""

    def left_of(self, portion: Floats) -> Floats:
        """Share of a portion that is left the next day."""
        with np.errstate(invalid="ignore"):
            return np.asarray(1 - bitten(portion, self.able) / portion)


def play_on(world: World, state: State, day: int, fill: Floats) -> Truth:
    """Play the world on from the evening of ``day``; ``fill`` is the share of a full load that a watering gives."""
    now = state.copy()
    now.water = world.traits.moss * fill
    limit = world.days + TAIL - day - 1
    dry, out, spent = (np.full(len(fill), np.nan) for _ in range(3))
    able = appetite_now(world, now, day + 1)
    eaten = bitten(AMPLE * able, able)
    later = number(now)
    for ahead in range(1, limit + 1):
        before = now.water / world.traits.moss, litter(now) / world.traits.cover, now.good.copy()
        pass_day(world, now, day + ahead)
        after = now.water / world.traits.moss, litter(now) / world.traits.cover, now.good
        for place, (answer, edge) in enumerate(((dry, DRY), (out, RUN_OUT), (spent, SPENT))):
            _crossed(answer, before[place], after[place], edge, ahead)
        if ahead == AHEAD:
            later = number(now)
        if ahead >= AHEAD and not np.isnan([dry, out, spent]).any():
            break
    for answer in (dry, out, spent):
        answer[np.isnan(answer)] = limit
    return Truth(day, limit, dry, eaten, able, out, spent, number(state).astype(float), later.astype(float))


def _crossed(answer: Floats, before: Floats, after: Floats, edge: float, ahead: int) -> None:
    """Write down the part of the day at which something fell below an edge, the first time it does."""
    new = np.isnan(answer) & (after <= edge)
    part = np.clip((before - edge) / np.maximum(before - after, 1e-9), 0, 1)
    answer[new] = (ahead - 1 + part)[new]
