"""Turn one cell into facts by the kind of its field; one function a kind."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from workbook_tools.fields import Field, Kind
from workbook_tools.fields.things import NOT_ANIMALS
from workbook_tools.intake.act_numbers import in_thousands, no_animals, numbers_of
from workbook_tools.intake.amounts import Measures, read_amount, read_share
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.dates import DateStyle, read_date
from workbook_tools.intake.decimals import Decimal
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.number_words import NO_SIZE, vague_key
from workbook_tools.intake.numbers import NumberReading, read_number
from workbook_tools.intake.values import Fact, Number, When, Words
from workbook_tools.intake.words_found import WordsFound
from workbook_tools.problems import Problem
from workbook_tools.vocabulary.presence import SILENT, UNDONE, Presence, presence_of

FIELD_OF_STATES = {"moss": "moss", "leftovers": "leftovers", "finding": "seen", "substrate": "substrate"}
_EATEN = re.compile(r"(.*(?:\d.*|half|third|thirds|quarter|quarters))\s+(?:was |is )?(?:eaten|gone)")
SAID_DAY = "said_day"
"""Where the day that a text of acts names is kept until its row takes it."""
LONGEST_AGO = dt.timedelta(days=62)
"""Nobody logs later than this what was done."""
_GIVING_KINDS = frozenset({Kind.TEXT, Kind.AMOUNT, Kind.SHARE})
_GIVEN = frozenset({"water", "feed", "leaf", "calcium"})
"""Acts by which something is given: their columns may say that it wasn't."""
_ARROW = re.compile(r"(.*[^\s>-])\s*(?:-*>|=>|→|➔|➜|»)\s*(.+)")
_MEASURED = frozenset({"l", "ml", "g", "cm"})
"""Units of what is no number of animals."""
_LETTERS = frozenset({"c", "m"})
"""Letters that behind a number of animals are more likely a keeper's own sign than cups or metres."""
_CLOCK = re.compile(r"^(\d{1,2})[:.h](\d{2})?\s*(am|pm)?$", re.IGNORECASE)


@dataclass(frozen=True)
class Context:
    """What holds for the whole file while its cells are read."""

    style: DateStyle
    decimal: Decimal
    measures: Measures
    lexicon: Lexicon


@dataclass(frozen=True)
class Place:
    """What holds for one cell: its field, the unit in its heading, and a near date for a missing year."""

    field: Field
    unit: str = ""
    near: dt.date | None = None


Meaning = tuple[list[Fact], list[Problem]]


def read_cell(cell: Cell, place: Place, context: Context) -> Meaning:
    """Read one cell as its field says. What can't be read is a problem that names the cell; the text is kept."""
    if place.field.kind in _GIVING_KINDS and (place.field.implies in _GIVEN or place.field.key == "share"):
        undone = _undone(cell, place, context)
        if undone is not None:
            return undone
    return READERS[place.field.kind](cell, place, context)


def _undone(cell: Cell, place: Place, context: Context) -> Meaning | None:
    """What a cell of something given says, where it says that nothing was: 'no', ✗, 'later', 'not fed'; else None.

    One that is plainly ticked or denied needs no word; what is planned or asked is told, as it may be a slip.
    """
    said = presence_of(cell.text)
    text = place.field.kind is Kind.TEXT
    if isinstance(cell.value, bool) or (said is Presence.DONE and text) or said in (Presence.NONE, Presence.NOT_DONE):
        done = cell.value if isinstance(cell.value, bool) else said is Presence.DONE
        return ([] if place.field.key == "share" and not done else [Fact(place.field.key, done, cell)]), []
    told = [Problem("words.not_done", cell.ref, {"word": cell.text}, cell.text)]
    if said in UNDONE:
        return [], told
    if said is not None or not any(map(str.isalpha, cell.text)):
        return None
    return ([], told) if context.lexicon.says_undone(cell.text if text else cell.text.replace("?", "")) else None


def _problem(code: str, facts: Mapping[str, object], cell: Cell) -> list[Problem]:
    return [Problem(code, cell.ref, facts, cell.text)] if code else []


def _text(cell: Cell, place: Place, context: Context) -> Meaning:
    if presence_of(cell.text) in SILENT:
        return [], []
    if place.field.key == "food" and place.unit not in ("", "percent") and any(c.isdecimal() for c in cell.text):
        return _food_given(cell, place, context)
    return [Fact(place.field.key, cell.text, cell)], []


def _food_given(cell: Cell, place: Place, context: Context) -> Meaning:
    """How much was fed, in a column of food whose heading names a unit; an amount of nothing is no feeding."""
    given = cell.value if _is_number(cell.value) else cell.text
    reading = read_amount(given, "", context.measures, context.decimal, place.unit)
    problems = _problem(reading.code, reading.facts, cell)
    if reading.amount is None or not reading.amount.number.high > 0:
        return [], problems
    fed = Fact("did", Words(("feed",)), cell)
    return [fed, Fact("amount", reading.amount, cell, reading.amount.guessed)], problems


def _date(cell: Cell, place: Place, context: Context) -> Meaning:
    coarse = place.field.key in ("started", "last_substrate_change")
    ahead = place.field.key == "look_again"
    reading = read_date(cell, context.style, near=place.near, coarse=coarse, ahead=ahead)
    if reading.when is None and place.field.states:
        seen = context.lexicon.read_state(cell.text, place.field.states)
        if seen.keys:
            return [Fact(place.field.states, Words(seen.keys), cell, bool(seen.guessed))], _word_problems(
                seen, cell, place
            )
    facts = [Fact(place.field.key, reading.when, cell, reading.guessed)] if reading.when else []
    return facts, _problem(reading.code, reading.facts, cell)


def _time(cell: Cell, place: Place, context: Context) -> Meaning:
    value = cell.value
    if isinstance(value, dt.datetime):
        value = value.time()
    if isinstance(value, dt.time):
        return [Fact(place.field.key, value, cell)], []
    if _is_number(value) and isinstance(value, int | float) and 0 <= value < 1:
        minutes = round(value * 1440) % 1440
        return [Fact(place.field.key, dt.time(minutes // 60, minutes % 60), cell)], []
    if found := None if _is_number(value) else _CLOCK.match(cell.text.strip()):
        hour, minute = int(found[1]), int(found[2] or 0)
        if found[3]:
            hour = hour % 12 + (12 if found[3].casefold() == "pm" else 0)
        if hour < 24 and minute < 60:
            return [Fact(place.field.key, dt.time(hour, minute), cell)], []
    if presence_of(cell.text) in SILENT:
        return [], []
    return [], _problem("dates.not_a_time", {}, cell)


def _number(cell: Cell, place: Place, context: Context) -> Meaning:
    written = not _is_number(cell.value)
    reading = (in_thousands(cell.text, context.decimal) if written else None) or read_number(
        cell.text if written else cell.value, context.decimal
    )
    if reading.number and place.field.key == "number" and reading.rest:
        measured = read_amount(cell.text, "", context.measures, context.decimal).amount
        told = {"value": cell.text, "field": place.field.label}
        if measured and measured.unit in _MEASURED and measured.as_written not in _LETTERS:
            return [Fact("amount", measured, cell, True)], _problem("numbers.measured", told, cell)
        if reading.rest.split()[0].strip(".,;:!?()") in NOT_ANIMALS:
            return [], _problem("numbers.of_things", told, cell)
    if written and reading.number and (vague := vague_key(cell.text)):
        if vague == NO_SIZE and place.field.implies == "count":
            return [], _problem("numbers.no_size", {"value": cell.text}, cell)
        told = {"value": cell.text, "low": f"{reading.number.low:g}", "high": f"{reading.number.high:g}"}
        return [Fact(place.field.key, reading.number, cell, True)], _problem("numbers.from_word", told, cell)
    if problems := no_animals(cell, reading):
        return [], problems
    facts = [Fact(place.field.key, reading.number, cell, reading.guessed)] if reading.number else []
    if reading.number and reading.rest and place.field.implies == "count":
        facts.append(Fact("way", reading.rest, cell))
    return facts, _problem(reading.code, reading.facts, cell)


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _amount(cell: Cell, place: Place, context: Context) -> Meaning:
    if isinstance(cell.value, bool):
        return [Fact(place.field.key, cell.value, cell)], []
    given = cell.value if _is_number(cell.value) else cell.text
    reading = read_amount(given, place.field.unit, context.measures, context.decimal, place.unit)
    facts = []
    if reading.amount and reading.amount.unit in ("", "count"):
        counted = NumberReading(number=reading.amount.number)
        if problems := [one for one in no_animals(cell, counted) if one.code == "numbers.too_many"]:
            return [], problems
    if reading.amount and place.field.key == "water" and reading.amount.unit == "g" and place.unit != "g":
        told = {"value": cell.text, "field": place.field.label}
        return [Fact("amount", reading.amount, cell, True)], _problem("amounts.weight_no_water", told, cell)
    if reading.amount:
        facts.append(Fact(place.field.key, reading.amount, cell, reading.amount.guessed))
    elif reading.truth is not None:
        facts.append(Fact(place.field.key, reading.truth, cell))
    return facts, _problem(reading.code, reading.facts, cell)


def _share(cell: Cell, place: Place, context: Context) -> Meaning:
    if place.field.unit == "percent":
        return _amount(cell, place, context)
    if presence_of(cell.text) in SILENT:
        return [], []
    reading = read_share(cell.value if _is_number(cell.value) else cell.text, context.decimal)
    facts = [Fact(place.field.key, reading.amount, cell, reading.amount.guessed)] if reading.amount else []
    return facts, _problem(reading.code, reading.facts, cell)


def _act(cell: Cell, place: Place, context: Context) -> Meaning:
    if presence_of(cell.text) in SILENT:
        return [], []
    found = context.lexicon.read_acts(cell.text)
    facts = [Fact(place.field.key, Words(found.keys), cell, bool(found.guessed))]
    for states, keys in found.states.items():
        facts.append(Fact(FIELD_OF_STATES[states], Words(keys), cell, True))
    facts += [Fact(field, name, cell) for field, name in found.bins]
    done_on, strange = _day_said(found, cell, place, context)
    facts += done_on
    told, unplaced = numbers_of(found, cell, context.decimal, context.measures)
    problems = [Problem("words.not_done", cell.ref, {"word": text}, text) for text in found.undone]
    return [*facts, *told], [*_word_problems(found, cell, place), *problems, *strange, *unplaced]


def _day_said(found: WordsFound, cell: Cell, place: Place, context: Context) -> Meaning:
    """The day that words name for all that was done, counted back from the row's; of other days it is told."""
    left = [Problem("words.day_of_part", cell.ref, {"day": day, "text": cell.text}, day) for day in found.days]
    if not found.day or place.near is None:
        return [], left
    words = re.sub(r"^(?:on|since|am|le|on the|from)\s+", "", found.day, flags=re.IGNORECASE)
    style = replace(context.style, on=place.near)
    when = read_date(Cell(cell.ref, words, words), style, near=place.near).when
    if when is None or not dt.timedelta(0) <= place.near - when.first <= LONGEST_AGO or when.first == place.near:
        return [], left
    return [Fact(SAID_DAY, replace(when, guessed=True), Cell(cell.ref, found.day, found.day), True)], left


def _word_problems(found: WordsFound, cell: Cell, place: Place) -> list[Problem]:
    label = place.field.label
    problems = [Problem("words.unknown", cell.ref, {"word": word, "field": label}, word) for word in found.unknown]
    problems += [
        Problem("words.guessed", cell.ref, {"word": word, "means": means}, word) for word, means in found.guessed
    ]
    problems += [Problem("words.loose", cell.ref, {"word": word, "means": means}, word) for word, means in found.loose]
    return problems


def _state(cell: Cell, place: Place, context: Context) -> Meaning:
    if isinstance(cell.value, bool):
        return [Fact(place.field.key, Words(("yes" if cell.value else "no",)), cell)], []
    text = cell.text.strip()
    if presence_of(text) in SILENT and place.field.states != "truth":
        return [], []
    if before := _before(text, place, context):
        told = {"value": cell.text, "before": before[0]}
        return [Fact(place.field.key, Words(before), cell, True)], _problem("words.before_after", told, cell)
    if place.field.states == "leftovers" and (left := _share_left(text, context)):
        return [Fact(place.field.key, Words((left,)), cell)], []
    found = context.lexicon.read_state(text, place.field.states)
    if found.keys:
        return [Fact(place.field.key, Words(found.keys), cell, bool(found.guessed))], _word_problems(found, cell, place)
    if place.field.key == "substrate" and (share := _recognisable(cell, place, context)):
        return [Fact("substrate", Words(()), cell), share], []
    reading = read_number(cell.value if _is_number(cell.value) else text, context.decimal)
    if place.field.key == "young" and (problems := no_animals(cell, reading)):
        return [Fact("young", Words(()), cell)], problems
    if reading.number and not reading.rest:
        return _counted_state(cell, place, reading.number)
    return [Fact(place.field.key, Words(()), cell)], _word_problems(found, cell, place)


def _share_left(text: str, context: Context) -> str:
    """What a share eaten leaves ("80% eaten": some, "1/4 eaten": most); nothing where none is written."""
    eaten = _EATEN.fullmatch(text.casefold().strip())
    share = read_share(eaten[1], context.decimal).amount if eaten else None
    if share is None:
        return ""
    left = 1 - share.number.best
    return "gone" if left <= 0 else "some" if left <= 1 / 2 else "most"


def _before(text: str, place: Place, context: Context) -> tuple[str, ...]:
    """How it was found, where a text says how it was before and after ('dry→damp'); else nothing."""
    if not (both := _ARROW.fullmatch(text)):
        return ()
    before, after = (context.lexicon.read_state(one, place.field.states) for one in both.groups())
    sure = before.keys and after.keys and not (before.guessed or after.guessed or before.unknown or after.unknown)
    return before.keys if sure else ()


def _recognisable(cell: Cell, place: Place, context: Context) -> Fact | None:
    """The share of substrate still to be recognised, where a percentage stands instead of a word."""
    if "%" not in cell.text and place.unit != "percent":
        return None
    reading = read_share(cell.value if _is_number(cell.value) else cell.text, context.decimal)
    return Fact("recognisable", reading.amount, cell, True) if reading.amount else None


def _counted_state(cell: Cell, place: Place, number: Number) -> Meaning:
    """A number where words are usual: how many mancas were seen; elsewhere its scale isn't known."""
    if place.field.key == "young":
        words = Words(("yes",) if number.high > 0 else ("no",))
        return [Fact("young", words, cell), Fact("young_number", number, cell)], []
    facts = [Fact(place.field.key, Words(()), cell)]
    return facts, _problem("words.number_for_state", {"field": place.field.label}, cell)


READERS: Mapping[Kind, Callable[[Cell, Place, Context], Meaning]] = {
    Kind.NAME: _text,
    Kind.BINS: _text,
    Kind.TEXT: _text,
    Kind.DATE: _date,
    Kind.TIME: _time,
    Kind.NUMBER: _number,
    Kind.AMOUNT: _amount,
    Kind.SHARE: _share,
    Kind.ACT: _act,
    Kind.STATE: _state,
    Kind.TRUTH: _state,
    Kind.CHOICE: _state,
}


def when_of(facts: list[Fact]) -> When | None:
    """The date among facts, if there is one."""
    return next((fact.value for fact in facts if isinstance(fact.value, When)), None)
