"""From which bins to which an entry moves animals, and how many: read the same way by all that ask."""

from __future__ import annotations

from collections.abc import Container
from dataclasses import dataclass

from workbook_tools.intake.values import Amount, Number
from workbook_tools.ledger.records import Entry

OUT = frozenset({"animals_out", "split", "move_up"})
"""Acts by which animals leave the bin they are written for, unless the row says that they came from another."""
INTO = frozenset({"animals_in", "start"})
"""Acts by which animals come into the bin they are written for."""
MOVES = OUT | INTO
FOUNDING = 10
"""Days about a bin's start within which animals that come found it, and mix with none."""


@dataclass(frozen=True, slots=True)
class Moved:
    """Bins that animals left, bins they came to, and whether it is written as coming in: on the side of the latter."""

    sources: tuple[str, ...] = ()
    targets: tuple[str, ...] = ()
    coming: bool = False


def moved_by(entry: Entry, bins: Container[str]) -> Moved:
    """Tell where an entry's animals came from and went to.

    The bin of the row is the one that animals left or came into, by what was done; From and To win where they name
    bins. A bin that was 'split' *from* another is the new one, not the one it came from.

    Parameters
    ----------
    entry : Entry
        One that isn't about moves has no ends.
    bins : container of str
        The bins of the ledger: any other name is a person or a place, and no end.
    """
    if entry.act not in MOVES:
        return Moved()
    own = tuple(name for name in entry.bins if name in bins)
    source, target = _named(entry, "from_bin", bins), _named(entry, "to_bin", bins)
    if entry.act in INTO:
        other = _but(target, own)
        return Moved(_but(source or (own if other else ()), other or own), other or own, True)
    if source:
        targets = _but(target or own, source)
        return Moved(source, targets, bool(targets) and set(targets) <= set(own) and not set(source) & set(own))
    sources = _but(own, target)
    return Moved(sources or own, _but(target, sources or own))


def _but(names: tuple[str, ...], others: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name for name in names if name not in others)


def _named(entry: Entry, key: str, bins: Container[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name in entry.text(key).split(", ") if name in bins))


def animals(entry: Entry) -> tuple[str, Number | None]:
    """The number of animals that an entry is about and the field it stands in; an amount only if it counts things."""
    for field in ("dead", "number", "amount") if entry.act == "dead" else ("number", "amount"):
        fact = entry.facts.get(field)
        if fact is not None and (not isinstance(fact.value, Amount) or fact.value.unit in ("", "count")):
            return field, entry.number(field)
    return "", None
