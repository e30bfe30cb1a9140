"""How thirsty the air of the room is: vapour pressure deficit from readings of temperature and humidity.

The deficit is the clock by which a moss corner dries: at twice the deficit it dries about twice as fast.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from workbook_tools.estimate._grid import Floats, Ints

USUAL = 1.2
"""kPa; the deficit of an ordinary room (20 degrees and half humid), which makes a day of the clock a day."""
REACH = 10
"""Days from the nearest reading within which a day between readings is believed to be known."""
COLDEST, WARMEST = -30.0, 60.0
"""Degrees Celsius outside which a reading is no room's and is left out."""


def saturation(temperature: Floats | float) -> Floats:
    """Saturation vapour pressure over water, kPa, of air at ``temperature`` in degrees Celsius.

    Source: Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper 56, equation 11. Within 0.4 % of
    other formulas between 5 and 35 degrees.
    """
    celsius = np.asarray(temperature, dtype=np.float64)
    return np.asarray(0.6108 * np.exp(17.27 * celsius / (celsius + 237.3)), dtype=np.float64)


def vpd(temperature: Floats | float, humidity: Floats | float) -> Floats:
    """Vapour pressure deficit, kPa, never below 0.

    ``temperature`` in degrees Celsius, ``humidity`` in percent. Of several readings take the mean of their deficits:
    the deficit of their mean temperature is too small.
    """
    dry = 1.0 - np.minimum(np.asarray(humidity, dtype=np.float64), 100.0) / 100.0
    return np.asarray(saturation(temperature) * dry, dtype=np.float64)


@dataclass(frozen=True, eq=False)
class RoomAir:
    """Daily deficit of the room.

    Parameters
    ----------
    first_day
        Day number of the first element.
    deficit
        (T,) kPa, one a day, no gaps.
    known
        (T,) whether the day lies within ten days of a reading. On others the mean of all readings stands.
    """

    first_day: int
    deficit: Floats
    known: npt.NDArray[np.bool_]

    def clock(self, start: Ints, end: Ints) -> Floats:
        """Days from ``start`` to ``end``, each weighted by its deficit over that of an ordinary room.

        Days before the first or after the last element count as the nearest one.
        """
        passed = np.concatenate([[0.0], np.cumsum(self.deficit)]) / USUAL
        last = len(self.deficit)

        def at(day: Ints) -> Floats:
            since = day - self.first_day
            inside = np.clip(since, 0, last)
            edge = np.where(since < 0, self.deficit[0], self.deficit[-1]) / USUAL
            return np.asarray(passed[inside] + (since - inside) * edge, dtype=np.float64)

        return np.asarray(at(np.asarray(end)) - at(np.asarray(start)), dtype=np.float64)

    def pace(self, day: int, days: int = 7) -> float:
        """Days of the clock that pass in a day now: the mean of the last ``days`` up to and with ``day``."""
        return float(self.clock(np.array([day + 1 - days]), np.array([day + 1]))[0]) / days


def room_air(day: Ints, temperature: Floats, humidity: Floats, *, first_day: int, last_day: int) -> RoomAir | None:
    """Turn readings into a deficit for every day.

    Parameters
    ----------
    day
        (n,) day numbers; several readings a day are averaged.
    temperature, humidity
        (n,) degrees Celsius and percent. Readings that aren't finite, or no room's, are left out.
    first_day, last_day
        The days wanted, both included.

    Returns
    -------
    RoomAir or None
        None when no reading is usable: then the season can't be told from the bins.

    Notes
    -----
    Between readings up to twice ten days apart the deficit is drawn straight from one to the next. Never below a
    tenth of an ordinary room's, as moss dries a little even in a fog. Misleads when readings are taken in another
    room, or always at the same hour of hot days.
    """
    usable = np.isfinite(temperature) & np.isfinite(humidity) & (humidity >= 0) & (humidity <= 100)
    usable &= (temperature > COLDEST) & (temperature < WARMEST)
    if not usable.any() or last_day < first_day:
        return None
    days, where = np.unique(day[usable], return_inverse=True)
    each = vpd(temperature[usable], humidity[usable])
    mean = np.bincount(where, each) / np.bincount(where)
    wanted = np.arange(first_day, last_day + 1)
    after = np.clip(np.searchsorted(days, wanted), 0, len(days) - 1)
    before = np.clip(after - 1, 0, None)
    nearest = np.minimum(np.abs(days[after] - wanted), np.abs(wanted - days[before]))
    known = nearest <= REACH
    drawn = np.where(known, np.interp(wanted, days, mean), mean.mean())
    return RoomAir(first_day, np.maximum(drawn, USUAL / 10), known)
