"""The shape of a text that may be a date, before anything is decided about order, year or the day it counts from.

A shape depends on the text alone, so that each text is taken apart once however often it stands in a workbook.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from workbook_tools.intake.date_words import ABSENT, DAYS_BACK, PARTS, RELATIVE, SEASONS, SPANS, fold, months, weekdays

ShapeKind = Literal[
    "day",  # year or None, month, day: nothing open but perhaps the year
    "pair",  # two numbers that are day and month in some order, year or None
    "either",  # a month name and a number that is a day or a year
    "month",
    "year",
    "season",
    "quarter",
    "week",
    "day_of_month",
    "weekday",
    "age",
    "two",  # two dates
    "digits",  # a number without a mark, perhaps a serial number
    "absent",
    "relative",
    "none",  # not understood
]


@dataclass(frozen=True, slots=True)
class Shape:
    """What a text is made of. A ``year`` below 100 was written with two digits.

    ``a`` and ``b`` are month and day (day), the two numbers in the order written (pair), the month and the number
    (either), the month, season, quarter or week alone, or the day of the month. ``part`` is 0, 1 or 2 for an early,
    middle or late third.
    """

    kind: ShapeKind
    a: int = 0
    b: int = 0
    year: int | None = None
    part: int | None = None
    weekdays: frozenset[int] = frozenset()
    time: dt.time | None = None
    doubt: bool = False
    zero_led: bool = False
    amount: float = 0
    span: str = ""
    bound: str = ""
    rest: str = ""
    more_words: bool = False
    pieces: tuple[Shape, ...] = ()


NOT_UNDERSTOOD = Shape("none")
_COMMON_WORDS = frozenset({"may", "march", "mars", "mar", "fall", "spring", "dec", "lente", "mai"})
"""No date by themselves among other words."""
_ORDINAL = r"(?:st|nd|rd|th|er|e|º|o|\.)?"
_GAP = r"(?:\s*[-/.,]\s*|\s+of\s+|\s+de\s+|\s*)"
_YEAR = r"(?:'?(\d{4}|\d{2})|'(\d{2}))"
_WORD = r"([^\W\d_]{3,})\.?"

_TIME = re.compile(
    r"[\s,t]+(?:at\s+|um\s+|a\s+)?(\d{1,2})(?:[:h](\d{2}))(?::(\d{2})(?:\.\d+)?)?\s*(am|pm|a\.m\.|p\.m\.|uhr|h)?"
    r"\s*(?:z|utc|gmt)?(?:\s*[+-]\d{2}:?\d{2})?$|[\s,]+(?:at\s+)?(\d{1,2})\s*(am|pm)$"
)
_AGE = re.compile(
    r"(?:vor|il y a|hace|desde hace|about|approx|ca|c)?\.?\s*([<>~+]?)\s*(\d+(?:[.,]\d+)?|½|an?|one|two|three|a few)"
    r"(\s*½)?\s*([a-z]+)\.?\s*(\+)?\s*(?:ago|old|back|her|geleden)?"
)
_YMD = re.compile(r"(\d{4})\s*[-/. ]\s*(\d{1,2})\s*[-/. ]\s*(\d{1,2})\.?")
_COMPACT = re.compile(r"((?:19|20)\d\d)(\d\d)(\d\d)")
_PAIR = re.compile(r"(\d{1,2})\s*([-/.]|\s)\s*(\d{1,2})(?:\s*\.|\s*(?:\2|\.)\s*(\d{4}|'?\d{2}))?")
_OPEN_PAIR = re.compile(r"(\?+|x+|-{1,2}|\d{1,2})\s*([-/.])\s*(\?+|x+|-{1,2}|\d{1,2})(?:\s*\2\s*(\d{4}|\d{2}))?")
_YEAR_MONTH = re.compile(r"(\d{4})\s*[-/.]\s*(\d{1,2})|(\d{1,2})\s*[-/.]\s*(\d{4})")
_DAY_NAME = re.compile(rf"(\d{{1,2}}){_ORDINAL}{_GAP}{_WORD}(?:{_GAP}{_YEAR})?")
_NAME_NUMBER = re.compile(rf"{_WORD}\s*[-/.,]?\s*(\d{{1,2}}){_ORDINAL}(?:\s*[-/,.]\s*{_YEAR}|\s+{_YEAR})?")
_NAME_YEAR = re.compile(rf"{_WORD}(?:{_GAP}(?:(\d{{4}})|'(\d{{2}})))?")
_YEAR_NAME = re.compile(rf"(\d{{4}})\s*[-/., ]?\s*{_WORD}\s*[-/., ]?\s*(\d{{1,2}})?")
_QUARTER = re.compile(r"(?:q([1-4])|([1-4])q|([1-4])\.? quartal)\s*[-/ ']*\s*(\d{4}|\d{2})|(\d{4})[- ]?q([1-4])")
_LAST = re.compile(r"(?:last|letzten|letzter)\s+")
_WEEK = re.compile(
    r"(?:week|wk|w|kw|woche|sem|semaine)\.?\s*(\d{1,2})(?:\s*[-/ ,]\s*'?(\d{4}|\d{2}))?|(\d{4})-?w(\d{2})"
)
_LONE_DAY = re.compile(r"(?:the\s+)?(\d{1,2})(st|nd|rd|th|\.)?")
_IN_MONTH = re.compile(r"(.+?)[\s,(]+(?:in|im|en|on|am|since|seit|from)\s+([^()]+)\)?")
_BETWEEN = re.compile(
    r"\s*(?:\+|&|\.\.+|\s-\s|\sto\s|\sand\s|\sbis\s|\sund\s|\set\s|\suntil\s|(?<=\d[/.]\d)-|(?<=\d[/.]\d\d)-)\s*"
)


LONG_AGO = 100
"""What a year from 0000 to 0099 is read as: too old for any date of a keeper's."""


def _year(*texts: str | None) -> int | None:
    for text in texts:
        if text:
            digits = text.strip("'")
            # A year of four digits before 100 is written as such: it stands for no other century.
            return int(digits) if len(digits) < 4 or int(digits) > 99 else LONG_AGO
    return None


def _numeric(text: str) -> Shape | None:
    if m := _YMD.fullmatch(text) or _COMPACT.fullmatch(text):
        return Shape("day", int(m[2]), int(m[3]), _year(m[1]))
    if m := _YEAR_MONTH.fullmatch(text):
        year, month = (m[1], m[2]) if m[1] else (m[4], m[3])
        return Shape("month", int(month), year=_year(year))
    if m := _PAIR.fullmatch(text):
        if m[2].isspace() and not m[4]:
            return None
        return Shape("pair", int(m[1]), int(m[3]), _year(m[4]), zero_led=m[1].startswith("0"))
    if m := _OPEN_PAIR.fullmatch(text):
        known = [part for part in (m[1], m[3]) if part.isdecimal()]
        if len(known) == 1:
            return Shape("month", int(known[0]), year=_year(m[4]))
        return Shape("year", year=_year(m[4])) if m[4] and not known else None
    if re.fullmatch(r"(?:19|20)\d\d", text) or re.fullmatch(r"'\d\d", text):
        return Shape("year", year=_year(text))
    if m := _LONE_DAY.fullmatch(text):
        return Shape("day_of_month", int(m[1]), doubt=not m[2])
    if re.fullmatch(r"\d+(?:[.,]\d+)?", text):
        return Shape("digits", amount=float(text.replace(",", ".")))
    return None


def _named(text: str) -> Shape | None:
    names = months()
    if (m := _DAY_NAME.fullmatch(text)) and m[2] in names:
        return Shape("day", names[m[2]], int(m[1]), _year(m[3], m[4]))
    if (m := _YEAR_NAME.fullmatch(text)) and m[2] in names:
        if m[3]:
            return Shape("day", names[m[2]], int(m[3]), int(m[1]))
        return Shape("month", names[m[2]], year=int(m[1]))
    if (m := _NAME_YEAR.fullmatch(text)) and m[1] in names:
        return Shape("month", names[m[1]], year=_year(m[2], m[3]))
    if (m := _NAME_NUMBER.fullmatch(text)) and m[1] in names:
        year = _year(m[3], m[4], m[5], m[6])
        if year is None and not text.endswith(("st", "nd", "rd", "th", ".")):
            return Shape("either", names[m[1]], int(m[2]))
        return Shape("day", names[m[1]], int(m[2]), year)
    return None


def _span(text: str) -> Shape | None:
    if m := _QUARTER.fullmatch(text):
        return Shape("quarter", int(m[1] or m[2] or m[3] or m[6]), year=_year(m[4], m[5]))
    if (m := _WEEK.fullmatch(text)) and 1 <= int(m[1] or m[4]) <= 53:
        return Shape("week", int(m[1] or m[4]), year=_year(m[2], m[3]))
    words = [w for w in re.split(r"[\s,./-]+", text) if w not in ("of", "de", "del", "the", "von", "")]
    year = None
    if words and re.fullmatch(r"\d{4}|'?\d{2}", words[-1]):
        year = _year(words.pop())
    if len(words) == 1 and words[0] in SEASONS:
        return Shape("season", SEASONS[words[0]], year=year)
    parts = [w for w in words if w in PARTS]
    others = [w for w in words if w not in PARTS]
    if len(parts) == 1 and len(others) <= 1:
        part = PARTS[parts[0]]
        if others and others[0] in months():
            return Shape("month", months()[others[0]], year=year, part=part)
        if not others and year is not None:
            return Shape("year", year=year, part=part)
    return None


def _age(text: str) -> Shape | None:
    if days := DAYS_BACK.get(text.strip(".! ")):
        return Shape("age", amount=days, span="day")
    m = _AGE.fullmatch(text)
    if not m or m[4] not in SPANS:
        return None
    words = {"a": 1.0, "an": 1.0, "one": 1.0, "two": 2.0, "three": 3.0, "½": 0.5, "a few": 3.0}
    amount = words.get(m[2]) or float(m[2].replace(",", "."))
    bound = ">" if m[1] == ">" or m[5] or m[1] == "+" else m[1]
    return Shape("age", amount=amount + (0.5 if m[3] else 0), span=SPANS[m[4]], bound=bound)


def _two(text: str) -> Shape | None:
    pieces = [piece for piece in _BETWEEN.split(text) if piece]
    if len(pieces) != 2:
        return None
    shapes = tuple(_one(piece) for piece in pieces)
    if all(shape is not None and shape.kind in ("day", "pair", "month", "either") for shape in shapes):
        return Shape("two", pieces=tuple(shape for shape in shapes if shape is not None))
    return None


def _weekday(text: str) -> tuple[str, frozenset[int]]:
    """Split a weekday off the beginning or the end."""
    names = weekdays()
    m = re.fullmatch(r"([^\W\d_]{2,})\.?,?[\s/-]+(.*\d.*)", text) or re.fullmatch(r"([^\W\d_]{2,})\.?(\d.*)", text)
    if m and m[1] in names and (m[1] not in months() or re.match(r"\d{1,2}\s*[-/. ]\s*[^\W_]", m[2])):
        return m[2], names[m[1]]
    m = re.fullmatch(r"(.*\d.*?)[\s,]*[\s(\[]([^\W\d_]{2,})\.?[)\]]?", text)
    if m and m[2] in names and m[2] not in months():
        return m[1].strip(), names[m[2]]
    return text, frozenset()


def _time(text: str) -> tuple[str, dt.time | None]:
    """Split a time of day off the end."""
    m = _TIME.search(text)
    if not m or not m.start():
        return text, None
    hour, minute, second = int(m[1] or m[5]), int(m[2] or 0), int(m[3] or 0)
    half = (m[4] or m[6] or "").replace(".", "")
    if half in ("am", "pm"):
        if not 1 <= hour <= 12:
            return text, None
        hour = hour % 12 + (12 if half == "pm" else 0)
    if hour > 23 or minute > 59 or second > 59:
        return text, None
    return text[: m.start()].strip(), dt.time(hour, minute, second)


def _one(text: str) -> Shape | None:
    """Take one date apart, without looking for other words around it."""
    readers: tuple[Callable[[str], Shape | None], ...] = (_numeric, _named, _span, _age)
    for reader in readers:
        if shape := reader(text):
            return shape
    day_name = _LAST.sub("", text).strip(".!")
    if len(text) > 2 and len(days := weekdays().get(day_name, ())) == 1:
        return Shape("weekday", weekdays=frozenset(days), bound="<" if _LAST.match(text) else "")
    stripped, days_named = _weekday(text)
    if days_named:
        for reader in (_numeric, _named):
            if shape := reader(stripped):
                return replace(shape, weekdays=days_named)
    return None


def _among_words(text: str) -> Shape | None:
    """Find one date among other words: the longest run of words that makes one."""
    if (m := _IN_MONTH.fullmatch(text)) and (shape := _one(m[2].strip())):
        return replace(shape, rest=m[1].strip(), more_words=True)
    words = text.split()
    if len(words) > 12 or words[-1:] == ["ago"]:  # a time since, and no August in Spanish
        return None
    for length in range(len(words) - 1, 0, -1):
        for start in range(len(words) - length + 1):
            run = " ".join(words[start : start + length]).strip("(),;:!")
            shape = _one(run)
            if run not in _COMMON_WORDS and shape and shape.kind in ("day", "pair", "month", "either", "season"):
                rest = " ".join([*words[:start], *words[start + length :]])
                return replace(shape, rest=rest, more_words=True)
    return None


@lru_cache(maxsize=65536)
def shape_of(text: str) -> Shape:
    """Take a text apart.

    Parameters
    ----------
    text : str
        As the keeper typed it.

    Returns
    -------
    Shape
        Of kind ``none`` when it is not understood.
    """
    text = fold(text)
    bare = text.strip("\"' ")
    if not bare or bare.strip("!*") in ABSENT or text in ABSENT:
        return Shape("absent")
    text = text.strip('"* ')
    if text.strip("!?. ") in RELATIVE:
        return Shape("relative")
    if shape := _one(text):
        return shape
    doubt = bool(re.search(r"[?~≈]|^(?:c|ca|circa|about|around|approx|maybe|um|env)\b", text))
    plain = re.sub(r"^(?:[~≈]+|(?:circa|ca|c|about|around|approx|maybe|probably)\b\.?)\s*|\s*[?!~*]+$", "", text)
    plain = re.sub(r"^\((.*)\)$|^(?:since|seit|depuis|desde|on|am|le|from|from the|the)\s+", r"\1", plain).strip()
    plain, time = _time(plain)
    shape = _one(plain) or _two(plain) or _among_words(plain)
    if shape is None:
        return NOT_UNDERSTOOD
    return replace(shape, doubt=shape.doubt or doubt, time=time)
