"""Match a keeper's headings to fields by general rules: normalised words, synonyms, units, small slips."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from rapidfuzz import process
from rapidfuzz.distance import OSA

from workbook_tools.fields import Field, Kind
from workbook_tools.fields.beside import BESIDE, TOGETHER
from workbook_tools.intake.units import unit_of_heading

FILLER = frozenset({"the", "a", "an", "of", "my", "in", "is", "was", "were", "at", "for", "your", "this", "any"})
QUESTION = FILLER | frozenset(
    "how what which who did do does you i we they is are was were has have had been any many much there it them that "
    "today please this time".split()
)
"""Words of a heading that asks a question, beside what it asks for: 'How is the moss?'."""
SCORE_USED = 0.7
"""A heading below this score is not used."""
SCORE_SURE = 0.95
"""A heading from this score on is taken for granted; between the two it is listed as a guess."""

SLIP = 0.83
"""From this likeness (0 to 1) on a text of five letters or more is taken for a known one, as a guess."""

_BRACKETS = re.compile(r"[(\[{]([^)\]}]*)[)\]}]")
_SYMBOL = re.compile(r"[^\w†✝♀♂☀❄Δ%°²]+")
_BESIDE = 0.96
"""How surely a known heading with words beside it that change nothing means its field."""
_LESS_WITH_UNIT = frozenset({Kind.NAME, Kind.BINS, Kind.TEXT, Kind.STATE, Kind.ACT, Kind.NUMBER})
"""Kinds whose values have no unit: a heading that names one is less likely theirs."""
_ASKED = 0.96
"""How surely a question means a field whose words it asks for."""
_NOT_GIVEN = frozenset({"cm", "mm", "in", "ft", "dm2", "cm2", "m2", "in2", "ft2", "degC", "degF", "percent"})
"""Units of what isn't given: a heading of two other units and nothing else is the amount of whatever was done."""
_LONGEST_UNIT = 3
"""Words in the longest name of a unit."""
_BETWEEN_UNITS = frozenset({"or", "and", "resp"})
_LETTER_UNITS = frozenset({"g", "l"})
"""Single letters that are a unit where they are the whole heading."""
_NUMBER_SIGN = re.compile("[#№]")
_CAMEL = re.compile(r"(?<=[a-z])(?=[A-Z])")


@dataclass(frozen=True, slots=True)
class Wording:
    """A heading in normal form: its words, the unit it names, and what stood in brackets."""

    words: tuple[str, ...]
    unit: str = ""
    aside: str = ""


def _stem(word: str) -> str:
    """Take the plural ending off a word of more than three letters."""
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


@lru_cache(maxsize=50_000)
def plain(text: str) -> str:
    """Lower-case a text, take off accents and fold every run of other signs into one blank."""
    folded = unicodedata.normalize("NFKD", text.replace("²", "2").replace("\u00ad", ""))
    folded = "".join(ch for ch in folded if not unicodedata.combining(ch)).casefold()
    return " ".join(_SYMBOL.sub(" ", folded).replace("_", " ").split())


def _may_lead(words: list[str]) -> bool:
    """Whether a unit at the front of a heading is meant as one: 'ml poured', 'g of food', 'L'; not in 'L x W x H'."""
    if len(words) == 1:
        return len(words[0]) > 1 or words[0] in _LETTER_UNITS
    return words[0] == "g" or (len(words[0]) > 1 and words[0] not in FILLER)


@lru_cache(maxsize=20_000)
def normalise(text: str) -> Wording:
    """Bring a heading into normal form; a unit is taken from brackets, else from a last word that is one."""
    unit = aside = ""
    spaced = _CAMEL.sub(" ", text)
    for inside in _BRACKETS.findall(spaced):
        if not unit and (found := _unit_in(inside)):
            unit = found
        else:
            aside = f"{aside} {inside}".strip()
    bare = plain(_BRACKETS.sub(" ", _NUMBER_SIGN.sub(" no ", spaced))) or plain(aside) or plain(unit)
    words = bare.split()
    measures = {unit_of_heading(word) for word in words if word not in _BETWEEN_UNITS}
    if len(measures) > 1 and "" not in measures and measures.isdisjoint(_NOT_GIVEN):
        return Wording(("amount",), "", plain(aside))
    if not unit:
        words, unit = _take_unit(words)
    return Wording(tuple(words), unit, plain(aside))


def _unit_in(text: str) -> str:
    """The unit that a text names as a whole: in brackets nothing else can be meant."""
    words = " ".join(text.casefold().replace("²", "2").replace("³", "3").split()).strip(". ")
    return unit_of_heading(words.removeprefix("in ") if len(words) > 3 else words)


def _take_unit(words: list[str]) -> tuple[list[str], str]:
    """Take a unit off the end of a heading, or off its front before an 'of'; one elsewhere in front is only noted."""
    for size in range(min(_LONGEST_UNIT, len(words) - 1), 0, -1):
        last = words[-size:]
        if (unit := unit_of_heading(" ".join(last))) and last[0] not in FILLER:
            return words[:-size], unit
    for size in range(min(_LONGEST_UNIT, len(words)), 0, -1):
        if (unit := unit_of_heading(" ".join(words[:size]))) and (size > 1 or _may_lead(words)):
            return (words[size + 1 :] if words[size : size + 1] == ["of"] and words[size + 1 :] else words), unit
    return words, ""


@lru_cache(maxsize=5_000)
def _phrase(text: str) -> tuple[str, ...]:
    return _stems(tuple(plain(text).split()))


def stems(text: str) -> tuple[str, ...]:
    """The words of a heading in normal form without plural endings, its unit last."""
    wording = normalise(text)
    return tuple(_stem(word) for word in (*wording.words, wording.unit) if word)


@lru_cache(maxsize=8)
def known_words(fields: tuple[Field, ...]) -> frozenset[str]:
    """Every word that stands in a known heading, without plural endings."""
    return frozenset(word for field in fields for phrase in field.phrases for word in stems(phrase))


def slip(text: str, known: str) -> bool:
    """Whether a text is a known one but for a slip: one letter in six wrong, missing, added or swapped."""
    return min(len(text), len(known)) >= 5 and OSA.normalized_similarity(text, known, score_cutoff=SLIP) > 0


@lru_cache(maxsize=200_000)
def likeness(words: tuple[str, ...], phrase: str) -> float:
    """How surely heading words mean a phrase, 0 to 1: 1 for the same words, less when more or other words stand there.

    Misleads for very short headings: a slip is looked for only from five letters on.
    """
    mine = _stems(words)
    theirs = _phrase(phrase)
    if not mine or not theirs:
        return 0.0
    if mine == theirs:
        return 1.0
    core = tuple(word for word in mine if word not in FILLER)
    if core == tuple(word for word in theirs if word not in FILLER) and core:
        return 0.98
    if "".join(mine) == "".join(theirs):
        return 0.97
    if len(theirs) > 1 and set(theirs) == set(core):
        return 0.95
    size = len(theirs)
    inside = any(core[i : i + size] == theirs for i in range(len(core) - size + 1))
    if inside and sum(map(len, theirs)) > 2:
        return 0.55 + 0.4 * size / len(core)
    whole, other = " ".join(words), plain(phrase)
    return 0.8 if slip(whole, other) else 0.0


@lru_cache(maxsize=1_000)
def _phrases(field: Field) -> tuple[frozenset[str], frozenset[str], tuple[str, ...]]:
    """All word stems of a field's phrases, the phrases joined to one word, and as they stand."""
    found = [_phrase(phrase) for phrase in field.phrases]
    joined = frozenset("".join(words) for words in found)
    return frozenset(word for words in found for word in words), joined, tuple(map(plain, field.phrases))


@lru_cache(maxsize=20_000)
def _stems(words: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(_stem(word) for word in words)


def _may_mean(words: tuple[str, ...], field: Field) -> bool:
    """Whether any phrase of a field is at all like heading words: looking closely at all of them takes long."""
    stems, joined, whole = _phrases(field)
    mine = _stems(words)
    if not stems.isdisjoint(mine) or "".join(mine) in joined:
        return True
    return process.extractOne(" ".join(words), whole, scorer=OSA.normalized_similarity, score_cutoff=SLIP) is not None


def score(words: tuple[str, ...], field: Field) -> float:
    """The best likeness of heading words to any phrase of a field; earlier phrases win by a hair."""
    best = 0.0
    for place, phrase in enumerate(field.phrases if _may_mean(words, field) else ()):
        best = max(best, likeness(words, phrase) - min(place, 40) * 1e-4)
    return max(best, _with_beside(words, field)) if best < SCORE_SURE else best


@lru_cache(maxsize=200_000)
def _with_beside(words: tuple[str, ...], field: Field) -> float:
    """How surely words mean a field by a known heading inside them, if the others change nothing: 'date of work'."""
    beside = BESIDE.get(field.key)
    core = tuple(_stem(word) for word in words if word not in FILLER)
    if field.key in TOGETHER:
        one, other, rest = TOGETHER[field.key]
        if one.intersection(core) and other.intersection(core) and (one | other | rest).issuperset(core):
            return _BESIDE
    if not beside or not core:
        return 0.0
    sizes = [
        len(theirs)
        for phrase in field.phrases
        if (theirs := tuple(word for word in _phrase(phrase) if word not in FILLER))
        for at in range(len(core) - len(theirs) + 1)
        if core[at : at + len(theirs)] == theirs and beside.issuperset((*core[:at], *core[at + len(theirs) :]))
    ]
    return _BESIDE + 0.02 * max(sizes) / len(core) if sizes else 0.0


def _no_unit(field: Field, unit: str) -> bool:
    """Whether a field's values have no such unit; a state may be told by a depth or a share, food by how much."""
    if field.key == "food" and unit not in _NOT_GIVEN:
        return False
    return field.kind in _LESS_WITH_UNIT and not (field.kind is Kind.STATE and unit in ("cm", "mm", "in", "percent"))


def tells_how_much(text: str, field: Field) -> bool:
    """Whether a heading of food names a unit of what is given: its numbers then are amounts."""
    return field.key == "food" and bool(unit := normalise(text).unit) and unit not in _NOT_GIVEN


def candidates(text: str, group: str, fields: Iterable[Field]) -> list[tuple[float, Field]]:
    """Fields that a heading may mean, best first; ``group`` is the label of a heading row above it."""
    return list(_candidates(text, group, tuple(fields)))


@lru_cache(maxsize=20_000)
def _candidates(text: str, group: str, fields: tuple[Field, ...]) -> tuple[tuple[float, Field], ...]:
    wording = normalise(text)
    above = normalise(group).words if group else ()
    asked = tuple(word for word in wording.words if word not in QUESTION) if "?" in text else ()
    asked = asked if len(asked) < len(wording.words) else ()
    found = []
    for field in fields:
        alone = score(wording.words, field)
        if wording.unit:
            alone = max(
                alone * (0.6 if _no_unit(field, wording.unit) else 1.0),
                score((*wording.words, wording.unit), field),
            )
        if asked and alone < SCORE_SURE:
            alone = _ASKED * score(asked, field)
        joined = max(score(above + wording.words, field), score(wording.words + above, field)) if above else 0.0
        if not wording.words and above:
            joined = max(joined, score(above, field))
        both = max(alone, joined * 1.001) if above else alone
        if wording.unit and field.kind is Kind.AMOUNT:
            both += 0.002
        if both >= SCORE_USED:
            found.append((both, field))
    return tuple(sorted(found, key=lambda pair: -pair[0]))
