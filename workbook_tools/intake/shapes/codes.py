"""What the codes in the cells of a grid say: one letter or several, with a number or a mark, or words."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from workbook_tools.fields import ACTS
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.headings import plain
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.vocabulary.presence import Presence, words_of

NOTHING = words_of(Presence.EMPTY, Presence.UNKNOWN) | {"...", "/", "·", "•", "_", "~"}
TICKS = words_of(Presence.DONE) | {"1"}
CROSSES = frozenset(mark for mark in words_of(Presence.NOT_DONE) if not any(map(str.isalpha, mark))) | {"false"}
AWAY = frozenset(
    "away;holiday;holidays;on holiday;hols;vacation;trip;travel;travelling;traveling;not home;not there;not here;"
    "absent;ill;sick;i was away;we were away;away from home;was away;gone away;no time;busy;hospital;out of town".split(
        ";"
    )
)
"""What keepers write of themselves, which holds for every bin that day."""
_NUMBER = re.compile(r"\s?[~<>≈]?\s?\d+(?:[.,/]\d+)?(?:\+(?!\s?\w))?\s?(ml|g|%)?")
_ALONE = re.compile(r"[~<>≈]?\s?\d+(?:[.,]\d+)?\s?\+?\??\s?(?:ml|g|l)?", re.IGNORECASE)
_REMARK = re.compile(r"([^()]{1,12}?)\s*\(([^()]{2,})\)")
_TAIL = re.compile(r"[\d.,~<>+\s]+$")
_MARKS = "!*'’\"^°"
_STRING = re.compile(r"(?:[^\W\d_]{1,3}\s?\d+[\s,;+/]*|[^\W\d_]{1,2}[\s,;+/]+){1,5}[^\W\d_]{0,2}")
"""Codes with numbers, or parted by signs."""
_BETWEEN = " ,;+/&.-|\n"
LONGEST_CODE = 3
"""Letters of a text that is taken for a code, and not for a word, when nothing is known of it."""


@dataclass(frozen=True, slots=True)
class Said:
    """What one cell of a grid says.

    Attributes
    ----------
    text : str
        Words for a log; empty when there are none.
    note : bool
        Whether it is a note that holds for every bin that day.
    nothing : str
        Why the cell holds no entry: a mark for nothing.
    unknown : tuple of str
        Codes that nothing explains.
    guessed : tuple of (str, str)
        Codes taken for an act that no key names, each with the act's label.
    marks : str
        Marks beside codes, such as ``!``, that were set aside.
    twice : str
        A code that stands twice in the cell.
    aside : bool
        Whether words beside the codes are kept as a note.
    taken : str
        Words that were taken for what was given, on a grid of feedings.
    bare : str
        "number" or "tick" for one without anything that says what it is of.
    """

    text: str = ""
    note: bool = False
    nothing: str = ""
    unknown: tuple[str, ...] = ()
    guessed: tuple[tuple[str, str], ...] = ()
    marks: str = ""
    twice: str = ""
    aside: bool = False
    taken: str = ""
    bare: str = ""


class Codes:
    """Reads the cells of one grid.

    Parameters
    ----------
    means : mapping of str to str
        Codes of the key and of the keeper's own words, each with words for a log.
    lexicon : Lexicon
        Words known in the file.
    act : str
        The one kind of work that the title names, for numbers and ticks alone; empty for none.
    unit : str
        The unit that the title names for numbers.
    """

    def __init__(self, means: Mapping[str, str], lexicon: Lexicon, act: str = "", unit: str = "") -> None:
        self.lexicon, self.act, self.unit = lexicon, act, unit
        self.means = dict(means)
        folded: dict[str, set[str]] = {}
        for code, words in means.items():
            folded.setdefault(code.casefold(), set()).add(words)
        self._folded = {code: next(iter(words)) for code, words in folded.items() if len(words) == 1}
        self._longest = max((len(code) for code in means), default=1)

    def read(self, cell: Cell) -> Said:
        """Say what one cell holds."""
        text = cell.text.strip()
        low = text.casefold()
        if low in NOTHING:
            return Said(nothing="a mark for nothing")
        if low in CROSSES and not self._meaning(text):
            return Said(nothing="a mark for what was not done")
        if (text in self.means or low in self._folded) and not _ALONE.fullmatch(text):
            return Said(self._label(self._meaning(text)))
        if low in TICKS and not (low == "1" and self.act == "count"):
            return Said(ACTS[self.act].label) if self.act else Said(bare="tick")
        if _ALONE.fullmatch(text):
            unit = "" if text[-1].isalpha() else f" {self.unit}".rstrip()
            return Said(f"{ACTS[self.act].label} {text}{unit}") if self.act else Said(bare="number")
        bare = plain(text)
        if bare in AWAY:
            return Said(text, note=True)
        if len(bare) > 1 and bare in self.lexicon.acts and (len(bare) > 2 or not self._covers(text)):
            return Said(text)
        said = self._split(text) or self._with_remark(text) or self._given(text)
        if said:
            return said
        letters = [ch for ch in text if ch.isalpha()]
        if _STRING.fullmatch(text) and not self.says(text):
            return Said(unknown=tuple(dict.fromkeys(re.findall(r"[^\W\d_]+", text))))
        if len(letters) <= LONGEST_CODE and not self.says(text):
            return Said(unknown=(_TAIL.sub("", text) or text,))
        return Said(text)

    def _meaning(self, code: str) -> str:
        return self.means.get(code) or self._folded.get(code.casefold(), "")

    def _covers(self, text: str) -> bool:
        return all(self._meaning(ch) for ch in text if ch.isalpha())

    def says(self, text: str, beside: str = "") -> bool:
        """Whether a text says something in known words, beside the act of that label."""
        found = self.lexicon.read_acts(text)
        others = any(ACTS[key].label != beside for key in found.keys)
        return bool((others and not found.guessed) or found.states or found.undone)

    def _label(self, words: str) -> str:
        """Our label for words of a key, where they name one act; else the words."""
        bare = plain(words)
        if bare in self.lexicon.acts:
            return ACTS[self.lexicon.acts[bare]].label
        found = self.lexicon.read_acts(words)
        if len(found.keys) == 1 and not (found.states or found.unknown or found.undone or found.numbers):
            return ACTS[found.keys[0]].label
        return words

    def _with_remark(self, text: str) -> Said | None:
        """Codes with words in brackets behind them, which are kept as a note: 'F (carrot)'."""
        found = _REMARK.fullmatch(text)
        said = self._split(found[1]) if found else None
        if said is None or found is None or self.says(found[2], beside=said.text):
            return None
        return replace(said, aside=True)

    def _given(self, text: str) -> Said | None:
        """What was given on a grid of one kind of work: an amount in words, or the name of a food."""
        if not self.act or self.says(text, beside=ACTS[self.act].label) or self._names_act(text):
            return None
        if text[0].isdigit() or text[0] in "½¼¾⅓⅔":
            return Said(f"{ACTS[self.act].label} {text}")
        if self.act == "feed" and any(ch.isalpha() for ch in text):
            return Said(ACTS["feed"].label, aside=True, taken=text)
        return None

    def _names_act(self, text: str) -> bool:
        """Whether a text is a word for the act of the grid itself."""
        return any(self.lexicon.acts.get(word) == self.act for word in plain(text).split())

    def _number(self, text: str, at: int) -> str:
        """The number that begins at a place, with its unit unless that is a code."""
        found = _NUMBER.match(text, at)
        if found is None:
            return ""
        unit = found[1] or ""
        return found[0][: -len(unit)] if unit and self._meaning(unit) else found[0]

    def _split(self, text: str) -> Said | None:
        """Take a cell apart into codes with numbers and marks; None when it isn't made of codes."""
        said: list[str] = []
        unknown: list[str] = []
        guessed: dict[str, str] = {}
        marks = ""
        twice = ""
        at = 0
        while at < len(text):
            ch = text[at]
            if ch in _BETWEEN:
                at += 1
                continue
            if ch in _MARKS and not self._meaning(ch):
                marks += ch
                at += 1
                continue
            if ch in "()":
                at += 1
                continue
            if not ch.isalpha() and not self._meaning(ch):
                return None
            code = next(
                (text[at : at + n] for n in range(self._longest, 0, -1) if self._meaning(text[at : at + n])), ""
            )
            if code:
                label = self._label(self._meaning(code))
            elif (key := self.lexicon.acts.get(ch.casefold())) and ch.isalpha():
                code, label = ch, ACTS[key].label
                guessed[ch] = label
            else:
                code, label = ch, ""
                unknown.append(ch)
            at += len(code)
            number = self._number(text, at)
            at += len(number)
            asked = text[at : at + 1] == "?"
            at += asked
            if label:
                doubted = "?" * asked
                whole = f"{label}{doubted} {number.strip()}" if number else f"{label}{doubted}"
                if number and label == ACTS["count"].label:  # how many is in doubt, not whether
                    whole = f"{label} {number.strip()}{doubted}"
                if whole in said:
                    twice = code
                else:
                    said.append(whole)
        letters = sum(ch.isalpha() for ch in text)
        if not said and not unknown:
            return None
        if unknown and (letters > LONGEST_CODE or self.says(text)):
            return None
        if not self.means and letters > LONGEST_CODE:
            return None
        if unknown:
            return Said(unknown=tuple(unknown) if said else (_TAIL.sub("", text.strip(_MARKS)) or text,))
        return Said("; ".join(said), guessed=tuple(guessed.items()), marks=marks, twice=twice)


def looks_coded(cell: Cell, codes: Codes) -> bool:
    """Whether a cell may stand in a grid: a mark, a code, a short word, words that are known."""
    if isinstance(cell.value, dt.date):
        return False
    text = cell.text.strip()
    return (
        len(text) <= 4
        or bool(_STRING.fullmatch(text))
        or codes.read(cell).note
        or (len(text) <= 60 and codes.says(text))
    )
