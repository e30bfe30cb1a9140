"""What the words of a cell were taken for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number in a text of acts with its unit, as written; ``last`` says that nothing follows it in its clause."""

    text: str
    unit: str = ""
    last: bool = False


@dataclass(frozen=True, slots=True)
class Told:
    """A number that stands with acts, and the thing it is of, where one is named: 'hazel' of 'hazel 10 g'."""

    acts: tuple[str, ...]
    quantity: Quantity
    thing: str = ""


@dataclass(frozen=True, slots=True)
class WordsFound:
    """What a cell's words were taken for: our keys in order, words not known, and words taken with a slip mended."""

    keys: tuple[str, ...] = ()
    states: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """States named inside a text of acts, by table of states."""
    unknown: tuple[str, ...] = ()
    guessed: tuple[tuple[str, str], ...] = ()
    """Pairs of the keeper's word and the word it was taken for."""
    undone: tuple[str, ...] = ()
    """Parts that say that something was not done, is wanted or asked."""
    numbers: tuple[Told, ...] = ()
    """Numbers that stand with acts."""
    unplaced: tuple[Quantity, ...] = ()
    """Numbers that stand with no act."""
    loose: tuple[tuple[str, str], ...] = ()
    """Pairs of a wording and an act that is likely but not sure enough to be taken: kept as notes."""
    bins: tuple[tuple[str, str], ...] = ()
    """Fields of bins that animals went to or came from, each with what names the bin."""
    day: str = ""
    """The words for the one day on which all of it was done, where they name another than the row's."""
    days: tuple[str, ...] = ()
    """Words for days that hold for a part of it only, or of which there are several."""
