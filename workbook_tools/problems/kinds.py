"""What a kind of problem is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from string import Formatter


class Severity(Enum):
    """What a problem did to the reading."""

    STOPS = "nothing could be read"
    DROPS_ROW = "row left out"
    DROPS_CELL = "cell not used"
    KEPT = "used as stated"


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of problem: what is wrong, in a sentence with named gaps, and what to do about it.

    ``many`` is said instead when a column holds many of a kind: it names ``{count}`` and ``{examples}``, each example
    written as in ``example``, which may use the facts and ``{value}``; a few of them, or all where ``every`` is set.
    Kinds without it are told one by one.
    """

    severity: Severity
    says: str
    fix: str
    many: str = ""
    example: str = "'{value}'"
    every: bool = False

    @property
    def gaps(self) -> frozenset[str]:
        """Names of the facts that ``says`` and ``fix`` need."""
        parts = [*Formatter().parse(self.says), *Formatter().parse(self.fix)]
        return frozenset(name for _, name, _, _ in parts if name)
