"""Two bins in one cell of a log, from one to the other, and the words for moving animals between them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from workbook_tools.intake.values import Fact

_ARROW = re.compile(r"\s*([^<>→➔➜»=]*[^\s<>→➔➜»=-])\s*(?:-*>+|=+>|→|➔|➜|»)\s*([^<>→➔➜»=]+?)\s*")
_TO = re.compile(r"\s*(?:from\s+)?(.*\S)\s+(?:to|into)\s+(\S.*?)\s*", re.IGNORECASE)
MOVED = re.compile(
    r"\b(?:moved?|moving|transfer(?:red|ring)?|shifted|rehomed)\b(?:\s+animals\b)?"
    r"|\b(?:bin|box|tub)\s*(?:to|-+>|→|>)\s*(?:bin|box|tub)\b|\bbetween (?:bins|boxes|tubs)\b",
    re.IGNORECASE,
)
"""Keepers' words for moving animals, which mean so only in a row that says from where to where."""
MOVES = frozenset({"split", "move_up", "animals_out", "animals_in", "move_place", "rename"})
"""Acts by which animals, or a bin's name, go from one to another."""


def from_and_to(text: str, acts: Iterable[str], did: str) -> tuple[str, str] | None:
    """The two bins of a cell such as 'X1 -> X4'.

    'A1 to A3' is a range of bins, unless the row tells of moving or splitting.
    """
    if found := _ARROW.fullmatch(text):
        return found[1], found[2]
    if (MOVES.intersection(acts) or MOVED.search(did)) and (found := _TO.fullmatch(text)):
        return found[1], found[2]
    return None


def parted(fact: Fact, ends: tuple[str, str], filled: Iterable[str]) -> list[Fact]:
    """The facts of such a cell: the entry belongs to the first bin; columns of their own for from and to win."""
    first, second = ends
    facts = [replace(fact, value=first, guessed=True)]
    ours = (("from_bin", first), ("to_bin", second))
    return facts + [replace(fact, field=key, value=name, guessed=True) for key, name in ours if key not in filled]
