"""A sheet a bin: a card of labels and values above, the bin's own log below, without a column of bins."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from workbook_tools.fields import BIN_FIELDS
from workbook_tools.intake.amounts import read_amount
from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.date_words import fold, months
from workbook_tools.intake.headings import plain
from workbook_tools.intake.passed import says_total
from workbook_tools.intake.profile import is_date
from workbook_tools.intake.regions import is_heading_row
from workbook_tools.intake.shapes.pairs import Pair, has_field, known, pairs_of
from workbook_tools.intake.shapes.records import Around, Shape, Unfolded
from workbook_tools.problems import CellRef, Problem

NAME = "a sheet a bin"
_ASIDE = re.compile(r"\s*[(\[][^)\]]*[)\]]\s*$")
_BIN_WORD = re.compile(r"(?:bin|box|tub|container|enclosure)\b\.?\s*(?:no\b\.?|nr\b\.?|#)?\s*(?=\S)", re.IGNORECASE)
_CODE = re.compile(r"[A-Za-z]{0,4}[ _.-]?\d{1,4}[a-z]?")
_UNNAMED = re.compile(
    r"(?:sheet|table|wk|kw|q|quarter|tabelle|feuil|hoja|blad|page|copy|week|year|log|list|part)\s*\d*", re.IGNORECASE
)
_LETTERS = re.compile(r"[^\W\d_]+")
_CARE = ("did", "moss", "water", "food", "leaf", "leftovers", "substrate", "share", "number")
"""Fields of the log that can't be meant for a room: a log with one of them is some bin's."""
_WIDEST = 12
"""A row of a card has no more cells than this."""
_FEWEST_ALIKE = 3
"""So many sheets at least must say the same before it is no name."""
_LABELS = {field.key: field.label for field in BIN_FIELDS}
Rows = Mapping[int, Mapping[int, Cell]]


@dataclass
class _Card:
    """A card as found: its pairs, single texts around them, and where its log begins and ends."""

    pairs: list[Pair] = field(default_factory=list)
    titles: list[Cell] = field(default_factory=list)
    heading_row: int = 0
    last_row: int = 0
    shared: list[Pair] = field(default_factory=list)
    """Pairs that would name the bin, but are the same on most sheets."""

    def named(self) -> Pair | None:
        """The pair that gives the bin's name."""
        return next((pair for pair in self.pairs if pair.value and known(pair.label.text) == "name"), None)


def alike(sheets: Sequence[Sheet]) -> frozenset[tuple[str, str]]:
    """Names of bins that most of the sheets with that label give alike, each as (label, value) in plain words."""
    labels: dict[str, int] = {}
    values: dict[tuple[str, str], int] = {}
    for sheet in sheets:
        pairs = [pair for cells in sheet.rows.values() if len(cells) <= _WIDEST for pair in pairs_of(cells) or ()]
        said = {_said(pair) for pair in pairs if pair.value and known(pair.label.text) == "name"}
        for label in {label for label, _ in said}:
            labels[label] = labels.get(label, 0) + 1
        for one in said:
            values[one] = values.get(one, 0) + 1
    return frozenset(one for one, many in values.items() if many >= _FEWEST_ALIKE and 2 * many > labels[one[0]])


def _said(pair: Pair) -> tuple[str, str]:
    return plain(pair.label.text), plain(pair.value.text) if pair.value else ""


def _settle_names(card: _Card, sheet: Sheet, around: Around) -> None:
    """Take a label that names no bin for what it tells: a volume is the box's size, what most sheets share a note."""
    own = {plain(bin_of_sheet(sheet.name)), *(plain(cell.text) for cell in card.titles)}
    for at, pair in enumerate(card.pairs):
        if pair.value is None or known(pair.label.text) != "name" or plain(pair.value.text) in own:
            continue
        if _is_volume(pair.value):
            card.pairs[at] = _relabelled(pair, "volume")
        elif _said(pair) in around.alike:
            card.pairs[at] = _relabelled(pair, "note")
            card.shared.append(pair)


def _relabelled(pair: Pair, key: str) -> Pair:
    return replace(pair, label=Cell(pair.label.ref, _LABELS[key], _LABELS[key], pair.label.text))


def _is_volume(cell: Cell) -> bool:
    """Whether a value is a volume with its unit, or the sides of a box."""
    found = read_amount(cell.value, "l")
    unit = found.amount.as_written if found.amount and found.amount.unit == "l" else ""
    return unit == "l" or len(unit) > 1 or found.code == "amounts.unit_assumed"


def find_cards(sheet: Sheet, around: Around) -> list[_Card] | None:
    """The cards of a sheet from the top down; None where something stands on it that is no card.

    A further card begins below a log only where a pair names a bin.
    """
    cards = _find(sheet)
    for card in cards or ():
        _settle_names(card, sheet, around)
    return cards


def _find(sheet: Sheet) -> list[_Card] | None:
    rows = sheet.rows
    cards = [_Card()]
    numbers = list(rows)
    at = 0
    while at < len(numbers):
        row, card = numbers[at], cards[-1]
        cells = rows[row]
        pairs = pairs_of(cells)
        if pairs and card.heading_row and any(known(one.label.text) == "name" for one in pairs):
            cards.append(_Card(pairs))
        elif card.heading_row:
            card.last_row = row
        elif pairs:
            card.pairs += pairs
        elif under := _labels_over_values(rows, numbers[at : at + 3]):
            card.pairs += under
            at += 1
        elif is_heading_row(cells):
            if has_field(cells, "bins") or not has_field(cells, "when"):
                return None
            card.heading_row = card.last_row = row
        elif len(cells) == 1 and isinstance(next(iter(cells.values())).value, str):
            card.titles += cells.values()
        else:
            return None
        at += 1
    return cards


def _labels_over_values(rows: Rows, numbers: Sequence[int]) -> list[Pair]:
    """The pairs of a row of labels with one row of values under it, above a log that names no bins."""
    if len(numbers) < 3 or not is_heading_row(rows[numbers[0]]) or has_field(rows[numbers[0]], "when"):
        return []
    labels, values, below = (rows[number] for number in numbers)
    if not (is_heading_row(below) and has_field(below, "when")) or has_field(below, "bins"):
        return []
    if not set(values) <= set(labels):
        return []
    return [Pair(label, values.get(col)) for col, label in labels.items()]


def bin_of_sheet(name: str) -> str:
    """The bin that a sheet is named after, its bracket left out; empty for a name that is hardly a bin's."""
    bare = _ASIDE.sub("", name).strip()
    words = plain(bare).split()
    if not words or _UNNAMED.fullmatch(bare) or any(word in months() for word in _LETTERS.findall(fold(bare))):
        return ""
    return "" if re.fullmatch(r"(?:19|20)\d\d", bare) else bare


def likeness(sheet: Sheet, around: Around) -> float:
    """How surely a sheet is one bin's: by the labels of its card, and a log that has no column of bins."""
    cards = find_cards(sheet, around)
    if not cards:
        return 0.0
    card = cards[0]
    filled = [pair for pair in card.pairs if pair.value]
    keys = {key for pair in filled if (key := known(pair.label.text))}
    if len(filled) >= 2 and keys and (card.named() or card.heading_row) and len(keys) + bool(card.heading_row) >= 2:
        return 0.65 + 0.2 * min(1.0, len(keys) / len(filled)) + (0.15 if card.named() else 0.0)
    if not card.heading_row:
        return 0.0
    if card.named() or _titled(card, sheet):
        return 0.75
    heads = sheet.rows[card.heading_row]
    coded = _CODE.fullmatch(bin_of_sheet(sheet.name)) and any(ch.isdigit() for ch in sheet.name)
    return 0.7 if coded and not card.pairs and any(has_field(heads, key) for key in _CARE) else 0.0


def _titled(card: _Card, sheet: Sheet) -> Cell | None:
    """The bin's name where a title gives it: 'Box D-09'; whole, where the sheet is called so too."""
    for cell in card.titles:
        if any(ch.isdigit() for ch in cell.text) and plain(cell.text) == plain(bin_of_sheet(sheet.name)):
            return cell
        found = _BIN_WORD.match(cell.text)
        rest = cell.text[found.end() :].strip() if found else ""
        if rest and len(rest.split()) <= 3 and any(ch.isdigit() for ch in rest):
            return Cell(cell.ref, rest, rest)
    return None


def unfolded(sheet: Sheet, around: Around) -> Unfolded:
    """A list of one bin from each card, and its log with the bin in every row."""
    cards = find_cards(sheet, around) or []
    sheets: list[Sheet] = []
    problems: list[Problem] = []
    passed: dict[CellRef, str] = {}
    for card in cards:
        name, found = _name(sheet, card)
        problems += found
        for pair in card.shared:
            told = {"label": pair.label.text, "bin": name.text if name else ""}
            problems.append(Problem("shapes.same_on_most", pair.label.ref, told, pair.value.text if pair.value else ""))
        if name is None:
            passed.update({pair.label.ref: "a card without a bin's name" for pair in card.pairs})
            continue
        sheets.append(_as_list(sheet, card, name))
        if card.heading_row:
            sheets.append(_as_log(sheet, card, name))
        passed.update({cell.ref: "a title" for cell in card.titles if cell.ref != name.ref})
        passed.update({pair.label.ref: "a label without a value" for pair in card.pairs if pair.value is None})
    first = cards[0]
    above = f"{len(first.pairs)} labels above" if first.pairs else "no labels above"
    below = "a log without a column of bins below" if first.heading_row else "no log below"
    many = f"; {len(cards)} such cards" if len(cards) > 1 else ""
    return Unfolded(tuple(sheets), why=f"{above}, {below}{many}", problems=tuple(problems), passed=passed)


def _name(sheet: Sheet, card: _Card) -> tuple[Cell | None, list[Problem]]:
    """The cell that names a card's bin: its own label, else its title, else the name of the sheet."""
    of_sheet = bin_of_sheet(sheet.name)
    named = card.named()
    if named and named.value:
        name = named.value
        problems = []
        if _CODE.fullmatch(of_sheet) and _CODE.fullmatch(name.text) and _alike(of_sheet) != _alike(name.text):
            told = {"bin": name.text, "sheet": sheet.name}
            problems.append(Problem("shapes.other_name", name.ref, told, name.text))
        return name, problems
    if titled := _titled(card, sheet):
        return titled, []
    text = of_sheet or sheet.name
    where = CellRef(sheet.name)
    return Cell(where, text, text), [Problem("shapes.named_by_sheet", where, {"bin": text}, sheet.name)]


def _alike(text: str) -> str:
    return re.sub(r"0+(?=\d)", "", plain(text).replace(" ", ""))


def _as_list(sheet: Sheet, card: _Card, name: Cell) -> Sheet:
    """The card as a list of bins with one row."""
    named = card.named()
    heads = [named.label if named else Cell(CellRef(sheet.name), "Bin", "Bin")]
    values: list[Cell | None] = [name]
    for pair in card.pairs:
        if pair is not named:
            heads.append(pair.label)
            values.append(pair.value)
    cells = {(1, col): head for col, head in enumerate(heads, 1)}
    cells |= {(2, col): value for col, value in enumerate(values, 1) if value}
    at = name.ref if name.ref.row else CellRef(sheet.name, min((p.label.ref.row for p in card.pairs), default=1))
    return Sheet(sheet.name, cells, hidden=sheet.hidden, rows_at={2: at})


def _as_log(sheet: Sheet, card: _Card, name: Cell) -> Sheet:
    """The log below a card where it stands, with a column of bins behind it.

    Rows of a single text in the first column, of a date alone and of totals are no entries and get no bin.
    """
    rows = {row: cells for row, cells in sheet.rows.items() if card.heading_row <= row <= card.last_row}
    cells = {(row, col): cell for row, held in rows.items() for col, cell in held.items()}
    left = min(rows[card.heading_row])
    added = max(col for _, col in cells) + 1
    cells[card.heading_row, added] = Cell(CellRef(sheet.name), "Bin", "Bin")
    for row, held in rows.items():
        col, first = min(held.items())
        alone = len(held) == 1 and (is_date(first) or col == left)
        if row > card.heading_row and not alone and not any(says_total(cell.text) for cell in held.values()):
            cells[row, added] = name
    merged = tuple(area for area in sheet.merged if area.top >= card.heading_row and area.bottom <= card.last_row)
    return Sheet(sheet.name, cells, merged, sheet.hidden)


SHAPE = Shape(NAME, likeness, unfolded)
