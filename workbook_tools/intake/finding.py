"""Find the tables of every sheet, whatever its shape, and say where they stand in the keeper's workbook."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial

from workbook_tools.intake.cells import Area, Cell, Sheet
from workbook_tools.intake.corrections import NOT_USED, YOURS
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.regions import Region, find_regions, likely_headings
from workbook_tools.intake.roles import recognise
from workbook_tools.intake.settings_sheet import known_words
from workbook_tools.intake.shapes.cards import alike
from workbook_tools.intake.shapes.choose import told, unfold
from workbook_tools.intake.shapes.records import Around, Unfolded
from workbook_tools.intake.tables import Heading, Table
from workbook_tools.problems import CellRef, Problem


@dataclass(frozen=True)
class FoundTable:
    """One table, the plain sheet that holds it, the words that hold there, and how its sheet was unfolded."""

    table: Table
    sheet: Sheet
    lexicon: Lexicon
    laid: Unfolded | None = None

    def placed(self, *, first: bool = True) -> Table:
        """The table as it stands in the keeper's sheet; the first of its sheet lists all cells passed over there."""
        table, sheet = self.table, self.sheet
        if self.laid is None or not sheet.rows_at:
            return table
        unused = {col: head.text for col, head in table.headings.items() if head.field is None}
        passed = dict(self.laid.passed) if first else {}
        for (row, col), cell in sheet.cells.items():
            if row in table.passed_over:
                passed.setdefault(cell.ref, table.passed_over[row])
            elif col in unused and row > 1:
                passed.setdefault(cell.ref, f"the heading '{unused[col]}' isn't used")
        why = f"{told(self.laid)}; {table.why}"
        over = {sheet.at(row).row: reason for row, reason in table.passed_over.items()}
        shape = self.laid.shape
        return replace(table, area=sheet.stands, passed_over=over, why=why, shape=shape, passed_cells=passed)


def placed(tables: Sequence[FoundTable]) -> list[Table]:
    """Tables as they stand in the keeper's sheets."""
    seen: list[Unfolded] = []
    out = []
    for one in tables:
        first = not any(one.laid is laid for laid in seen)
        out.append(one.placed(first=first))
        if one.laid is not None and one.sheet.rows_at and first:
            seen.append(one.laid)
    return out


def find_tables(sheets: Sequence[Sheet], around: Around) -> tuple[list[FoundTable], list[Problem]]:
    """Find every table of every sheet, after sheets of another shape have been unfolded."""
    tables: list[FoundTable] = []
    problems: list[Problem] = []
    around = replace(around, alike=alike(sheets))
    for sheet in sheets:
        if words := known_words(sheet):
            tables.append(FoundTable(words, sheet, around.lexicon))
            continue
        if around.corrections.sheet(sheet.name) == NOT_USED:
            tables.append(FoundTable(not_used(sheet), sheet, around.lexicon))
            continue
        laid = unfold(sheet, around)
        problems += laid.problems
        lexicon = around.lexicon.extended({**laid.words, **around.corrections.words} if laid.words else {})
        for part in laid.sheets:
            regions = find_regions(part, partial(around.corrections.names_headings, sheet.name))
            for region in regions:
                table, found = recognise(region, lexicon, around.corrections)
                tables.append(FoundTable(table, part, lexicon, laid))
                problems += found
            if not part.rows_at:
                problems += outside(part, regions, rest=part is not sheet)
    return _without_bare_lists(tables), problems


def perhaps_tables(sheets: Sequence[Sheet], tables: Sequence[FoundTable]) -> list[Table]:
    """What may be a table on sheets where none was found, with headings that aren't used."""
    found = []
    for sheet in sheets:
        if heads := {} if any(one.sheet.name == sheet.name for one in tables) else likely_headings(sheet):
            headings = {col: Heading(cell, cell.text, None, score=0.0, why="not used") for col, cell in heads.items()}
            top = min(cell.ref.row for cell in heads.values())
            area = Area(top, min(heads), sheet.last_row, max(heads))
            rows = tuple(sorted({row for row, _ in sheet.cells if row > top}))
            why = "no heading of it is known"
            found.append(Table(sheet.name, area, "unused", "", headings, rows, {}, sheet.hidden, why))
    return found


def not_used(sheet: Sheet) -> Table:
    """A whole sheet that the keeper says isn't used."""
    return Table(sheet.name, sheet.stands, "unused", "", {}, (), {}, sheet.hidden, YOURS)


def _without_bare_lists(tables: list[FoundTable]) -> list[FoundTable]:
    """Leave out unfolded lists that hold nothing but names where the workbook has a list of bins of its own."""
    bare = [one for one in tables if one.sheet.rows_at and one.table.role == "bins" and _bare(one.table)]
    if not any(one.table.role == "bins" and one not in bare for one in tables):
        return tables
    return [one for one in tables if one not in bare]


def _bare(table: Table) -> bool:
    return {head.field.key for head in table.headings.values() if head.field} <= {"name"}


def outside(sheet: Sheet, regions: Sequence[Region], *, rest: bool = False) -> list[Problem]:
    """Name what stands on a sheet but in no table: columns without a heading, and loose cells."""
    if not sheet.cells:
        return []
    if not regions and not rest:
        where = CellRef(sheet.name)
        return [
            Problem("sheets.no_table", where, {"cells": len(sheet.cells)}, next(iter(sheet.cells.values())).text[:80])
        ]
    problems: list[Problem] = []
    titles = {row for region in regions for row in region.title_rows}
    loose: list[Cell] = []
    columns: dict[tuple[int, int], list[Cell]] = {}
    for (row, col), cell in sorted(sheet.cells.items()):
        inside = [region for region in regions if region.area.holds(row, col)]
        if any(col in region.headings or row <= region.heading_row for region in inside) or row in titles:
            continue
        beside = inside or [
            r for r in regions if r.heading_row < row <= r.area.bottom and col in (r.area.left - 1, r.area.right + 1)
        ]
        if beside:
            columns.setdefault((id(beside[0]), col), []).append(cell)
        else:
            loose.append(cell)
    for cells in columns.values():
        also = tuple(cell.ref for cell in cells[1:])
        problems.append(Problem("headings.missing", cells[0].ref, {"cells": len(cells)}, cells[0].text, also))
    if loose:
        also = tuple(cell.ref for cell in loose[1:])
        count = "One cell" if len(loose) == 1 else f"{len(loose)} cells"
        problems.append(Problem("tables.outside", loose[0].ref, {"cells": count}, loose[0].text, also))
    return problems
