"""What was recognised in a workbook: tables, headings and the rows below them (records only)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from typing import Literal

from workbook_tools.fields import Field
from workbook_tools.intake.cells import Area, Cell
from workbook_tools.intake.values import Fact
from workbook_tools.problems import CellRef

Role = Literal["bins", "log", "settings", "words", "unused"]


@dataclass(frozen=True, slots=True)
class Heading:
    """One heading of a table and what it was taken for; ``field`` is None when it isn't used.

    ``score`` is 1 for a heading known word for word, less for a guess.
    """

    cell: Cell
    text: str
    field: Field | None
    unit: str = ""
    score: float = 1.0
    why: str = ""
    other: tuple[Field, Cell] | None = None
    """For a heading not used because its field is filled already: the field, and the heading that fills it."""
    said: bool = False
    """Whether the keeper's own correction says what it is."""


@dataclass(frozen=True)
class Table:
    """One table: where it stands, what it was taken as, its headings by column, its rows."""

    sheet: str
    area: Area
    role: Role
    act: str
    """For a log of one kind of work: the act that every row records."""
    headings: Mapping[int, Heading]
    rows: tuple[int, ...]
    """Row numbers of the body, without blank, title, totals and example rows."""
    passed_over: Mapping[int, str]
    """Body rows that hold something but are no data, with the reason: title, total, example, key."""
    hidden: bool = False
    why: str = ""
    """In words: what made it be taken so."""
    days: Mapping[int, Cell] = dataclass_field(default_factory=dict)
    """Rows that hold nothing but a date, which dates the rows below them that have none."""
    shape: str = ""
    """How the facts lie on the sheet, where they are no plain list; empty for a plain list."""
    passed_cells: Mapping[CellRef, str] = dataclass_field(default_factory=dict)
    """For another shape than a plain list: cells that hold no fact of their own, with the reason."""
    title: str = ""


@dataclass(frozen=True)
class Row:
    """One row of a table turned into facts, by field key. A field may have several facts (two note columns)."""

    where: CellRef
    role: Role
    act: str
    facts: Mapping[str, tuple[Fact, ...]]

    def first(self, field: str) -> Fact | None:
        """The first fact of a field, if there is one."""
        found = self.facts.get(field, ())
        return found[0] if found else None
