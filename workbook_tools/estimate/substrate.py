"""Substrate: how much is still recognisable, when it is spent, and how much to renew."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from scipy.special import wrightomega

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import MONTH, Floats, Ints
from workbook_tools.estimate.runout import LONGEST, SHARES, Exposure, mixture_quantile
from workbook_tools.estimate.stock import CHANGED, SEEN, SEEN_AFTER, START, TAKEN, Events
from workbook_tools.estimate.supply import APPETITES, Supply, Wander, believe, exposure_ahead, sane_exposure

RENEWABLE = (1 / 3, 1 / 2, 2 / 3, 3 / 4, 1.0)
SINKS = 0.45
"""By how much of its depth fresh substrate has sunk once nothing of it is recognisable."""
LEAST = 1e-3
PART_UNKNOWN, PART_UNKNOWN_SD = 0.4, 0.15
"""A partial change whose share isn't known."""


@dataclass(frozen=True, eq=False)
class Changes:
    """Substrate renewed: ``bin`` and ``day`` (n,), ``share`` (n,) from 0 to 1, NaN for a part that isn't known."""

    bin: Ints
    day: Ints
    share: Floats


@dataclass(frozen=True, eq=False)
class Looks:
    """Looks at the substrate.

    ``bin``, ``day`` (n,); ``low`` and ``high`` (n,) bounds of the recognisable share; ``after`` (n,) true where the
    look came after a change of the same day.
    """

    bin: Ints
    day: Ints
    low: Floats
    high: Floats
    after: npt.NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Filled:
    """Old substrate of ``source`` (n,) in new bins (n,): which share of them, and how far off that is (n,)."""

    bin: Ints
    source: Ints
    old: Floats
    old_sd: Floats


@dataclass(frozen=True, eq=False)
class SubstrateSettings:
    """Numbers of the model; see their keys in the defaults. ``usual`` is per day at exposure 1."""

    usual: tuple[float, float, float]
    microbes: float
    scarce: float
    fresh: float
    spent: float
    eye: float
    slip: float
    unwritten: float
    power: float
    wander: Wander


def _usual(name: str) -> float:
    """The daily rate at exposure 1 that gives the months of life of the defaults, by their number of animals."""
    stocking = DEFAULTS[f"substrate.animals.{name}"].value / 100
    eats = DEFAULTS["substrate.microbes"].value + math.pow(stocking, DEFAULTS["substrate.power"].value)
    life = DEFAULTS[f"substrate.life.{name}"].value * MONTH
    fresh, spent = DEFAULTS["substrate.fresh"].value, DEFAULTS["substrate.spent"].value
    half = DEFAULTS["substrate.scarce"].value
    return (fresh - spent + half * math.log(fresh / spent)) / (1 + half) / life / eats


SUBSTRATE = SubstrateSettings(
    usual=(_usual(APPETITES[0]), _usual(APPETITES[1]), _usual(APPETITES[2])),
    microbes=DEFAULTS["substrate.microbes"].value,
    scarce=DEFAULTS["substrate.scarce"].value,
    fresh=DEFAULTS["substrate.fresh"].value,
    spent=DEFAULTS["substrate.spent"].value,
    eye=DEFAULTS["substrate.eye"].value,
    slip=DEFAULTS["stock.slip"].value,
    unwritten=DEFAULTS["stock.unwritten"].value,
    power=DEFAULTS["substrate.power"].value,
    wander=Wander(
        DEFAULTS["substrate.walk"].value,
        apart=DEFAULTS["substrate.apart"].value,
        species=DEFAULTS["substrate.species"].value,
        between=DEFAULTS["substrate.between"].value,
        reach=3.2,
        shared=DEFAULTS["substrate.shared"].value,
    ),
)


@dataclass(frozen=True, eq=False)
class Grazed:
    """The recognisable share is eaten at its rate while there is plenty, less as it gets scarce.

    Parameters
    ----------
    fresh
        The share of new substrate.
    scarce
        The share at which half as much is eaten. With inf the same part of it goes in every day: plain decay.
    """

    fresh: float
    scarce: float

    def step(self, mean: Floats, variance: Floats, amount: Floats) -> tuple[Floats, Floats]:
        """One day. ``amount`` (B, J) is the part that goes of a share of 1; it is known to 15 %."""
        if np.isinf(self.scarce):
            stays = np.exp(-amount)
            used, keep = mean * (1 - stays), stays
        else:
            most = (1 + self.scarce) * amount
            used = np.minimum(most * mean / (mean + self.scarce), mean)
            keep = np.maximum(1 - most * self.scarce / (mean + self.scarce) ** 2, 0.0)
        return mean - used, variance * keep**2 + 8 * (self.day_noise() * used) ** 2 + 1e-7

    def change(
        self, rows: Ints, mean: Floats, variance: Floats, size: Floats, size_sd: Floats
    ) -> tuple[Floats, Floats]:
        """A share ``size`` (n,) is renewed, give or take ``size_sd``: 1 resets, 0 changes nothing."""
        part, error = size[:, None], size_sd[:, None]
        spread = variance * (1 - part) ** 2 + (0.05 * part) ** 2 + ((self.fresh - mean) * error) ** 2
        return mean * (1 - part) + self.fresh * part, spread

    def clock(self, mean: Floats) -> tuple[Floats, Floats]:
        """How much grazing the share has in it, and the slope of that."""
        some = np.maximum(mean, LEAST)
        if np.isinf(self.scarce):
            return np.log(some), 1 / some
        return (some + self.scarce * np.log(some)) / (1 + self.scarce), (1 + self.scarce / some) / (1 + self.scarce)

    def left(self, clock: Floats) -> Floats:
        """The share at that clock."""
        if np.isinf(self.scarce):
            return np.asarray(np.exp(clock))
        half = self.scarce
        return np.asarray(half * wrightomega((1 + half) * clock / half - np.log(half)))

    def idle(self, mean: Floats, days: float) -> Floats:
        """Nothing: what microbes do is part of the exposure."""
        return np.zeros_like(mean)

    def lasts(self, mean: Floats, threshold: Floats, amount: Floats) -> tuple[Floats, Floats, Floats]:
        """Days from ``mean`` to ``threshold`` at ``amount`` a day."""
        clock, slope = self.clock(mean)
        eaten = np.maximum(amount, 1e-12)
        return (clock - self.clock(threshold)[0]) / eaten, slope / eaten, np.ones_like(eaten)

    def day_noise(self) -> float:
        """15 %."""
        return 0.15


@dataclass(frozen=True, eq=False)
class Substrate:
    """What is believed of the substrate of each bin, on the last day.

    Parameters
    ----------
    share
        (3, B) recognisable share now: 10, 50 and 90 %.
    spent
        (3, B) days from now until it is spent; 0 is "already", never more than ten years.
    beyond
        (3, B) true where that is ten years or later.
    notes
        (B,) looks and changes that were used.
    horizon, path
        Days ahead (H,), and the share then (3, B, H): 10, 50 and 90 %.
    past
        (3, B, T) mean, low and high of each day so far, or None.
    supply
        What lies behind it.
    limit
        Share at which it counts as spent.
    """

    share: Floats
    spent: Floats
    beyond: npt.NDArray[np.bool_]
    notes: Ints
    horizon: tuple[int, ...]
    path: Floats
    past: Floats | None
    supply: Supply
    limit: float

    def smallest_share(self, months: float, assurance: float = 0.9) -> Floats:
        """The least of a third, a half, two thirds, three quarters and all that lasts, if renewed now.

        Parameters
        ----------
        months
            How long it should last.
        assurance
            With what chance.

        Returns
        -------
        (B,) share, NaN where not even a full change lasts as long.
        """
        outlook = self.supply.outlook
        stock, rows = outlook.stock, np.arange(len(self.notes))
        answer = np.full(len(rows), np.nan)
        days = int(min(round(months * MONTH), LONGEST))
        limit = np.full((len(rows), 1), self.limit)
        for share in reversed(RENEWABLE):
            size = np.full(len(rows), share)
            mean, variance = outlook.use.change(rows, stock.mean, stock.variance, size, share_error(size))
            changed = replace(outlook, stock=replace(stock, mean=mean, variance=variance))
            answer = np.where(changed.chance_out(limit, days) <= 1 - assurance, share, answer)
        return answer


def follow_substrate(
    changes: Changes,
    looks: Looks,
    *,
    exposure: Floats,
    first_day: int,
    species: Ints,
    appetite: Ints,
    start_day: Ints | None = None,
    filled: Filled | None = None,
    ahead: Floats | None = None,
    ahead_sd: Floats | None = None,
    doubt: Floats | None = None,
    parent: Ints | None = None,
    pace: Floats | None = None,
    pace_ahead: Floats | None = None,
    horizon: tuple[int, ...] = tuple(range(0, 365, 28)),
    history: bool = False,
    settings: SubstrateSettings = SUBSTRATE,
) -> Substrate:
    """Let what is recognisable fall with what the animals eat, reset it by changes, and correct it by looks.

    Parameters
    ----------
    changes, looks
        Those outside the days of ``exposure`` are left out. A depth that sinks: `looks_at_depth`.
    exposure
        (B, T) of each day from ``first_day`` to now: ``(animals / 100) ** power``, NaN where not known.
    first_day
        Whole number of the first day.
    species, appetite
        (B,) whole numbers; appetite 0 slow, 1 medium, 2 hearty.
    start_day
        (B,) day each bin was set up, with fresh substrate but for ``filled``. A bin set up before ``first_day``, or
        without a day, begins with a share hardly known.
    filled
        Bins in which it is in part another's.
    ahead, ahead_sd
        (B, H) exposure of the coming days and the error of its natural log. Without them, as on the last day.
    doubt
        (B,) variance of the natural log of today's exposure; see `supply.believe`.
    parent
        (B,) as in `pool`.
    pace, pace_ahead
        (T,) and (H',) how fast animals and microbes work on each day for the warmth of the room, 1 as usual; without
        them 1. The last of ``pace_ahead`` goes on for ever, as the last exposure does.
    horizon
        Days ahead for the path.
    history
        Also give the past, for charts.
    settings
        Numbers of the model.

    Returns
    -------
    Substrate

    Notes
    -----
    Misleads when much of the substrate is filler that never turns to frass (it then never seems spent), and when
    changes go unwritten.
    """
    bins = len(exposure)
    grazed = sane_exposure(exposure, settings.power)
    days = (grazed + settings.microbes) * (1.0 if pace is None else pace)
    starts = np.full(bins, first_day - 1) if start_day is None else start_day
    begun = np.arange(first_day, first_day + days.shape[1]) >= starts[:, None]
    events = substrate_events(changes, looks, starts, first_day, settings)
    if filled is not None:
        events = Events.joined(events, _old_in_new(filled, starts, first_day))
    use = Grazed(settings.fresh, settings.scarce)
    coming = _coming(exposure_ahead(grazed, ahead, ahead_sd, settings.power), pace_ahead, settings.microbes)
    supply = believe(
        use,
        events,
        usual=np.array(settings.usual)[appetite],
        species=species,
        appetite=appetite,
        exposure=np.where(begun, days, 0.0),
        first_day=first_day,
        started=(np.full(bins, 0.6), np.full(bins, 0.22)),
        ahead=coming,
        wander=settings.wander,
        doubt=doubt,
        parent=parent,
        history=history,
    )
    stock = supply.outlook.stock
    share = [mixture_quantile(stock.weight, stock.mean, np.sqrt(stock.variance), part) for part in SHARES]
    spent, beyond = supply.outlook.out_by(np.full((bins, 1), settings.spent))
    used = (events.order > TAKEN) & (events.day >= first_day) & (events.day < first_day + days.shape[1])
    return Substrate(
        share=np.clip(np.stack(share), 0.0, 1.0),
        spent=spent,
        beyond=beyond,
        notes=np.bincount(events.bin[used], minlength=bins),
        horizon=horizon,
        path=np.minimum(supply.outlook.path(horizon), 1.0),
        past=None if supply.path is None else np.clip(supply.path, 0.0, 1.0),
        supply=supply,
        limit=settings.spent,
    )


def _coming(animals: Exposure, pace: Floats | None, microbes: float) -> Exposure:
    """What animals and microbes will do at the pace of the coming days; the error is that of the animals' part."""
    speed = np.ones(1) if pace is None else pace
    size = max(animals.daily.shape[1], len(speed))
    daily, sd = _until(animals.daily, size), _until(animals.sd, size)
    both = daily + microbes
    return Exposure(both * _until(speed[None], size), sd * daily / np.maximum(both, 1e-12))


def _until(daily: Floats, size: int) -> Floats:
    """As many columns as ``size``: the last one goes on."""
    return np.pad(daily, ((0, 0), (0, size - daily.shape[1])), mode="edge")


def substrate_events(
    changes: Changes, looks: Looks, start_day: Ints, first_day: int, settings: SubstrateSettings
) -> Events:
    """Changes, looks, and the start of each bin that began within the days."""
    known = np.isfinite(changes.share)
    share = np.where(known, np.clip(changes.share, 0.0, 1.0), PART_UNKNOWN)
    error = np.where(known, share_error(share), PART_UNKNOWN_SD)
    renewed = Events.of(changes.bin, changes.day, CHANGED, share, error)
    says = (looks.high >= looks.low) & ((looks.low > 0) | (looks.high < 1))
    low, high = looks.low[says], looks.high[says]
    order = np.where(looks.after[says], SEEN_AFTER, SEEN)
    seen = [
        Events.of(
            looks.bin[says][order == one],
            looks.day[says][order == one],
            one,
            np.where(low <= 0, -np.inf, low)[order == one],
            np.where(high >= 1, np.inf, np.maximum(high, low + 0.02))[order == one],
            noise=settings.eye,
            slip=settings.slip,
            jump=settings.unwritten,
        )
        for one in (SEEN, SEEN_AFTER)
    ]
    new = np.flatnonzero(start_day >= first_day)
    fresh = Events.of(new, start_day[new], START, np.full(len(new), settings.fresh), np.full(len(new), 0.05))
    return Events.joined(fresh, renewed, *seen)


def _old_in_new(filled: Filled, start_day: Ints, first_day: int) -> Events:
    """What bins that began within the days were filled with, on the day of their start."""
    new = start_day[filled.bin] >= first_day
    at = filled.bin[new]
    return Events.of(at, start_day[at], TAKEN, 1 - filled.old[new], filled.old_sd[new], source=filled.source[new])


def share_error(share: Floats) -> Floats:
    """How far off a share renewed may be: most for a half, nothing for none or all."""
    return np.asarray(0.16 * share * (1 - share))


def looks_at_depth(bin_of: Ints, day: Ints, ratio: Floats, fresh: float = SUBSTRATE.fresh) -> Looks:
    """What a depth says, ``ratio`` (n,) being the depth over that of fresh substrate: a vague look.

    Substrate sinks as it turns to frass, by `SINKS` in all. Misleads when the keeper pressed it down or dug it over;
    hence the bounds lie a fifth of the share up and down. A ratio that isn't finite says nothing.
    """
    share = fresh * (1 - (1 - np.where(np.isfinite(ratio), ratio, 1.0)) / SINKS)
    share = np.clip(share, 0.0, fresh)
    low = np.where(np.isfinite(ratio), np.maximum(share - 0.2, 0.0), 0.0)
    high = np.where(np.isfinite(ratio), share + 0.2, 1.0)
    return Looks(bin_of, day, low, high, np.zeros(len(bin_of), dtype=bool))
