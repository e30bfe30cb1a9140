"""Cut a phrase into chunks: numbers with their units, dates, bins, and the longest known wordings."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from types import MappingProxyType

from rapidfuzz.distance import OSA

from workbook_tools.intake.headings import plain
from workbook_tools.intake.units import Measures, find_unit, measure_named
from workbook_tools.vocabulary.phrase_words import LINKS, NUMBERS, SHARES, longest, phrase_words


@dataclass(frozen=True, slots=True)
class Chunk:
    """A piece of a phrase: its kind, its text, where it begins and ends, and its value if it has one.

    Amounts are kept in ml, g, or as a share of one; ranges give their middle.
    """

    kind: str
    text: str
    at: int = 0
    value: float | None = None
    end: int = 0
    slip: bool = False
    """Whether it was mended to be the wording that it is."""


AMOUNTS = frozenset({"volume", "mass", "number", "share", "times"})
"""Kinds of chunks that are a quantity of what is given or seen."""
_KIND_OF_UNIT = {
    "ml": "volume", "l": "volume", "g": "mass", "percent": "share", "cm": "length", "dm2": "length", "degC": "degrees",
    "degF": "degrees", "second": "duration", "minute": "duration", "hour": "duration", "day": "duration",
    "week": "duration",
}  # fmt: skip
_KIND_OF_PIECE = {
    "clock": "now",
    "sign": "filler",
    "colon": "filler",
    "cold": "freezer",
    "counted": "did count",
    "back": "from",
}
_SIGNS = frozenset("n w e y".split())
"""Letters that stand for 'and' or 'with' between words, and else are a keeper's own signs."""
_SLIP_FROM = 6
"""From so many letters on a slip in a verb is mended."""
_TIMES = {"l": 1000.0, "percent": 0.01}
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|"
    r"nov(?:ember)?|dec(?:ember)?)"
)
_NUMBER = r"(?:\d+(?:[.,]\d+)?|(?<![\d\w])[.,]\d+)"
_VULGAR = "½⅓⅔¼¾"
_PICTURES = {"💧": "water", "🥕": "carrot", "🍂": "leaf", "🍁": "leaf", "🥒": "cucumber", "💀": "dead"}
_PIECES = re.compile(
    "|".join(
        f"(?P<{name}>{pattern})"
        for name, pattern in (
            ("money", rf"[£€$]\s?{_NUMBER}"),
            ("name", r"n/a\b|h2o\b|co2\b|b12\b|w/o\b|l/o\b|v/v|w/w|†"),
            ("picture", f"[{''.join(_PICTURES)}]"),
            (
                "cold",
                rf"(?<!\w)(?:[-−–]|minus )\s?{_NUMBER}\s?(?:°\s?)?(?:[cf]\b|degrees\b|grad\b)|"
                r"(?<!\w)[-−–](?:18|20)\b(?!\s*(?:->|→))",
            ),
            ("counted", r"\bn\s?="),
            ("clock", r"\d{1,2}[:.]\d\d\s?(?:am|pm|h|uhr)\b|\d{1,2}:\d\d"),
            (
                "date",
                rf"\d{{4}}-\d\d-\d\d|\d{{1,2}}[./]\d{{1,2}}[./]\d{{2,4}}|"
                rf"\d{{1,2}}(?:st|nd|rd|th)\b(?: of)?(?: {_MONTH}\b)?|\d{{1,2}} {_MONTH}\b|"
                rf"{_MONTH} \d{{1,2}}\b(?!\s?m?l)",
            ),
            (
                "bin",
                r"(?:bin|tub|box|tank|no\.?|nr\.?|colony|culture|enclosure)\s?#?\d{1,3}[a-fh-km-z]?\b"
                r"(?:\s?(?:-|&|and)\s?#?\d{1,3}\b)?|#\d{1,3}\b|"
                r"\b[a-hj-km-v]-?\d{1,2}\b(?:\s?(?:-(?!>)|–|&|and|\+|/)\s?[a-hj-km-v]\d{1,2}\b)*",
            ),
            ("fraction", rf"(?:\d+\s)?\d/\d+(?![\d/])(?:rd|th)?|\d?[{_VULGAR}]"),
            ("product", rf"\d+\s?[x×*]\s?{_NUMBER}(?=\s?[a-z%])"),
            ("total", rf"{_NUMBER}(?:\s?\+\s?{_NUMBER})+(?=\s?[a-z%])"),
            ("range", rf"between {_NUMBER} and {_NUMBER}|(?:between )?{_NUMBER}\s?(?:-|–|to|or|bis)\s?{_NUMBER}"),
            ("times", r"[x×]\s?\d+\b|\d+\s?[x×](?![a-z])"),
            ("number", rf"(?:[~≈<>±]\s?)?{_NUMBER}(?:ish\b|\+)?"),
            ("word", r"[^\W\d_]+(?:['.&-][^\W\d_]+)*'?"),
            ("tick", r"[✓✔☑√]"),
            ("cross", r"[✗✘✕☒❌×]"),
            ("back", r"<-|←"),
            ("arrow", r"->|→|=>"),
            ("asked", r"\?+"),
            ("colon", r"[:=]"),
            ("link", r"[,;.!/+&|()\[\]\n•…-]+|–|—"),
            ("sign", r"."),
        )
    ),
    re.IGNORECASE,
)
_SHORT = re.compile(
    r"\b(ca|quar|reg|resp|approx|incl|est|max|min|ad|juv|ind|temp|hum|subst|calc|veg|prot|repl|rem)\.", re.IGNORECASE
)
"""Words cut short, whose full stop ends nothing."""


OWN = "own "
"""Begins the kind of a keeper's own word; the key of the act it means follows."""


def cut(text: str, measures: Measures, own: Mapping[str, str] = MappingProxyType({})) -> list[Chunk]:
    """Cut a phrase into chunks in their order; nothing of it is left out but blanks.

    Places are those of the text as given.
    """
    pieces = [
        (str(found.lastgroup), found[0].strip(), found.start())
        for found in _PIECES.finditer(_tidy(text))
        if found[0].strip()
    ]
    chunks: list[Chunk] = []
    at = 0
    while at < len(pieces):
        chunk, used = _chunk(pieces, at, measures, own)
        before = chunks[-1] if chunks else None
        if before and before.kind == chunk.kind == "number" and _tens(before, chunk):
            chunk = Chunk("number", f"{before.text} {chunk.text}", before.at, _sum(before, chunk))
            chunks.pop()
        at += used
        last = pieces[at - 1]
        chunks.append(replace(chunk, end=last[2] + len(last[1])))
    return chunks


def _tidy(text: str) -> str:
    """The text with other signs of the same length: no place in it moves."""
    text = text.replace("’", "'").replace("⁄", "/")
    text = _SHORT.sub(r"\1 ", text)
    return re.sub(r"\b(w)/(?=\s?[a-z])", r"\1 ", text, flags=re.IGNORECASE)


def _tens(before: Chunk, chunk: Chunk) -> bool:
    """Whether two number words make one number: 'twenty five'."""
    words = before.text in NUMBERS and chunk.text in NUMBERS
    return words and (before.value or 0) >= 20 and (before.value or 0) % 10 == 0 and (chunk.value or 0) < 10


def _sum(before: Chunk, chunk: Chunk) -> float:
    return (before.value or 0) + (chunk.value or 0)


def _chunk(
    pieces: list[tuple[str, str, int]], at: int, measures: Measures, own: Mapping[str, str]
) -> tuple[Chunk, int]:
    """The chunk that begins at a piece, and of how many pieces it is made."""
    kind, text, start = pieces[at]
    low = text.casefold()
    if kind in ("number", "range", "product", "total", "fraction"):
        return _quantity(pieces, at, _value(kind, low), "share" if kind == "fraction" else "number", measures)
    if kind == "times":
        return Chunk("times", low, start, _value("number", low)), 1
    if kind == "picture":
        return Chunk(phrase_words()[_PICTURES[text]], _PICTURES[text], start), 1
    if kind in ("word", "name"):
        return _wording(pieces, at, measures, own)
    return Chunk(_KIND_OF_PIECE.get(kind, kind), low, start), 1


def _value(kind: str, text: str) -> float | None:
    numbers = [float(one.replace(",", ".")) for one in re.findall(_NUMBER, text)]
    if kind == "fraction":
        if text[-1] in _VULGAR:
            return unicodedata.numeric(text[-1]) + (float(text[:-1]) if text[:-1].strip().isdigit() else 0.0)
        whole, _, rest = text.removesuffix("rd").removesuffix("th").rpartition(" ")
        above, below = rest.split("/")
        return (float(whole) if whole else 0.0) + (float(above) / float(below) if float(below) else 0.0)
    if kind == "product":
        return numbers[0] * numbers[1]
    if kind == "total":
        return sum(numbers)
    return sum(numbers) / len(numbers) if numbers else None


def _quantity(
    pieces: list[tuple[str, str, int]], at: int, value: float | None, bare: str, measures: Measures
) -> tuple[Chunk, int]:
    """A number with the unit behind it, if one stands there."""
    _, text, start = pieces[at]
    behind = at + 1
    if bare == "share" and behind < len(pieces) and pieces[behind][1].casefold() in ("a", "an", "of a"):
        behind += 1
    for count in (2, 1):
        words = [piece[1].casefold() for piece in pieces[behind : behind + count]]
        if len(words) < count or any(piece[0] in ("link", "number") for piece in pieces[behind : behind + count]):
            continue
        unit = " ".join(words)
        if unit == "in" and not _inches(pieces[behind + 1 : behind + 2]):
            continue
        if measure_named(unit) and measure_named(unit) != "cup":
            continue
        cased = " ".join(piece[1] for piece in pieces[behind : behind + count])
        found = find_unit("°c" if cased == "C" else unit, "", measures)
        if found is None or found[1] or found[0].unit not in _KIND_OF_UNIT:
            continue
        kind = _KIND_OF_UNIT[found[0].unit]
        times = found[0].factor * _TIMES.get(found[0].unit, 1.0)
        whole = f"{text} {unit}"
        return Chunk(kind, whole, start, None if value is None else value * times), behind + count - at
    return Chunk(bare, text.casefold(), start, value), 1


def _inches(after: list[tuple[str, str, int]]) -> bool:
    """Whether 'in' behind a number is inches: '2 in deep' and '2 in' alone, not '2 in the moss'."""
    return not after or after[0][0] != "word" or after[0][1].casefold() in ("of", "deep", "down", "thick", "long")


@lru_cache(maxsize=4096)
def _slip(word: str) -> str:
    """The past verb that a word is but for one slip, or ''. Never a thing that is given: those are too alike."""
    if len(word) < _SLIP_FROM or not word.isalpha():
        return ""
    near = [verb for verb in _past_verbs() if verb[0] == word[0] and OSA.distance(word, verb, score_cutoff=1) <= 1]
    return near[0] if len(near) == 1 else ""


@cache
def _past_verbs() -> tuple[str, ...]:
    known = phrase_words()
    return tuple(word for word, kind in known.items() if kind.startswith("did ") and len(word) >= _SLIP_FROM)


def _alone(pieces: list[tuple[str, str, int]], at: int) -> bool:
    """Whether no word stands on one side of a piece, so that a letter there doesn't stand for 'and' or 'with'."""
    beside = (pieces[at - 1] if at else None, pieces[at + 1] if at + 1 < len(pieces) else None)
    return any(piece is None or piece[0] != "word" for piece in beside)


def _most_words(own: Mapping[str, str]) -> int:
    return max((word.count(" ") + 1 for word in own), default=0)


def _wording(
    pieces: list[tuple[str, str, int]], at: int, measures: Measures, own: Mapping[str, str]
) -> tuple[Chunk, int]:
    """The longest known wording that begins at a word; a word that isn't known stands for itself."""
    _, text, start = pieces[at]
    low = text.casefold()
    known = phrase_words()
    if low in _SIGNS and low not in own and _alone(pieces, at):
        return Chunk("unknown", low, start), 1
    for count in range(min(max(longest(), _most_words(own)), len(pieces) - at), 0, -1):
        if any(piece[0] not in ("word", "name") for piece in pieces[at : at + count]):
            continue
        wording = " ".join(piece[1].casefold() for piece in pieces[at : at + count])
        if (means := own.get(plain(wording))) is not None:
            return Chunk(OWN + means, wording, start), count
        if count == 1 and low in LINKS:
            return Chunk("link", low, start), 1
        if count == 1 and low in SHARES:
            return _quantity(pieces, at, SHARES[low], "share", measures)
        if count == 1 and low in NUMBERS:
            return _quantity(pieces, at, float(NUMBERS[low]), "number", measures)
        for form in (
            wording,
            wording.replace("-", " "),
            wording.rstrip("'."),
            wording.removesuffix("'s"),
            wording.removeprefix("t'"),
        ):
            if form in known:
                return Chunk(known[form], form, start), count
    if verb := _slip(low):
        return Chunk(known[verb], verb, start, slip=True), 1
    begins = at == 0 or pieces[at - 1][0] not in ("word", "name")
    capital = text[0].isupper() and not text.isupper()
    return Chunk("unknown" if not capital else "perhaps named" if begins else "named", low, start), 1
