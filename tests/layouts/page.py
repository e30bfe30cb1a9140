"""A sheet while a keeper writes it: cells, and where each fact of the known log stands."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from layouts.known import Fact
from workbook_tools.intake.cells import Area, Raw, Sheet
from workbook_tools.intake.placing import Placing
from workbook_tools.problems import CellRef

Place = tuple[int, int]


@dataclass
class Page:
    """One sheet. ``told`` lists each fact with the cells that tell it, and those that tell whose it is and of when.

    Of a fact whose bin and day were read, only the former can excuse that it was not.
    """

    name: str
    cells: dict[Place, Raw] = field(default_factory=dict)
    merged: list[Area] = field(default_factory=list)
    told: list[tuple[Fact, frozenset[Place], frozenset[Place]]] = field(default_factory=list)

    def put(self, row: int, col: int, value: Raw) -> Place:
        """Write a cell."""
        if value != "":
            assert (row, col) not in self.cells, (self.name, row, col)
            self.cells[row, col] = value
        return row, col

    def tell(self, fact: Fact, places: Iterable[Place], finders: Iterable[Place] = ()) -> None:
        """Remember where a fact stands, and where its bin and its day do."""
        self.told.append((fact, frozenset(places), frozenset(finders)))

    def sheet(self) -> Sheet:
        """As the readers of files make it."""
        placing = Placing(self.name, 10_000)
        for (row, col), value in sorted(self.cells.items()):
            placing.put(row, col, value)
        return placing.sheet(self.merged)[0]

    def where(self) -> list[tuple[Fact, frozenset[CellRef], frozenset[CellRef]]]:
        """Every fact with the references under which a problem may name it: cells, their rows, their columns."""
        return [(fact, self._every(at), self._every(finders)) for fact, at, finders in self.told]

    def _every(self, places: Iterable[Place]) -> frozenset[CellRef]:
        return frozenset(ref for place in places for ref in self._refs(*place))

    def _refs(self, row: int, col: int) -> tuple[CellRef, CellRef, CellRef]:
        return CellRef(self.name, row, col), CellRef(self.name, row), CellRef(self.name, 0, col)
