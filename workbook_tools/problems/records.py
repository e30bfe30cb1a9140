"""Problems: collected by every stage, never raised."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from workbook_tools.problems.about_bins import BINS
from workbook_tools.problems.about_files import FILES
from workbook_tools.problems.about_values import VALUES
from workbook_tools.problems.cells import CellRef
from workbook_tools.problems.kinds import Kind, Severity

KINDS: dict[str, Kind] = {**FILES, **VALUES, **BINS}
MANY = 12
"""More different problems of one kind in one column are told in one sentence."""
EXAMPLES = 3


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
    count: int = 1
    """How many problems of this kind it stands for; ``value`` then holds the first few as examples."""

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
        if self.count > 1:
            return KINDS[self.code].many.format(count=self.count, examples=self.value)
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
    """Make one problem of those that say the same, the first cell first and the others in ``also``; order kept.

    More than :data:`MANY` different ones of a kind in one column become one that stands for all, if the kind has a
    sentence for that.
    """
    first: dict[tuple[object, ...], Problem] = {}
    cells: dict[tuple[object, ...], dict[CellRef, None]] = {}
    for problem in problems:
        key = (problem.code, problem.count, problem.says, problem.value)
        first.setdefault(key, problem)
        cells.setdefault(key, {}).update(dict.fromkeys(problem.cells))
    return _gathered(
        [replace(first[key], where=places[0], also=tuple(places[1:])) for key in first if (places := [*cells[key]])]
    )


def _gathered(problems: list[Problem]) -> list[Problem]:
    columns: dict[tuple[str, str, int], list[Problem]] = {}
    for problem in problems:
        columns.setdefault((problem.code, problem.where.sheet, problem.where.col), []).append(problem)
    found: list[Problem] = []
    for problem in problems:
        same = columns[problem.code, problem.where.sheet, problem.where.col]
        if len(same) <= MANY or not KINDS[problem.code].many:
            found.append(problem)
        elif problem is same[0]:
            kind = KINDS[problem.code]
            shown = same if kind.every else same[:EXAMPLES]
            examples = ", ".join(kind.example.format(**{"value": one.value, **one.facts}) for one in shown)
            also = dict.fromkeys(ref for one in same for ref in one.cells)
            also.pop(problem.where)
            count = sum(one.count for one in same)
            found.append(replace(problem, value=examples, also=tuple(also), count=count))
    return found


class CannotRead(Exception):
    """Nothing of the file could be read; carries the one problem that says why."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem
