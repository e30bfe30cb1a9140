"""Turn the rows of a table into facts: ditto marks, dates written once for several rows, missing years."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import replace

from workbook_tools.fields import LOG_FIELDS, Field, Kind
from workbook_tools.intake.act_numbers import is_share
from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.date_choice import say
from workbook_tools.intake.meanings import SAID_DAY, Context, Place, read_cell, when_of
from workbook_tools.intake.movements import settle_movement
from workbook_tools.intake.outcome import only_planned, ticked, told_of_all, undone, unticked
from workbook_tools.intake.sizes import add_sizes
from workbook_tools.intake.tables import Heading, Row, Table
from workbook_tools.intake.values import Fact, When
from workbook_tools.intake.whole_row import act_of_row, acts_named, add_told, moved, not_given
from workbook_tools.problems import CellRef, Problem
from workbook_tools.vocabulary.presence import Presence, presence_of, words_of

DITTO = frozenset(
    {'"', "″", "''", "”", "“", "„", "〃", "ditto", "do.", "same", "as above", "same as above", '" "', "="}
)
WEEK = re.compile(r"\bweek (?:of|from|beginning|commencing|starting)\b", re.IGNORECASE)
SCORE = re.compile(r"^\d{1,2}\s*/\s*10$")
SHARE = next(field for field in LOG_FIELDS if field.key == "share")
ARROWS = re.compile(r"[>→➔➜»]|\bto\b", re.IGNORECASE)
NO_DITTO = frozenset({"note", "plan"})
_LETTERS = 3
NOTHING_KNOWN = frozenset(
    mark for mark in words_of(Presence.UNKNOWN, Presence.EMPTY) if sum(map(str.isalpha, mark)) < _LETTERS
) | {"/", "n/c", "nc", "nil", "none"}
"""Marks that say by themselves that nothing is known; any other word that tells a field nothing is named."""


def read_rows(table: Table, sheet: Sheet, context: Context) -> tuple[list[Row], list[Problem]]:
    """Read every body row of a table; a row keeps its number, each fact its own cell and text."""
    reader = _TableReader(table, sheet, context)
    for row in sorted((*table.rows, *table.days)):
        if row in table.days:
            reader.read_day_alone(row, table.days[row])
        else:
            reader.read(row)
    return reader.rows, reader.problems


def _as_written(problems: list[Problem], cell: Cell) -> list[Problem]:
    """Problems of a cell that stands for something else name what the keeper wrote."""
    if not cell.written:
        return problems
    return [replace(one, value=cell.written) if one.value == cell.text else one for one in problems]


class _TableReader:
    def __init__(self, table: Table, sheet: Sheet, context: Context) -> None:
        self.table, self.sheet, self.context = table, sheet, context
        self.columns: Mapping[int, tuple[Heading, Field]] = {
            col: (head, head.field) for col, head in table.headings.items() if head.field is not None
        }
        self.when_col = next((col for col, (_, field) in self.columns.items() if field.key == "when"), 0)
        self.did_cols = tuple(col for col, (_, field) in self.columns.items() if field.kind is Kind.ACT)
        self.headings = {field.key: head.text for head, field in reversed(self.columns.values())}
        self.above: dict[int, Cell] = {}
        self.day: Fact | None = None
        self.carried: Fact | None = None
        self.under_day = False
        self.worded = frozenset(col for col in self.columns if self._holds_sights(col))
        self.status_col = self._status_col()
        self.ticks = frozenset(col for col in self.columns if self._holds_ticks(col))
        self.ahead = self._first_day_written()
        self.rows: list[Row] = []
        self.problems: list[Problem] = [
            Problem("headings.ticks", head.cell.ref, {"heading": head.text}, head.text)
            for head in (self.columns[col][0] for col in sorted(self.ticks))
        ]

    def _status_col(self) -> int:
        """The column of statuses, if it is filled often enough that an empty cell says something; else 0."""
        col = next((col for col, (_, field) in self.columns.items() if field.key == "outcome"), 0)
        return col if col and told_of_all(self.sheet.cells.get((row, col)) for row in self.table.rows) else 0

    def _holds_ticks(self, col: int) -> bool:
        head, field = self.columns[col]
        cells = (self.sheet.cells.get((row, col)) for row in self.table.rows)
        return self.table.role == "log" and ticked(field, head.unit, [cell for cell in cells if cell])

    def _holds_sights(self, col: int) -> bool:
        """Whether a column of dates also says in words what was seen ("Soil: 6/10, frassy")."""
        _, field = self.columns[col]
        cells = (self.sheet.cells.get((row, col)) for row in self.table.rows)
        texts = [cell.text for cell in cells if cell] if field.kind is Kind.DATE and field.states else []
        return any(self.context.lexicon.read_state(text, field.states).keys for text in texts)

    def _first_day_written(self) -> tuple[int, dt.date] | None:
        """The first row whose date needs no help, to date the rows before it."""
        for row in sorted((*self.table.rows, *self.table.days)) if self.when_col else ():
            cell = self.table.days.get(row) or self.sheet.cells.get((row, self.when_col))
            if cell is None or not (isinstance(cell.value, dt.date) or sum(part.isdigit() for part in cell.text) >= 6):
                continue
            when = when_of(read_cell(cell, self._place(self.when_col, None), self.context)[0])
            if when and when.exact:
                return row, when.first
        return None

    def _place(self, col: int, near: dt.date | None) -> Place:
        head, field = self.columns[col]
        return Place(field, head.unit, near)

    def _at(self, row: int, col: int) -> CellRef:
        """Where a cell of the table stands in the keeper's sheet."""
        return self.sheet.at(row) if self.sheet.rows_at else CellRef(self.table.sheet, row, col)

    def _near(self, row: int) -> dt.date | None:
        """A date near a row: that of the row above, else the first written out in full."""
        if self.day is not None and isinstance(self.day.value, When):
            return self.day.value.first
        return self.ahead[1] if self.ahead and self.ahead[0] >= row else None

    def read(self, row: int) -> None:
        cells = {col: self.sheet.cells[row, col] for col in self.columns if (row, col) in self.sheet.cells}
        if not cells:
            return
        facts: dict[str, list[Fact]] = {}
        named = {self.columns[col][1].key: cell for col, cell in reversed(cells.items())}
        planned = only_planned((field for _, field in self.columns.values()), named)
        if self.when_col and not planned:
            self._keep(facts, self._read_day(row, cells.get(self.when_col)))
        day = next((fact.value for fact in facts.get("when", ()) if isinstance(fact.value, When)), None)
        if self.table.role != "log":
            for col, cell in cells.items():
                self._keep(facts, self._read_other(col, cell, day.first if day else None))
        else:
            self._read_log(facts, {col: cell for col, cell in cells.items() if col != self.when_col}, named, day)
        act = act_of_row(self.table, facts, named, self.context) if self.table.act else ""
        if self.table.role == "log" and (not_done := self._not_done(row, facts, named, act, planned=planned)):
            self.problems.extend(not_done)
            act = ""
        if planned:
            return
        if act and (nothing := not_given(act, facts, named, self.headings, self.context.lexicon)):
            self.problems.extend(nothing)
            act = ""
        self.rows.append(
            Row(
                self.sheet.at(row),
                self.table.role,
                act,
                {key: tuple(values) for key, values in facts.items()},
            )
        )

    def _read_log(
        self, facts: dict[str, list[Fact]], cells: Mapping[int, Cell], named: Mapping[str, Cell], day: When | None
    ) -> None:
        """Read a row of a log, its words first: they say how to take the rest."""
        near = day.first if day else None
        before = len(self.problems)
        words = {col: self._read_other(col, cells[col], near) for col in self.did_cols if col in cells}
        after = len(self.problems)
        told = [fact for found in words.values() for fact in found if fact.field != "did"]
        soil = "substrate_change" in (self.table.act, *(k for f in words.values() for k in acts_named({"did": f})))
        for col, cell in cells.items():
            if col in words:
                self._keep(facts, [fact for fact in words[col] if fact.field == "did"])
            elif soil and "share" not in named and self.columns[col][1].key == "amount" and is_share(cell.text):
                self._keep(facts, self._read_other(col, cell, near, SHARE))
            else:
                self._keep(facts, self._read_other(col, cell, near))
        told, days = [fact for fact in told if fact.field != SAID_DAY], [f for f in told if f.field == SAID_DAY]
        if days:
            self._take_day(facts, days[0], named)
        if told:
            self.problems.extend(add_told(facts, told, self.headings))
        self.problems.extend(add_sizes(facts, named))
        met = self.problems[before:]
        settle_movement(facts, named, met)
        self.problems[before:] = met
        if "to_bin" in facts or ("bins" in named and ARROWS.search(named["bins"].text)):
            anew = moved(facts, named, self.context)
            if anew is not None:
                self.problems[before:after] = anew

    def _take_day(self, facts: dict[str, list[Fact]], said: Fact, cells: Mapping[str, Cell]) -> None:
        """Date a row by the day that its words name, unless other cells of it tell of work too."""
        if any(field.implies and field.key in facts for field in LOG_FIELDS):
            told = {"day": said.text, "text": cells["did"].text if "did" in cells else said.text}
            self.problems.append(Problem("words.day_of_part", said.cell.ref, told, said.text))
        elif isinstance(said.value, When):
            facts["when"] = [replace(said, field="when")]
            told = {"words": said.text, "day": say(said.value)}
            self.problems.append(Problem("words.day_said", said.cell.ref, told, said.text))

    def _not_done(
        self, row: int, facts: dict[str, list[Fact]], named: Mapping[str, Cell], act: str, *, planned: bool
    ) -> list[Problem]:
        """Take what was done out of a row that says that it wasn't: by its status, none, or a plan without a day."""
        if planned:
            return unticked(facts, act, self._at(row, self.when_col), self.headings["when"])
        if self.status_col and self.table.role == "log" and "outcome" not in named:
            return unticked(facts, act, self._at(row, self.status_col), self.headings["outcome"])
        return undone(facts)

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
            own = cell or Cell(self._at(row, self.when_col), "", "")
            if not ditto and not self.under_day:
                self.problems.append(Problem("dates.carried", own.ref, {}, ""))
            return [replace(self.carried, cell=own, guessed=True)]
        facts, problems = read_cell(cell, self._place(self.when_col, self._near(row)), self.context)
        self.problems.extend(_as_written(problems or self._told_nothing(facts, cell, self.when_col), cell))
        self.carried, self.under_day = (facts[0] if facts else None), False
        self.day = self.carried or self.day
        return facts

    def read_day_alone(self, row: int, cell: Cell) -> None:
        """A date alone in its row dates the rows below it; 'week of' makes it any day of seven."""
        self.under_day = True
        facts, problems = read_cell(cell, self._place(self.when_col, self._near(row)), self.context)
        when = when_of(facts)
        if when is None:
            self.problems.extend(problems)
            self.carried = None
            return
        if WEEK.search(cell.text) and when.exact:
            last = when.first + dt.timedelta(days=6)
            when = When(when.first, min(last, max(when.first, self.context.style.on)), guessed=True)
        self.problems.extend(problem for problem in problems if problem.code != "dates.more_words")
        written = self.sheet.cells[cell.ref.row, cell.ref.col].text
        self.problems.append(Problem("dates.alone", cell.ref, {"day": say(when)}, written))
        self.carried = self.day = replace(facts[0], value=when)

    def _read_other(self, col: int, cell: Cell, day: dt.date | None, other: Field | None = None) -> list[Fact]:
        """Read a cell by the field of its column, or by another."""
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
        if col in self.ticks and presence_of(source.text) is not Presence.EMPTY:
            done = source.text.strip() == "1" or presence_of(source.text) is Presence.DONE
            return [Fact(field.key, done, cell)]
        if col in self.worded and SCORE.match(source.text):
            self.problems.append(Problem("dates.score_or_day", cell.ref, {}, cell.text))
            return []
        if field.key == "look_again" and day is not None:
            day += dt.timedelta(days=1)
        place = Place(other, "", day) if other else self._place(col, day)
        facts, problems = read_cell(source, place, self.context)
        self.problems.extend(_as_written(problems or self._told_nothing(facts, source, col), source))
        if source is not cell:
            facts = [replace(fact, cell=Cell(cell.ref, source.value, f"{cell.text} ({source.text})")) for fact in facts]
        return facts

    def _told_nothing(self, facts: list[Fact], cell: Cell, col: int) -> list[Problem]:
        """Name a word that stands for no value, such as "weekly" where a date is looked for."""
        if facts or cell.text.strip().casefold() in NOTHING_KNOWN:
            return []
        return [Problem("values.nothing_told", cell.ref, {"field": self.columns[col][1].label}, cell.text)]
