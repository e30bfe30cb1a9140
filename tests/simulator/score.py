"""How good forecasts were: errors against simple rules, bias and coverage, by keeper and by date.

A forecast that is no finite number raises: a missing answer is never left out of a figure.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from simulator import baselines as rules
from simulator.colony import Floats
from simulator.keeper import Diary
from simulator.truths import Truth
from simulator.world import World

ALIVE = 5
"""Bins with fewer animals than this are out of the score: a keeper would not forecast them."""
HORIZON = {"out": 365.0, "spent": 540.0}
"""Days beyond which a date is only 'later than that', in the truth as in a forecast."""
GONE = 0.06
"""Share of a portion that may be left when it counts as gone."""
QUANTITIES = ("dry", "eaten", "out", "spent", "now", "later")
LOG = frozenset({"eaten", "now", "later"})
MEAN = frozenset({"spent"})
SAYS = {
    "dry": "moss dry, days",
    "eaten": "food eaten by next day, log",
    "out": "litter run out, days",
    "spent": "substrate spent, days",
    "now": "number today, log",
    "later": "number in 60 days, log",
}


@dataclass(frozen=True, eq=False)
class Forecast:
    """What an engine says on a day: for each quantity (3, B) its low, middle and high, as an 80 % interval.

    ``check`` is the days after a watering at which it asks for a look at the moss; ``portion`` the grams that
    should be gone by the next day, and ``step`` what it says to feed next, which may be held back by the last portion.
    ``silent`` marks bins of which it says nothing: they are counted and shown, not scored.
    """

    said: Mapping[str, Floats]
    check: Floats
    portion: Floats
    step: Floats
    silent: Mapping[str, NDArray[np.bool_]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for name, values in {**self.said, "check": self.check, "portion": self.portion, "step": self.step}.items():
            if not np.isfinite(values).all():
                raise ValueError(f"{name} holds {int((~np.isfinite(values)).sum())} values that are no number")


@dataclass
class Kept:
    """All rows of one quantity: one for each bin and forecast day."""

    keeper: list[NDArray[np.int64]] = field(default_factory=list)
    day: list[NDArray[np.int64]] = field(default_factory=list)
    truth: list[Floats] = field(default_factory=list)
    said: list[Floats] = field(default_factory=list)
    rules: dict[str, list[Floats]] = field(default_factory=dict)
    silent: int = 0
    """Rows left out because the engine says nothing of that bin."""


@dataclass
class Score:
    """Forecasts of many keepers beside what was true."""

    kept: dict[str, Kept] = field(default_factory=lambda: {name: Kept() for name in QUANTITIES})
    moss: list[Floats] = field(default_factory=list)
    """(keeper, quarter by drying speed, check, true days) by rows."""
    portions: list[Floats] = field(default_factory=list)
    """(keeper, share left of the portion, share left of the next step) by rows."""

    def add(self, keeper: int, world: World, diary: Diary, truth: Truth, forecast: Forecast) -> None:
        """Add one forecast day of one keeper."""
        alive = truth.now >= ALIVE
        told = rules.told_by(diary, truth.day)
        befores = [int(day) for day in diary.last_change]
        line = np.array(
            [
                rules.straight_line(before)(own, truth.day, world, bin)
                for bin, (before, own) in enumerate(zip(befores, told, strict=True))
            ]
        )
        seen = np.array([rules.last_seen(own, truth.day, before) for before, own in zip(befores, told, strict=True)])
        counts = {"last count": rules.last_count, "last count by its way": rules.last_count_by_way}
        simple: dict[str, dict[str, rules.Rule]] = {
            "dry": {"mean of last 3": rules.last_three_gaps, "last": rules.last_gap, "4 days": rules.four_days},
            "eaten": {"mean of last 3": rules.last_three_eaten},
            "out": {"used over last 3": rules.used_over_last_three, "the same, from full": rules.full_at_last},
            "spent": {},
            "now": counts,
            "later": counts,
        }
        for name in QUANTITIES:
            use = alive & (seen < rules.HALF_SEEN) if name == "spent" else alive
            dumb = forecast.silent.get(name, np.zeros(len(alive), dtype=bool))
            self.kept[name].silent += int((use & dumb).sum())
            use = use & ~dumb
            worked = {says: rules.over_bins(rule, told, truth.day, world) for says, rule in simple[name].items()}
            if name == "spent":
                worked = {"straight line": line, "9 months": _nine_months(told, befores, truth.day)}
            self._keep(name, keeper, truth, forecast.said[name], worked, use)
        quarter = _quarters(truth.dry)
        rows = np.column_stack([np.full(len(alive), keeper), quarter, forecast.check, truth.dry])
        self.moss.append(rows[alive])
        left = np.column_stack([truth.left_of(forecast.portion), truth.left_of(forecast.step)])
        fed = alive & ~forecast.silent.get("eaten", np.zeros(len(alive), dtype=bool))
        self.portions.append(np.column_stack([np.full(len(alive), keeper), left])[fed])

    def _keep(
        self, name: str, keeper: int, truth: Truth, said: Floats, worked: Mapping[str, Floats], use: NDArray[np.bool_]
    ) -> None:
        kept, top = self.kept[name], HORIZON.get(name, np.inf)
        true = np.minimum(getattr(truth, name), top)
        floor = 1.0 if name in ("now", "later") else 1e-6 if name == "eaten" else 0.0
        kept.keeper.append(np.full(int(use.sum()), keeper))
        kept.day.append(np.full(int(use.sum()), truth.day))
        kept.truth.append(np.maximum(true[use], floor))
        kept.said.append(np.clip(said[:, use], floor, top))
        for says, values in worked.items():
            kept.rules.setdefault(says, []).append(np.clip(values[use], floor, top))

    def join(self, other: Score) -> None:
        """Take in the rows of another score."""
        for name, kept in other.kept.items():
            own = self.kept[name]
            for part in ("keeper", "day", "truth", "said"):
                getattr(own, part).extend(getattr(kept, part))
            own.silent += kept.silent
            for says, values in kept.rules.items():
                own.rules.setdefault(says, []).extend(values)
        self.moss += other.moss
        self.portions += other.portions


def _nine_months(told: Sequence[rules.Told], befores: Sequence[int], day: int) -> Floats:
    """Nine months from the last change."""
    begun = [rules._reset(own, before)[0] for own, before in zip(told, befores, strict=True)]
    return np.maximum(np.array(begun) + rules.STEADY - day, 0)


def _quarters(days: Floats) -> NDArray[np.int64]:
    """0 for the quarter of bins that dries fastest to 3."""
    return np.argsort(np.argsort(days)) * 4 // len(days)


@dataclass(frozen=True)
class Figures:
    """The figures of one quantity; ratios by simple rule as mean, least and most over keepers."""

    rows: int
    error: float
    bias: float
    ratios: Mapping[str, tuple[float, float, float]]
    compared: Mapping[str, int]
    coverage: float
    by_keeper: Mapping[int, float]
    by_day: Mapping[int, float]
    counted: int
    """Rows in the coverage: those beyond the horizon, or past already, in truth and forecast alike tell nothing."""


def figures(name: str, kept: Kept) -> Figures:
    """Work out the figures of one quantity.

    Raises
    ------
    ValueError
        A forecast or a truth is no finite number, or there is none.
    """
    keeper, day, truth = (np.concatenate(part) for part in (kept.keeper, kept.day, kept.truth))
    said = np.concatenate(kept.said, axis=1)
    if not truth.size:
        raise ValueError(f"no forecast of {name}")
    if not (np.isfinite(truth).all() and np.isfinite(said).all()):
        raise ValueError(f"{name}: no finite number")
    turn = np.log if name in LOG else np.asarray
    middle = np.mean if name in MEAN else np.median
    off = turn(said[1]) - turn(truth)
    ratios, compared = {}, {}
    for says, parts in kept.rules.items():
        simple = np.concatenate(parts)
        known = np.isfinite(simple)
        gap = np.abs(turn(np.where(known, simple, 1)) - turn(truth))
        each = []
        for one in np.unique(keeper):
            own = known & (keeper == one)
            if own.sum() >= 5:
                each.append(middle(np.abs(off[own])) / max(middle(gap[own]), 1e-9))
        ratios[says] = (float(np.mean(each)), min(each), max(each)) if each else (np.nan, np.nan, np.nan)
        compared[says] = int(known.sum())
    top = HORIZON.get(name, np.inf)
    tells = ~((truth >= top) & (said[0] >= top)) & ~((truth <= 0) & (said[2] <= 0))
    inside = (said[0] <= truth + 1e-9) & (truth <= said[2] + 1e-9)

    def share(of: NDArray[np.bool_]) -> float:
        return float(inside[of & tells].mean()) if (of & tells).any() else np.nan

    everywhere = np.ones(len(truth), dtype=bool)
    return Figures(
        rows=len(truth),
        error=float(middle(np.abs(off))),
        bias=float(np.median(off)),
        ratios=ratios,
        compared=compared,
        coverage=share(everywhere),
        by_keeper={int(one): share(keeper == one) for one in np.unique(keeper)},
        by_day={int(one): share(day == one) for one in np.unique(day)},
        counted=int(tells.sum()),
    )


def table(score: Score) -> str:
    """All figures as text."""
    lines = []
    for name in QUANTITIES:
        one = figures(name, score.kept[name])
        lines.append(
            f"{SAYS[name]}: error {one.error:.3g}, bias {one.bias:+.3g}, {one.rows} forecasts"
            f"{f', {score.kept[name].silent} without an answer' if score.kept[name].silent else ''}"
        )
        for says, (mean, least, most) in one.ratios.items():
            lines.append(f"    against {says}: {mean:.2f} [{least:.2f}, {most:.2f}] ({one.compared[says]} compared)")
        worst = min(one.by_keeper.items(), key=_by_share)
        days = "  ".join(f"{day}: {share:.2f}" for day, share in one.by_day.items())
        lines.append(
            f"    80 % interval holds {one.coverage:.2f} ({one.counted}); worst keeper {worst[0]}: {worst[1]:.2f}"
        )
        lines.append(f"    by day   {days}")
    lines += [*_moss_lines(score), *_portion_lines(score)]
    return "\n".join(lines)


def _by_share(item: tuple[int, float]) -> float:
    return item[1]


def late(score: Score) -> tuple[float, list[float], list[float]]:
    """Share of moss corners dry before the check, in all and by quarter from the fastest; checks a year by quarter."""
    rows = np.concatenate(score.moss)
    dry = rows[:, 3] < rows[:, 2]
    quarters = [rows[:, 1] == place for place in range(4)]
    return (
        float(dry.mean()),
        [float(dry[own].mean()) for own in quarters],
        [float((365.25 / np.maximum(rows[own, 2], 1)).mean()) for own in quarters],
    )


def _moss_lines(score: Score) -> list[str]:
    every, quarters, checks = late(score)
    return [
        f"moss dry before the check: {every:.1%}; by quarter from the fastest "
        + " ".join(f"{share:.1%}" for share in quarters),
        f"    checks a year {np.mean(checks):.0f}; by quarter " + " ".join(f"{number:.0f}" for number in checks),
    ]


def gone(score: Score, column: int = 1) -> tuple[float, dict[int, float]]:
    """Share of portions gone by the next day, in all and by keeper; ``column`` 2 for the next steps instead."""
    rows = np.concatenate(score.portions)
    done = rows[:, column] <= GONE
    return float(done.mean()), {int(one): float(done[rows[:, 0] == one].mean()) for one in np.unique(rows[:, 0])}


def _portion_lines(score: Score) -> list[str]:
    every, each = gone(score)
    return [
        f"portion gone by next day: {every:.1%}; by keeper " + " ".join(f"{share:.0%}" for share in each.values()),
        f"    as held back by the last portion: {gone(score, 2)[0]:.1%}",
    ]
