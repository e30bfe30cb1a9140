"""Every sentence a keeper may be told about their data, and the records that carry them.

A problem is collected, never raised: each stage returns its result and a list of problems. Wording, severity and
remedy stand together in :data:`KINDS`; code elsewhere gives a code, a cell and facts.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import Enum
from string import Formatter


def column_letters(col: int) -> str:
    """Return the letters of a column counted from 1: 1 is A, 27 is AA.

    Raises
    ------
    ValueError
        ``col`` is below 1.
    """
    if col < 1:
        raise ValueError(f"columns count from 1, not {col}")
    letters = ""
    while col:
        col, rest = divmod(col - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


@dataclass(frozen=True, order=True, slots=True)
class CellRef:
    """Where a value stood. Rows and columns count from 1; 0 means the whole row, column or sheet."""

    sheet: str
    row: int = 0
    col: int = 0

    def __str__(self) -> str:
        place = (column_letters(self.col) if self.col else "") + (str(self.row) if self.row else "")
        return "!".join(part for part in (self.sheet, place) if part)


class Severity(Enum):
    """What a problem did to the reading."""

    STOPS = "nothing could be read"
    DROPS_ROW = "row left out"
    DROPS_CELL = "cell not used"
    KEPT = "used as stated"


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of problem: what is wrong, in a sentence with named gaps, and what to do about it."""

    severity: Severity
    says: str
    fix: str

    @property
    def gaps(self) -> frozenset[str]:
        """Names of the facts that ``says`` and ``fix`` need."""
        parts = [*Formatter().parse(self.says), *Formatter().parse(self.fix)]
        return frozenset(name for _, name, _, _ in parts if name)


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in the keeper's data that was left out, guessed or worth a look.

    Raises
    ------
    KeyError
        ``code`` is not in :data:`KINDS`.
    ValueError
        ``facts`` are not exactly those that the kind's sentences name.
    """

    code: str
    where: CellRef
    facts: Mapping[str, object] = field(default_factory=dict)
    value: str = ""
    """What was read there, as the keeper wrote it."""
    also: tuple[CellRef, ...] = ()
    """Further cells with the same problem."""

    def __post_init__(self) -> None:
        gaps = KINDS[self.code].gaps
        if gaps != frozenset(self.facts):
            raise ValueError(f"{self.code} takes the facts {sorted(gaps)}, not {sorted(self.facts)}")

    @property
    def severity(self) -> Severity:
        """What this problem did to the reading."""
        return KINDS[self.code].severity

    @property
    def says(self) -> str:
        """What is wrong, as a sentence."""
        return KINDS[self.code].says.format(**self.facts)

    @property
    def fix(self) -> str:
        """What to write instead, as a sentence."""
        return KINDS[self.code].fix.format(**self.facts)

    @property
    def cells(self) -> tuple[CellRef, ...]:
        """Every cell this problem names, the first first."""
        return (self.where, *self.also)

    def __str__(self) -> str:
        place = f"{self.where}: " if str(self.where) else ""
        return f"{place}{self.says} {self.fix}".rstrip()


def in_cell_order(problems: Iterable[Problem]) -> list[Problem]:
    """Sort problems by the cell they name, then by code."""
    return sorted(problems, key=lambda p: (p.where, p.code, p.value))


class CannotRead(Exception):
    """Nothing of the file could be read; carries the one problem that says why."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


KINDS: dict[str, Kind] = {
    # --- the file -------------------------------------------------------------------------------------------
    "file.missing": Kind(Severity.STOPS, "There is no file or folder {path}.", "Check the name and the folder."),
    # --- sheets and tables ----------------------------------------------------------------------------------
    # --- headings -------------------------------------------------------------------------------------------
    # --- dates ----------------------------------------------------------------------------------------------
    # --- numbers and amounts --------------------------------------------------------------------------------
    # --- words ----------------------------------------------------------------------------------------------
    # --- bins -----------------------------------------------------------------------------------------------
    # --- settings -------------------------------------------------------------------------------------------
    # --- the ledger's checks --------------------------------------------------------------------------------
}
