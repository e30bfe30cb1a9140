"""Give the columns of a table their fields: by heading and values, the surest first, each field once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from workbook_tools.fields import ACTS, BIN_FIELDS, LOG_FIELDS, Field
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.corrections import YOURS
from workbook_tools.intake.headings import SCORE_SURE, SCORE_USED, candidates, normalise, tells_how_much
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.profile import Profile, fits
from workbook_tools.intake.regions import Region
from workbook_tools.intake.tables import Heading, Role
from workbook_tools.vocabulary.presence import Presence, words_of

REPEATABLE = frozenset({"note", "plan", "seen", "species"})
"""Fields that several columns of one table may fill."""
MOST = 0.6
"""From this share of dates on a column of a log holds its dates, whatever its heading says."""
_GUESS = 0.9
_SAID = 9.0
"""What the keeper says goes before every likeness."""
_ONE_ALONE = frozenset({"when", "name"})
"""Fields that only one column of a table can fill."""
_LOG = {field.key: field for field in LOG_FIELDS}
_NAME = tuple(field for field in BIN_FIELDS if field.key == "name")
_MARKS = words_of(*Presence) | {"0", "1"}
_COUNTING = frozenset("count counted counts counting seen tally headcount census sum total found".split())
"""Words of a heading that make its numbers a count, whatever else stands in the row."""
_OBJECT = {"feed": "food", "substrate_change": "way"}
"""What a column of words that name no act tells in a log of one kind of work; a note where none is given."""


@dataclass(frozen=True)
class Assigned:
    """What the headings of a table mean if it is a log, or if it is a list of bins."""

    role: Role
    headings: Mapping[int, Heading]
    score: float

    def column(self, key: str) -> int:
        """The first column of a field, 0 when there is none."""
        return next((col for col, head in self.headings.items() if head.field and head.field.key == key), 0)

    def given(self, col: int, key: str, why: str) -> Assigned:
        """The same with a column given to a field of the log, as a guess, unless the keeper says what it is."""
        if self.headings[col].said:
            return self
        head = replace(self.headings[col], field=_LOG[key], score=_GUESS, why=why, other=None)
        return replace(self, headings={**self.headings, col: head})


def heading_text(region: Region, col: int) -> str:
    """A heading with the label of the row of headings above it."""
    label, text = region.groups.get(col, ""), region.headings[col].text
    return f"{label} {text}".strip() if label else text


def assign(
    region: Region,
    fields: Sequence[Field],
    role: Role,
    profiles: Mapping[int, Profile],
    said: Mapping[int, str] | None = None,
) -> Assigned:
    """Give each column its best field, the surest first, each field once unless it is repeatable.

    ``said`` holds the labels of the fields that the keeper gave to columns, '' for one that isn't used; they go before
    everything else, unless the table has no such field.
    """
    labels = {field.label: field for field in fields}
    corrected = {col: label for col, label in (said or {}).items() if not label or label in labels}
    offers = [(_SAID, -col, labels[label], 1.0) for col, label in corrected.items() if label]
    named = _food_is_named(region, fields)
    for col, cell in region.headings.items():
        if col in corrected:
            continue
        for likeness, field in candidates(cell.text, region.groups.get(col, ""), fields):
            measured = tells_how_much(cell.text, field)
            if measured and named:
                continue
            suited = likeness * (1.0 if measured else fits(profiles[col], field))
            if suited >= SCORE_USED:
                offers.append((suited, -col, field, likeness))
    offers.sort(key=lambda offer: (-offer[0], -offer[1]))
    chosen: dict[int, tuple[float, Field]] = {}
    takers: dict[str, int] = {}
    lost: dict[int, tuple[Field, int]] = {}
    total = 0.0
    for suited, negative, field, likeness in offers:
        if -negative in chosen:
            continue
        if field.key in takers and field.key not in REPEATABLE:
            lost.setdefault(-negative, (field, takers[field.key]))
            continue
        if -negative in lost and likeness < SCORE_SURE:  # what it surely means is filled; a weaker guess is worse
            continue
        chosen[-negative] = (likeness, field)
        takers[field.key] = -negative
        total += 1.0 if suited == _SAID else suited
    headings = {}
    for col, cell in region.headings.items():
        text = heading_text(region, col)
        found = chosen.get(col)
        if col in corrected and col not in lost:
            field_said = labels.get(corrected[col])
            unit = normalise(cell.text).unit if field_said else ""
            headings[col] = Heading(cell, text, field_said, unit, 1.0 if field_said else 0.0, YOURS, said=True)
        elif found:
            why = "" if found[0] >= SCORE_SURE else f"much like '{found[1].label}'"
            headings[col] = Heading(cell, text, found[1], normalise(cell.text).unit, round(min(found[0], 1.0), 2), why)
        elif col in lost:
            field, taker = lost[col]
            other = region.headings[taker]
            why = f"'{other.text}' is '{field.label}' already"
            headings[col] = Heading(cell, text, None, score=0.0, why=why, other=(field, other), said=col in corrected)
        else:
            headings[col] = Heading(cell, text, None, score=0.0, why="not used")
    return Assigned(role, headings, total)


def _food_is_named(region: Region, fields: Sequence[Field]) -> bool:
    """Whether a heading without a unit is surely of food: then one with a unit is how much of it was given."""
    return any(
        field.key == "food" and likeness >= SCORE_SURE and not tells_how_much(cell.text, field)
        for col, cell in region.headings.items()
        for likeness, field in candidates(cell.text, region.groups.get(col, ""), fields)
    )


def with_words(log: Assigned, columns: Mapping[int, Sequence[Cell]], lexicon: Lexicon) -> Assigned:
    """Take a column whose heading says nothing for what its words surely are: what was done, or how the moss was."""
    for col, head in log.headings.items():
        loose = head.field is not None and head.field.key == "note" and not log.column("did")
        if (head.field is not None and not loose) or head.other is not None or head.said:
            continue
        texts = [cell.text for cell in columns[col] if sum(map(str.isalpha, cell.text)) > 1]
        if len(texts) < max(2, MOST * len(columns[col])):
            continue
        ways = [lexicon.read_state(text, "method") for text in texts]
        if log.column("number") and not log.column("way") and sum(bool(one.keys) for one in ways) >= MOST * len(texts):
            return log.given(col, "way", "its words say how was counted")
        done = [lexicon.read_acts(text) for text in texts]
        if not log.column("did") and sum(bool(one.keys) and not one.unknown for one in done) >= MOST * len(texts):
            return log.given(col, "did", "its words say what was done")
        if loose:
            continue
        seen = [lexicon.read_state(text, "moss") for text in texts]
        if not log.column("moss") and sum(bool(one.keys) and not one.guessed for one in seen) >= MOST * len(texts):
            return log.given(col, "moss", "its words say how moss is")
    return log


def with_movements(log: Assigned, profiles: Mapping[int, Profile]) -> Assigned:
    """Take words that come again and again beside numbers for what was done, where nothing else says it.

    Without it such a number would be taken for a count; its words may mean anything, and those not known are named.
    """
    number = log.column("number")
    head = log.headings.get(number)
    if head is None or log.column("did") or _COUNTING.intersection(normalise(head.cell.text).words):
        return log
    for col, other in log.headings.items():
        seen = profiles[col]
        free = other.field is None and other.other is None and not other.said
        if free and seen.words >= MOST and seen.filled >= MOST * profiles[number].filled and seen.unlike <= MOST:
            return log.given(col, "did", "its words come again and again, and nothing else says what was done")
    return log


def with_things(log: Assigned) -> Assigned:
    """Take 'What' for what was moved where another column says what was done: a book of movements."""
    for col, head in log.headings.items():
        lost = head.other and head.other[0].key == "did" and normalise(head.cell.text).words == ("what",)
        if lost and not log.column("thing"):
            return log.given(col, "thing", "another column says what was done")
    return log


def as_one_question(given: Assigned, columns: Mapping[int, Sequence[Cell]]) -> Assigned:
    """Read two columns of one field as one where no row fills both: a question that was worded anew midway."""
    for col, head in given.headings.items():
        if head.other is None or head.other[0].key in _ONE_ALONE or not columns[col]:
            continue
        field, other = head.other
        rows = {cell.ref.row for cell in columns[col]}
        filled = {
            cell.ref.row
            for place, taker in given.headings.items()
            if taker.field is not None and taker.field.key == field.key
            for cell in columns[place]
        }
        if not rows & filled:
            head = replace(head, field=field, score=_GUESS, why=f"no row fills both it and '{other.text}'")
            given = replace(given, headings={**given.headings, col: head})
    return given


def with_dates(log: Assigned, profiles: Mapping[int, Profile]) -> Assigned:
    """Take a column of dates for the date of a log that has none, and a number of bins for its bins."""
    if not log.column("when"):
        free = [
            col
            for col, head in log.headings.items()
            if not head.said and (head.field is None or head.field.key == "weekday") and profiles[col].dates >= MOST
        ]
        if not free:
            return log
        log = replace(log.given(free[0], "when", "it holds dates"), score=log.score + _GUESS)
    if not any(log.column(key) for key in ("bins", "bin_before", "bin_after", "from_bin")):
        for col, head in log.headings.items():
            named = candidates(head.cell.text, "", _NAME)
            free_to_name = not head.said and (head.field is None or head.field.key == "who")
            if free_to_name and named and named[0][0] >= SCORE_SURE:
                return replace(log.given(col, "bins", "it names bins"), score=log.score + _GUESS)
    return log


def for_one_act(
    log: Assigned, act: str, columns: Mapping[int, Sequence[Cell]], lexicon: Lexicon
) -> tuple[Assigned, str]:
    """Settle what a column of acts means in a log that its sheet or title names after one kind of work.

    Returns
    -------
    Assigned, str
        The act stands, unless most cells of the column name another. A column whose words mostly name none holds what
        was given, or the way it was done ("carrot" on a sheet *Feeding*).
    """
    col = log.column("did")
    if not act or not col:
        return log, act
    texts = [cell.text for cell in columns[col] if cell.text.strip().casefold() not in _MARKS]
    read = [lexicon.read_acts(text) for text in texts]
    if sum(bool(found.keys) and not found.guessed and act not in found.keys for found in read) > len(texts) / 2:
        return log, ""
    if (
        texts
        and sum((act in found.keys and not found.guessed) or bool(found.undone) for found in read) <= len(texts) / 2
    ):
        key = _OBJECT.get(act, "note")
        if key not in REPEATABLE and log.column(key):
            key = "note"
        log = log.given(col, key, f"every row is '{ACTS[act].label}', and its words name no work")
    return log, act
