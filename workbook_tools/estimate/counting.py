"""What a count says of the number of animals: its way of counting, the share that way sees, and how far it may be off.

A count sees a share of the animals. The share differs from way to way, from bin to bin (how much there is to hide
in), and from day to day. What differs from bin to bin stays with a bin: twenty hide counts tell its growth well and its
number hardly better than three do.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from workbook_tools.defaults import DEFAULTS
from workbook_tools.estimate._grid import Floats, Ints

EIGHTY = 1.2815515655446004
"""The 90 % point of a standard normal: 80 % of it lies within this distance of its middle."""


@dataclass(frozen=True, slots=True)
class Method:
    """One way of counting.

    ``share`` is the median share of animals of more than 4 mm that it sees, ``low`` to ``high`` 80 % of bins and days.
    A number worked out from marks or passes stands for all animals and comes with its own error; ``share`` is how far
    such numbers fall short, as animals that are easily caught are caught again.
    ``held`` is the part of that spread (of the variance of its log) which stays with the bin. ``mancas`` is the share
    of mancas seen (common practice, no source). ``clumping`` is the size of a negative binomial for a count of none:
    animals sit together, so that a hide may be empty by chance.
    """

    key: str
    share: float
    low: float
    high: float
    held: float
    mancas: float
    clumping: float

    @property
    def log_sd(self) -> float:
        """Standard deviation of the natural log of the share."""
        return float(np.log(self.high / self.low) / (2 * EIGHTY))


def _method(key: str, held: float, mancas: float, clumping: float) -> Method:
    seen = DEFAULTS[f"seen.{key}"]
    return Method(key, seen.value, seen.low, seen.high, held, mancas, clumping)


METHODS: tuple[Method, ...] = (
    _method("lift", 0.5, 0.05, 0.3),
    _method("hides", 0.5, 0.15, 1.0),
    _method("trap", 0.5, 0.05, 0.4),
    _method("sort", 0.3, 0.40, 4.0),
    _method("sieve", 0.3, 0.65, 4.0),
    _method("marks", 0.3, 0.0, 4.0),
    _method("passes", 0.3, 0.65, 4.0),
    _method("weight", 0.5, 0.40, 4.0),
    _method("guess", 0.5, 0.15, 0.5),
    _method("words", 0.5, 0.15, 0.5),
    _method("unsaid", 0.5, 0.15, 0.5),
    Method("eaten", 1.0, 1.0, 1.0, 0.0, 0.15, 4.0),
)
"""Those a keeper has; the last stands for a number worked out from what is eaten, which has its own error and no
share."""
METHOD_INDEX: dict[str, int] = {method.key: index for index, method in enumerate(METHODS)}
EATEN = METHOD_INDEX["eaten"]


@dataclass(frozen=True, eq=False)
class Counts:
    """Counts as they were written, one an element.

    Parameters
    ----------
    bin, day
        (n,) index of the bin and day number. A count stands for the evening, after the moves of its day; give a count
        made before a split or sale with the day before.
    value
        (n,) animals seen; NaN when only bounds are known.
    low, high
        (n,) between which the number seen lay: ``value`` twice when exact, 100 and inf for ``100+``, 24 and 100 for
        dozens. With a value and two finite bounds, they are its 80 % range.
    method
        (n,) index into `METHODS`.
    """

    bin: Ints
    day: Ints
    value: Floats
    low: Floats
    high: Floats
    method: Ints

    def only(self, at: Ints) -> Counts:
        """The counts at these places."""
        return Counts(self.bin[at], self.day[at], self.value[at], self.low[at], self.high[at], self.method[at])

    def joined(self, more: Counts) -> Counts:
        """These and more of them after."""
        names = ("bin", "day", "value", "low", "high", "method")
        return Counts(*(np.concatenate([getattr(self, name), getattr(more, name)]) for name in names))

    def usable(self) -> tuple[Counts, Ints]:
        """The counts that say something, and their places: not NaN throughout, negative, or bounds that hold all."""
        low = np.where(np.isnan(self.low), np.where(np.isnan(self.value), 0.0, self.value), self.low)
        high = np.where(np.isnan(self.high), np.where(np.isnan(self.value), np.inf, self.value), self.high)
        says = np.isfinite(self.value) | (np.isnan(self.value) & ((low > 0) | np.isfinite(high)))
        keep = np.flatnonzero(says & (low >= 0) & (high >= low) & ~(self.value < 0) & ~np.isinf(low))
        whole = Counts(self.bin, self.day, self.value, low, high, self.method)
        return whole.only(keep), keep


@dataclass(frozen=True, eq=False)
class Seen:
    """Counts as observations of the log number: ``log seen - log share = x + hold * b + noise``.

    ``kind`` is 0 for a value (``value``), 1 for bounds (``low``, ``high``), 2 for a count of none. ``b`` is how easily
    the animals of this bin are seen, a standard normal that all ways of counting share. ``share`` and ``clumping`` are
    for counts of none.
    """

    bin: Ints
    day: Ints
    kind: Ints
    value: Floats
    low: Floats
    high: Floats
    variance: Floats
    hold: Floats
    share: Floats
    clumping: Floats


def as_seen(counts: Counts) -> Seen:
    """Observations of the log number from usable counts (call `Counts.usable` first).

    The spread of a value is that of its way of counting from day to day, that of counting a share of few animals,
    ``(1 - share) / seen``, and that of an approximate number. 100+ is taken to mean no more than a few times as many:
    nobody writes it of thousands.
    """
    table = np.array([(m.share, m.log_sd, m.held, m.clumping) for m in METHODS])[counts.method]
    share, log_sd, held, clumping = table.reshape(-1, 4).T
    none = (counts.value == 0) | (np.isnan(counts.value) & (counts.high < 1))
    bounds = ~none & (np.isnan(counts.value) | np.isinf(counts.high) | (counts.low <= 0))
    middle = np.where(none | bounds, 1.0, counts.value)
    bounded = bounds | none
    low = np.where(none, 0.0, counts.low)
    # none seen is less than one, and a bound of a whole number reaches half way to the next
    most = np.where(np.isinf(counts.high), counts.low * DEFAULTS["numbers.plus"].value, counts.high)
    high = np.where(none, 1.0, np.maximum(most, 1.0) + 0.5)
    about = np.where(bounded, 0.0, np.log(np.where(bounded, 1.0, counts.high / np.maximum(counts.low, 1e-9))))
    lowest = np.where(bounds, np.maximum(low, 1.0), middle)
    thin = np.maximum(1 - share, 0.0) / np.maximum(np.where(none, 1.0, lowest), 1.0)
    with np.errstate(divide="ignore"):
        log_low = np.where(low > 0, np.log(np.maximum(low - 0.5, 0.5)), -np.inf)
    return Seen(
        bin=counts.bin,
        day=counts.day,
        kind=np.where(none, 2, np.where(bounds, 1, 0)).astype(np.int64),
        value=np.log(middle) - np.log(share),
        low=log_low - np.log(share),
        high=np.log(high) - np.log(share),
        variance=log_sd**2 * (1 - held) + thin + (about / (2 * EIGHTY)) ** 2 + np.where(none, 1 / clumping, 0.0),
        hold=log_sd * np.sqrt(held),
        share=share,
        clumping=clumping,
    )
