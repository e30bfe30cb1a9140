"""Animals that went from one bin to another: each move once, whether it is written in one of its bins or in both."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from workbook_tools.intake.values import Number
from workbook_tools.ledger.moved import animals, moved_by
from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.ledger.series.noted import day_of
from workbook_tools.problems import CellRef

SAME_MOVE = 3
"""Days between two notes of one move, one in each of its two bins."""
MISCOUNT = 0.1
"""How far the numbers of one move, written on one day in both of its bins, may differ: one animal, or such a part."""
UNSAID, ELSEWHERE = -2, -1
"""Where animals came from or went to: not said; or somewhere that is no bin."""
HALF = 0.5


@dataclass(frozen=True, slots=True)
class Transfer:
    """Animals that went from one bin to another on a day.

    ``source`` and ``target`` are places of bins, or below 0: not said, or no bin. ``number`` is None where none is
    written; then ``share`` is the part of the source's animals. ``other`` is the row of the bin they came to, where the
    move is written on both sides and ``where`` is the row of the bin they left.
    """

    source: int
    target: int
    day: int
    number: Number | None
    share: float
    where: CellRef
    other: CellRef | None = None


@dataclass(frozen=True, slots=True)
class _Part:
    """What one row says of one source and one target; ``among`` how many such parts its number was shared out to."""

    source: int
    target: int
    first: int
    last: int
    day: int
    number: Number | None
    share: float
    where: CellRef
    row: int
    among: int
    coming: bool
    other: CellRef | None = None

    @property
    def key(self) -> tuple[float, ...]:
        """The order in which parts are taken, whatever that of the rows."""
        number = self.number.best if self.number else math.inf
        return self.first, self.last, self.source, self.target, number, self.among


def transfers(ledger: Ledger, on: dt.date) -> tuple[Transfer, ...]:
    """Gather every move of animals up to a day, by day.

    Rows on the same side are moves of their own, however alike. A row of the bin that animals left and one of the bin
    they came to, within three days of one another, are one move seen from both sides if their numbers agree, and if
    each names the other bin or says nothing of it. Numbers agree if they can be the same, if either isn't written, if
    several rows of one side add up to one of the other, or if they were written on one day and differ by no more than
    a miscount. A number of several bins is shared out evenly, but for what rows of the other side tell of its parts.
    """
    parts = _one_a_row(sorted(_parts(ledger, on), key=lambda part: part.key))
    pairs = _Pairs([p for p in parts if not p.coming], [p for p in parts if p.coming])
    for agree in (_exactly, _told_apart, _perhaps):
        pairs.match(agree)
        if agree is not _told_apart:
            pairs.match(agree, half=True)
    pairs.add_up()
    pairs.match(_nearly)
    found = [
        Transfer(p.source, p.target, p.day, p.number, p.share, p.where, p.other)
        for p in _without_told([*pairs.made, *pairs.outs.values(), *pairs.ins.values()])
        if p.number is not None or math.isfinite(p.share)
    ]
    return tuple(sorted(found, key=lambda t: (t.day, t.source, t.target, t.where)))


def _parts(ledger: Ledger, on: dt.date) -> Iterator[_Part]:
    places = {name: place for place, name in enumerate(ledger.bins)}
    for row, entry in enumerate(ledger.entries):
        found = moved_by(entry, places)
        if entry.when is None or entry.when.first > on or not (found.sources or found.targets):
            continue
        number = animals(entry)[1]
        if number is not None and (not math.isfinite(number.best) or number.best < 0):
            number = None
        if number is not None and number.best == 0:
            continue
        sources = [places[name] for name in found.sources] or [_untold(entry, "from_bin")]
        targets = [places[name] for name in found.targets] or [_untold(entry, "to_bin")]
        if (entry.act == "move_up" and targets[0] < 0) or (entry.act == "start" and sources[0] < 0):
            continue
        among = len(sources) * len(targets)
        for source in sources:
            for target in targets:
                yield _Part(
                    source,
                    target,
                    entry.when.first.toordinal(),
                    min(entry.when.last, on).toordinal(),
                    day_of(entry.when, on),
                    times(number, 1 / among) if number else None,
                    _share(entry.act, len(targets), targets[0] >= 0) if number is None else math.nan,
                    entry.where,
                    row,
                    among,
                    found.coming,
                )


def _one_a_row(parts: Iterable[_Part]) -> list[_Part]:
    """Leave out what one row says a second time without a number, by two words for one move."""
    found = list(parts)
    numbered = {(p.where, p.source, p.target) for p in found if p.number is not None}
    return [p for p in found if p.number is not None or (p.where, p.source, p.target) not in numbered]


def _untold(entry: Entry, key: str) -> int:
    return ELSEWHERE if entry.text(key).strip() else UNSAID


def _share(act: str, targets: int, known: bool) -> float:
    """The part that goes to each target where no number is written; NaN where that can't be said."""
    if act == "move_up":
        return 1 / targets
    if act == "split":
        return 1 / (targets + 1) if known else HALF
    return math.nan


def times(number: Number, part: float) -> Number:
    """A part of a number."""
    return Number(number.best * part, number.low * part, number.high * part)


Agree = Callable[[_Part, _Part], bool]


def _exactly(out: _Part, into: _Part) -> bool:
    """The same number."""
    return out.number is not None and into.number is not None and math.isclose(out.number.best, into.number.best)


def _told_apart(out: _Part, into: _Part) -> bool:
    """A part of a number that was shared out evenly, and what the other side says of it."""
    return out.number is not None and into.number is not None and (out.among > 1) != (into.among > 1)


def _perhaps(out: _Part, into: _Part) -> bool:
    """Numbers that may be the same, or one that isn't written."""
    one, other = out.number, into.number
    return one is None or other is None or (one.low <= other.high and other.low <= one.high)


def _nearly(out: _Part, into: _Part) -> bool:
    """Numbers of one day that differ by no more than a miscount."""
    one, other = out.number, into.number
    if one is None or other is None or not _near(out, into, 0):
        return False
    return abs(one.best - other.best) <= max(1.0, MISCOUNT * max(one.best, other.best))


def _near(one: _Part, other: _Part, days: int) -> bool:
    return max(one.first - other.last, other.first - one.last) <= days


def _meet(out: _Part, into: _Part) -> bool:
    """Whether two rows of the two sides may be one move, as far as bins and days go."""
    same_source, same_target = out.source == into.source, out.target == into.target
    named = same_source if out.target == UNSAID else same_target and (same_source or into.source == UNSAID)
    return named and _near(out, into, SAME_MOVE)


class _Pairs:
    """Rows of both sides by their place in order, those that may be one move beside each, and the moves made of them.

    The earliest meet first.
    """

    def __init__(self, outs: list[_Part], ins: list[_Part]) -> None:
        self.outs, self.ins = dict(enumerate(outs)), dict(enumerate(ins))
        self.made: list[_Part] = []
        near: dict[int, list[int]] = {}
        for place, into in self.ins.items():
            for bin in {into.source, into.target}:
                near.setdefault(bin, []).append(place)
        self._beside = {
            place: [i for i in sorted({*near.get(out.source, ()), *near.get(out.target, ())}) if _meet(out, ins[i])]
            for place, out in self.outs.items()
        }

    def match(self, agree: Agree, *, half: bool = False) -> None:
        """Make one move of each two rows that agree; ``half``: also where one doesn't say the other bin."""
        for place, out in tuple(self.outs.items()):
            for other in self._beside[place]:
                into = self.ins.get(other)
                named = into is not None and (out.source, out.target) == (into.source, into.target)
                if into is not None and (half or named) and agree(out, into):
                    self.made.append(_one_of(out, into))
                    del self.outs[place], self.ins[other]
                    break

    def add_up(self) -> None:
        """Drop rows that say in one number what several rows of the other side say one by one."""
        above: dict[int, list[int]] = {}
        for place in self.outs:
            for other in self._beside[place]:
                above.setdefault(other, []).append(place)
        _drop_wholes(self.outs, self.ins, self._beside)
        _drop_wholes(self.ins, self.outs, above)


def _drop_wholes(wholes: dict[int, _Part], pieces: dict[int, _Part], beside: Mapping[int, list[int]]) -> None:
    for place, whole in tuple(wholes.items()):
        own = [piece.number for other in beside.get(place, ()) if (piece := pieces.get(other)) and piece.number]
        if whole.number is None or len(own) < 2:
            continue
        total = sum(number.best for number in own)
        if whole.number.low <= total <= whole.number.high or math.isclose(total, whole.number.best):
            del wholes[place]


def _one_of(out: _Part, into: _Part) -> _Part:
    """One move of its two notes: the number that is its own and the sharper one, the day that is known better."""
    better = sorted((out, into), key=lambda p: (p.number is None, p.among > 1, _width(p.number)))[0]
    dated = out if out.last - out.first <= into.last - into.first else into
    among, row = (out.among, out.row) if out.among > 1 else (into.among, into.row)
    told = better.among == 1 and among > 1
    return replace(
        out,
        source=max(out.source, into.source),
        target=max(out.target, into.target),
        day=dated.day,
        number=better.number,
        share=out.share if math.isfinite(out.share) else into.share,
        row=row,
        other=into.where if into.where != out.where else None,
        among=-among if told else among,
    )


def _width(number: Number | None) -> float:
    return number.high - number.low if number else math.inf


def _without_told(parts: Iterable[_Part]) -> list[_Part]:
    """Share out again what is left of a number of several bins once rows of the other side told some of its parts."""
    found = list(parts)
    for row in {p.row for p in found if p.among < 0}:
        own = [p for p in found if p.row == row]
        open_ = [p for p in own if p.among > 1]
        each = open_[0].number if open_ else None
        if each is None:
            continue
        told = sum(p.number.best for p in own if p.among < 0 and p.number)
        left = each.best * open_[0].among - told
        found = [p for p in found if p not in open_]
        found += [replace(p, number=times(each, left / len(open_) / each.best)) for p in open_ if left > 1e-9]
    return found
