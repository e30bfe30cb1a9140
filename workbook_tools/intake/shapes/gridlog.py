"""A grid of dates written out: a row of a log for each cell, day by day, and a row of the list for each bin."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from workbook_tools.fields import ACTS, BIN_FIELDS, LOG_FIELDS
from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.date_words import fold, months
from workbook_tools.intake.headings import plain
from workbook_tools.intake.passed import says_totals
from workbook_tools.intake.shapes.blocks import Block, known_heading
from workbook_tools.intake.shapes.codes import Codes, Said
from workbook_tools.intake.shapes.days import are_weekdays
from workbook_tools.intake.shapes.legend import Legend
from workbook_tools.problems import CellRef, Problem

Rows = Mapping[int, Mapping[int, Cell]]
_LABELS = {field.key: field.label for field in LOG_FIELDS}
_BIN_LABELS = {field.key: field.label for field in BIN_FIELDS}
_OF_THE_ROOM = frozenset({"temperature", "humidity"})
_SUMS = frozenset("total totals sum sums count wk week subtotal times n σ".split())
_LONGEST_NAME = 3
"""Words of a label alone in its row that may still be a bin's name."""


@dataclass
class _Line:
    """One row of the log to be: its day's place, its cells by our field, where it stands."""

    day: int
    at: CellRef
    cells: dict[str, Cell]
    own: tuple[Cell, Cell] | None = None
    """For a row of facts of the day: the keeper's heading and the cell."""


@dataclass
class _Told:
    """Problems of one kind that name many cells."""

    first: Cell
    facts: dict[str, object]
    also: list[CellRef] = field(default_factory=list)


class GridLog:
    """Writes the blocks of one grid out.

    Parameters
    ----------
    name : str
        The sheet's name.
    codes : Codes
        What the codes mean.
    legend : Legend
        The key of the sheet; its cells are passed over.
    """

    def __init__(self, name: str, codes: Codes, legend: Legend) -> None:
        self.name, self.codes, self.legend = name, codes, legend
        self.passed: dict[CellRef, str] = dict(legend.cells)
        self.named: set[CellRef] = set()
        self._lines: list[_Line] = []
        self._days: dict[int, Cell] = {}
        self._bins: dict[str, dict[str, Cell]] = {}
        self._first: dict[str, Cell] = {}
        self._heads: dict[str, Cell] = {}
        self._told: dict[tuple[str, str], _Told] = {}
        self._away: dict[tuple[int, str], Cell] = {}

    def add_block(self, block: Block, rows: Rows, labels: Mapping[int, Cell]) -> None:
        """Write one block out: its rows of bins, then what stands around them."""
        base = len(self._days)
        place = {col: base + i for i, col in enumerate(block.days)}
        self._days.update({place[col]: cell for col, cell in block.days.items()})
        for cell in block.placed.turns:
            self._tell("grid.days_turn", cell, {"value": cell.text}, named=False)
        for cell in block.placed.months:
            self._tell("grid.months_taken", cell, {"value": cell.written, "month": cell.text}, "all", named=False)
        for cell in block.labels:
            self.passed[cell.ref] = "over the days"
        for cell in block.titles:
            self.passed.setdefault(cell.ref, "a title")
        used: set[int] = set()
        for row, cells in rows.items():
            if not block.line < row <= block.last:
                continue
            under = {col: cell for col, cell in cells.items() if col in block.days and cell.ref not in self.passed}
            beside = {col: cell for col, cell in cells.items() if col not in block.days and cell.ref not in self.passed}
            label = labels.get(row)
            if are_weekdays(list(under.values()), label):
                self.passed.update({cell.ref: "days of the week" for cell in cells.values()})
            elif label is None and any(says_totals(plain(cell.text).split(" ")[0]) for cell in beside.values()):
                self.passed.update({cell.ref: "a row of sums" for cell in (*under.values(), *beside.values())})
                self._tell("tables.totals", next(iter(beside.values())), {}, named=False)
            elif label is None:
                self._unnamed(under, place)
            elif (key := known_heading(label.text, of_bins=False)) and key != "bins":
                self._facts_of_days(label, key, under, place)
            elif not under and len(beside) == 1 and self._is_title(label, labels):
                self._tell("tables.title", label, {})
            else:
                used |= beside.keys()
                self._bin(block, label, beside)
                marks = _explained(beside)
                for col, cell in under.items():
                    self._cell(place[col], cell, label, marks)
        self._heads_of(block, used)

    def _is_title(self, label: Cell, labels: Mapping[int, Cell]) -> bool:
        others = [cell for cell in labels.values() if cell is not label]
        coded = sum(any(ch.isdigit() for ch in cell.text) for cell in others)
        odd = coded > len(others) / 2 and not any(ch.isdigit() for ch in label.text)
        return "==" in label.text or len(plain(label.text).split()) > _LONGEST_NAME or odd

    def _heads_of(self, block: Block, used: set[int]) -> None:
        for col, cell in block.heads.items():
            if is_sum(cell.text):
                self.passed.setdefault(cell.ref, "a heading of sums")
            elif col == block.bins or (col in used and all(cell.ref != one.ref for one in self._heads.values())):
                self.passed.setdefault(cell.ref, "a heading")
            elif col not in used:
                self.passed.setdefault(cell.ref, "a title, or a heading with nothing below it")

    # --- one row -------------------------------------------------------------------------------------------------

    def _bin(self, block: Block, label: Cell, beside: Mapping[int, Cell]) -> None:
        """A row of the list of bins: what stands beside its days under headings; sums are passed over."""
        name = " ".join(label.text.casefold().split())
        head = block.heads.get(block.bins)
        own = head if head and known_heading(head.text, of_bins=True) == "name" else None
        self._heads.setdefault("", own or _ours(_BIN_LABELS["name"], head or label))
        before = self._bins.setdefault(name, {"": label})
        self._first.setdefault(name, label)
        if before[""] is not label:
            self.passed.setdefault(label.ref, f"the same bin as in {before[''].ref}")
        for col, cell in beside.items():
            if col == block.bins:
                continue
            head = block.heads.get(col)
            if head is None:
                self._tell("headings.missing", cell, {}, key=f"{block.line} {col}")
            elif is_sum(head.text):
                self.passed[cell.ref] = "a sum"
            else:
                self._fact(before, head, cell)

    def _fact(self, before: dict[str, Cell], head: Cell, cell: Cell) -> None:
        """Keep a fact of a bin; one in brackets is a remark, and the same one of a later block is passed over."""
        bracketed = cell.text.startswith("(") and cell.text.endswith(")")
        if bracketed and known_heading(head.text, of_bins=True) != "note":
            head = _ours(_BIN_LABELS["note"], cell)
        key = " ".join(head.text.casefold().split())
        self._heads.setdefault(key, head)
        there = before.get(key)
        if there is None:
            before[key] = cell
        elif there.text == cell.text:
            self.passed[cell.ref] = f"said in {there.ref} already"
        else:
            told = {"heading": head.text, "cell": there.ref, "other": there.text}
            self._tell("grid.fact_differs", cell, told, key=str(cell.ref))

    def _facts_of_days(self, label: Cell, key: str, under: Mapping[int, Cell], place: Mapping[int, int]) -> None:
        """A row of facts of the days themselves: temperature, notes."""
        for col, cell in under.items():
            cells = {} if key in _OF_THE_ROOM else {"bins": _all(cell)}
            self._lines.append(_Line(place[col], cell.ref, cells, (label, cell)))

    def _unnamed(self, under: Mapping[int, Cell], place: Mapping[int, int]) -> None:
        """A row of codes without a bin: notes hold for all bins, anything else can't be used."""
        for col, cell in under.items():
            said = self.codes.read(cell)
            if said.note:
                self._note(place[col], cell)
            elif said.nothing:
                self.passed[cell.ref] = said.nothing
            else:
                self._tell("grid.no_bin", cell, {}, key=str(cell.ref.row))

    # --- one cell ------------------------------------------------------------------------------------------------

    def _cell(self, day: int, cell: Cell, label: Cell, explained: Mapping[str, Cell]) -> None:
        said = self.codes.read(cell)
        if said.nothing:
            self.passed[cell.ref] = said.nothing
            return
        if said.note:
            self._note(day, cell)
            return
        self._problems_of(cell, said, explained)
        if not said.text:
            return
        did = cell if said.text == cell.text else Cell(cell.ref, said.text, said.text, cell.text)
        cells = {"bins": label, "did": did}
        if said.aside:
            cells["note"] = cell
        note = next((explained[mark] for mark in said.marks if mark in explained), None)
        if note is not None:
            cells["note"] = note
        self._lines.append(_Line(day, cell.ref, cells))

    def _note(self, day: int, cell: Cell) -> None:
        """A note of the keeper's own, once for all bins of the day."""
        before = self._away.setdefault((day, plain(cell.text)), cell)
        if before is not cell:
            self.passed[cell.ref] = f"said for all bins in {before.ref}"
            return
        self._lines.append(_Line(day, cell.ref, {"bins": _all(cell), "note": cell}))

    def _problems_of(self, cell: Cell, said: Said, explained: Mapping[str, Cell]) -> None:
        for code in said.unknown:
            self._tell("grid.code_open", cell, {"code": code, "may": self._may(code)}, named=not said.text)
        for code, act in said.guessed:
            self._tell("grid.code_guessed", cell, {"code": code, "act": act}, code.casefold(), named=False)
        for mark in dict.fromkeys(said.marks):
            if mark not in explained:
                self._tell("grid.mark", cell, {"mark": mark}, named=False)
        if said.taken:
            self._tell("words.guessed", cell, {"word": said.taken, "means": said.text}, named=False)
        if said.twice:
            self._tell("grid.twice", cell, {"code": said.twice}, named=False)
        if said.bare:
            self._tell(f"grid.{said.bare}_alone", cell, {})

    def _may(self, code: str) -> str:
        """What an open code may mean, from the first letters of usual words."""
        letter = code[:1].casefold()
        found = [
            act.label for act in ACTS.values() if any(word[:1] == letter for word in (plain(act.label), *act.words))
        ]
        if len(code.strip("0123456789 ")) > 1 or not found:
            return "no usual word is written so"
        return f"it may be {' or '.join(repr(label) for label in found[:3])}"

    # --- what it comes to ----------------------------------------------------------------------------------------

    def _tell(self, code: str, cell: Cell, facts: dict[str, object], key: str = "", *, named: bool = True) -> None:
        if named:
            self.named.add(cell.ref)
        same = key or "|".join(f"{name}={value}" for name, value in facts.items())
        told = self._told.get((code, same))
        if told is None:
            self._told[code, same] = _Told(cell, facts)
        elif cell.ref != told.first.ref:
            told.also.append(cell.ref)

    def problems(self) -> list[Problem]:
        """Everything that is doubtful, one problem a kind with all its cells."""
        self._contradicted()
        out = []
        for (code, _), told in self._told.items():
            facts = {"cells": len(told.also) + 1} if code == "headings.missing" else told.facts
            out.append(Problem(code, told.first.ref, facts, told.first.written or told.first.text, tuple(told.also)))
        return out

    def _contradicted(self) -> None:
        """Name notes of being away on days on which something was done."""
        done = {line.day: line.cells["did"] for line in self._lines if "did" in line.cells}
        for (day, _), cell in self._away.items():
            if day in done:
                self._tell("grid.away_but_done", cell, {"value": cell.text, "cell": done[day].ref}, named=False)

    def list_of_bins(self) -> Sheet | None:
        """The bins of the grid as a plain list, their facts under the keeper's headings."""
        if not self._bins:
            return None
        cols = {key: col for col, key in enumerate(self._heads, start=1)}
        cells = {(1, col): self._heads[key] for key, col in cols.items()}
        at: dict[int, CellRef] = {}
        for row, facts in enumerate((one for one in self._bins.values() if plain(one[""].text) != "all"), start=2):
            cells.update({(row, cols[key]): cell for key, cell in facts.items()})
            at[row] = facts[""].ref
        return Sheet(self.name, dict(sorted(cells.items())), rows_at=at) if at else None

    def log(self) -> Sheet | None:
        """The cells of the grid as a plain log, day by day."""
        with_entries = {line.cells["bins"].ref for line in self._lines if "bins" in line.cells}
        for facts in self._bins.values():
            if facts[""].ref not in with_entries:
                self.passed.setdefault(facts[""].ref, "a bin without entries")
        seen = {line.day for line in self._lines}
        for day, cell in self._days.items():
            if day not in seen:
                self.passed.setdefault(cell.ref, "a day without entries")
        if not self._lines:
            return None
        keys = ("bins", "did", "note")
        first = self._lines[0]
        heads = {(1, 1): _ours(_LABELS["when"], self._days[first.day])}
        heads |= {(1, i): _ours(_LABELS[key], self._first_of(key, first)) for i, key in enumerate(keys, start=2)}
        own = {label.ref: label for label, _ in (line.own for line in self._lines if line.own)}
        cols = {ref: col for col, ref in enumerate(own, start=2 + len(keys))}
        heads |= {(1, col): own[ref] for ref, col in cols.items()}
        cells = dict(heads)
        at: dict[int, CellRef] = {}
        for row, line in enumerate(sorted(self._lines, key=lambda line: line.day), start=2):
            cells[row, 1] = self._days[line.day]
            cells.update({(row, col): line.cells[key] for col, key in enumerate(keys, start=2) if key in line.cells})
            if line.own:
                cells[row, cols[line.own[0].ref]] = line.own[1]
            at[row] = line.at
        used = {col for row, col in cells if row > 1}
        kept = {place: cell for place, cell in cells.items() if place[1] in used}
        return Sheet(self.name, dict(sorted(kept.items())), rows_at=at)

    def _first_of(self, key: str, default: _Line) -> Cell:
        found = next((line.cells[key] for line in self._lines if key in line.cells), None)
        return found or self._days[default.day]


def is_sum(text: str) -> bool:
    """Whether a heading stands over sums of its row: 'wk total', 'Σ'."""
    words = plain(text).split() or [text.strip().casefold()]
    others = set(words[:-1]) - _SUMS - {"of", "month", "mth", "the", "all", "∑"}
    of_time = all(fold(word) in months() or word.isdecimal() for word in others)
    return any(word in ("total", "totals", "sum", "sums", "σ", "∑") for word in words) and of_time


def _explained(beside: Mapping[int, Cell]) -> dict[str, Cell]:
    """Marks that a note of the row explains: '*too much'."""
    return {
        cell.text[0]: cell for cell in beside.values() if cell.text[:1] in ("*", "!", "°", "^") and len(cell.text) > 2
    }


def _ours(label: str, cell: Cell) -> Cell:
    """A heading of ours that stands for a cell of the keeper's."""
    return Cell(cell.ref, label, label, cell.text)


def _all(cell: Cell) -> Cell:
    """All bins, as a cell that the keeper wrote for them."""
    return replace(cell, value="all", text="all", written=cell.text)
