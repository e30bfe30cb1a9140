"""The reading workbook: what a workbook was taken for, with boxes in which the keeper corrects it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS, Field
from workbook_tools.intake.corrections import (
    EVERY_SHEET,
    NO_MEANING,
    NOT_USED,
    PARTS,
    YOURS,
    About,
    Correction,
    Corrections,
    key_of,
    table_text,
)
from workbook_tools.intake.reading import Intake
from workbook_tools.intake.reading_book import (
    ASSUMED_HEADINGS,
    HEADING,
    NOT_KNOWN,
    TABLE,
    TABLE_CHOICES,
    TABLE_HEADINGS,
    WORD_HEADINGS,
)
from workbook_tools.intake.shapes.cards import NAME as A_SHEET_A_BIN
from workbook_tools.intake.tables import Heading, Table
from workbook_tools.report.addresses import cell_spans
from workbook_tools.report.blank import known_words
from workbook_tools.report.columns import Column, Place, SheetSpec, TableSpec
from workbook_tools.report.sheets.reading import how_surely, taken_as

TABLES, WORDS, ASSUMED, CHOICES = "Tables and headings", "Words", "Assumptions", "Choices"
HEADINGS_NAMED = 8
"""So many headings make a table known again."""
CELLS_NAMED = 4
NOT_FOUND = f"{YOURS}, but found nowhere now"
NOT_A_FIELD = "like no field of ours"
NO_CHOICE = "no choice; take one of the list"
BLANK_WORDS = 12


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the reading workbook: what it is about, what that was taken for, and what it can be."""

    about: About
    name: str
    taken: str
    surely: str
    choices: Place | tuple[str, ...]
    sheet: str = ""
    title: str = ""
    stands: str = ""
    example: str = ""
    at_first: str = ""

    @property
    def key(self) -> tuple[str, str, str, str]:
        """By which a correction finds it."""
        return self.about, key_of(self.sheet), key_of(self.title), key_of(self.name)


def reading_sheets(intake: Intake) -> tuple[SheetSpec, ...]:
    """Make the sheets of the reading workbook; corrections made before stand in it as they were made."""
    tables = _kept([*_table_lines(intake)], intake.corrections, "table", "heading")
    words = _kept([*_word_lines(intake)], intake.corrections, "word")
    assumed = _kept([*_assumed_lines(intake)], intake.corrections, "assumption")
    return (
        SheetSpec(TABLES, _tables_answer(tables), (_spec("ReadTables", TABLE_COLUMNS, tables),), _HOW),
        SheetSpec(
            WORDS,
            _words_answer(words),
            (replace(_spec("ReadWords", WORD_COLUMNS, words), blank_rows=BLANK_WORDS),),
            (f"Words of your own can be added below. '{NO_MEANING}' passes a word over.",),
        ),
        SheetSpec(
            ASSUMED,
            "What was taken to hold for the whole workbook.",
            (_spec("ReadAssumed", ASSUMED_COLUMNS, assumed),),
            ("The list offers what is usual; amounts of your own will do, such as 0.3 l.",),
        ),
        _choices_sheet(),
    )


_HOW = (
    "Correct under Taken as what is wrong: take it from the list of the cell. Save, then run check or report again.",
    f"To say that a guess is right, take '{YOURS}' under How surely. Empty a box to take your correction back.",
    "A correction holds for the sheet and heading of that name, wherever they stand. When check writes this workbook "
    "anew it keeps your corrections, but nothing else that you write here.",
)


def _spec(name: str, columns: tuple[Column, ...], lines: Sequence[Line]) -> TableSpec:
    return TableSpec(name, columns, lines, when_empty="None.", tone=_tone, toned=("How surely",))


def _tone(line: Line) -> str:
    if line.surely.startswith(YOURS):
        return "late" if line.surely == NOT_FOUND else ""
    unknown = line.surely == NO_CHOICE or line.taken == NOT_KNOWN or (line.surely == NOT_A_FIELD and line.example)
    return "late" if unknown else "today" if line.surely.startswith("a guess") else ""


def _tables_answer(lines: Sequence[Line]) -> str:
    headings = [line for line in lines if line.about == "heading"]
    unused = sum(line.taken == NOT_USED for line in headings)
    guessed = sum(line.surely.startswith("a guess") for line in headings)
    return (
        f"{_count(len(lines) - len(headings), 'table')} and {_count(len(headings), 'heading')}: "
        f"{unused} not used, {guessed} guessed."
    )


def _words_answer(lines: Sequence[Line]) -> str:
    unknown = sum(line.taken == NOT_KNOWN for line in lines)
    guessed = sum(line.surely.startswith("a guess") for line in lines)
    return f"{_count(unknown, 'word')} not known, {guessed} guessed."


def _count(number: int, one: str) -> str:
    return f"{number:,} {one}{'' if number == 1 else 's'}"


# --- tables and headings --------------------------------------------------------------------------------------------


def _table_lines(intake: Intake) -> Iterator[Line]:
    """Tables, each with its headings below it; one line for what is of one name on one sheet."""
    every = [*intake.tables, *intake.perhaps]
    forms = {table.sheet for table in every if table.shape == A_SHEET_A_BIN}
    shared = _shared([table for table in every if table.sheet in forms])
    done: dict[tuple[str, str, str, str], None] = {}
    for table in every:
        for line in _lines_of(table, every, shared if table.sheet in forms else frozenset(), intake):
            if line.key not in done:
                done[line.key] = None
                yield line


def _lines_of(table: Table, every: Sequence[Table], shared: frozenset[str], intake: Intake) -> Iterator[Line]:
    heads = [head for _, head in sorted(table.headings.items())]
    whole = bool(table.shape) or not heads
    name = "" if whole else table_text([head.text for head in heads[:HEADINGS_NAMED]])
    taken, stands = table.shape or taken_as(table), f"{table.sheet}!{table.area}"
    yield Line("table", name, taken, table.why, Place(CHOICES, "TableChoices"), table.sheet, stands=stands)
    fields = Place(CHOICES, {"bins": "BinFields", "log": "LogFields"}.get(table.role, "AnyFields"))
    for head in heads:
        added = not head.cell.ref.row or (table.shape and head.field and head.text == head.field.label)
        if added and not head.said:
            continue
        sheet = EVERY_SHEET if key_of(head.text) in shared else table.sheet
        label = head.field.label if head.field else NOT_USED
        yield Line(
            "heading",
            head.text,
            label,
            NOT_A_FIELD if head.why == NOT_USED else how_surely(head),
            fields,
            sheet,
            _title_of(table, head, every),
            str(head.cell.ref),
            intake.examples.get(head.cell.ref, ""),
        )


def _shared(tables: Sequence[Table]) -> frozenset[str]:
    """Headings that stand on several of these sheets and were taken for the same on all."""
    found: dict[str, set[tuple[str, str]]] = {}
    for table in tables:
        for head in table.headings.values():
            label = head.field.label if head.field else ""
            found.setdefault(key_of(head.text), set()).add((table.sheet, label))
    return frozenset(key for key, stand in found.items() if len(stand) > 1 and len({label for _, label in stand}) == 1)


def _title_of(table: Table, head: Heading, every: Sequence[Table]) -> str:
    """The title of a table whose heading stands in another table of the sheet too; else nothing."""
    others = {
        other.title
        for other in every
        if other.sheet == table.sheet and any(key_of(one.text) == key_of(head.text) for one in other.headings.values())
    }
    return table.title if len(others) > 1 else ""


# --- words and assumptions ------------------------------------------------------------------------------------------


def _word_lines(intake: Intake) -> Iterator[Line]:
    for word in intake.unsure:
        spans = cell_spans(word.cells)
        more = f" and {len(spans) - CELLS_NAMED} more" if len(spans) > CELLS_NAMED else ""
        taken = word.taken or NOT_KNOWN
        stands = ", ".join(spans[:CELLS_NAMED]) + more
        yield Line(
            "word", word.word, taken, word.why, Place(CHOICES, "Meanings"), stands=stands, example=word.stands_in
        )


def _assumed_lines(intake: Intake) -> Iterator[Line]:
    for one in intake.assumed:
        yield Line("assumption", one.label, one.taken, one.why, one.choices)


# --- corrections made before ----------------------------------------------------------------------------------------


def _kept(lines: Sequence[Line], corrections: Corrections, *about: About) -> list[Line]:
    """Lines with the corrections made before; those of what isn't there now stand at the end."""
    made = {one.key: (one, YOURS) for one in corrections.all if one.about in about}
    made |= {one.key: (one, NO_CHOICE) for one in corrections.refused if one.about in about}
    out = []
    for line in lines:
        one, why = made.pop(line.key, (None, ""))
        if one is None and line.about == "table":
            found = next((key for key, (old, _) in made.items() if _is_of(line, old, corrections)), None)
            one, why = made.pop(found) if found else (None, "")
        if one is None:
            out.append(replace(line, at_first=line.taken))
        else:
            name = line.name if line.name and one.text else one.text
            out.append(replace(line, name=name, taken=one.value, surely=why, at_first=one.own))
    return out + [_left(one, why) for one, why in made.values()]


def _is_of(line: Line, one: Correction, corrections: Corrections) -> bool:
    """Whether a correction of a table is of this line, although its headings or its shape have changed since."""
    if one.about != "table" or key_of(one.sheet) != key_of(line.sheet):
        return False
    whole = not one.text or (not line.name and one.value == line.taken)
    return whole or (bool(line.name) and corrections.table(line.sheet, line.name.split(PARTS)) is one)


def _left(one: Correction, why: str) -> Line:
    """The line of a correction that no line stands for: of a word that is known by it, or of what is gone."""
    lists = {"table": "TableChoices", "heading": "AnyFields", "word": "Meanings"}
    choices = Place(CHOICES, lists[one.about]) if one.about in lists else ()
    surely = why if why == NO_CHOICE or one.about == "word" else NOT_FOUND
    return Line(one.about, one.text, one.value, surely, choices, one.sheet, one.title, at_first=one.own)


# --- columns and choices --------------------------------------------------------------------------------------------

_TAKEN_NOTE = "For you to correct: take from the list what it is. What you leave as it is may be read better later."
_SURELY_NOTE = f"Known, guessed or not known. Take '{YOURS}' to say that a guess is right."
_FIRST_NOTE = "What it was read as without you. Leave this as it is: what differs from it is your correction."


def _last_columns(headings: Sequence[str]) -> tuple[Column, ...]:
    taken, surely, first = headings
    return (
        Column(taken, lambda line: line.taken, "box", 24, _TAKEN_NOTE, choices_for=lambda line: line.choices),
        Column(surely, lambda line: line.surely, "box", 30, _SURELY_NOTE, choices=(YOURS,)),
        Column(first, lambda line: line.at_first, width=22, note=_FIRST_NOTE),
    )


TABLE_COLUMNS = (
    Column(TABLE_HEADINGS[0], lambda line: line.sheet, width=14, note="The sheet of your workbook."),
    Column(
        TABLE_HEADINGS[1],
        lambda line: TABLE if line.about == "table" else HEADING,
        width=9,
        note="A table, or one of the headings of the table above.",
    ),
    Column(
        TABLE_HEADINGS[2], lambda line: line.name, width=28, note="The heading, or the first headings of the table."
    ),
    Column(TABLE_HEADINGS[3], lambda line: line.title, width=10, note="Which of several tables of the sheet is meant."),
    Column(TABLE_HEADINGS[4], lambda line: line.stands, width=15, note="Where it stands now; it may move."),
    Column(TABLE_HEADINGS[5], lambda line: line.example, width=24, note="What stands below it."),
    *_last_columns(TABLE_HEADINGS[6:]),
)
WORD_COLUMNS = (
    Column(WORD_HEADINGS[0], lambda line: line.name, width=26, note="The word or code as you wrote it."),
    Column(WORD_HEADINGS[1], lambda line: line.example, width=16, note="The field in which it stands."),
    Column(WORD_HEADINGS[2], lambda line: line.stands, width=28, note="The cells in which it stands."),
    *_last_columns(WORD_HEADINGS[3:]),
)
ASSUMED_COLUMNS = (
    Column(ASSUMED_HEADINGS[0], lambda line: line.name, width=22, note="What had to be assumed."),
    *_last_columns(ASSUMED_HEADINGS[1:]),
)


def _choices_sheet() -> SheetSpec:
    """The lists behind the drop-downs, with what each choice means."""
    any_fields = tuple({field.label: field for field in (*LOG_FIELDS, *BIN_FIELDS)}.values())
    meanings = [(NO_MEANING, "any", "the word is passed over")]
    meanings += [(word.meaning, word.said_of, ", ".join(word.words[:6])) for word in known_words()]
    return SheetSpec(
        CHOICES,
        "What can be chosen on the other sheets.",
        (
            TableSpec(
                "TableChoices",
                (
                    Column("A table can be", lambda row: row[0], width=26, note="Choices for a table."),
                    Column("What that is", lambda row: row[1], width=60, note="What its rows are read as."),
                ),
                [(choice, _says_of(choice)) for choice in TABLE_CHOICES],
                title="Tables",
            ),
            _fields_table("BinFields", "Headings of a list of bins", BIN_FIELDS),
            _fields_table("LogFields", "Headings of a log", LOG_FIELDS),
            _fields_table("AnyFields", "Headings of what is not used yet", any_fields),
            TableSpec(
                "Meanings",
                (
                    Column("A word can mean", lambda row: row[0], note="Choices for a word."),
                    Column("Said of", lambda row: row[1], note="Where it is understood."),
                    Column("Known words for it", lambda row: row[2], note="Some of the words understood without help."),
                ),
                meanings,
                title="Words",
            ),
        ),
        landscape=False,
        frozen_headings=False,
    )


def _says_of(choice: str) -> str:
    own = {
        "list of bins": "one row a bin",
        "log": "rows with a date and what was done or seen",
        "settings": "what you set, or words of yours with their meaning",
        NOT_USED: "nothing of it is read",
    }
    if choice.startswith("log: "):
        return "a log in which every row records this"
    return own.get(choice, "the whole sheet is read so")


def _fields_table(name: str, title: str, fields: Sequence[Field]) -> TableSpec:
    rows = [(NOT_USED, "Nothing below it is read.")] + [(field.label, field.says) for field in fields]
    return TableSpec(
        name,
        (
            Column("A heading can be", lambda row: row[0], note="Choices for a heading."),
            Column("What it holds", lambda row: row[1], note="What stands in the cells below it."),
        ),
        rows,
        title=title,
    )
