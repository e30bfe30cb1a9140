"""How many grams of a food a bin eats in a day, and how much to give next."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import Floats, Ints, RatePrior
from workbook_tools.estimate.rate import Rates, Spans, fit_rates

GONE, SOME, MOST, MOULDY = range(4)

PRIOR = RatePrior(
    mean=float(np.log(DEFAULTS["food.use.dry"].value)),
    sd_top=1.2,
    sd_between=0.6,
    sd_species=0.5,
    sigma=0.38,
    grid_low=float(np.log(0.001)),
    grid_high=float(np.log(30.0)),
    outlier=0.05,
    half_life=90.0,
    walk=DEFAULTS["food.walk"].value,
    by_class=(-float(np.log(DEFAULTS["food.appetite"].value)), 0.0, float(np.log(DEFAULTS["food.appetite"].value))),
)
"""Log of grams a day that a hundred animals eat of one dry food, before anything is seen; slow and hearty eaters beside
medium ones. Derived from what animals of each appetite eat in a day."""
CROWD = 100.0
"""Animals for which rates are kept."""
SHARING = DEFAULTS["food.power"].value
"""A colony of twice the size eats 2 to this power times as much: the larger one has more young."""
SHARE_SD = 0.12
"""How far a written share left may be off, up and down."""
EYE = DEFAULTS["food.eye"].value
"""How far, in log, the bounds of words for leftovers wander: seven points where a share of 40 % was eaten."""
GONE_FROM, MOST_UP_TO, MOULDY_UP_TO = (DEFAULTS[f"food.{word}"].value for word in ("gone", "most", "mouldy"))
"""Shares eaten: from the first a dish is called gone, up to the second most is called left; mouldy food isn't gone."""
EATEN = ((GONE_FROM, 1.0), (MOST_UP_TO, GONE_FROM), (0.0, MOST_UP_TO), (0.0, MOULDY_UP_TO))
"""Between which shares eaten a dish is called gone, some left, most left, and mouldy."""
CRUMBS = DEFAULTS["food.crumbs"].value
"""How a dish empties: 1 steadily, towards 0 like a decay, as the last of it is found ever more slowly. A judgement."""
LAST_LOOK = DEFAULTS["food.last_look"].value
"""Days after which a look says nothing of one feeding: by then another has often been given and not logged."""
SWING = DEFAULTS["food.swing"].value
"""How far, in log, all bins of a room eat more or less together as a rule: cold weeks and warm ones."""
HUNGER_SD = DEFAULTS["numbers.hunger"].value
"""How far, in log, hunger, the season and the share of young may make a bin eat more or less for its number."""
STEP = DEFAULTS["food.step"].value
"""A portion is never raised or cut by more than so many times at once."""


@dataclass(frozen=True, eq=False)
class Feedings:
    """Food given and what a later look found of it.

    Parameters
    ----------
    bin, day
        (n,) index of the bin, or of the bin and food where foods are kept apart, and day number of the look.
    grams, days_out
        (n,) amount given and days until the look. Rows without a positive amount and time say nothing.
    left
        (n,) 0 gone, 1 some left, 2 most left, 3 mouldy.
    number
        (n,) animals then; NaN counts as a hundred.
    share_left
        (n,) share left as written, 0 to 1, NaN where it wasn't; None when never written. Not used for mouldy food.
    """

    bin: Ints
    day: Ints
    grams: Floats
    days_out: Floats
    left: Ints
    number: Floats
    share_left: Floats | None = None


@dataclass(frozen=True, eq=False)
class Portions:
    """What to give next, all (B,).

    ``grams`` of the portion; ``wanted`` before the limit; ``limited`` -1 where the portion would have been less than
    half the last one, 1 where more than twice, else 0.
    """

    grams: Floats
    wanted: Floats
    limited: Ints


@dataclass(frozen=True, eq=False)
class Eating:
    """What is known of the food eaten by each bin.

    ``rates`` is in grams a day for a hundred animals while food is ample; ``scale`` (B,) turns that into today's
    number.
    """

    rates: Rates
    scale: Floats

    def number(self) -> tuple[Floats, Floats]:
        """By how much the number differs from the one given, by what is eaten: natural log and its error, both (B,).

        A bin that eats twice what its like do for their number holds about twice as many, as far as appetites are
        alike. The error is inf where nothing was seen.
        """
        pooled = self.rates.pooled
        alike = pooled.sd**2 - pooled.doubt
        error = np.full(len(self.scale), np.inf)
        seen = pooled.own_sure > 0
        error[seen] = np.sqrt(1.0 / pooled.own_sure[seen] + alike[seen] + HUNGER_SD**2) / SHARING
        return np.where(seen, pooled.own_mean - pooled.mean, 0.0) / SHARING, error

    def quantile(self, p: float) -> Floats:
        """(B,) grams that today's animals eat in one day of ample food, or less, with chance ``p``."""
        return self.rates.quantile(p) * self.scale

    def chance_gone(self, grams: Floats, days: float = 1.0) -> Floats:
        """(B,) chance that a portion of ``grams`` is gone after ``days``."""
        needed = float(worth(GONE_FROM))
        return np.asarray(1.0 - self.rates.chance_below(needed * grams / (days * self.scale)), dtype=np.float64)

    def portion(self, last: Floats, *, gone: float = 0.8, days: float = 1.0, limit: bool = True) -> Portions:
        """Portion that is gone after ``days`` with chance ``gone``.

        Parameters
        ----------
        last
            (B,) grams given last; NaN where nothing was.
        gone
            Chance wanted, between 0 and 1.
        days
            From feeding to the look.
        limit
            Whether to keep between half and twice the last portion.
        """
        wanted = self.quantile(1.0 - gone) * days / float(worth(GONE_FROM))
        held = np.isfinite(last) & (last > 0) & limit
        least = np.where(held, last / STEP, 0.0)
        most = np.where(held, STEP * last, np.inf)
        limited = (wanted > most).astype(np.int64) - (wanted < least).astype(np.int64)
        return Portions(np.clip(wanted, least, most), wanted, limited)


def fit_eating(
    feedings: Feedings,
    *,
    bins: int,
    species: Ints,
    appetite: Ints,
    number: Floats,
    now: int,
    number_sd: Floats | None = None,
    parent: Ints | None = None,
    prior: RatePrior = PRIOR,
    size: int = 400,
) -> Eating:
    """Estimate the grams each bin eats in a day.

    Parameters
    ----------
    feedings
        Every look at food up to ``now``; later ones are left out.
    bins, species, appetite
        As in `fit_rates`.
    number
        (B,) animals today; NaN counts as a hundred, less than one as one.
    now
        Day number.
    number_sd
        (B,) how far off the natural log of the number may be; None is not at all.
    parent
        As in `pool`.
    prior
        Of the log of grams a day for a hundred animals.
    size
        Points of the grid.

    Notes
    -----
    Gone bounds what was eaten from below only: a bin whose food is always gone eats at least that much, and the
    portion grows until something is left. Misleads when the food dries up, is carried under the bark, or is eaten by
    mites or springtails.
    """
    spans = spans_of(feedings, now)
    doubt = None if number_sd is None else (SHARING * number_sd) ** 2
    rates = fit_rates(
        spans,
        bins=bins,
        species=species,
        appetite=appetite,
        prior=prior,
        doubt=doubt,
        parent=parent,
        eye=EYE,
        swing=SWING,
        size=size,
    )
    return Eating(rates, np.exp(_crowd(number)))


def worth(eaten: Floats | float) -> Floats:
    """Days' worth of ample eating, in portions, that it takes to eat the share ``eaten`` of a portion.

    The share left falls as ``(1 - c x) ** (1 / c)`` with ``c = CRUMBS``.
    """
    left = 1.0 - np.clip(np.asarray(eaten, dtype=np.float64), 0.0, 1.0)
    return np.asarray((1.0 - left**CRUMBS) / CRUMBS, dtype=np.float64)


def days_worth(eaten: Floats | float) -> Floats:
    """Bound that a share eaten sets to the days' worth of ample eating, in portions.

    That of `worth`, and none for a whole portion: nobody can say how much more would have been eaten.
    """
    return np.where(np.asarray(eaten) < 1.0, worth(eaten), np.inf)


def spans_of(feedings: Feedings, now: int) -> Spans:
    """Bounds of the log of grams a day for a hundred animals that each look gives.

    Gone is above 95 % of what was given, some left between 40 and 95 %, most left below 40 %, a written share within
    0.12 of it; mouldy is below 92 %.
    Each share is turned into `worth`. Looks more than four days after the feeding are left out.
    """
    usable = (feedings.grams > 0) & (feedings.days_out > 0) & np.isfinite(feedings.grams + feedings.days_out)
    usable &= (
        (feedings.days_out <= LAST_LOOK) & (feedings.left >= GONE) & (feedings.left <= MOULDY) & (feedings.day <= now)
    )
    grams, days, left = feedings.grams[usable], feedings.days_out[usable], feedings.left[usable]
    low, high = np.array(EATEN)[left].T
    if feedings.share_left is not None:
        share = feedings.share_left[usable]
        written = np.isfinite(share) & (left != MOULDY) & (share > 0.03)
        eaten = 1.0 - np.clip(share, 0.0, 1.0)
        low = np.where(written, np.maximum(eaten - SHARE_SD, 0.0), low)
        high = np.where(written, np.where(eaten + SHARE_SD < 0.98, eaten + SHARE_SD, 1.0), high)
    each = np.log(grams) - np.log(days) - _crowd(feedings.number[usable])
    with np.errstate(divide="ignore"):
        low, high = (np.log(days_worth(share)) + each for share in (low, high))
    return Spans(feedings.bin[usable], low, high, (now - feedings.day[usable]).astype(np.float64))


def _crowd(number: Floats) -> Floats:
    """Log of how much more than a hundred animals this number eats."""
    sane = np.where(np.isfinite(number), np.maximum(number, 1.0), CROWD)
    return np.asarray(SHARING * np.log(sane / CROWD), dtype=np.float64)
