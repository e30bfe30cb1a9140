"""What a whole cell says of something being there or done: done, none, not done, not yet, asked, not known, nothing."""

from __future__ import annotations

from enum import StrEnum
from functools import cache

from workbook_tools.vocabulary.lists import kinds_in

NOT = frozenset(
    "no not none nor without skip skips skipped skipping forgot forgotten forget never non dont didnt wasnt wont cant "
    "couldnt hasnt havent isnt cannot unable missed refused nicht kein keine keinen ohne pas sans geen niet".split()
)
"""Words that turn what stands beside them into something not done."""


class Presence(StrEnum):
    """What a cell says by a word or mark alone."""

    DONE = "done"
    NONE = "none"
    NOT_DONE = "not done"
    NOT_YET = "not yet"
    ASKED = "asked"
    UNKNOWN = "unknown"
    EMPTY = "empty"


UNDONE = frozenset({Presence.NONE, Presence.NOT_DONE, Presence.NOT_YET, Presence.ASKED})
"""What says that nothing was done, whatever the column."""
SILENT = frozenset({Presence.UNKNOWN, Presence.EMPTY})
"""What says nothing."""


@cache
def _table() -> dict[str, Presence]:
    return {"": Presence.EMPTY} | {word: Presence(kind) for word, kind in kinds_in("presence").items()}


def words_of(*kinds: Presence) -> frozenset[str]:
    """All words and marks of some kinds, in lower case."""
    return frozenset(word for word, kind in _table().items() if kind in kinds)


def presence_of(text: str) -> Presence | None:
    """What the text of a cell says by itself; None where it says something else, or more.

    A question mark behind a word asks: ``fed?`` isn't read here, but ``done?`` and ``yes?`` are.
    """
    low = " ".join(text.replace("’", "'").casefold().split())
    found = _table().get(low)
    if found is None and low.endswith("?") and low.rstrip("? ") in _table():
        return Presence.ASKED
    return found if found is not None else _table().get(low.strip("!*. "))
