"""A part of a phrase with what it was read as."""

from __future__ import annotations

from dataclasses import dataclass

from workbook_tools.intake.phrases.chunks import AMOUNTS, Chunk

BOOKED_FROM = 0.7
"""How sure an act must be to be booked."""
_NO_ANIMALS = frozenset({"bin", "larger bin", "equipment", "duration", "supply", "leaf", "person"})
"""Kinds behind a number that make it a number of something else than animals."""


@dataclass(frozen=True, slots=True)
class Clause:
    """A part of a phrase with what it was read as.

    Attributes
    ----------
    chunks : tuple of Chunk
        In their order, without what parts clauses.
    act : str
        The act done, or empty.
    sure : float
        How sure the act is, from 0 to 1.
    mood : str
        Why nothing was done ("planned", "denied"), or empty.
    by_word : bool
        Whether the act rests on a word alone that is an act by itself.
    """

    chunks: tuple[Chunk, ...]
    act: str = ""
    sure: float = 0.0
    mood: str = ""
    by_word: bool = False

    @property
    def booked(self) -> bool:
        """Whether the act is sure enough to be booked."""
        return bool(self.act) and self.sure >= BOOKED_FROM

    @property
    def at(self) -> int:
        """Where it begins in the phrase."""
        return min(one.at for one in self.chunks)

    @property
    def end(self) -> int:
        """Where it ends."""
        return max(one.end for one in self.chunks)

    @property
    def amounts(self) -> tuple[Chunk, ...]:
        """Its quantities."""
        behind = (*self.chunks[1:], Chunk("link", ""))
        return tuple(
            one
            for one, after in zip(self.chunks, behind, strict=True)
            if one.kind in AMOUNTS | {"degrees"} and not (one.kind == "number" and after.kind in _NO_ANIMALS)
        )

    @property
    def unknown(self) -> tuple[str, ...]:
        """Its words that aren't known."""
        return tuple(one.text for one in self.chunks if one.kind == "unknown")
