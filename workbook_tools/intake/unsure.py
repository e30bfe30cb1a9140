"""What the reading of a workbook left open or leaned on: words not known or guessed, assumptions, corrections."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from workbook_tools.fields import ACTS, SETTINGS
from workbook_tools.intake.cells import Book, Sheet
from workbook_tools.intake.corrections import (
    ACT_LOGS,
    EVERY_SHEET,
    LONGEST_CODE,
    NOT_USED,
    ROLE_NAMES,
    YOURS,
    Correction,
    Corrections,
    key_of,
)
from workbook_tools.intake.finding import FoundTable
from workbook_tools.intake.headings import plain
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.phrases.chunks import AMOUNTS, cut
from workbook_tools.intake.settings import Settings
from workbook_tools.intake.shapes.records import PLAIN
from workbook_tools.intake.tables import Table
from workbook_tools.intake.units import Measures
from workbook_tools.problems import CellRef, Problem

EXAMPLES = 3
ROWS_LOOKED_AT = 200
_CODES = 12
"""Codes stand in short cells, joined to others and to numbers."""
_SYSTEMS = {"liquid": "US liquid", "dry": "US dry", "imperial": "imperial"}
_WORDS = {
    "words.unknown": "word",
    "words.guessed": "word",
    "words.loose": "word",
    "grid.code_open": "code",
    "grid.code_guessed": "code",
    "grid.key_guessed": "code",
}


@dataclass(frozen=True, slots=True)
class UnsureWord:
    """A word or code not known (``taken`` is empty) or guessed, where it stands, and what it was taken as."""

    word: str
    stands_in: str
    taken: str
    why: str
    cells: tuple[CellRef, ...]


@dataclass(frozen=True, slots=True)
class Assumed:
    """Something taken to hold for the whole file: its name, what was taken, why, and what it can be."""

    label: str
    taken: str
    why: str
    choices: tuple[str, ...] = ()


def unsure_words(problems: Iterable[Problem], lexicon: Lexicon) -> tuple[UnsureWord, ...]:
    """Gather unknown and guessed words from the problems of a reading, each once, without numbers beside them."""
    found: dict[str, UnsureWord] = {}
    for problem in problems:
        if problem.code not in _WORDS:
            continue
        written = str(problem.facts[_WORDS[problem.code]])
        word = _bare(written, lexicon.measures)
        means = str(problem.facts.get("means") or problem.facts.get("act") or "")
        label = meaning_label(means, lexicon) if means and problem.code != "words.loose" else ""
        where = str(problem.facts.get("field", "a grid" if problem.code.startswith("grid") else ""))
        why = f"a guess, from '{problem.facts.get('words', means)}'" if means else "no word of ours"
        was = found.get(key_of(word))
        if was is None:
            found[key_of(word)] = UnsureWord(word, where, label, why, problem.cells)
        else:
            found[key_of(word)] = replace(was, cells=tuple(dict.fromkeys((*was.cells, *problem.cells))))
    return tuple(found.values())


def _bare(written: str, measures: Measures) -> str:
    """A word without the numbers that stand with it."""
    chunks = cut(written, measures)
    words = [one for one in chunks if one.kind not in AMOUNTS]
    if len(words) == len(chunks) or not words:
        return " ".join(written.split())
    return plain(" ".join(written[one.at : one.end] for one in words))


def meaning_label(means: str, lexicon: Lexicon) -> str:
    """Our label for a word of ours: the act's, or the sight's."""
    word = plain(means) or means
    if word in lexicon.acts:
        return ACTS[lexicon.acts[word]].label
    return next((table[word] for table in lexicon.states.values() if word in table), means)


def without_passed(problems: Iterable[Problem], corrections: Corrections, measures: Measures) -> list[Problem]:
    """Leave out what is told of words that the keeper says tell nothing, and of a key's codes that they put right."""
    passed = corrections.passed_words | corrections.words.keys()
    return [
        problem
        for problem in problems
        if problem.code not in _WORDS or key_of(_bare(str(problem.facts[_WORDS[problem.code]]), measures)) not in passed
    ]


def measures_assumed(measures: Measures, settings: Settings, corrections: Corrections) -> list[Assumed]:
    """Say which quart, handful, pinch, splash and cup were taken."""
    chosen = {one.setting.key for one in corrections.of("assumption") if one.setting}
    labels = {setting.key: setting.label for setting in SETTINGS}
    out = []
    for key in ("quart", "handful", "pinch", "splash", "cup"):
        why = YOURS if key in chosen else "as your settings say" if settings.find(key) else "common practice"
        if key == "quart":
            out.append(Assumed(labels[key], _SYSTEMS[measures.system], why, tuple(_SYSTEMS.values())))
            continue
        best, low, high, unit, _ = measures.holds(key)
        few = dict.fromkeys(f"{amount:.4g} {unit}" for amount in (low, best, high))
        out.append(Assumed(labels[key], f"{best:.4g} {unit}", why, tuple(few)))
    return out


def pairs_of(tables: Sequence[FoundTable]) -> list[tuple[Table, Sheet]]:
    """Tables with the sheets that hold their cells."""
    return [(one.table, one.sheet) for one in tables]


def pairs_in(tables: Sequence[Table], sheets: Sequence[Sheet]) -> list[tuple[Table, Sheet]]:
    """Tables of plain sheets with their sheets."""
    by_name = {sheet.name: sheet for sheet in sheets}
    return [(table, by_name[table.sheet]) for table in tables]


def examples_below(tables: Sequence[tuple[Table, Sheet]]) -> dict[CellRef, str]:
    """The first few different texts below each heading, by the cell of the heading."""
    found = {}
    for table, sheet in tables:
        for col, head in table.headings.items():
            rows = (table.rows or range(table.area.top + 1, table.area.bottom + 1))[:ROWS_LOOKED_AT]
            texts = dict.fromkeys(sheet.cells[row, col].text for row in rows if (row, col) in sheet.cells)
            texts.pop(head.cell.text, None)
            found[head.cell.ref] = ", ".join(text[:24] for text in [*texts][:EXAMPLES])
    return found


def idle(corrections: Corrections, tables: Sequence[FoundTable], book: Book) -> list[Problem]:
    """Name corrections that fit nothing in the workbook, and those that can't be followed."""
    sheets = {key_of(sheet.name): sheet.name for sheet in book.sheets}
    texts = {cell.text for sheet in book.sheets for cell in sheet.cells.values()} if corrections.of("word") else set()
    stand = {f" {plain(text) or text} " for text in texts} | {text.casefold() for text in texts if len(text) <= _CODES}
    problems = []
    for one in corrections.all:
        told = {"about": one.named, "value": one.value}
        why = _why_not(one, corrections, tables, sheets)
        if one.about == "word":
            mine = key_of(one.text)
            spaced = f" {mine} " if plain(one.text) else mine
            coded = len(mine) <= LONGEST_CODE and any(len(text) <= _CODES and mine in text for text in stand)
            why = None if coded or any(spaced in text for text in stand) else ""
        if why == "":
            problems.append(Problem("corrections.stale", one.where, told, one.value))
        elif why:
            problems.append(Problem("corrections.not_possible", one.where, {**told, "why": why}, one.value))
    return problems


def _why_not(
    one: Correction, corrections: Corrections, tables: Sequence[FoundTable], sheets: Mapping[str, str]
) -> str | None:
    """Why a correction of a table or heading does nothing: '' when it fits nothing, None when it does something."""
    here = [t for t in tables if one.sheet == EVERY_SHEET or key_of(t.table.sheet) == key_of(one.sheet)]
    if one.about == "table":
        if not one.text or one.value == "settings":
            mine = here
            fits = key_of(one.sheet) in sheets
        else:
            mine = [t for t in here if corrections.table(t.table.sheet, texts_of(t)) is one]
            fits = bool(mine) or (one.value not in (*ROLE_NAMES, *ACT_LOGS, PLAIN) and key_of(one.sheet) in sheets)
        if not fits:
            return ""
        if one.value in (*ROLE_NAMES, *ACT_LOGS):
            lost = one.value not in (NOT_USED, "settings") and all(t.table.role == "unused" for t in mine)
            return "no column of bins or dates was found" if lost else None
        shapes = {t.laid.shape for t in here if t.laid}
        return None if one.value in shapes or one.value == PLAIN else f"the sheet has nothing of {one.value}"
    if one.about == "heading":
        if corrections.sheet(one.sheet) in (NOT_USED, "settings"):
            return None
        heads = [h for t in here for h in t.table.headings.values() if key_of(h.text) == key_of(one.text)]
        if not heads:
            return ""
        return None if any(head.said for head in heads) else "the table has no such field, or is of another title"
    return None


def texts_of(one: FoundTable) -> list[str]:
    """The headings of a table."""
    return [head.text for head in one.table.headings.values()]
