"""Read a keeper's corrections from a reading workbook: whatever differs there from what was read at first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Literal

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS, SETTINGS
from workbook_tools.intake.cells import Book, Cell, Sheet
from workbook_tools.intake.corrections import (
    ACT_LOGS,
    NO_MEANING,
    NONE,
    NOT_USED,
    ROLE_NAMES,
    YOURS,
    About,
    Correction,
    Corrections,
    key_of,
)
from workbook_tools.intake.decimals import Decimal
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.settings import SettingValue
from workbook_tools.intake.settings_sheet import setting_value
from workbook_tools.intake.shapes.choose import SHAPES
from workbook_tools.intake.shapes.records import PLAIN
from workbook_tools.intake.workbook import open_book
from workbook_tools.problems import CannotRead, CellRef, Problem

TAKEN, SURELY, AT_FIRST = "Taken as", "How surely", "Read at first as"
TABLE_HEADINGS = ("Sheet", "What", "Name", "Title", "Cell", "For example", TAKEN, SURELY, AT_FIRST)
WORD_HEADINGS = ("Word", "Stands in", "Cells", TAKEN, SURELY, AT_FIRST)
ASSUMED_HEADINGS = ("Assumption", TAKEN, SURELY, AT_FIRST)
"""The headings of the three tables of a reading workbook, by which they are known."""
TABLE, HEADING = "table", "heading"
NOT_KNOWN = "not known"
DECIMAL_LABEL = "Decimal mark"
DECIMALS: Mapping[str, Decimal] = {"point": ".", "comma": ","}
TABLE_CHOICES = (*ROLE_NAMES, *(shape.name for shape in SHAPES), PLAIN, *ACT_LOGS)
FIELD_LABELS = tuple(dict.fromkeys(field.label for field in (*LOG_FIELDS, *BIN_FIELDS)))


def is_reading_book(book: Book) -> bool:
    """Whether a workbook is a reading workbook of ours: it has the table of tables and headings."""
    return any(_heading_row(sheet, TABLE_HEADINGS) for sheet in book.sheets)


def reading_name(path: Path) -> Path:
    """Where the reading workbook of a workbook is when nothing is said: beside it, with its name."""
    return path.resolve().with_name(f"{path.resolve().stem}-reading.xlsx")


def corrections_of(path: Path, named: Path | None = None) -> tuple[Corrections, list[Problem]]:
    """Read the corrections for a workbook: those of the file that was named, else of the one beside it, if any.

    Raises
    ------
    CannotRead
        The file that was named can't be read or is no reading workbook. Of one that wasn't named this is a problem.
    """
    found = named or reading_name(path)
    if named is None and not found.is_file():
        return NONE, []
    told: dict[str, object] = {"path": found.name.encode("utf-8", "replace").decode("utf-8")}
    try:
        book, _ = open_book(found)
    except CannotRead as error:
        if named:
            raise
        return NONE, [Problem("corrections.unreadable", CellRef(""), {**told, "reason": str(error)})]
    if is_reading_book(book):
        return read_corrections(book)
    problem = Problem("corrections.other_file", CellRef(""), told)
    if named:
        raise CannotRead(problem)
    return NONE, [problem]


def read_corrections(book: Book) -> tuple[Corrections, list[Problem]]:
    """Read the corrections of a reading workbook.

    A row is a correction if what stands under *Taken as* isn't what was read at first, or if the keeper says beside it
    that it is right. What can't be one of the choices is a problem with its cell in the reading workbook.
    """
    found: dict[tuple[str, str, str, str], Correction] = {}
    problems: list[Problem] = []
    refused: list[Correction] = []
    decimal: Decimal = ""
    for said, cell in _said(book):
        value, setting = said.value, None
        if said.about == "assumption" and key_of(said.text) == key_of(DECIMAL_LABEL):
            value = _same(value, DECIMALS)
            decimal = DECIMALS.get(value, decimal)
        elif said.about == "assumption":
            setting = _setting(said.text, cell)
            value = value if setting else ""
        else:
            value = _same(value, _CHOICES[said.about]) or (value if said.about == "word" and _known(value) else "")
        if value:
            found[said.key] = replace(said, value=value, setting=setting)
        else:
            told = {"value": said.value, "about": said.named}
            problems.append(Problem("corrections.no_choice", said.where, told, cell.text))
            refused.append(said)
    return Corrections(book.path.name, tuple(found.values()), decimal, tuple(refused)), problems


_CHOICES: Mapping[About, Sequence[str]] = {
    "table": TABLE_CHOICES,
    "heading": (NOT_USED, *FIELD_LABELS),
    "word": (NO_MEANING,),
}


def _same(value: str, choices: Sequence[str] | Mapping[str, Decimal]) -> str:
    """The choice that a value is, in any case; empty when it is none."""
    return next((choice for choice in choices if key_of(choice) == key_of(value)), "")


def _known(value: str) -> bool:
    return not Lexicon({value: value}).unplaced


def _setting(label: str, cell: Cell) -> SettingValue | None:
    setting = next((one for one in SETTINGS if key_of(one.label) == key_of(label)), None)
    value = setting_value(setting, "", cell, cell.ref) if setting else None
    return value if isinstance(value, SettingValue) else None


def _said(book: Book) -> Iterator[tuple[Correction, Cell]]:
    """Rows where the keeper says something, each with the cell that says it."""
    for sheet in book.sheets:
        for headings in (TABLE_HEADINGS, WORD_HEADINGS, ASSUMED_HEADINGS):
            for cells in _rows(sheet, headings):
                taken = cells.get(TAKEN)
                texts = {heading: cell.text for heading, cell in cells.items()}
                own = texts.get(AT_FIRST, "")
                right = texts.get(SURELY, "").casefold().startswith(YOURS)
                name = texts.get(headings[2] if headings is TABLE_HEADINGS else headings[0], "")
                whole = headings is TABLE_HEADINGS and texts.get("What", "").casefold() == TABLE
                if taken is None or not (name or whole) or not (right or key_of(taken.text) != key_of(own)):
                    continue
                about: Literal["table", "heading", "word", "assumption"]
                if headings is TABLE_HEADINGS:
                    about = "table" if whole else "heading"
                else:
                    about = "word" if headings is WORD_HEADINGS else "assumption"
                where = replace(taken.ref, sheet=f"{book.path.name}: {sheet.name}")
                placed = texts.get("Sheet", ""), name, texts.get("Title", "")
                yield Correction(about, placed[0], placed[1], taken.text, own, where, placed[2]), taken


def _rows(sheet: Sheet, headings: Sequence[str]) -> Iterator[dict[str, Cell]]:
    """The rows below headings of ours, each as its cells by heading."""
    top = _heading_row(sheet, headings)
    if not top:
        return
    columns = {cell.text: col for (row, col), cell in sheet.cells.items() if row == top and cell.text in headings}
    for row in sorted({row for row, _ in sheet.cells if row > top}):
        yield {text: sheet.cells[row, col] for text, col in columns.items() if (row, col) in sheet.cells}


def _heading_row(sheet: Sheet, headings: Sequence[str]) -> int:
    rows: dict[int, set[str]] = {}
    for (row, _), cell in sheet.cells.items():
        rows.setdefault(row, set()).add(cell.text)
    return min((row for row, texts in rows.items() if set(headings) <= texts), default=0)
