"""Read a whole workbook: settings, tables, the file's own day-month order and decimal sign, then every row."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from workbook_tools.fields import Kind
from workbook_tools.intake.amounts import Measures
from workbook_tools.intake.bin_rhythm import settings_of_bins
from workbook_tools.intake.cells import Book, Cell, Sheet
from workbook_tools.intake.corrections import NONE, YOURS, Corrections
from workbook_tools.intake.date_choice import DateStyle, Order
from workbook_tools.intake.date_order import judge_order
from workbook_tools.intake.decimals import DecimalVerdict, judge_decimal
from workbook_tools.intake.doubles import without_doubles
from workbook_tools.intake.finding import FoundTable, find_tables, perhaps_tables, placed
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
from workbook_tools.intake.unsure import (
    Assumed,
    UnsureWord,
    examples_below,
    idle,
    measures_assumed,
    pairs_in,
    pairs_of,
    unsure_words,
    without_passed,
)
from workbook_tools.intake.values import Amount
from workbook_tools.problems import CannotRead, CellRef, Problem, merged

_DATES = frozenset({Kind.DATE})
QUART_WORDS = frozenset({"qt", "qts", "quart", "quarts"})
PASSED_OVER = {"a title between rows": "tables.title", "totals row": "tables.totals"}
"""Why rows are passed over, and the problem that names them; the example row is ours and needs none."""
ORDER_NAMES = {"dmy": "day-month", "mdy": "month-day", "ymd": "year-month-day"}
ORDER_SAYS = {"dmy": "day before month", "mdy": "month before day", "ymd": "year, month, day"}


@dataclass(frozen=True)
class Intake:
    """What was read: tables as recognised, rows as facts, settings, and sentences on how the file was taken."""

    tables: tuple[Table, ...]
    rows: tuple[Row, ...]
    settings: Settings
    order: str
    notes: tuple[str, ...]
    unsure: tuple[UnsureWord, ...] = ()
    assumed: tuple[Assumed, ...] = ()
    examples: Mapping[CellRef, str] = field(default_factory=dict)
    """The first few texts below each heading, by its cell."""
    corrections: Corrections = NONE
    perhaps: tuple[Table, ...] = ()
    """What may be tables on sheets where none was found."""


class NoTables(CannotRead):
    """A workbook with neither a list of bins nor a log; ``intake`` holds its tables as far as they were recognised."""

    def __init__(self, problem: Problem, intake: Intake) -> None:
        super().__init__(problem)
        self.intake = intake


def read_book(book: Book, on: dt.date, corrections: Corrections = NONE) -> tuple[Intake, list[Problem]]:
    """Read a workbook as it stood on a day; a keeper's corrections go before whatever would be read without them.

    Raises
    ------
    NoTables
        It holds neither a list of bins nor a log.
    """
    setting_sheets = [sheet for sheet in book.sheets if _for_settings(sheet, corrections)]
    sheets = [sheet for sheet in book.sheets if sheet not in setting_sheets]
    read, problems = read_settings(setting_sheets)
    read = replace(read, settings=corrections.over(read.settings))
    lexicon, measures, word_problems = _lexicon(read, corrections.words)
    problems += word_problems
    tables, found = find_tables(sheets, around := Around(lexicon, _order_said(read.settings), corrections))
    if not any(one.table.role in ("bins", "log") for one in tables):
        nothing = Intake((*placed(tables), *read.tables), (), read.settings, "dmy", ())
        perhaps = tuple(perhaps_tables(sheets, tables))
        below = examples_below([*pairs_of(tables), *pairs_in(perhaps, sheets)])
        nothing = replace(nothing, examples=below, corrections=corrections, perhaps=perhaps)
        raise NoTables(Problem("tables.none", CellRef(""), {"found": _found(book)}), nothing)
    context, notes, style_problems, assumed = _style(book, tables, read.settings, (lexicon, measures), on, corrections)
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
    perhaps = tuple(perhaps_tables(sheets, tables))
    problems = without_passed(problems, corrections, measures)
    problems += (not_followed := idle(corrections, tables, book))
    if made := len(corrections.all):
        followed = made - len(not_followed)
        notes.append(f"Corrections of yours that were followed: {followed} of {made}, from {corrections.name}.")
    intake = Intake(
        every,
        tuple(rows),
        settings,
        context.style.order,
        tuple(notes),
        unsure_words(problems, lexicon),
        (*assumed, *measures_assumed(measures, read.settings, corrections)),
        examples_below([*pairs_of(tables), *pairs_in(perhaps, sheets)]),
        corrections,
        perhaps,
    )
    return intake, merged(problems)


def _for_settings(sheet: Sheet, corrections: Corrections) -> bool:
    """Whether a sheet is for settings: as the keeper says, else by its name or headings."""
    said = corrections.sheet(sheet.name)
    return said == "settings" if said else is_settings_sheet(sheet)


def _lexicon(read: SettingsRead, words: Mapping[str, str]) -> tuple[Lexicon, Measures, list[Problem]]:
    """The words and measures that hold for the file: ours, extended by the keeper's and by corrections (``words``)."""
    ours = Measures(_measures(read.settings))
    own = {word: held for word, (means, _) in read.words.items() if (held := own_measure(means, ours))}
    measures = Measures(ours.overrides, {word.casefold().removesuffix("s"): held for word, held in own.items()})
    lexicon = Lexicon(
        {**{word: means for word, (means, _) in read.words.items() if word not in own}, **words}, measures
    )
    problems = [
        Problem("settings.word_unplaced", read.words[word][1].ref, {"word": word}, read.words[word][0])
        for word in lexicon.unplaced
        if word in read.words
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
    corrections: Corrections,
) -> tuple[Context, list[str], list[Problem], list[Assumed]]:
    """Settle what holds for the whole file: order of day and month, and decimal sign.

    Numbers of animals show no decimal sign: ``8 (3.5)`` is males and females.
    """
    problems: list[Problem] = []
    notes: list[str] = []
    said = settings.find("date_order")
    if said and (order := _order_said(settings)):
        sure = True
        who = YOURS if any(one.setting is said for one in corrections.all) else "as your settings say"
        reason = f"{who} ({said.where})."
        notes.append(f"Dates are read with {ORDER_SAYS[order]}, {reason}")
    else:
        verdict = judge_order(
            _columns(tables, _DATES), _columns([one for one in tables if one.table.role == "log"], _DATES)
        )
        order, sure, reason = verdict.order, verdict.sure, verdict.reason
        problems += verdict.problems
        notes.append(f"Dates are read with {ORDER_SAYS[order]}: {verdict.reason}")
    assumed = [Assumed("Day-month order", ORDER_NAMES[order], reason, tuple(ORDER_NAMES.values()))]
    numbers = judge_decimal(_columns(tables, frozenset({Kind.AMOUNT, Kind.SHARE})))
    if corrections.decimal:
        chosen = "comma" if corrections.decimal == "," else "point"
        numbers = DecimalVerdict(corrections.decimal, True, f"The decimal mark is a {chosen}, {YOURS}.")
    problems += numbers.problems
    marks = {".": "point", ",": "comma", "": "not shown"}
    why = numbers.reason or "no number shows it"
    assumed.append(Assumed("Decimal mark", marks[numbers.decimal], why, ("point", "comma")))
    if numbers.reason:
        notes.append(numbers.reason)
    if book.date_1904:
        notes.append("The workbook counts its dates from 1904; they were read so.")
    notes += [f"{name.capitalize()}: {value}." for name, value in book.facts.items()]
    style = DateStyle(order=order, sure=sure, on=on, date_1904=book.date_1904)
    lexicon, measures = words
    return Context(style, numbers.decimal, measures, lexicon), notes, problems, assumed


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
