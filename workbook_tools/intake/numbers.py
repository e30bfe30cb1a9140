"""Turn what a keeper writes for a number into a best value and the range it may lie in."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.cells import Raw
from workbook_tools.intake.decimals import MARKED, Decimal, DecimalVerdict, judge_decimal, value_of
from workbook_tools.intake.number_words import ABSENT, VAGUE, ZERO, tidy, word_value
from workbook_tools.intake.readings import Reading
from workbook_tools.intake.values import Number

__all__ = ["Decimal", "DecimalVerdict", "NumberReading", "judge_decimal", "read_number"]


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberReading(Reading):
    """A number read from a text; ``number`` is None when there is none; ``rest`` has the words behind it."""

    number: Number | None = None

    @property
    def way(self) -> str:
        """The words that stand with the number, such as "under bark" or "full sort"."""
        return self.rest


_MARKED = re.compile(MARKED)
_TYPED = re.compile(r"^'(?=[\d~<>+-])")
"""An apostrophe typed before a number to make it text."""
_FRACTION = re.compile(r"(?:(\d+) )?(\d+)\s*/\s*(\d+)(?![\d/])")
_THOUSAND = re.compile(r"\s?k(?![a-z])")
_ABOUT = re.compile(
    r"(?:~+|c\.|ca\.?|circa|about|around|approx\.?|approximately|roughly|maybe|etwa|env\.?|ungefähr)\s*"
)
_AT_LEAST = re.compile(r"(?:>+=?|over|more than|at least|min\.?|minimum|mehr als|über|plus de)\s*(?=\d)")
_AT_MOST = re.compile(r"(?:<+=?|under|less than|below|up to|at most|max\.?|weniger als|bis zu|moins de)\s*(?=\d)")
_TO = re.compile(r"\s*(?:-|\.\.+|\bto\b|\bbis\b|\bà\b|\bor\b)\s*(?=~?\d)")
_RUNS_ON = re.compile(r"\s*[x*/:=.,^_-]\s*\d|e[+-]?\d")
"""What shows that a number is the beginning of something else: 12x8, 3:4, 1e5."""
_MOST_WORDS = 8
"""Words in the longest number written in words."""
_GROUPS = re.compile(r"\s*(?:(doz|dozen|dozens|dz)|(score|scores))\b\.?")
"""Twelves and twenties behind a number."""
_TENS_OF = re.compile(r"'?s\b")
_ROUND = {10.0: "number.dozens", 100.0: "number.hundreds", 1000.0: "number.thousands"}
_SEXES = re.compile(r"(\d+)\.(\d+)(?:\.(\d+))?")
_DENOMINATORS = frozenset({2, 3, 4, 5, 6, 8, 10})
_DATE_LIKE = re.compile(r"\d{4}-\d{2}-\d{2}(?:[ t].*)?")


@dataclass(frozen=True, slots=True)
class _Piece:
    """One number at the beginning of a text: its value, half the step it was rounded to, and what follows."""

    value: float
    rest: str
    step: float = 0
    open: bool = False


def _piece(text: str, decimal: Decimal) -> _Piece | None:
    """Take one number off the beginning of a text."""
    sign = 1.0
    if text[:1] in "+-" and text[1:2].isdecimal():
        sign = -1.0 if text[0] == "-" else 1.0
        text = text[1:]
    if m := _FRACTION.match(text):
        over, under = int(m[2]), int(m[3])
        if under in _DENOMINATORS and over < 10 * under:
            return _Piece(sign * (int(m[1] or 0) + over / under), text[m.end() :])
        return None
    m = _MARKED.match(text)
    if not m:
        return None
    value, is_open = value_of(m[0], decimal)
    rest = text[m.end() :]
    if k := _THOUSAND.match(rest):
        digits = re.split(r"[.,]", m[0])[-1] if re.search(r"[.,]", m[0]) else ""
        if (is_open or value >= 1000) and re.fullmatch(r"\d+[.,]\d+", m[0]):
            value, is_open = float(m[0].replace(",", ".")), False
        return _Piece(sign * value * 1000, rest[k.end() :], 500 / 10 ** len(digits))
    if group := _GROUPS.match(rest):
        return _Piece(sign * value * (12 if group[1] else 20), rest[group.end() :])
    return _Piece(sign * value, rest, open=is_open)


def _about(value: float) -> Number:
    off = abs(value) * DEFAULTS["number.about"].value
    return Number(value, value - off, value + off)


def _doubted(value: float) -> Number:
    """Widen a number with a question mark: as ``_about``, but by one at least, and never below nothing."""
    off = max(abs(value) * DEFAULTS["number.about"].value, 1)
    return Number(value, max(value - off, 0) if value >= 0 else value - off, value + off)


def _at_least(value: float) -> Number:
    return Number(max(value * DEFAULTS["number.at_least"].value, value), value, math.inf)


def _vague(key: str) -> Number:
    default = DEFAULTS[key]
    return Number(default.value, default.low, default.high)


def _parts(text: str, sexes: bool) -> NumberReading | None:
    """Read a number that is written in pieces."""
    if m := re.match(r"(\d+)\s*\((\d+(?:\s*\+\s*\d+)+)\)", text):
        return _total(float(m[1]), [float(x) for x in m[2].split("+")], text, text[m.end() :])
    if (m := re.match(r"(\d+)\s*\((\d+)\.(\d+)(?:\.(\d+))?\)", text)) and (
        sexes or sum(int(x or 0) for x in m.groups()[1:]) == int(m[1])
    ):
        return _total(float(m[1]), [float(x) for x in m.groups()[1:] if x], text, text[m.end() :])
    if re.fullmatch(r"\d{1,2}\.\d{1,2}\.(?:19|20)\d\d", text):
        return NumberReading(code="numbers.ratio", facts={"value": text})
    if (m := _SEXES.fullmatch(text)) and (sexes or (m[3] and not re.fullmatch(r"\d{1,3}(?:\.\d{3})+", text))):
        parts = [float(x) for x in m.groups() if x]
        return NumberReading(number=_sum(parts))
    if m := re.match(r"(\d+(?:\s*\+\s*\d+)+)(?!\s*\+|\d|[.,/]\d)", text):
        return NumberReading(number=_sum([float(x) for x in m[1].split("+")]), rest=text[m.end() :])
    if m := re.match(r"(\d+(?:,?\s*then\s*\d+)+)\b", text):
        return NumberReading(number=_sum([float(x) for x in re.split(r",?\s*then\s*", m[1])]), rest=text[m.end() :])
    if m := re.match(r"(\d[\d.,]*)\s*→\s*(\d[\d.,]*)", text):
        before, after = (value_of(x.strip(".,"), "")[0] for x in m.groups())
        number, facts = Number(after, after, after, (before, after)), {"value": text, "number": f"{after:g}"}
        return NumberReading(number=number, rest=text[m.end() :], code="numbers.before_after", facts=facts)
    return None


def _sum(parts: list[float]) -> Number:
    return Number(sum(parts), sum(parts), sum(parts), tuple(parts))


def _total(best: float, parts: list[float], text: str, rest: str) -> NumberReading:
    number = Number(best, best, best, tuple(parts))
    if sum(parts) == best:
        return NumberReading(number=number, rest=rest)
    facts = {"value": text, "number": f"{best:g}"}
    return NumberReading(number=number, rest=rest, code="numbers.parts_differ", facts=facts)


def _words(text: str) -> NumberReading | None:
    """Read a number written in words, alone or before other words."""
    words = text.split()
    for length in range(min(len(words), _MOST_WORDS), 0, -1):
        start, rest = " ".join(words[:length]).strip("!.?"), " ".join(words[length:])
        if start in VAGUE:
            return NumberReading(number=_vague(VAGUE[start]), guessed=True, rest=rest)
        if start in ZERO and length == len(words):
            return NumberReading(number=Number.exactly(0))
        if (value := word_value(start)) is not None:
            if rest in ("ish", "or so", "dozen"):
                value *= 12 if rest == "dozen" else 1
                return NumberReading(number=_about(value), guessed=True)
            return NumberReading(number=Number.exactly(value), rest=rest)
    return None


def _plain(text: str, decimal: Decimal) -> NumberReading | None:
    """Read a number, a range or a bound, with the marks of doubt around it and the words behind it."""
    about = doubted = at_least = at_most = False
    if m := _AT_LEAST.match(text):
        at_least, text = True, text[m.end() :]
    elif m := _AT_MOST.match(text):
        at_most, text = True, text[m.end() :]
    if m := _ABOUT.match(text):
        about, text = True, text[m.end() :]
    first = _piece(text, decimal)
    if first is None:
        return None
    rest = first.rest
    second = None
    if m := _TO.match(rest):
        second = _piece(rest[m.end() :].lstrip("~"), decimal)
        rest = second.rest if second else rest
    if m := re.match(r"\s*(?:~|ish\b|-ish\b|or so\b|odd\b)", rest):
        about, rest = True, rest[m.end() :]
    if m := re.match(r"[!?*]+", rest):
        doubted, rest = "?" in m[0], rest[m.end() :]
    if m := re.match(r"\s*(?:\+(?!\s*\d)|plus\b|or more\b|and more\b|and up\b)", rest):
        at_least, rest = True, rest[m.end() :]
    if _RUNS_ON.match(rest):
        return None
    if (tens := _TENS_OF.match(rest)) and first.value in _ROUND:
        number = _vague(_ROUND[first.value])
        return NumberReading(number=number, guessed=True, rest=rest[tens.end() :])
    rest = rest.strip(" !;:,")
    if re.search(r"(?:^|\s)\+ ?[^\W\d]", f" {rest}") or (at_least and rest.startswith("+")):
        at_least = True
    values = sorted((first.value, second.value)) if second else [first.value]
    number = Number(sum(values) / len(values), values[0], values[-1])
    reading = NumberReading(number=number, rest=rest)
    if second and second.value < first.value:
        reading = replace(reading, guessed=True, code="numbers.range_backwards", facts={"value": text})
    if first.step and not second:
        reading = replace(reading, number=Number(number.best, number.best - first.step, number.best + first.step))
    if about and not second:
        reading = replace(reading, number=_about(number.best), guessed=True)
    elif doubted:
        reading = replace(reading, number=_doubted(number.best) if not second else number, guessed=True)
    if at_least:
        reading = replace(reading, number=_at_least(number.low), guessed=True)
    elif at_most:
        best = number.high * DEFAULTS["number.at_most"].value
        reading = replace(reading, number=Number(best, min(0.0, number.high), number.high), guessed=True)
    if first.open or (second and second.open):
        facts = {"value": text, "number": f"{reading.number.best if reading.number else 0:.12g}"}
        reading = replace(reading, guessed=True, code=reading.code or "numbers.separator_open", facts=facts)
    return reading


def _several(text: str, reading: NumberReading) -> NumberReading:
    """Take in a second number among the words: 116 sort, 38 sm."""
    m = re.search(r"(?:^|[\s,;&/])(\d+)(?![\d.,/]|\s*(?:mm|cm|x|th|°))", reading.rest)
    if reading.number is None or not m or reading.code:
        return reading
    more = float(m[1])
    number = replace(reading.number, high=reading.number.high + more, parts=(reading.number.best, more))
    facts = {"value": text, "number": f"{number.best:g}"}
    return replace(reading, number=number, guessed=True, code="numbers.several", facts=facts)


def _after_words(text: str, decimal: Decimal) -> NumberReading | None:
    """Read a number that stands behind words: trap 9, seen ~20."""
    m = re.search(r"(?<![\w.,/])[~<>]?\s*\d", text)
    if not m or not m.start():
        return None
    reading = _plain(text[m.start() :], decimal)
    if reading is None:
        return None
    return replace(reading, rest=" ".join(f"{text[: m.start()]} {reading.rest}".split()).strip(" :,;"))


def read_number(given: Raw, decimal: Decimal = "", *, sexes: bool = False) -> NumberReading:
    """Read a number.

    Parameters
    ----------
    given : str, int, float, bool, datetime, date, time or timedelta
        The value of a cell. A number of the file itself is taken as it is; a date is a problem, because spreadsheet
        programs turn ``10-14`` and ``1/3`` into dates.
    decimal : str
        The file's decimal mark, empty when it is open; see ``judge_decimal``.
    sexes : bool
        Whether ``4.6`` means 4 males and 6 females rather than a decimal. ``4.6.2`` always has parts.

    Returns
    -------
    NumberReading
        Exact for a plain number. ``~50`` and ``50ish`` reach 30 % either way; ``30+`` has no upper end and a best guess
        above its bound; "lots" and "a few" have wide ranges: all of these are judgements that stand in ``defaults``.
        ``-``, ``n/c`` and "can't count" are absent, not 0. The best value misleads where the range is wide: use the
        range.
    """
    if isinstance(given, bool):
        return NumberReading(code="numbers.not_a_number", facts={"value": str(given)})
    if isinstance(given, int | float):
        if math.isfinite(given):
            return NumberReading(number=Number.exactly(float(given)))
        return NumberReading(code="numbers.not_a_number", facts={"value": str(given)})
    if isinstance(given, dt.date | dt.time | dt.timedelta) or _DATE_LIKE.fullmatch(given.strip().casefold()):
        return NumberReading(code="numbers.date_there")
    try:
        return _read(given, decimal, sexes)
    except OverflowError:
        return NumberReading(code="numbers.not_a_number", facts={"value": given.strip()})


@lru_cache(maxsize=16384)
def _read(given: str, decimal: Decimal, sexes: bool) -> NumberReading:
    text = _TYPED.sub("", tidy(given))
    bare = text.strip("!* ")
    if not text or bare in ABSENT:
        return NumberReading(absent=True)
    if re.fullmatch(r"\d+ ?/ ?\d+", bare):
        over, under = (int(x) for x in bare.split("/"))
        if under not in _DENOMINATORS or over > under:
            return NumberReading(code="numbers.ratio", facts={"value": given.strip()})
    readers: tuple[Callable[[], NumberReading | None], ...] = (
        lambda: _parts(bare, sexes),
        lambda: _plain(text, decimal),
        lambda: _words(bare),
        lambda: _after_words(text, decimal),
    )
    for reader in readers:
        reading = reader()
        if reading is None:
            continue
        if reading.code and reading.number is None:
            return replace(reading, facts={"value": given.strip()})
        if reading.number is None or not math.isfinite(reading.number.best):
            break
        reading = replace(reading, rest=reading.rest.strip(" !;:,"))
        reading = _several(given.strip(), reading)
        if "value" in reading.facts:
            reading = replace(reading, facts={**reading.facts, "value": given.strip()})
        return reading
    return NumberReading(code="numbers.not_a_number", facts={"value": given.strip()})
