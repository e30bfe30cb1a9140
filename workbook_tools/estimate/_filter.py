"""Forward through the days with all bins at once, and back again."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import MONTH, Floats, Ints
from workbook_tools.estimate._growth import MOST, STATES, Growth, Jumps, Moves, by_day, jump, rounds, sum_moves
from workbook_tools.estimate._kalman import Doubts, smooth, take_bounds, take_value
from workbook_tools.estimate.counting import EATEN, EIGHTY, Counts, as_seen

Flags = npt.NDArray[np.bool_]

JUMP_SD = 1.2
"""How far an unlogged jump of the log number goes: a third or three times as many is usual for one."""
EMPTY_SD = 0.7
"""An empty bin stands as one animal, give or take this on the log scale."""
OVERLOOKED_YEARS = 1.0


@dataclass(frozen=True, eq=False)
class Start:
    """What each bin starts with, (B,) each: day, whether its number was given, state and covariance that day."""

    day: Ints
    given: Flags
    mean: Floats
    cov: Floats

    @classmethod
    def of(
        cls,
        day: Ints,
        number: Floats,
        number_sd: Floats,
        crowding: Floats,
        growth: Floats,
        growth_sd: Floats,
        first_day: int,
    ) -> Start:
        """From what the keeper wrote, else a part of what crowds the bin, else the usual start.

        A start before ``first_day`` is carried there with a growing doubt.
        """
        given = number >= 1
        told = np.isfinite(crowding)
        usual = np.where(told, crowding * DEFAULTS["numbers.start_part"].value, DEFAULTS["numbers.start"].value)
        sd = np.where(np.isfinite(number_sd) & (number_sd > 0), number_sd, DEFAULTS["numbers.start_error"].value)
        months = np.maximum(first_day - day, 0) / MONTH
        sd = np.minimum(np.sqrt(sd**2 + (growth_sd * np.minimum(months, 12)) ** 2), OVERLOOKED_YEARS)
        wide, part = DEFAULTS["numbers.start"], DEFAULTS["numbers.start_part"]
        usual_sd = np.log(np.where(told, part.high / part.low, wide.high / wide.low)) / (2 * EIGHTY)
        mean = np.stack(
            [
                np.where(given, np.log(np.where(given, number, 1.0)), np.log(usual)),
                growth,
                np.zeros(len(day)),
            ]
        )
        cov = np.zeros((STATES, STATES, len(day)))
        cov[0, 0] = np.where(given, sd, usual_sd) ** 2
        cov[1, 1] = growth_sd**2
        cov[2, 2] = 1.0
        return cls(np.maximum(day, first_day), given, mean, cov)


class Filter:
    """The run over the days. After `forward`: ``means``, ``covs``, ``gone`` by day, and what was found on the way."""

    def __init__(
        self, counts: Counts, moves: Moves, start: Start, growth: Growth, first_day: int, last_day: int
    ) -> None:
        self._growth, self._moves = growth, moves
        self._first, self._days, self._bins = first_day, last_day - first_day + 1, len(growth.room)
        kept = np.flatnonzero(_within(counts.bin, counts.day, start, last_day))
        usable, place = counts.only(kept).usable()
        self._seen = as_seen(usable)
        self._places = kept[place]
        self._counts_on = by_day(self._seen.day, np.arange(len(self._seen.day)))
        inside = np.flatnonzero(_within(moves.bin, moves.day, start, last_day) & _says(moves))
        eaten = usable.method == EATEN
        self.used: Ints = self._seen.bin[~eaten]
        self.by_eating = np.isin(np.arange(self._bins), self._seen.bin[eaten])
        self.counted = start.given.copy()
        self.counted[self.used] = True
        self.counted[moves.bin[inside[_comes(moves)[inside]]]] = True
        # with nothing to go by a bin stands at its starting guess: growth would only pretend to know
        guessed = np.full(self._bins, last_day)
        guessed[self._seen.bin[eaten]] = self._seen.day[eaten]
        start = replace(start, day=np.where(self.counted, start.day, guessed))
        self._start = start
        at_start = moves.day[inside] <= start.day[moves.bin[inside]]
        self._founding = inside[at_start & ~start.given[moves.bin[inside]] & _comes(moves)[inside]]
        self._moves_on = by_day(moves.day, inside[~at_start])
        self._founded_on = by_day(moves.day, self._founding)
        self._starts_on = by_day(start.day, np.arange(self._bins))
        self._jumps: dict[int, Jumps] = {}
        self._loose: dict[int, Floats] = {}
        self.odd: Floats = np.zeros(len(counts.bin))
        self.oversold = np.zeros(len(moves.bin), dtype=np.bool_)
        self.means: Floats = np.empty((self._days, STATES, self._bins))
        self.covs: Floats = np.empty((self._days, STATES, STATES, self._bins))
        self.gone: Floats = np.zeros((self._days, self._bins))

    def forward(self) -> None:
        """Filter every day."""
        mean, cov, gone = self._start.mean.copy(), self._start.cov.copy(), np.zeros(self._bins)
        for at in range(self._days):
            day = self._first + at
            founded = self._founded_on.get(day)
            # what another bin gave is a share of what it held in the morning
            came = None if founded is None else sum_moves(self._moves, founded, mean, cov)
            if at:
                if day in self._moves_on:
                    self._jumps[day] = sum_moves(self._moves, self._moves_on[day], mean, cov)
                mean, cov, _ = self._advance(day, mean, cov, gone)
                gone = self._after_moves(day, gone)
            if day in self._starts_on:
                self._begin(day, came, mean, cov)
            self._empty(day, mean, cov, gone)
            for part in rounds(self._seen.bin, self._counts_on.get(day, np.empty(0, dtype=np.int64))):
                self._count(day, part, mean, cov, gone)
            self._must_hold(day + 1, mean, cov)
            self.means[at], self.covs[at], self.gone[at] = mean, cov, gone

    def backward(self) -> tuple[Floats, Floats]:
        """Smooth every day: mean and standard deviation of the log number, each (B, T)."""
        log_mean = np.empty((self._bins, self._days))
        log_sd = np.empty_like(log_mean)
        later = (self.means[-1], self.covs[-1])
        for at in range(self._days - 1, -1, -1):
            if at < self._days - 1:
                day = self._first + at + 1
                here = (self.means[at], self.covs[at])
                mean, cov, cross = self._advance(day, *here, self.gone[at])
                if day in self._loose:
                    cov = cov + self._loose[day]
                young = self._start.day >= day
                smoothed = smooth(here, (mean, cov), np.where(young, 0.0, cross), later)
                # before its start a bin stands as at its start
                later = (np.where(young, later[0], smoothed[0]), np.where(young, later[1], smoothed[1]))
            log_mean[:, at] = later[0][0]
            log_sd[:, at] = np.sqrt(np.maximum(later[1][0, 0], 1e-8))
        return log_mean, log_sd

    def _advance(self, day: int, mean: Floats, cov: Floats, gone: Floats) -> tuple[Floats, Floats, Floats]:
        step = self._growth.day(mean, cov, gone)
        return jump(*step, self._jumps[day]) if day in self._jumps else step

    def _after_moves(self, day: int, gone: Floats) -> Floats:
        if day not in self._jumps:
            return gone
        return np.where(self._jumps[day].added > 0, 0.0, gone)

    def _begin(self, day: int, came: Jumps | None, mean: Floats, cov: Floats) -> None:
        new = self._starts_on[day]
        mean[:, new], cov[:, :, new] = self._start.mean[:, new], self._start.cov[:, :, new]
        if came is not None:
            at = came.touched[came.added[came.touched] >= 1]
            mean[0, at] = np.log(came.added[at])
            error = DEFAULTS["numbers.start_error"].value ** 2
            cov[0, 0, at] = came.added_variance[at] / came.added[at] ** 2 + error

    def _empty(self, day: int, mean: Floats, cov: Floats, gone: Floats) -> None:
        if day in self._jumps:
            at = self._jumps[day].emptied
            at = at[self._jumps[day].added[at] <= 0]
            self._reset(day, at, np.ones(len(at)), mean, cov)
            gone[at] = 1.0

    def _reset(self, day: int, at: Ints, chance: Floats, mean: Floats, cov: Floats) -> None:
        """Mix in, with ``chance``, that these bins are empty: one animal at most, growth as if new."""
        start = self._start
        shift = np.zeros((STATES, len(at)))
        shift[0] = -mean[0, at]
        shift[1] = start.mean[1, at] - mean[1, at]
        mixed = cov[:, :, at] * (1 - chance) + chance * (1 - chance) * shift[:, None] * shift[None]
        mixed[0, 0] += chance * EMPTY_SD**2
        mixed[1, 1] += chance * start.cov[1, 1, at]
        mixed[2, 2] += chance * cov[2, 2, at]
        mean[:, at] += chance * shift
        cov[:, :, at] = mixed
        # the days before owe nothing to what was found now
        loose = self._loose.setdefault(day, np.zeros((STATES, STATES, self._bins)))
        loose[0, 0, at] += chance * shift[0] ** 2
        loose[1, 1, at] += chance * start.cov[1, 1, at]

    def _count(self, day: int, part: Ints, mean: Floats, cov: Floats, gone: Floats) -> None:
        seen = self._seen
        for kind in (0, 1, 2):
            now = part[seen.kind[part] == kind]
            if len(now) == 0:
                continue
            at = seen.bin[now]
            loading = np.zeros((STATES, len(at)))
            loading[0], loading[2] = 1.0, seen.hold[now]
            if kind == 2:
                empty = self._chance_empty(now, mean[0, at], cov[0, 0, at], gone[at])
            else:
                # animals are there after all: what an empty bin was believed to hold is let go
                cov[0, 0, at] += gone[at] * JUMP_SD**2 * 4
                gone[at] = 0.0
            doubts = _doubts(0.0 if kind == 2 else DEFAULTS["numbers.odd"].value)
            state, variance = (mean[:, at], cov[:, :, at]), seen.variance[now]
            if kind == 0:
                taken = take_value(*state, loading, seen.value[now], variance, doubts)
            else:
                taken = take_bounds(*state, loading, seen.low[now], seen.high[now], variance, doubts)
            mean[:, at], cov[:, :, at] = taken.mean, taken.cov
            self.odd[self._places[now]] = taken.odd
            if taken.jumped.any():
                loose = self._loose.setdefault(day, np.zeros((STATES, STATES, self._bins)))
                loose[0, 0, at] += taken.jumped * JUMP_SD**2
            if kind == 2:
                self._reset(day, at, empty, mean, cov)
                gone[at] = empty

    def _chance_empty(self, now: Ints, x: Floats, variance: Floats, gone: Floats) -> Floats:
        """Chance that a bin in which none were seen is empty: a negative binomial says how often none show."""
        sd = np.sqrt(3 * variance)
        points = np.exp(np.minimum(np.stack([x, x - sd, x + sd]), MOST))
        size = self._seen.clumping[now]
        none = (1 + points * self._seen.share[now] / size) ** -size
        hidden = (4 * none[0] + none[1] + none[2]) / 6
        before = np.maximum(gone, DEFAULTS["numbers.empty"].value)
        return np.asarray(before / (before + (1 - before) * hidden), dtype=np.float64)

    def _must_hold(self, day: int, mean: Floats, cov: Floats) -> None:
        """Whatever leaves on ``day`` must have been there the evening before."""
        if day not in self._moves_on:
            return
        now = self._moves_on[day]
        bins, change = self._moves.bin[now], self._moves.change[now]
        left = np.bincount(bins, np.where(np.isfinite(change), -change, 0.0), self._bins)
        at = np.flatnonzero((left >= 1) & (self._start.day < day))
        if len(at) == 0:
            return
        too_many = np.zeros(self._bins, dtype=np.bool_)
        too_many[at] = np.log(left[at]) > mean[0, at] + EIGHTY * np.sqrt(cov[0, 0, at])
        self.oversold[now] = too_many[bins] & (change < 0)
        loading = np.zeros((STATES, len(at)))
        loading[0] = 1.0
        taken = take_bounds(
            mean[:, at],
            cov[:, :, at],
            loading,
            np.log(left[at]),
            np.full(len(at), np.inf),
            np.full(len(at), 0.01),
            _doubts(0.0),
        )
        mean[:, at], cov[:, :, at] = taken.mean, taken.cov


def _doubts(odd: float) -> Doubts:
    return Doubts(bad=DEFAULTS["numbers.bad_count"].value, odd=odd, odd_variance=JUMP_SD**2)


def _within(bins: Ints, days: Ints, start: Start, last_day: int) -> Flags:
    return np.asarray((days >= start.day[bins]) & (days <= last_day), dtype=np.bool_)


def _says(moves: Moves) -> Flags:
    share = (moves.share > 0) & (moves.share <= 1)
    return np.asarray(np.isfinite(moves.change) & (moves.change != 0) | share, dtype=np.bool_)


def _comes(moves: Moves) -> Flags:
    return np.asarray((moves.change > 0) | (moves.source >= 0), dtype=np.bool_)
