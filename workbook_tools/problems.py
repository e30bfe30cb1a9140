"""Every sentence a keeper may be told about their data, and the records that carry them.

A problem is collected, never raised: each stage returns its result and a list of problems. Wording, severity and
remedy stand together in :data:`KINDS`; code elsewhere gives a code, a cell and facts.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
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


def merged(problems: Iterable[Problem]) -> list[Problem]:
    """Make one problem of those that say the same, the first cell first and the others in ``also``; order kept."""
    first: dict[tuple[str, str, str], Problem] = {}
    cells: dict[tuple[str, str, str], dict[CellRef, None]] = {}
    for problem in problems:
        key = (problem.code, problem.says, problem.value)
        first.setdefault(key, problem)
        cells.setdefault(key, {}).update(dict.fromkeys(problem.cells))
    return [replace(first[key], where=places[0], also=tuple(places[1:])) for key in first if (places := [*cells[key]])]


class CannotRead(Exception):
    """Nothing of the file could be read; carries the one problem that says why."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


KINDS: dict[str, Kind] = {
    # --- the file -------------------------------------------------------------------------------------------
    "file.missing": Kind(Severity.STOPS, "There is no file or folder {path}.", "Check the name and the folder."),
    # --- sheets and tables ----------------------------------------------------------------------------------
    "tables.not_used": Kind(
        Severity.DROPS_ROW,
        "The table in {area} has no column that could be taken for bins or dates, so none of it was used.",
        "Give it a heading such as 'Bin' or 'Date'.",
    ),
    "tables.outside": Kind(
        Severity.DROPS_CELL,
        "{cells} on this sheet stand in no table with headings, so they were not used.",
        "If they matter, put them under headings such as 'Bin' and 'Date'.",
    ),
    "tables.none": Kind(
        Severity.STOPS,
        "No list of bins and no log was found. Looked for a row of headings with 'Bin' or 'Date' beside others; "
        "found {found}.",
        "Put headings such as Date, Bin and Done over the columns, or start from the blank workbook: "
        "frassbook new FILE.xlsx.",
    ),
    "tables.title": Kind(
        Severity.KEPT, "A row with a single text was taken for a title.", "Nothing, if that is right."
    ),
    # --- headings -------------------------------------------------------------------------------------------
    "headings.unknown": Kind(
        Severity.DROPS_CELL,
        "The heading '{heading}' is not known, so the {cells} filled cells below it were not used.",
        "Give the column a heading of the list in docs/columns.md, or leave it if it doesn't matter.",
    ),
    "headings.guessed": Kind(
        Severity.KEPT,
        "The heading '{heading}' was taken for '{field}'.",
        "Nothing, if that is right; otherwise change the heading.",
    ),
    "headings.missing": Kind(
        Severity.DROPS_CELL,
        "This column has no heading, so the {cells} filled cells in it were not used.",
        "Write a heading above it.",
    ),
    # --- dates ----------------------------------------------------------------------------------------------
    # --- numbers and amounts --------------------------------------------------------------------------------
    # --- words ----------------------------------------------------------------------------------------------
    # --- bins -----------------------------------------------------------------------------------------------
    # --- settings -------------------------------------------------------------------------------------------
    "settings.unknown": Kind(
        Severity.DROPS_CELL,
        "'{setting}' is no setting that is known, so it was not used.",
        "The settings are listed in docs/columns.md.",
    ),
    "settings.value": Kind(
        Severity.DROPS_CELL, "This is not a value for '{setting}', so it was not used.", "Write {kind}."
    ),
    "settings.range": Kind(
        Severity.DROPS_CELL,
        "The value for '{setting}' is out of range, so it was not used.",
        "Write a value from {low} to {high} {unit}.",
    ),
    "settings.word_alone": Kind(
        Severity.DROPS_CELL, "The word '{word}' has no meaning beside it.", "Write what it means under 'Means'."
    ),
    "settings.word_unplaced": Kind(
        Severity.DROPS_CELL,
        "The meaning given for the word '{word}' is not known, so the word was not used.",
        "Write one of our own words as its meaning; they are listed in docs/columns.md.",
    ),
    "settings.region": Kind(
        Severity.KEPT,
        "This is not a language and country we know; dates and numbers are shown as in {used}.",
        "Write a language and country such as en-GB, en-US or de-DE.",
    ),
    "settings.for_nothing": Kind(
        Severity.KEPT,
        "'{setting}' is set for '{scope}', which is no bin, species or line in the list of bins.",
        "Write the bin, species or line as it stands in the list of bins.",
    ),
    # --- the ledger's checks --------------------------------------------------------------------------------
}
