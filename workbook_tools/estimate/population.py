"""How many animals a bin holds: today, on any day before, and ahead.

Inputs are counts with their way of counting and the animals known to have come and gone. Assumed: growth per month
changes slowly, is damped as the number nears what the bin can hold, and a count's way sees a share of the animals that
is known only roughly. It misleads when animals come and go unlogged, when one way of counting sees far more or less
than usual, and in new bins of few animals, which show nothing for one maturation time and then grow by broods.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._ahead import Until, first_day, paths, quantiles
from workbook_tools.estimate._filter import Filter, Start
from workbook_tools.estimate._grid import Floats, Ints
from workbook_tools.estimate._growth import Growth, Moves, growth_prior
from workbook_tools.estimate.counting import EIGHTY, Counts

__all__ = ["Moves", "Population", "Until", "follow_numbers"]


@dataclass(frozen=True, eq=False)
class Population:
    """Numbers of all bins. Intervals are 80 %.

    Parameters
    ----------
    first_day, last_day
        Day numbers of the first and the last column; the last is "now".
    log_mean, log_sd
        (B, T) natural log of the number each day, given all that was noted (before a bin's start, as at its start).
    mean, cov
        (3, B), (3, 3, B) state now: log number, growth per month with room to spare, how easily animals are seen.
    law
        How the numbers are believed to grow; ``law.room`` (B,) is where growth ends, inf when no crowding number was
        given.
    crowding
        (B,) number at which the bin is called crowded, or NaN.
    gone
        (B,) chance that the bin is empty: none were found in it.
    notes
        (B,) counts used, what is eaten not among them.
    counted
        (B,) whether anything is written of how many there are: a start number, animals that came in, or a count.
    by_eating
        (B,) whether what the animals eat had a say.
    odd
        (counts,) chance that a count is far out, or comes after an unlogged jump: worth a word to the keeper from 0.5.
    oversold
        (moves,) whether more were taken than were likely there.
    """

    first_day: int
    last_day: int
    log_mean: Floats
    log_sd: Floats
    mean: Floats
    cov: Floats
    law: Growth
    crowding: Floats
    gone: Floats
    notes: Ints
    counted: npt.NDArray[np.bool_]
    by_eating: npt.NDArray[np.bool_]
    odd: Floats
    oversold: npt.NDArray[np.bool_]

    @property
    def today(self) -> tuple[Floats, Floats, Floats]:
        """10 %, 50 % and 90 % point of the number now, each (B,)."""
        return self.on(self.last_day)

    def on(self, day: int) -> tuple[Floats, Floats, Floats]:
        """The same on a day from ``first_day`` to ``last_day``."""
        at = day - self.first_day
        middle, sd = self.log_mean[:, at], self.log_sd[:, at]
        return np.exp(middle - EIGHTY * sd), np.exp(middle), np.exp(middle + EIGHTY * sd)

    @property
    def growth(self) -> tuple[Floats, Floats]:
        """Growth of the log number per month as it is now, crowding included: mean and standard deviation, (B,)."""
        live = 1 - self.gone
        return (self.mean[1] - self.law.pull(self.mean[0])) * live, np.sqrt(self.cov[1, 1]) * live

    def forecast(self, days: float | Floats) -> tuple[Floats, Floats, Floats]:
        """10 %, 50 % and 90 % point of the number ``days`` from now, if nobody comes or goes.

        One number of days gives (B,) each, rising days (D,) give (B, D). Days below 0 count as 0.
        """
        ahead = np.maximum(np.atleast_1d(np.asarray(days, dtype=np.float64)), 0.0)
        points = np.stack([quantiles(x) for x in paths(self.mean, self.cov, self.law, 1 - self.gone, ahead)], axis=-1)
        low, middle, high = np.exp(points if np.ndim(days) else points[..., 0])
        return low, middle, high

    def doubling(self) -> Until:
        """Days until a bin holds twice what it holds now; ``beyond[1]``: it doesn't double within the horizon."""
        twice = np.full(self.mean.shape[1], np.log(2.0))
        return first_day(self.mean, self.cov, self.law, 1 - self.gone, twice, relative=True)

    def crowding_day(self) -> Until:
        """Days until a bin is crowded. Bins without a crowding number are not ``known``."""
        with np.errstate(invalid="ignore", divide="ignore"):
            target = np.log(self.crowding)
        return first_day(self.mean, self.cov, self.law, 1 - self.gone, target, relative=False)


def follow_numbers(
    counts: Counts,
    moves: Moves,
    *,
    bins: int,
    start_day: Ints,
    start_number: Floats,
    start_sd: Floats,
    crowding: Floats,
    appetite: Ints,
    first_day: int,
    last_day: int,
) -> Population:
    """Numbers of all bins from what was counted, came and went.

    Parameters
    ----------
    counts, moves
        What was noted, in any order; a number by what is eaten may be among the counts, one a bin. Notes of days
        before a bin's start, or outside the days followed, are left out.
    start_day
        (B,) day number of each bin's start.
    start_number
        (B,) animals it started with; NaN or below 1 when not known: then what came in that day, else the usual start.
    start_sd
        (B,) standard deviation of its natural log, NaN for the default.
    crowding
        (B,) number at which the keeper calls the bin crowded, NaN when not given; below 1 it is taken as not given.
    appetite
        (B,) 0 slow, 1 medium, 2 hearty: how fast such bins usually grow.
    first_day, last_day
        Days to follow. Memory is about 170 bytes a bin and day.

    Raises
    ------
    ValueError
        When ``last_day`` lies before ``first_day``.
    """
    if last_day < first_day:
        raise ValueError("last_day lies before first_day")
    crowding = np.where(crowding >= 1, crowding, np.nan).astype(np.float64)
    room = np.where(np.isfinite(crowding), crowding * DEFAULTS["numbers.room"].value, np.inf)
    usual, usual_sd = growth_prior(appetite)
    growth = Growth.of(room, usual)
    start = Start.of(start_day, start_number, start_sd, crowding, usual, usual_sd, first_day)
    run = Filter(counts, moves, start, growth, first_day, last_day)
    run.forward()
    log_mean, log_sd = run.backward()
    return Population(
        first_day=first_day,
        last_day=last_day,
        log_mean=log_mean,
        log_sd=log_sd,
        mean=run.means[-1],
        cov=run.covs[-1],
        law=growth,
        crowding=crowding,
        gone=run.gone[-1],
        notes=np.bincount(run.used, minlength=bins).astype(np.int64),
        counted=run.counted,
        by_eating=run.by_eating,
        odd=run.odd,
        oversold=run.oversold,
    )
