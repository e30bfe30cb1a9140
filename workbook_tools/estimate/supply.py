"""From events to what is believed of a stock: followed for every rate, then pooled over like bins."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from workbook_tools.estimate._grid import Floats, Ints, RatePrior, pool
from workbook_tools.estimate.runout import Exposure, Outlook
from workbook_tools.estimate.stock import Events, Followed, Use, follow

SIZE = 60
"""Points of the rate grid; 30 to 200 were seen to give the same answers."""
APPETITES = ("slow", "medium", "hearty")
USUAL_ANIMALS = 50.0
"""Animals supposed where their number is not known at all."""


@dataclass(frozen=True, eq=False)
class Wander:
    """How rates differ and change.

    ``walk`` is how far a log rate wanders in the square root of a month. ``apart``, ``species`` and ``between`` are
    the spreads of the log rate of an appetite class about its default, of species within it, and of bins within those.
    ``reach`` is how far from the default, in log, rates are looked for. ``shared`` is how far, in log, the pace of all
    bins of one keeper may be off together, for what no note of theirs can tell.
    """

    walk: float
    apart: float
    species: float
    between: float
    reach: float
    shared: float = 0.0

    def prior(self) -> RatePrior:
        """As a prior of the log of the rate over its default."""
        return RatePrior(0.0, self.apart, self.between, self.species, 0.0, -self.reach, self.reach, 0.0, np.inf)


@dataclass(frozen=True, eq=False)
class Supply:
    """What is believed of the stock of each bin.

    ``outlook`` holds it for each rate; ``rate`` (B, J) are the rates; ``path`` (3, B, T) mean, low and high of each
    day that was followed, or None.
    """

    outlook: Outlook
    rate: Floats
    path: Floats | None

    @property
    def weight(self) -> Floats:
        """(B, J), each row sums to one."""
        return self.outlook.stock.weight

    def rate_quantiles(self) -> Floats:
        """The rate below which 10, 50 and 90 % of belief lies, (3, B)."""
        return np.stack([_grid_quantile(self.weight, self.rate, share) for share in (0.1, 0.5, 0.9)])


def believe(
    use: Use,
    events: Events,
    *,
    usual: Floats,
    species: Ints,
    appetite: Ints,
    exposure: Floats,
    first_day: int,
    started: tuple[Floats, Floats],
    ahead: Exposure,
    wander: Wander,
    doubt: Floats | None = None,
    parent: Ints | None = None,
    history: bool = False,
) -> Supply:
    """Follow the stocks for every rate, pool the rates of like bins, and keep the outlook.

    Parameters
    ----------
    use, events, exposure, first_day, started
        As in `stock.follow`.
    usual
        (B,) default rate of each bin.
    species, appetite
        (B,) whole numbers; appetite 0 slow, 1 medium, 2 hearty.
    ahead
        Exposure of the days to come. Of its error only what the coming days add to today's counts: see ``doubt``.
    wander
        Spreads of the rates.
    doubt
        (B,) variance of the log of today's exposure. A rate that was learned at a number too low by half is twice too
        high, and what is eaten is right all the same: so this is doubt of the rate, until notes tell it.
    parent
        As in `pool`.
    history
        Also keep the path of the past: it costs a second run, with the rates known at the end, so its band is a little
        too narrow at the beginning.
    """
    prior = wander.prior()
    grid = prior.grid(SIZE)
    rate = usual[:, None] * np.exp(grid)

    def run(weight: Floats | None) -> Followed:
        return follow(
            use,
            events,
            rate=rate,
            exposure=exposure,
            first_day=first_day,
            walk=wander.walk,
            spacing=float(grid[1] - grid[0]),
            started=started,
            weight=weight,
            history=weight is not None,
        )

    end = run(None)
    weight = pool(np.log(end.weight), grid, species, appetite, prior, doubt, parent).weight
    path = run(weight).path if history else None
    coming = replace(ahead, sd=np.sqrt(np.maximum(ahead.sd**2 - ahead.sd[:, :1] ** 2, 0.0)))
    return Supply(Outlook(replace(end, weight=weight), rate, use, coming, wander.walk, wander.shared), rate, path)


def sane_exposure(exposure: Floats, power: float) -> Floats:
    """Exposure (B, T) without gaps: where it isn't known, that of `USUAL_ANIMALS`; never negative."""
    unknown = (USUAL_ANIMALS / 100) ** power
    return np.clip(np.where(np.isfinite(exposure), exposure, unknown), 0.0, None)


def exposure_ahead(past: Floats, ahead: Floats | None, ahead_sd: Floats | None, power: float) -> Exposure:
    """What is to come: as given, else as on the last day."""
    daily = past[:, -1:] if ahead is None else sane_exposure(ahead, power)
    if ahead_sd is None:
        return Exposure(daily, np.zeros_like(daily))
    return Exposure(daily, np.where(np.isfinite(ahead_sd), np.maximum(ahead_sd, 0.0), 1.0))


def _grid_quantile(weight: Floats, rate: Floats, share: float) -> Floats:
    """Where the weights summed along the grid reach ``share``, straight in the log between points."""
    total = np.cumsum(weight, axis=1) - weight / 2
    at = np.clip((total < share).sum(axis=1), 1, weight.shape[1] - 1)
    rows = np.arange(len(weight))
    low, high = total[rows, at - 1], total[rows, at]
    part = np.clip((share - low) / np.maximum(high - low, 1e-12), 0.0, 1.0)
    log_low, log_high = np.log(rate[rows, at - 1]), np.log(rate[rows, at])
    return np.asarray(np.exp(log_low + part * (log_high - log_low)))
