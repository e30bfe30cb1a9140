"""Turn what a keeper writes for an amount or a share into a number of one of the units that amounts are kept in."""

from __future__ import annotations

import datetime as dt
import math
import re
from dataclasses import dataclass, replace
from functools import lru_cache

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.amount_words import LONGEST_FIRST, LOOSE_SHARES, PARTS, WHOLE
from workbook_tools.intake.cells import Raw
from workbook_tools.intake.decimals import Decimal
from workbook_tools.intake.number_words import VAGUE, tidy
from workbook_tools.intake.numbers import NumberReading, read_number
from workbook_tools.intake.readings import Reading
from workbook_tools.intake.units import DIMENSION, SAID, Measures, UnitFound, celsius, find_unit
from workbook_tools.intake.values import Amount, Number
from workbook_tools.vocabulary.presence import SILENT, Presence, presence_of

__all__ = ["AmountReading", "Measures", "read_amount", "read_share"]

_TIMES = re.compile(r"([^x]*\d[^x]*?)\s*x\s*(\d[^x]*?)(?:\s*x\s*(\d[^x]*?))?")
_LENGTH = re.compile(
    r"(\d+(?:[.,]\d+)?|\d+ \d/\d+|\d/\d+)\s*([a-z\"']{0,6})\.?(?:\s*(?:high|tall|deep|wide|long|h|w|l|d))?"
)
_EACH = re.compile(r"\s*\b(?:each|apiece|per bin|a bin|per box|a box)$")
_ROUGHLY = re.compile(r"^\s*(?:~+|c\.|ca\.?|circa|about|around|approx\.?)\s*|(?<=\d)\s*(?:~|-?ish\b)")


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountReading(Reading):
    """An amount read from a text.

    ``truth`` is True for a yes (``y``, ``x``, ✓) and for any amount above nothing, False for a no or nothing, None when
    neither can be said. ``amount`` is None for a bare yes or no.
    """

    amount: Amount | None = None
    truth: bool | None = None


class _Odd(Exception):
    """Ends the reading of one text with a problem; never leaves this module."""

    def __init__(self, code: str, *, truth: bool | None = None, **facts: object) -> None:
        super().__init__(code)
        self.reading = AmountReading(code=code, facts=facts, truth=truth)


def _scaled(number: Number, best: float, low: float, high: float) -> Number:
    """Multiply a number by a factor with a range of its own."""
    ends = sorted((number.low * low, number.high * high))
    return Number(_round(number.best * best), _round(ends[0]), _round(ends[1]), number.parts)


def _round(value: float) -> float:
    """Drop the noise of binary fractions behind the twelfth digit."""
    return float(f"{value:.12g}") if math.isfinite(value) else value


def _done(number: Number, unit: str, written: str, guessed: bool, reading: Reading | None = None) -> AmountReading:
    reading = reading or Reading()
    return AmountReading(
        amount=Amount(number, unit, written, guessed),
        truth=number.high > 0,
        guessed=guessed or reading.guessed,
        code=reading.code,
        facts=reading.facts,
        rest=reading.rest,
    )


def _dimensions(text: str, usual: str, heading_unit: str, decimal: Decimal, given: str) -> AmountReading | None:
    """Read length x width (x height): a volume, a floor, or so many times an amount."""
    m = _TIMES.fullmatch(text)
    if not m or usual not in ("l", "dm2"):
        return None
    sides = [_LENGTH.fullmatch(part.strip()) for part in m.groups() if part]
    units = [side[2] for side in sides if side]
    unit = next((each for each in reversed(units) if each), "") or (
        heading_unit if DIMENSION.get(heading_unit) == "length" or heading_unit in ("in", "inch", "mm") else ""
    )
    if not all(sides):
        return None
    lengths = []
    for side in sides:
        found = find_unit((side[2] if side else "") or unit or "cm", "cm", Measures())
        if side is None or found is None or found[0].unit != "cm":
            return None
        parts = read_number(side[1], decimal).number
        lengths.append((parts.best if parts else 0) * found[0].factor / 10)
    if usual == "l" and len(lengths) < 3:
        raise _Odd("amounts.no_height", truth=True, value=given)
    value = _round(math.prod(lengths if usual == "l" else lengths[:2]))
    reading = _done(Number.exactly(value), usual, unit, not unit)
    if unit:
        return reading
    return replace(reading, code="amounts.unit_assumed", facts={"value": given, "taken": "centimetres"})


def _with_number(
    text: str, decimal: Decimal, given: str, measures: Measures | None = None
) -> tuple[NumberReading, str]:
    """Split a text into its number (1 where only a measure stands) and the words behind it."""
    for words, value in LONGEST_FIRST:
        if text.startswith(f"{words} "):
            return NumberReading(number=Number.exactly(value)), text[len(words) :].removeprefix(" of").strip()
    bare = re.sub(r"^(?:a|an|one|1 x)\s+(?!few|couple|lot|dozen|bit)", "", text)
    if not any(c.isdecimal() for c in bare) and find_unit(bare, "", measures or Measures()):
        return NumberReading(number=Number.exactly(1)), bare
    reading = read_number(text, decimal)
    if reading.code == "numbers.ratio":
        raise _Odd(reading.code, value=given)
    if reading.code == "numbers.date_there":
        raise _Odd(reading.code)
    if reading.code == "numbers.several" and reading.number:
        first = reading.number.parts[0]
        reading = replace(reading, number=Number.exactly(first), guessed=False, code="", facts={})
    if reading.number is None:
        raise _Odd("amounts.not_understood", value=given)
    rest = reading.rest.removeprefix("x ").strip()
    if rest.endswith("+") and not reading.guessed:
        low = reading.number.low
        best = max(low * DEFAULTS["number.at_least"].value, low)
        reading = replace(reading, number=Number(best, low, math.inf), guessed=True)
        rest = rest[:-1].strip()
    return reading, rest


def _temperature(
    text: str, decimal: Decimal, heading_unit: str, given: str, number: Number | None = None
) -> AmountReading:
    """Read degrees: about is some degrees rather than a share, and a bound is its own best guess."""
    if number is None:
        rough = bool(_ROUGHLY.search(text))
        reading, rest = _with_number(_ROUGHLY.sub("", text), decimal, given)
        number = reading.number or Number.exactly(0)
        if math.isinf(number.high):
            number = Number(number.low, number.low, math.inf)
        elif text.startswith("<") or text.startswith(("under", "below")):
            number = Number(number.high, -math.inf, number.high)
        if rough:
            off = DEFAULTS["number.about_degrees"].value
            number = Number(number.best, number.low - off, number.high + off)
    else:
        reading, rest, rough = NumberReading(number=number), "", False
    found = find_unit(re.sub(r"^[°º]\s+", "°", rest), "degC", Measures()) if rest else None
    if found is None and heading_unit:
        found = find_unit(heading_unit.casefold(), "degC", Measures())
        found = (found[0], rest) if found else None
    unit = found[0].unit if found else "degC"
    if found and unit not in ("degC", "degF"):
        raise _Odd("amounts.wrong_unit", value=given, unit=found[0].written, usual=SAID["degC"])
    written = found[0].written if found else ""
    plain = Reading(code=reading.code, facts=reading.facts, rest=found[1] if found else rest, guessed=rough)
    above = DEFAULTS["amount.fahrenheit_above"].value
    if unit == "degF" or (not written.endswith("c") and number.low > above):
        best, low, high = (celsius(x) if math.isfinite(x) else x for x in (number.best, number.low, number.high))
        turned = Number(best, low, high)
        if unit != "degF":
            plain = replace(
                plain, code="amounts.unit_assumed", guessed=True, facts={"value": given, "taken": "degrees Fahrenheit"}
            )
        return _done(turned, "degC", written or "°f", unit != "degF", plain)
    return _done(number, "degC", written, False, plain)


def _percent(text: str, decimal: Decimal, given: str, number: Number | None = None) -> AmountReading:
    """Read per cent; a bare number of 1 or less is a share of one and is multiplied by 100."""
    reading, rest = (NumberReading(number=number), "") if number else _with_number(text, decimal, given)
    value = reading.number or Number.exactly(0)
    signed = "%" in text or "per cent" in text or "percent" in text
    rest = re.sub(r"^(?:%|per ?cent|pc|pct)\s*(?:rh)?", "", rest).strip()
    plain = Reading(code=reading.code, facts=reading.facts, rest=rest, guessed=reading.guessed)
    if not signed and 0 < value.high <= 1:
        return _done(_scaled(value, 100, 100, 100), "percent", "", True, plain)
    return _done(value, "percent", "%" if signed else "", False, plain)


def _plain(text: str, usual: str, measures: Measures, decimal: Decimal, heading_unit: str, given: str) -> AmountReading:
    """Read a number with its unit or hobby measure."""
    if (m := re.fullmatch(r"(\d+)\s*x\s*(\d.*[a-z].*)", text)) and "x" not in m[2]:
        inner = _plain(m[2], usual, measures, decimal, heading_unit, given)
        if inner.amount is None:
            return inner
        times = float(m[1])
        return replace(inner, amount=replace(inner.amount, number=_scaled(inner.amount.number, times, times, times)))
    reading, rest = _with_number(text, decimal, given, measures)
    rest = _EACH.sub("", rest)
    number = reading.number or Number.exactly(0)
    found = find_unit(rest, usual, measures) if rest else None
    if found is None and usual == "count":
        return _done(number, "count", "", False, reading)
    if found is None and rest and rest[0] not in "(,;/&+":
        raise _Odd("amounts.unit_unknown", truth=number.high > 0 or None, value=given, unit=rest)
    if found is None and heading_unit:
        found = find_unit(heading_unit.casefold(), usual, measures)
        found = (found[0], rest) if found else None
    if found is None:
        return _done(number, usual, "", False, reading)
    unit, rest = found
    done = _in_unit(number, unit, usual, replace(reading, rest=rest), given)
    if done.amount is None or done.code or not re.search(r"\d", rest) or done.amount.unit == "count":
        return done
    more = _further(re.sub(r"^(?:\+|&|and|plus|,|;)\s*", "", rest), usual, measures, decimal, given)
    first = done.amount
    if more and more.unit == first.unit:
        total = first.number + more.number
        return replace(done, amount=replace(first, number=total, guessed=first.guessed or more.guessed), rest="")
    facts = {"value": given, "taken": f"{first.number.best:g} {first.unit}"}
    return replace(done, guessed=True, code="amounts.more_there", facts=facts)


def _further(text: str, usual: str, measures: Measures, decimal: Decimal, given: str) -> Amount | None:
    """Read a second amount behind the first ("1 l 200 ml"), which must carry a unit of its own."""
    try:
        reading = _plain(text, usual, measures, decimal, "", given)
    except _Odd:
        return None
    return reading.amount if reading.amount and reading.amount.as_written and not reading.code else None


def _in_unit(number: Number, unit: UnitFound, usual: str, reading: NumberReading, given: str) -> AmountReading:
    """Convert into the field's own unit, or keep a mass for a volume and the other way round."""
    kind, wanted = DIMENSION.get(unit.unit, unit.unit), DIMENSION.get(usual, usual)
    fits = kind == wanted or not usual or {kind, wanted} == {"volume", "mass"}
    if not fits or unit.unit not in (*DIMENSION, "count", "percent", "degF"):
        raise _Odd("amounts.wrong_unit", value=given, unit=unit.written, usual=SAID.get(usual, "an amount"))
    if unit.unit == "degF":
        return _temperature(given, "", "f", given, number)
    scale, name = 1.0, unit.unit
    if kind == "volume" and usual in ("l", "ml") and unit.unit != usual:
        scale, name = (1000.0, "ml") if usual == "ml" else (0.001, "l")
    value = _scaled(number, unit.factor * scale, unit.low * scale, unit.high * scale)
    return _done(value, name, unit.written, unit.guessed, reading)


def read_amount(
    given: Raw, usual: str = "", measures: Measures | None = None, decimal: Decimal = "", heading_unit: str = ""
) -> AmountReading:
    """Read an amount with its unit.

    Parameters
    ----------
    given : str, int, float, bool, datetime, date, time or timedelta
        The value of a cell.
    usual : str
        The unit the field is kept in: ml, l, g, cm, dm2, count, degC, percent, or empty for any. A number without a
        unit is taken as that.
    measures : Measures, optional
        The keeper's own hobby measures and quart.
    decimal : str
        The file's decimal mark, empty when it is open.
    heading_unit : str
        The unit that the column's heading gives, which then holds for numbers without one.

    Returns
    -------
    AmountReading
        In the usual unit; a mass where a volume is usual (20 g of leaves) stays in grams, and the other way round.
        ``12x8x5in`` gives litres or, for a floor, its first two sides. Hobby measures have the range that ``defaults``
        gives them and are guessed until the keeper sets them, as are ``oz`` (fluid where a volume is usual), quarts,
        gallons and cups. A room temperature above 45 without a unit is taken as Fahrenheit. Misleading for ``oz`` of a
        solid where a volume is usual.
    """
    measures = measures or Measures()
    if isinstance(given, bool):
        return AmountReading(truth=given)
    if isinstance(given, dt.date | dt.time | dt.timedelta):
        return AmountReading(code="numbers.date_there")
    if isinstance(given, int | float):
        given, decimal = _digits(given), "."
    try:
        return _read(given, usual, measures, decimal, heading_unit)
    except _Odd as odd:
        return odd.reading
    except OverflowError:
        return AmountReading(code="amounts.not_understood", facts={"value": given.strip()})


def _digits(value: float) -> str:
    """A number of the file as digits, without an exponent; past fifteen of them only its size counts."""
    return f"{value:.15f}".rstrip("0").rstrip(".") if math.isfinite(value) else "nan"


def _read(given: str, usual: str, measures: Measures, decimal: Decimal, heading_unit: str) -> AmountReading:
    text = re.sub(r"^'(?=\d)", "", tidy(given))
    bare = text.strip("!* ")
    given = given.strip()
    said = presence_of(bare)
    if not text or said is Presence.UNKNOWN:
        return AmountReading(absent=True)
    if said is not None and said not in (Presence.NOT_YET, Presence.ASKED):
        return AmountReading(truth=said is Presence.DONE)
    if bare.rstrip("?") in VAGUE and usual != "count" and not find_unit(bare.removeprefix("a "), usual, measures):
        return AmountReading(truth=True, guessed=True, rest=bare)
    if found := _dimensions(text, usual, heading_unit, decimal, given):
        return found
    if usual == "degC":
        return _temperature(text, decimal, heading_unit, given)
    if usual == "percent":
        return _percent(text, decimal, given)
    return _plain(text, usual, measures, decimal, heading_unit, given)


def read_share(given: Raw, decimal: Decimal = "") -> AmountReading:
    """Read a share of something.

    Parameters
    ----------
    given : str, int, float, bool, datetime, date, time or timedelta
        The value of a cell; a date is a problem, because programs turn ``1/3`` into one.
    decimal : str
        The file's decimal mark, empty when it is open.

    Returns
    -------
    AmountReading
        ``amount.number`` from 0 to 1 with the unit ``share``. "One side", "most" and "some" are guesses with ranges
        that stand in ``defaults``. A bare number above 1 is taken as per cent. What stands behind the share
        ("in Jan") is in ``rest``. Misleading for a bare 1: it is taken as all, not as 1 %.
    """
    if isinstance(given, bool):
        return AmountReading(truth=given)
    if isinstance(given, dt.date | dt.time | dt.timedelta) or re.match(
        r"\d{4}-\d\d-\d\d", given if isinstance(given, str) else ""
    ):
        return AmountReading(code="numbers.date_there")
    if isinstance(given, int | float):
        given, decimal = _digits(given), "."
    try:
        return _share(given, decimal)
    except OverflowError:
        return AmountReading(code="amounts.not_a_share", facts={"value": given.strip()})


@lru_cache(maxsize=4096)
def _share(given: str, decimal: Decimal) -> AmountReading:
    text = tidy(given).strip("!* ")
    odd = AmountReading(code="amounts.not_a_share", facts={"value": given.strip()})
    said = presence_of(text)
    if not text or said in SILENT:
        return AmountReading(absent=True)
    if said in (Presence.NONE, Presence.NOT_DONE):
        return _done(Number.exactly(0), "share", "", False)
    if said is Presence.DONE:
        return AmountReading(truth=True)
    rough = bool(_ROUGHLY.search(text)) or text.endswith("?")
    text = _ROUGHLY.sub("", text).strip("? ")
    named: tuple[tuple[str, Number, bool], ...] = (
        *((word, Number.exactly(value), False) for word, value in PARTS.items()),
        *((word, Number.exactly(1), False) for word in WHOLE),
        *((w, Number(DEFAULTS[k].value, DEFAULTS[k].low, DEFAULTS[k].high), True) for w, k in LOOSE_SHARES.items()),
    )
    for word, number, guessed in sorted(named, key=lambda item: -len(item[0])):
        if text == word or (text.startswith(f"{word} ") and not re.match(r"\s*(?:of\s+)?\d", text[len(word) :])):
            rest = Reading(rest=text[len(word) :].strip())
            return _done(_wide(number) if rough else number, "share", "", guessed or rough, rest)
    reading = read_number(text, decimal)
    if reading.number is None or reading.number.low < 0 or reading.code in ("numbers.several", "numbers.ratio"):
        return odd
    number, rest_text = reading.number, reading.rest
    signed = rest_text.startswith(("%", "per cent", "percent", "pct"))
    rest_text = re.sub(r"^(?:%|per ?cent|pct)\s*", "", rest_text)
    over = 100 if signed or number.low > 1 else 1
    if number.best > over and not math.isinf(number.high):
        return odd
    if rest_text and not signed and not rest_text.startswith("in ") and find_unit(rest_text, "", Measures()):
        return odd
    high = min(number.high, over)
    best = min(number.best, over)
    value = _scaled(Number(best, min(number.low, best), high), 1 / over, 1 / over, 1 / over)
    guessed = reading.guessed or rough or (over == 100 and not signed)
    plain = Reading(code=reading.code, facts=reading.facts, rest=rest_text)
    return _done(_wide(value) if rough else value, "share", "%" if signed else "", guessed, plain)


def _wide(number: Number) -> Number:
    off = number.best * DEFAULTS["number.about"].value
    return Number(number.best, max(number.best - off, 0), min(number.best + off, 1))
