"""A grid of dates: bins down and days across, or the other way round, codes in the cells."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.headings import normalise, plain
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.passed import says_totals
from workbook_tools.intake.regions import is_heading_row
from workbook_tools.intake.roles import act_named
from workbook_tools.intake.shapes.blocks import Block, find_blocks, known_heading, turned
from workbook_tools.intake.shapes.codes import Codes, looks_coded
from workbook_tools.intake.shapes.days import are_weekdays, spot_of
from workbook_tools.intake.shapes.gridlog import GridLog
from workbook_tools.intake.shapes.legend import Legend, find_legend
from workbook_tools.intake.shapes.pairs import known, pairs_of
from workbook_tools.intake.shapes.records import Around, Shape, Unfolded
from workbook_tools.problems import CellRef

NAME = "a grid of dates"
_FEW_DAYS = 6
_MOST_HEADINGS = 0.4
"""Where more of the labels beside the days are headings of a list, they are no bins."""
_WHOLE_LIST = frozenset({"bins", "did"})


_OF_A_CARD = frozenset({"name", "species", "volume", "started", "line", "place"})
"""Fields of a bin: two of them beside a column of days are the labels of a card or a list."""
_OF_A_LOG = frozenset({"moss", "water", "leaf", "share", "dead", "number", "food", "amount", "way"})
"""Fields of a log whose heading beside a column of days says that it is a log, unless the others are codes of bins."""


class Grid:
    """One way of looking at a sheet as a grid: its blocks, its key, and how surely it is one.

    Parameters
    ----------
    sheet : Sheet
        With days across; turned by the caller where they stand below one another.
    around : Around
        What is known beside it.
    down : bool
        Whether the sheet was turned.
    """

    def __init__(self, sheet: Sheet, around: Around, *, down: bool) -> None:
        self.sheet, self.down, self.lexicon = sheet, down, around.lexicon
        self.blocks: Sequence[Block] = ()
        self.score = 0.0
        if down and _is_list(turned(sheet)):
            return
        self.rows = sheet.rows
        self.blocks = find_blocks(sheet, around)
        if not self.blocks:
            return
        inside = frozenset(
            cell.ref for block in self.blocks for cell in _codes_of(self.rows, block, only_labelled=True)
        )
        self.legend, means = find_legend(turned(sheet) if down else sheet, around.lexicon, inside)
        own = {word: said for word, said in around.lexicon.extra.items() if len(word) <= 3}
        act, unit = self._of_title()
        self.codes = Codes(around.corrections.over_key({**own, **means}), around.lexicon, act, unit)
        self.score = self._score()

    def _of_title(self) -> tuple[str, str]:
        """The one kind of work that a title, a corner or the sheet's name speaks of, and its unit."""
        first = self.blocks[0]
        texts = [cell.text for row, cells in self.rows.items() if row < first.top for cell in cells.values()]
        texts += [first.heads[col].text for col in first.heads if col <= first.bins]
        for text in (*texts, self.sheet.name):
            singular = " ".join(word.removesuffix("s") for word in normal(text).split())
            if act := act_named(normal(text), self.lexicon) or act_named(singular, self.lexicon):
                return act, normalise(text).unit
        return "", ""

    def bin_rows(self, block: Block) -> list[int]:
        """Rows of a block that may be bins: labelled, not by a heading, not totals, not the key."""
        return [row for row, label in self.labels(block).items() if not _known(label.text)]

    def labels(self, block: Block) -> dict[int, Cell]:
        """The cells that name the rows of a block, those of the key and of totals left out."""
        found = {row: self.rows[row].get(block.bins) for row in self.rows if block.line < row <= block.last}
        return {
            row: cell
            for row, cell in found.items()
            if cell is not None and cell.ref not in self.legend.cells and not self._sums(row, cell, block)
        }

    def _sums(self, row: int, label: Cell, block: Block) -> bool:
        """Whether a row sums up: 'Total', or 'Total watered' before nothing but numbers."""
        words = plain(label.text)
        under = [cell for col, cell in self.rows[row].items() if col in block.days]
        numbers = all(isinstance(cell.value, int | float) for cell in under)
        return says_totals(words) or (bool(under) and numbers and says_totals(words.split()[0] if words else ""))

    def _score(self) -> float:
        """How surely it is a grid: by its days, and by how many cells look like codes."""
        best = 0.0
        for block in self.blocks:
            labels = self.labels(block)
            bins = set(self.bin_rows(block))
            cells = [cell for cell in _codes_of(self.rows, block) if cell.ref not in self.legend.cells]
            if not bins or not cells or len(labels) - len(bins) > _MOST_HEADINGS * len(labels):
                continue
            if self.down and not self._bins_across(block, labels, bins):
                continue
            coded = sum(looks_coded(cell, self.codes) for cell in cells) / len(cells)
            best = max(best, 0.1 + 0.25 * min(1.0, len(block.days) / _FEW_DAYS) + 0.65 * coded)
        return round(best, 2)

    def _bins_across(self, block: Block, labels: Mapping[int, Cell], bins: set[int]) -> bool:
        """Whether headings beside a column of days name bins: two or more, codes or over cells of known codes."""
        of_logs = {known_heading(label.text, of_bins=False) for label in labels.values()}
        if of_logs & _WHOLE_LIST or len(bins) < 2:
            return False
        of_bins = {known_heading(label.text, of_bins=True) for label in labels.values()}
        if len(of_bins & _OF_A_CARD) > 1 or any(map(_is_pair, labels.values())):
            return False
        if of_logs & _OF_A_LOG and not all(is_code(labels[row].text) for row in bins):
            return False
        sure = 0
        for row in bins:
            cells = [self.rows[row][col] for col in block.days if col in self.rows[row]]
            said = [self.codes.read(cell) for cell in cells]
            good = sum(bool(one.text or one.nothing) for one in said)
            sure += is_code(labels[row].text) or (bool(cells) and good >= 0.6 * len(cells))
        return sure >= 0.6 * len(bins)


def normal(text: str) -> str:
    """The words of a title without its unit."""
    return " ".join(normalise(text).words)


def _is_pair(cell: Cell) -> bool:
    """Whether a cell holds a label of a bin with its value: 'Litres: 8'."""
    return any(pair.value and known(pair.label.text) for pair in pairs_of({0: cell}) or ())


def _known(text: str) -> str:
    return known_heading(text, of_bins=False) or known_heading(text, of_bins=True)


def is_code(text: str) -> bool:
    """Whether a label looks like the code of a bin: a few letters and a number."""
    bare = plain(text).replace(" ", "")
    return any(ch.isdigit() for ch in bare) and len(bare) <= 7


def _codes_of(rows: Mapping[int, Mapping[int, Cell]], block: Block, *, only_labelled: bool = False) -> list[Cell]:
    """The cells of a block under its days, rows of weekdays left out."""
    found: list[Cell] = []
    for row, cells in rows.items():
        if only_labelled and block.bins not in cells:
            continue
        under = [cell for col, cell in cells.items() if col in block.days]
        if block.line < row <= block.last and not are_weekdays(under, cells.get(block.bins)):
            found += under
    return found


def _is_list(sheet: Sheet) -> bool:
    """Whether a sheet has a heading row of a log or a list in which bins or what was done have their column."""
    rows = sheet.rows
    for row, cells in list(rows.items())[:40]:
        if not is_heading_row(cells):
            continue
        for col, cell in cells.items():
            below = [rows[later][col] for later in rows if later > row and col in rows[later]][:40]
            days = sum(spot_of(one) is not None for one in below)
            if known_heading(cell.text, of_bins=False) in _WHOLE_LIST and 2 * days <= len(below):
                return True
    return False


def _best(sheet: Sheet, around: Around) -> Grid:
    across = Grid(sheet, around, down=False)
    down = Grid(turned(sheet), around, down=True)
    return down if down.score > across.score else across


def likeness(sheet: Sheet, around: Around) -> float:
    """How surely a sheet is a grid of dates: a line of days in order, bins beside it, short codes between them."""
    return _best(sheet, around).score


def unfolded(sheet: Sheet, around: Around) -> Unfolded:
    """The grid as a list of bins and a log, the rest of the sheet as it stands."""
    grid = _best(sheet, around)
    made = GridLog(grid.sheet.name, grid.codes, grid.legend)
    for block in grid.blocks:
        made.add_block(block, grid.rows, grid.labels(block))
    sheets = [part for part in (made.list_of_bins(), made.log()) if part is not None]
    problems = [*grid.legend.problems, *made.problems()]
    done = {cell.ref for part in sheets for cell in part.cells.values()} | made.passed.keys() | made.named
    left = {at: cell for at, cell in sheet.cells.items() if cell.ref not in done}
    if left:
        sheets.append(Sheet(sheet.name, left, sheet.merged, sheet.hidden))
    days = sum(len(block.days) for block in grid.blocks)
    way = "below one another, bins across" if grid.down else "across, bins below one another"
    key = f"; its key: {_told(grid.legend)}" if grid.legend.means else "; it has no key"
    why = f"{days} days {way}, codes in the cells{key}"
    order = next((block.placed.order for block in grid.blocks if block.placed.order), None)
    dates = tuple(cell for block in grid.blocks for cell in block.days.values())
    words = {code: said for code, said in grid.codes.means.items() if len(code) > 1}
    return Unfolded(tuple(sheets), NAME, grid.score, why, (), tuple(problems), made.passed, words, order, dates)


def _told(legend: Legend) -> str:
    return ", ".join(f"{code} = {words}" for code, words in legend.means.items())


SHAPE = Shape(NAME, likeness, unfolded)
__all__ = ["SHAPE", "CellRef", "Grid", "Lexicon", "likeness", "unfolded"]
