"""Turn the rows of a table into facts: ditto marks, dates written once for several rows, missing years."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import replace

from workbook_tools.fields import Field, Kind
from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.meanings import Context, Place, read_cell, when_of
from workbook_tools.intake.tables import Heading, Row, Table
from workbook_tools.intake.values import Fact, When
from workbook_tools.problems import CellRef, Problem

DITTO = frozenset({'"', "″", "''", "”", "“", "„", "〃", "ditto", "do.", "same", "as above", "same as above", '" "'})
SCORE = re.compile(r"^\d{1,2}\s*/\s*10$")
NO_DITTO = frozenset({"note", "plan"})
NOTHING_KNOWN = frozenset(
    {"-", "–", "—", "?", "??", "???", ".", "/", "n/a", "na", "n/k", "nk", "n/c", "nc", "nil", "none"}
)
"""Marks that say by themselves that nothing is known; any other word that tells a field nothing is named."""


def read_rows(table: Table, sheet: Sheet, context: Context) -> tuple[list[Row], list[Problem]]:
    """Read every body row of a table; a row keeps its number, each fact its own cell and text."""
    reader = _TableReader(table, sheet, context)
    for row in table.rows:
        reader.read(row)
    return reader.rows, reader.problems


class _TableReader:
    def __init__(self, table: Table, sheet: Sheet, context: Context) -> None:
        self.table, self.sheet, self.context = table, sheet, context
        self.columns: Mapping[int, tuple[Heading, Field]] = {
            col: (head, head.field) for col, head in table.headings.items() if head.field is not None
        }
        self.when_col = next((col for col, (_, field) in self.columns.items() if field.key == "when"), 0)
        self.above: dict[int, Cell] = {}
        self.day: Fact | None = None
        self.carried: Fact | None = None
        self.worded = frozenset(col for col in self.columns if self._holds_sights(col))
        self.ahead = self._days_written()
        self.rows: list[Row] = []
        self.problems: list[Problem] = []

    def _holds_sights(self, col: int) -> bool:
        """Whether a column of dates also says in words what was seen ("Soil: 6/10, frassy")."""
        _, field = self.columns[col]
        cells = (self.sheet.cells.get((row, col)) for row in self.table.rows)
        texts = [cell.text for cell in cells if cell] if field.kind is Kind.DATE and field.states else []
        return any(self.context.lexicon.read_state(text, field.states).keys for text in texts)

    def _days_written(self) -> list[tuple[int, dt.date]]:
        """Rows whose date needs no help, to date the rows before the first of them."""
        found = []
        for row in self.table.rows if self.when_col else ():
            cell = self.sheet.cells.get((row, self.when_col))
            if cell is None:
                continue
            full = isinstance(cell.value, dt.date) or sum(part.isdigit() for part in cell.text) >= 6
            when = when_of(read_cell(cell, self._place(self.when_col, None), self.context)[0]) if full else None
            if when and when.exact:
                found.append((row, when.first))
        return found

    def _place(self, col: int, near: dt.date | None) -> Place:
        head, field = self.columns[col]
        return Place(field, head.unit, near)

    def _near(self, row: int) -> dt.date | None:
        """A date near a row: that of the row above, else the first written out in full."""
        if self.day is not None and isinstance(self.day.value, When):
            return self.day.value.first
        return next((day for ahead, day in self.ahead if ahead >= row), None)

    def read(self, row: int) -> None:
        cells = {col: self.sheet.cells[row, col] for col in self.columns if (row, col) in self.sheet.cells}
        if not cells:
            return
        facts: dict[str, list[Fact]] = {}
        if self.when_col:
            self._keep(facts, self._read_day(row, cells.get(self.when_col)))
        day = next((fact.value for fact in facts.get("when", ()) if isinstance(fact.value, When)), None)
        for col, cell in cells.items():
            if col != self.when_col:
                self._keep(facts, self._read_other(col, cell, day.first if day else None))
        self.rows.append(
            Row(
                CellRef(self.table.sheet, row),
                self.table.role,
                self.table.act,
                {key: tuple(values) for key, values in facts.items()},
            )
        )

    @staticmethod
    def _keep(facts: dict[str, list[Fact]], found: list[Fact]) -> None:
        for fact in found:
            facts.setdefault(fact.field, []).append(fact)

    def _read_day(self, row: int, cell: Cell | None) -> list[Fact]:
        """The date of a log row; an empty or ditto cell takes that of the row above, and says so."""
        ditto = cell is not None and cell.text.strip().casefold() in DITTO
        if cell is None or ditto:
            if self.carried is None:
                if ditto and cell is not None:
                    self.problems.append(Problem("values.ditto_alone", cell.ref, {}, cell.text))
                return []
            own = cell or Cell(CellRef(self.table.sheet, row, self.when_col), "", "")
            if not ditto:
                self.problems.append(Problem("dates.carried", own.ref, {}, ""))
            return [replace(self.carried, cell=own, guessed=True)]
        facts, problems = read_cell(cell, self._place(self.when_col, self._near(row)), self.context)
        self.problems.extend(problems or self._told_nothing(facts, cell, self.when_col))
        self.carried = facts[0] if facts else None
        self.day = self.carried or self.day
        return facts

    def _read_other(self, col: int, cell: Cell, day: dt.date | None) -> list[Fact]:
        _, field = self.columns[col]
        source = cell
        if cell.text.strip().casefold() in DITTO and field.key not in NO_DITTO:
            above = self.above.get(col)
            if above is None:
                self.problems.append(Problem("values.ditto_alone", cell.ref, {}, cell.text))
                return []
            source = Cell(cell.ref, above.value, above.text)
        else:
            self.above[col] = cell
        if col in self.worded and SCORE.match(source.text):
            self.problems.append(Problem("dates.score_or_day", cell.ref, {}, cell.text))
            return []
        if field.key == "look_again" and day is not None:
            day += dt.timedelta(days=1)
        facts, problems = read_cell(source, self._place(col, day), self.context)
        self.problems.extend(problems or self._told_nothing(facts, source, col))
        if source is not cell:
            facts = [replace(fact, cell=Cell(cell.ref, source.value, f"{cell.text} ({source.text})")) for fact in facts]
        return facts

    def _told_nothing(self, facts: list[Fact], cell: Cell, col: int) -> list[Problem]:
        """Name a word that stands for no value, such as "weekly" where a date is looked for."""
        if facts or cell.text.strip().casefold() in NOTHING_KNOWN:
            return []
        return [Problem("values.nothing_told", cell.ref, {"field": self.columns[col][1].label}, cell.text)]
