"""The key of a sheet: which code means what, wherever it stands."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from workbook_tools.intake.cells import Cell, Sheet
from workbook_tools.intake.headings import plain
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.problems import CellRef, Problem

KEY_WORDS = frozenset(
    "key keys legend code codes letters letter abbreviations abbreviation abbr symbols signs means meaning".split()
)
MORE_WORDS = {"wet": "Water", "soil": "Change substrate", "dirt": "Change substrate", "grub": "Feed"}
"""Words of a key that are too loose for a log, each with what it is taken for there, as a guess."""
_CODE = r"(?:[^\W\d_]{1,3}|[*!+#xX✓✔✗†✝°])"
_PAIR = re.compile(
    rf"(?<![\w=])({_CODE})\s*(?:=|→|:|\bmeans\b|\bis\b)\s*([^=→:;,|\n/]+?)\s*(?=$|[;,|\n/.]|\s{_CODE}\s*[=→:])"
)
_LONE = re.compile(rf"^({_CODE})$")
_ONE_PAIR = re.compile(r"(\w{1,2})\s+(\w.*)")
_PLAIN = re.compile(r"([A-Z]{1,2})\s+([a-z][\w ]+?)\s*(?:\([^)]*\))?$")
_BEGINS = re.compile(rf"^({'|'.join(sorted(KEY_WORDS))})\s*[:=\-–]\s*", re.IGNORECASE)
_WHY = "a key to the codes"


@dataclass
class Legend:
    """What the codes of a sheet mean.

    Attributes
    ----------
    lexicon : Lexicon
        Words known in the file.
    means : dict of str to str
        Each code as written with the keeper's words for it.
    cells : dict of CellRef to str
        Cells that are part of the key, with the reason for passing them over.
    problems : list of Problem
        Codes explained in two ways, and words taken as a guess.
    """

    lexicon: Lexicon
    means: dict[str, str] = field(default_factory=dict)
    cells: dict[CellRef, str] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    _twice: dict[str, None] = field(default_factory=dict)

    def add(self, code: str, words: str, cell: Cell) -> None:
        """Note what a code means; one explained in two ways means nothing."""
        words = words.strip(" .()")
        before = self.means.get(code)
        if before is not None and self._act(before) != self._act(words):
            self.problems.append(
                Problem("grid.key_twice", cell.ref, {"code": code, "one": before, "other": words}, cell.text)
            )
            self._twice[code] = None
        self.means.setdefault(code, words)

    def _act(self, words: str) -> object:
        """What words of a key come to: an act where they name one, else the words."""
        bare = plain(words)
        bare = plain(MORE_WORDS.get(bare, bare))
        return self.lexicon.acts.get(bare) or self.lexicon.read_definition(bare).keys or bare

    def settled(self, where: Mapping[str, Cell]) -> dict[str, str]:
        """Each code with words that the lexicon knows, or the keeper's own where it doesn't."""
        out: dict[str, str] = {}
        for code, words in self.means.items():
            if code in self._twice:
                continue
            bare = plain(words)
            if bare in self.lexicon.acts or bare not in MORE_WORDS:
                out[code] = words
                continue
            out[code] = MORE_WORDS[bare]
            told = {"code": code, "words": words, "means": MORE_WORDS[bare]}
            self.problems.append(Problem("grid.key_guessed", where[code].ref, told, words))
        return out


def find_legend(
    sheet: Sheet, lexicon: Lexicon, inside: frozenset[CellRef] = frozenset()
) -> tuple[Legend, dict[str, str]]:
    """Find the key of a sheet: pairs in a text, a row that begins with KEY, two columns of codes and words.

    Parameters
    ----------
    sheet : Sheet
        Whole, as the keeper sees it.
    lexicon : Lexicon
        Words known in the file.
    inside : frozenset of CellRef
        Cells of the grid itself, in which only a row that begins with KEY, or holds nothing but pairs, counts.

    Returns
    -------
    Legend, dict of str to str
        The key, and each code with words that the lexicon knows where it can.
    """
    legend = Legend(lexicon)
    where: dict[str, Cell] = {}

    def take(pairs: list[tuple[str, str]], cell: Cell, *others: Cell) -> None:
        for code, words in pairs:
            legend.add(code, words, cell)
            where.setdefault(code, cell)
        for one in (cell, *others):
            legend.cells[one.ref] = _WHY

    for cells in sheet.rows.values():
        texts = {col: cell for col, cell in cells.items() if isinstance(cell.value, str)}
        first = next(iter(texts.values()), None)
        if first and plain(first.text) in KEY_WORDS:
            _key_row(list(texts.values()), take)
        elif len(texts) == len(cells) > 1 and all(_one_pair(cell.text) for cell in texts.values()):
            for cell in texts.values():
                take(pairs_in(cell.text, lexicon) or _PAIR.findall(cell.text), cell)
    for cell in sheet.cells.values():
        if not isinstance(cell.value, str) or cell.ref in legend.cells or cell.ref in inside:
            continue
        if pairs := pairs_in(cell.text, lexicon):
            take(pairs, cell)
    _columns(sheet, lexicon, {*legend.cells, *inside}, legend, take)
    return legend, legend.settled(where)


def pairs_in(text: str, lexicon: Lexicon) -> list[tuple[str, str]]:
    """The pairs of a text such as 'W = water, F = food'; none where it says anything else of length."""
    led = _BEGINS.match(text)
    body = text[led.end() :] if led else text
    pairs = [(found[1], found[2]) for found in _PAIR.finditer(body)]
    left = plain(_PAIR.sub(" ", body))
    if pairs and (led or not left or len(pairs) > 1) and len(left.split()) <= 2 * len(pairs):
        signs = "=" in body or "→" in body
        known = sum(_known(words, lexicon) for _, words in pairs)
        if led or (signs and len(pairs) > 1) or (known and (signs or known == len(pairs) > 1)):
            return pairs
    return _alternating(body.split()) if led else _listed(text, lexicon)


def _one_pair(text: str) -> bool:
    """Whether a cell is nothing but a code with what it means: 'W = water'."""
    return "=" in text and _PAIR.fullmatch(text.strip()) is not None


def _listed(text: str, lexicon: Lexicon) -> list[tuple[str, str]]:
    """Pairs of a list without signs, 'Round: W water, F fed': capitals, all different, most of their words known."""
    pairs = [(found[1], found[2]) for part in re.split(r"[:;,|\n]", text) if (found := _PLAIN.match(part.strip()))]
    known = sum(_known(words, lexicon) for _, words in pairs)
    return pairs if len({code for code, _ in pairs}) == len(pairs) > 1 and known > len(pairs) / 2 else []


def _known(words: str, lexicon: Lexicon) -> bool:
    bare = plain(words)
    found = lexicon.read_definition(words)
    return bare in MORE_WORDS or bool(found.keys or found.states)


def _alternating(words: list[str]) -> list[tuple[str, str]]:
    """Pairs of a text of codes and words in turn: 'W wet F food d dead'."""
    pairs: list[tuple[str, str]] = []
    for word in words:
        bare = word.strip(",;.")
        if len(bare) == 1 or (len(bare) == 2 and bare.isupper()):
            pairs.append((bare, ""))
        elif pairs:
            pairs[-1] = (pairs[-1][0], f"{pairs[-1][1]} {bare}".strip())
        else:
            return []
    return pairs if pairs and all(said for _, said in pairs) else []


def _parted(text: str) -> list[tuple[str, str]]:
    """Pairs of a text whose signs part one from the next, 'W gave a drink; F fed'; none unless every part is one."""
    parts = [part.strip() for part in re.split(r"[;|\n]", text) if part.strip()]
    found = [match for part in parts if (match := _ONE_PAIR.fullmatch(part))]
    return [(one[1], one[2]) for one in found] if len(parts) == len(found) > 1 else []


def _key_row(cells: list[Cell], take: Callable[..., None]) -> None:
    """A row that begins with KEY: its other cells hold pairs, or codes and words in turn."""
    label, rest = cells[0], cells[1:]
    words: list[str] = []
    for cell in rest:
        words += re.sub(r"[=→:;,/|]", " ", cell.text).split()
    signed = [pair for cell in rest for pair in _PAIR.findall(cell.text)] if any("=" in c.text for c in rest) else []
    parted = [pair for cell in rest for pair in _parted(cell.text)]
    if pairs := signed or parted or _alternating(words):
        take(pairs, rest[0], label, *rest[1:])


def _columns(sheet: Sheet, lexicon: Lexicon, but: set[CellRef], legend: Legend, take: Callable[..., None]) -> None:
    """Two columns side by side, codes and what they mean, in two rows or more."""
    runs: dict[int, list[tuple[Cell, Cell]]] = {}
    for (row, col), cell in sorted(sheet.cells.items(), key=lambda item: item[0][::-1]):
        beside = sheet.cells.get((row, col + 1))
        if beside is None or cell.ref in but or not isinstance(beside.value, str):
            continue
        if _LONE.match(cell.text) and len(beside.text) > 2 and _known(beside.text, lexicon):
            runs.setdefault(col, []).append((cell, beside))
    for col, pairs in runs.items():
        inside = [row for row, _ in ((pair[0].ref.row, pair) for pair in pairs)]
        near = all(b - a <= 2 for a, b in itertools.pairwise(inside))
        if len(pairs) < 2 or not near or len({code.text for code, _ in pairs}) < len(pairs):
            continue
        for code, words in pairs:
            take([(code.text, words.text)], code, words)
        for title in (sheet.cells.get((inside[0] - up, col + over)) for up in (1, 2) for over in (0, 1)):
            if title is not None and plain(title.text) in KEY_WORDS:
                legend.cells[title.ref] = _WHY
