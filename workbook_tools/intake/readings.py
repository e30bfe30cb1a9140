"""What reading one value gives beside the value: whether something was guessed, and the problem if there is one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from workbook_tools.intake.cells import Cell
from workbook_tools.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """The part that all readings share.

    Attributes
    ----------
    code, facts
        A key of ``problems.KINDS`` and what its sentences need; empty when there is no problem. A problem does not mean
        that there is no value: its severity says whether the value is used.
    guessed : bool
        Something that isn't written was filled in.
    absent : bool
        The text says that there is nothing to read (``n/k``, ``-``, ``?``), which is no problem.
    rest : str
        Words that belong to the value but are no part of it ("under bark", "in Jan"), for another reader.
    """

    code: str = ""
    facts: Mapping[str, object] = field(default_factory=dict)
    guessed: bool = False
    absent: bool = False
    rest: str = ""

    def problem(self, cell: Cell) -> Problem | None:
        """Return the problem, placed at its cell, or None."""
        return Problem(self.code, cell.ref, self.facts, cell.text) if self.code else None
