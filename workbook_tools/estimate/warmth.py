"""Warmth of a room through the year, from readings, and how fast small animals and microbes work at it."""

from __future__ import annotations

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import Floats, Ints

YEAR = 365.25


def yearly_warmth(day: Ints, temperature: Floats, at: Ints) -> Floats:
    """Temperature of each day ``at``, in C, by a yearly wave through readings.

    Parameters
    ----------
    day, temperature
        (n,) whole days and C of the readings; without any, the usual warmth of the defaults on every day.
    at
        (T,) days to give it for, before, among or after the readings.

    Notes
    -----
    Least squares, held to the usual warmth and to no wave by as much as one would doubt either: a few readings of one
    season say little of the others. Misleads where the heating was changed, and in a room whose year isn't a wave.
    """
    usual = DEFAULTS["substrate.warmth"].value

    def wave(days: Ints) -> Floats:
        turn = 2 * np.pi * np.asarray(days, dtype=np.float64) / YEAR
        return np.stack([np.ones_like(turn), np.cos(turn), np.sin(turn)], axis=1)

    seen = wave(day)
    room, swing, reading = (DEFAULTS[f"substrate.{name}"].value for name in ("room", "swing", "reading"))
    held = np.diag([room**-2, swing**-2, swing**-2]) * reading**2
    parts = np.linalg.solve(held + seen.T @ seen, seen.T @ (temperature - usual))
    return np.asarray(usual + wave(at) @ parts)


def pace(temperature: Floats) -> Floats:
    """How fast life goes at a temperature in C, 1 at the usual warmth: twice as fast for each ten degrees more.

    The rule of thumb of van 't Hoff for living things between the cold that stops them and the heat that harms them.
    """
    usual = DEFAULTS["substrate.warmth"].value
    return np.asarray(np.exp2((np.minimum(temperature, DEFAULTS["substrate.hot"].value) - usual) / 10))
