"""Words that say that something is absent, denied, not yet done or not known."""

from __future__ import annotations

NOT = frozenset(
    "no not none nor without skip skips skipped skipping forgot forgotten forget never non dont didnt wasnt wont cant "
    "couldnt hasnt havent isnt cannot unable missed refused nicht kein keine keinen ohne pas sans geen niet".split()
)
"""Words that turn what stands beside them into something not done."""
