"""Leaf litter: what is left, how much a week, and when it runs out."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._eaten import Eaten
from workbook_tools.estimate._grid import Floats, Ints
from workbook_tools.estimate._layer import guess_full
from workbook_tools.estimate.runout import SHARES, mixture_quantile
from workbook_tools.estimate.stock import CHANGED, SEEN, SEEN_AFTER, START, WEEK, Events
from workbook_tools.estimate.supply import APPETITES, Supply, Wander, believe, exposure_ahead, sane_exposure


@dataclass(frozen=True, eq=False)
class TopUps:
    """Leaf litter given: ``bin`` and ``day`` (n,), ``litres`` (n,) loose, NaN where the amount isn't known."""

    bin: Ints
    day: Ints
    litres: Floats


@dataclass(frozen=True, eq=False)
class Sights:
    """Looks at the litter.

    ``bin``, ``day`` (n,); ``low`` and ``high`` (n,) bounds of what was seen, in shares of a full layer; ``after`` (n,)
    true where the look came after a top-up of the same day.
    """

    bin: Ints
    day: Ints
    low: Floats
    high: Floats
    after: npt.NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Visits:
    """Days on which a bin was looked after and its litter left as it was: ``bin``, ``day`` (n,)."""

    bin: Ints
    day: Ints


@dataclass(frozen=True, eq=False)
class LitterSettings:
    """Numbers of the model; see their keys in the defaults. ``rot`` is per day; ``habit``: see `follow_litter`."""

    usual: tuple[float, float, float]
    rot: float
    settles: float
    settling: float
    out: float
    scarce: float
    eye: float
    slip: float
    unwritten: float
    power: float
    wander: Wander
    habit: bool = True


LITTER = LitterSettings(
    usual=tuple(DEFAULTS[f"litter.use.{name}"].value / WEEK for name in APPETITES),  # type: ignore[arg-type]
    rot=DEFAULTS["litter.rot"].value / 365.25,
    settles=DEFAULTS["litter.settles"].value,
    settling=DEFAULTS["litter.settling"].value,
    out=DEFAULTS["litter.out"].value,
    scarce=DEFAULTS["litter.scarce"].value,
    eye=DEFAULTS["litter.eye"].value,
    slip=DEFAULTS["stock.slip"].value,
    unwritten=DEFAULTS["stock.unwritten"].value,
    power=DEFAULTS["litter.power"].value,
    wander=Wander(
        DEFAULTS["litter.walk"].value,
        apart=0.8,
        species=0.6,
        between=0.5,
        reach=3.5,
        shared=DEFAULTS["litter.shared"].value,
    ),
)

HABIT_LOW, HABIT_HIGH, HABIT_EYE, HABIT_SLIP = 0.0, 0.45, 0.08, 0.1
"""A keeper who tops up without a word on the level found anything from bare ground to a good half, hardly a full layer:
in shares of one. Keepers differ in this, and nothing written tells how."""
PASSED, PASSED_EYE, PASSED_SLIP, PASSED_REFILL = 0.15, 0.1, 0.3, 0.5
"""A bin looked after and not topped up had at least some litter, often: share of a full layer, error of that, share of
such visits that say nothing, and of those the share with a top-up nobody wrote down."""


@dataclass(frozen=True, eq=False)
class Litter:
    """What is believed of the leaf litter of each bin, on the last day.

    Parameters
    ----------
    left
        (3, B) litres: 10, 50 and 90 %.
    week
        (3, B) loose litres to give for what is used in the coming week if there is plenty.
    runs_out
        (3, B) days from now; 0 is "already", never more than ten years.
    beyond
        (3, B) true where that is ten years or later.
    notes
        (B,) top-ups and looks that were used.
    full
        (B,) litres of a full layer that was reckoned with.
    horizon, path
        Days ahead (H,), and litres then (3, B, H): 10, 50 and 90 %.
    past
        (3, B, T) mean, low and high of each day so far, or None.
    supply
        What lies behind it.
    """

    left: Floats
    week: Floats
    runs_out: Floats
    beyond: npt.NDArray[np.bool_]
    notes: Ints
    full: Floats
    horizon: tuple[int, ...]
    path: Floats
    past: Floats | None
    supply: Supply


def follow_litter(
    top_ups: TopUps,
    sights: Sights,
    *,
    exposure: Floats,
    first_day: int,
    species: Ints,
    appetite: Ints,
    full: Floats,
    start_day: Ints | None = None,
    visits: Visits | None = None,
    ahead: Floats | None = None,
    ahead_sd: Floats | None = None,
    doubt: Floats | None = None,
    parent: Ints | None = None,
    horizon: tuple[int, ...] = tuple(range(0, 85, 7)),
    history: bool = False,
    settings: LitterSettings = LITTER,
) -> Litter:
    """Balance what was given against what was seen, and say when it runs out.

    Parameters
    ----------
    top_ups, sights
        Those outside the days of ``exposure`` are left out.
    exposure
        (B, T) of each day from ``first_day`` to now: ``(animals / 100) ** power``, NaN where not known.
    first_day
        Whole number of the first day.
    species, appetite
        (B,) whole numbers; appetite 0 slow, 1 medium, 2 hearty.
    full
        (B,) litres of a full layer, as a first guess or NaN: the top-ups have their say too (`guess_full`).
    start_day
        (B,) day each bin was set up; before it nothing is followed. Without it all are older than ``first_day``.
    visits
        The last of each bin is used, with ``habit``: litter that nobody topped up can't have been gone, as a rule.
    ahead, ahead_sd
        (B, H) exposure of the coming days and the error of its natural log. Without them, as on the last day.
    doubt
        (B,) variance of the natural log of today's exposure; see `supply.believe`.
    parent
        (B,) the bin each was split off, below 0 for none; see `pool`.
    horizon
        Days ahead for the path.
    history
        Also give the past, for charts.
    settings
        With ``habit``, a top-up without a look that day counts as a vague look: some was left, but not a full layer.

    Returns
    -------
    Litter

    Notes
    -----
    Use is a rate per head times the number of animals, the rate wandering slowly. Misleads when top-ups go unwritten
    (it then believes in a small appetite until a look tells it better), and when a full layer is far from ``full``.
    """
    layer = guess_full(top_ups.bin, top_ups.litres, full)
    bins = len(layer)
    days = sane_exposure(exposure, settings.power)
    use = Eaten(layer[:, None], settings.scarce, settings.rot)
    starts = np.full(bins, first_day - 1) if start_day is None else start_day
    begun = np.arange(first_day, first_day + days.shape[1]) >= starts[:, None]
    loose = still_loose(top_ups, layer, first_day, days.shape[1], settings)
    events = litter_events(top_ups, sights, layer, starts, first_day, settings)
    if visits is not None and settings.habit:
        events = Events.joined(events, _passed_over(visits, layer))
    events = lowered(events.within(first_day, first_day + days.shape[1] - 1), loose, first_day)
    supply = believe(
        use,
        events,
        usual=settings.settles * np.array(settings.usual)[appetite],
        species=species,
        appetite=appetite,
        exposure=np.where(begun, days, 0.0),
        first_day=first_day,
        started=(0.5 * layer, 0.35 * layer),
        ahead=exposure_ahead(days, ahead, ahead_sd, settings.power),
        wander=settings.wander,
        doubt=doubt,
        parent=parent,
        history=history,
    )
    stock = supply.outlook.stock
    left = [mixture_quantile(stock.weight, stock.mean, np.sqrt(stock.variance), share) for share in SHARES]
    runs_out, beyond = supply.outlook.out_by(settings.out * layer[:, None])
    week = supply.outlook.exposure.until(WEEK)[0][:, 0] / settings.settles
    used = (events.order != START) & (events.slip < HABIT_SLIP)
    settles = np.exp(-np.array(horizon) / settings.settling)
    return Litter(
        left=np.maximum(np.stack(left), 0.0) * (1 + loose[:, -1]),
        week=supply.rate_quantiles() * week,
        runs_out=runs_out,
        beyond=beyond,
        notes=np.bincount(events.bin[used], minlength=bins),
        full=layer,
        horizon=horizon,
        path=supply.outlook.path(horizon) * (1 + loose[:, -1:] * settles),
        past=None if supply.path is None else np.maximum(supply.path, 0.0) * (1 + loose),
        supply=supply,
    )


def litter_events(
    top_ups: TopUps, sights: Sights, full: Floats, start_day: Ints, first_day: int, settings: LitterSettings
) -> Events:
    """Top-ups, looks, starts of bins, and the vague look that a top-up without words is."""
    litres = _litres(top_ups, full)
    error = np.where(np.isfinite(top_ups.litres), 0.15, 0.5) * litres
    given = Events.of(top_ups.bin, top_ups.day, CHANGED, settings.settles * litres, settings.settles * error)
    says = (sights.high >= sights.low) & ((sights.low > 0) | (sights.high < 1))
    at, layer = sights.bin[says], full[sights.bin[says]]
    low, high = sights.low[says], sights.high[says]
    seen = Events.of(
        at,
        sights.day[says],
        SEEN,
        np.where(low <= 0, -np.inf, low * layer),
        np.where(high >= 1, np.inf, np.maximum(high, low + 0.02) * layer),
        noise=settings.eye * layer,
        slip=settings.slip,
        jump=settings.unwritten,
    )
    seen = replace(seen, order=np.where(sights.after[says], SEEN_AFTER, SEEN))
    parts = [_starts(top_ups, full, start_day, first_day), given, seen]
    if settings.habit:
        told = _key(at[~sights.after[says]], sights.day[says][~sights.after[says]])
        mute = ~np.isin(_key(top_ups.bin, top_ups.day), told) & (litres > 0)
        layer = full[top_ups.bin[mute]]
        parts.append(
            Events.of(
                top_ups.bin[mute],
                top_ups.day[mute],
                SEEN,
                HABIT_LOW * layer,
                HABIT_HIGH * layer,
                noise=HABIT_EYE * layer,
                slip=HABIT_SLIP,
            )
        )
    return Events.joined(*parts)


def still_loose(top_ups: TopUps, full: Floats, first_day: int, days: int, settings: LitterSettings) -> Floats:
    """By how much more than its settled volume the litter fills (B, T), on the evening of each day.

    For this alone it is supposed that every top-up found as much as `HABIT_LOW` to `HABIT_HIGH` say.
    """
    place = top_ups.day - first_day
    here = (place >= 0) & (place < days)
    given = np.zeros((len(full), days))
    np.add.at(given, (top_ups.bin[here], place[here]), _litres(top_ups, full)[here])
    found = settings.settles * (HABIT_LOW + HABIT_HIGH) / 2 * full
    stays = np.exp(-1 / settings.settling)
    loose = np.zeros((len(full), days))
    last = np.zeros(len(full))
    for day in range(days):
        new = given[:, day]
        last = (found * stays * last + (1 - settings.settles) * new) / (found + settings.settles * new)
        loose[:, day] = last
    return loose


def lowered(events: Events, loose: Floats, first_day: int) -> Events:
    """The looks in settled litres: what was loose then is that of the evening before, or after a top-up of the day."""
    place = events.day - first_day - np.where(events.order == SEEN_AFTER, 0, 1)
    look = (events.order == SEEN) | (events.order == SEEN_AFTER)
    more = np.where(look & (place >= 0), loose[events.bin, np.maximum(place, 0)], 0.0)
    return replace(events, low=events.low / (1 + more), high=events.high / (1 + more), noise=events.noise / (1 + more))


def _passed_over(visits: Visits, full: Floats) -> Events:
    """The last visit of each bin, as a vague look."""
    last = np.full(len(full), -1)
    np.maximum.at(last, visits.bin, visits.day)
    at = np.flatnonzero(last >= 0)
    return Events.of(
        at,
        last[at],
        SEEN,
        PASSED * full[at],
        np.full(len(at), np.inf),
        noise=PASSED_EYE * full[at],
        slip=PASSED_SLIP,
        jump=PASSED_REFILL,
    )


def _litres(top_ups: TopUps, full: Floats) -> Floats:
    """Litres given, half a full layer where the amount isn't known."""
    return np.where(np.isfinite(top_ups.litres), np.maximum(top_ups.litres, 0.0), full[top_ups.bin] / 2)


def _starts(top_ups: TopUps, full: Floats, start_day: Ints, first_day: int) -> Events:
    """Each bin begins with some litter, or with none when its first was written down."""
    bins = len(full)
    first = top_ups.day - start_day[top_ups.bin]
    written = np.zeros(bins, dtype=bool)
    written[top_ups.bin[(first >= 0) & (first <= 1)]] = True
    written &= start_day >= first_day
    mean = np.where(written, 0.0, 0.5 * full)
    return Events.of(np.arange(bins), start_day, START, mean, np.where(written, 0.05, 0.35) * full)


def _key(bin_of: Ints, day: Ints) -> Ints:
    """One number for a bin on a day."""
    return np.asarray(bin_of * 10_000_000 + day)
