"""Read a whole workbook: settings, tables, the file's own day-month order and decimal sign, then every row."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from workbook_tools.fields import Kind
from workbook_tools.intake.amounts import Measures
from workbook_tools.intake.bin_rhythm import settings_of_bins
from workbook_tools.intake.cells import Book, Cell, Sheet
from workbook_tools.intake.date_choice import DateStyle, Order
from workbook_tools.intake.date_order import judge_order
from workbook_tools.intake.decimals import judge_decimal
from workbook_tools.intake.doubles import without_doubles
from workbook_tools.intake.finding import FoundTable, find_tables, placed
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.meanings import Context
from workbook_tools.intake.rows import read_rows
from workbook_tools.intake.settings import Settings
from workbook_tools.intake.settings_sheet import (
    SettingsRead,
    is_settings_sheet,
    own_measure,
    read_settings,
)
from workbook_tools.intake.shapes.days import is_evidence
from workbook_tools.intake.shapes.records import Around
from workbook_tools.intake.tables import Row, Table
from workbook_tools.intake.values import Amount
from workbook_tools.problems import CannotRead, CellRef, Problem, merged

QUART_WORDS = frozenset({"qt", "qts", "quart", "quarts"})
PASSED_OVER = {"a title between rows": "tables.title", "totals row": "tables.totals"}
"""Why rows are passed over, and the problem that names them; the example row is ours and needs none."""
ORDER_SAYS = {"dmy": "day before month", "mdy": "month before day", "ymd": "year, month, day"}


@dataclass(frozen=True)
class Intake:
    """What was read: tables as recognised, rows as facts, settings, and sentences on how the file was taken."""

    tables: tuple[Table, ...]
    rows: tuple[Row, ...]
    settings: Settings
    order: str
    notes: tuple[str, ...]


def read_book(book: Book, on: dt.date) -> tuple[Intake, list[Problem]]:
    """Read a workbook as it stood on a day.

    Raises
    ------
    CannotRead
        It holds neither a list of bins nor a log.
    """
    setting_sheets = [sheet for sheet in book.sheets if is_settings_sheet(sheet)]
    sheets = [sheet for sheet in book.sheets if sheet not in setting_sheets]
    read, problems = read_settings(setting_sheets)
    lexicon, measures, word_problems = _lexicon(read)
    problems += word_problems
    tables, found = find_tables(sheets, around := Around(lexicon, _order_said(read.settings)))
    if not any(one.table.role in ("bins", "log") for one in tables):
        raise CannotRead(Problem("tables.none", CellRef(""), {"found": _found(book)}))
    context, notes, style_problems = _style(book, tables, read.settings, (lexicon, measures), on)
    if context.style.sure and any(one.laid and one.laid.order not in (None, context.style.order) for one in tables):
        tables, found = find_tables(sheets, replace(around, order=context.style.order))
    problems += [*found, *style_problems, *(() if context.style.sure else _months_open(tables, context.style.order))]
    rows: list[Row] = []
    for one in tables:
        table, sheet = one.table, one.sheet
        if table.role in ("bins", "log"):
            found_rows, found = read_rows(table, sheet, replace(context, lexicon=one.lexicon))
            found_rows, twice = without_doubles(found_rows)
            rows += found_rows
            found += twice
            problems += found
        problems += [
            Problem(PASSED_OVER[why], sheet.at(row), {}, _row_text(sheet, row, table))
            for row, why in table.passed_over.items()
            if why in PASSED_OVER
        ]
    notes += _measure_notes(rows, context.measures)
    of_bins, found = settings_of_bins(rows)
    problems += found
    settings = replace(read.settings, values=(*read.settings.values, *of_bins))
    every = (*placed(tables), *read.tables)
    return Intake(every, tuple(rows), settings, context.style.order, tuple(notes)), merged(problems)


def _lexicon(read: SettingsRead) -> tuple[Lexicon, Measures, list[Problem]]:
    """The words and measures that hold for the file: ours, extended by the keeper's."""
    ours = Measures(_measures(read.settings))
    own = {word: held for word, (means, _) in read.words.items() if (held := own_measure(means, ours))}
    measures = Measures(ours.overrides, {word.casefold().removesuffix("s"): held for word, held in own.items()})
    lexicon = Lexicon({word: means for word, (means, _) in read.words.items() if word not in own}, measures)
    problems = [
        Problem("settings.word_unplaced", read.words[word][1].ref, {"word": word}, read.words[word][0])
        for word in lexicon.unplaced
    ]
    return lexicon, measures, problems


def _months_open(tables: Sequence[FoundTable], order: Order) -> list[Problem]:
    """Name bare days over a grid whose month hangs on an order of day and month that nothing decides."""
    laid = {id(one.laid): one.laid for one in tables if one.laid and one.laid.order}
    problems = []
    for one in laid.values():
        bare = [cell for cell in one.dates if cell.written and not is_evidence(cell)]
        if bare:
            also = tuple(cell.ref for cell in bare[1:])
            told = {"order": ORDER_SAYS[order], "day": bare[0].text}
            problems.append(Problem("grid.month_open", bare[0].ref, told, bare[0].written, also))
    return problems


def _order_said(settings: Settings) -> Order | None:
    said = settings.find("date_order")
    return said.value if said else None  # type: ignore[return-value]


def _columns(tables: Sequence[FoundTable], kinds: frozenset[Kind]) -> list[list[Cell]]:
    """Cells of every column whose field is of one of the kinds, in row order; dates that are headings first."""
    laid = {id(one.laid): one.laid.dates for one in tables if one.laid and one.laid.dates and Kind.DATE in kinds}
    return [list(filter(is_evidence, dates)) for dates in laid.values()] + [
        [cell for row in table.rows if (cell := sheet.cells.get((row, col))) and is_evidence(cell)]
        if not table.days or head.field.key != "when"
        else [
            cell
            for row in sorted((*table.rows, *table.days))
            if (cell := table.days.get(row) or sheet.cells.get((row, col)))
        ]
        for table, sheet in ((one.table, one.sheet) for one in tables)
        for col, head in table.headings.items()
        if head.field is not None and head.field.kind in kinds
    ]


def _style(
    book: Book,
    tables: Sequence[FoundTable],
    settings: Settings,
    words: tuple[Lexicon, Measures],
    on: dt.date,
) -> tuple[Context, list[str], list[Problem]]:
    """Settle what holds for the whole file: order of day and month, and decimal sign.

    Numbers of animals show no decimal sign: ``8 (3.5)`` is males and females.
    """
    problems: list[Problem] = []
    notes: list[str] = []
    said = settings.find("date_order")
    if said and (order := _order_said(settings)):
        sure = True
        notes.append(f"Dates are read with {ORDER_SAYS[order]}, as your settings say ({said.where}).")
    else:
        verdict = judge_order(_columns(tables, frozenset({Kind.DATE})))
        order, sure = verdict.order, verdict.sure
        problems += verdict.problems
        notes.append(f"Dates are read with {ORDER_SAYS[order]}: {verdict.reason}")
    numbers = judge_decimal(_columns(tables, frozenset({Kind.AMOUNT, Kind.SHARE})))
    problems += numbers.problems
    if numbers.reason:
        notes.append(numbers.reason)
    if book.date_1904:
        notes.append("The workbook counts its dates from 1904; they were read so.")
    notes += [f"{name.capitalize()}: {value}." for name, value in book.facts.items()]
    style = DateStyle(order=order, sure=sure, on=on, date_1904=book.date_1904)
    lexicon, measures = words
    return Context(style, numbers.decimal, measures, lexicon), notes, problems


def _measure_notes(rows: Sequence[Row], measures: Measures) -> list[str]:
    """Say which quart was taken, if one was read."""
    amounts = (fact.value for row in rows for facts in row.facts.values() for fact in facts)
    quarts = any(isinstance(value, Amount) and value.as_written.casefold() in QUART_WORDS for value in amounts)
    return [measures.quart_note] if quarts else []


def _measures(settings: Settings) -> Mapping[str, float | str]:
    """The keeper's own hobby measures by name, in the unit of their default."""
    found: dict[str, float | str] = {}
    for key in ("handful", "pinch", "splash", "cup", "quart"):
        setting = settings.find(key)
        if setting and isinstance(setting.value, float | str):
            found[key] = setting.value
    return found


def _row_text(sheet: Sheet, row: int, table: Table) -> str:
    return " | ".join(sheet.cells[row, col].text for col in table.headings if (row, col) in sheet.cells)


def _found(book: Book) -> str:
    """What a workbook holds, in words, for the sentence that says nothing could be used."""
    parts = []
    for sheet in book.sheets[:6]:
        cells = sorted(sheet.cells.items())
        first = ", ".join(f"'{cell.text[:20]}'" for _, cell in cells[:4])
        parts.append(f"sheet '{sheet.name}' with {first}" if first else f"sheet '{sheet.name}', empty")
    return "; ".join(parts) or "no sheets"
