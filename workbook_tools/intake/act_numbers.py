"""Numbers in a text of acts given to what they belong to, and numbers that no count of animals can be."""

from __future__ import annotations

import math
import re
from dataclasses import replace

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.amount_words import LOOSE_SHARES, PARTS, WHOLE
from workbook_tools.intake.amounts import Measures, read_amount, read_share
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_words import fold, months
from workbook_tools.intake.decimals import Decimal
from workbook_tools.intake.number_words import tidy
from workbook_tools.intake.numbers import NumberReading, read_number
from workbook_tools.intake.values import Amount, Fact, Number, Words
from workbook_tools.intake.words_found import Quantity, WordsFound
from workbook_tools.problems import Problem

COUNTED = frozenset(
    {"count", "animals_in", "animals_out", "split", "dead", "young", "trap", "start", "sift", "mark", "recapture"}
)
"""Acts behind which a number without a unit stands for animals."""
_AMOUNTS = {
    "water": ("water", "ml"),
    "leaf": ("leaf", "l"),
    "calcium": ("calcium", "g"),
    "feed": ("amount", "g"),
    "freeze": ("amount", "l"),
    "discard": ("amount", "l"),
    "stock": ("amount", ""),
    "substrate_change": ("amount", "l"),
}
"""The field and the usual unit of the amount of an act."""
_UNITS = {"ml": "ml l", "l": "l g", "g": "g ml l count", "": "ml l g count"}
_PLACED_BARE = frozenset({"water", "feed"})
"""Acts behind which a number without a unit is an amount: millilitres of water, pieces of food."""
_FRACTION = re.compile(r"\d+\s*/\s*\d+|[½⅓⅔¼¾⅕⅛]|%")
_DAY_MONTH = re.compile(r"\d{1,2}[\s./-]+([^\W\d_]{3,9})\.?")
_THOUSANDS = re.compile(r"[1-9]\d{0,2}([.,])\d{3}")


def impossible(text: str, reading: NumberReading) -> bool:
    """Whether a number read from a cell can't be a count of animals.

    So are numbers below nothing, parts of one, percentages, and a day and month that a program made of ``10-12``.
    """
    number = reading.number
    if number is None:
        return False
    if number.best < 0 or reading.rest.startswith(("%", "per cent", "percent")):
        return True
    if number.exact and number.best != int(number.best):
        return True
    found = _DAY_MONTH.fullmatch(fold(text)) if reading.rest else None
    return found is not None and found[1] in months()


def too_many(number: Number) -> bool:
    """Whether a number, its range or a part of it is above what is believed of animals; 30+ has no end of its range."""
    ends = (number.best, number.low, *number.parts, *([number.high] if math.isfinite(number.high) else ()))
    return bool(max(ends) > DEFAULTS["number.most"].value)


def no_animals(cell: Cell, reading: NumberReading) -> list[Problem]:
    """Name a number of a cell that can't be one of animals; nothing for any other."""
    if reading.number and too_many(reading.number):
        told = {"value": cell.text, "most": f"{DEFAULTS['number.most'].value:,.0f}"}
        return [Problem("numbers.too_many", cell.ref, told, cell.text)]
    if impossible(cell.text, reading):
        return [Problem("numbers.impossible_count", cell.ref, {"value": cell.text}, cell.text)]
    return []


def in_thousands(text: str, decimal: Decimal) -> NumberReading | None:
    """Read ``1.200`` as twelve hundred animals, whatever the decimal mark; None for any other text, or if too many."""
    found = _THOUSANDS.fullmatch(text.strip())
    reading = read_number(text, "," if found[1] == "." else ".") if found and decimal == found[1] else None
    if reading is None or reading.number is None or reading.number.best > DEFAULTS["usual.count"].high:
        return None
    facts = {"value": text, "number": f"{reading.number.best:g}"}
    return replace(reading, guessed=True, code="numbers.separator_open", facts=facts)


def is_share(text: str) -> bool:
    """Whether a text is written as a share: a fraction, a percentage, or words such as 'half'."""
    written = bool(_FRACTION.search(text)) or tidy(text).strip("!*? ~") in {*PARTS, *WHOLE, *LOOSE_SHARES}
    return written and read_share(text).amount is not None


def numbers_of(found: WordsFound, cell: Cell, decimal: Decimal, measures: Measures) -> tuple[list[Fact], list[Problem]]:
    """Give every number of a text of acts to the field it belongs to; what belongs to none is named."""
    facts: dict[str, Fact] = {}
    things: dict[str, set[str]] = {}
    left = list(found.unplaced)
    for told in found.numbers:
        read = next((got for key in told.acts if (got := _fact(key, told.quantity, cell, decimal, measures))), [])
        if not read:
            left.append(told.quantity)
            continue
        known = facts.get(read[0].field)
        if known is None:
            facts.update({fact.field: fact for fact in read})
        elif told.thing and told.thing not in things[known.field] and (both := _both(known, read[0])):
            facts[known.field] = both
        else:
            left.append(told.quantity)
        things.setdefault(read[0].field, set()).add(told.thing)
    problems = [
        Problem("words.number_unplaced", cell.ref, {"number": one.text, "text": cell.text}, one.text) for one in left
    ]
    return list(facts.values()), problems


def _both(one: Fact, other: Fact) -> Fact | None:
    """Two amounts of different things in one: 'hazel 10 g, alder 20 g'; nothing where their units aren't the same."""
    first, more = one.value, other.value
    if not (isinstance(first, Amount) and isinstance(more, Amount)) or first.unit != more.unit:
        return None
    return replace(one, value=replace(first, number=first.number + more.number), guessed=one.guessed or other.guessed)


def _fact(key: str, one: Quantity, cell: Cell, decimal: Decimal, measures: Measures) -> list[Fact]:
    """The facts that a number is for an act; none when the act has no such number."""
    if key == "substrate_change" and (is_share(one.text) and not one.unit.strip("%")):
        share = read_share(one.text, decimal).amount
        return [Fact("share", share, cell, share.guessed)] if share else []
    if key == "substrate_look":
        share = read_share(one.text, decimal).amount if is_share(one.text) else None
        return [Fact("recognisable", share, cell, True)] if share else []
    if key in COUNTED:
        return _count(key, one, cell, decimal)
    if key == "room":
        field, unit = ("humidity", "percent") if "%" in one.text else ("temperature", "degC")
        degrees = read_amount(one.text, unit, measures, decimal).amount
        return [Fact(field, degrees, cell, degrees.guessed)] if degrees and (one.unit or "%" in one.text) else []
    if key not in _AMOUNTS or (_FRACTION.search(one.text) and not one.unit):
        return []
    field, usual = _AMOUNTS[key]
    if not one.unit:
        if key not in _PLACED_BARE or (key == "water" and not one.last) or (key == "feed" and one.last):
            return []
        usual = "count" if key == "feed" else usual
    amount = read_amount(one.text, usual, measures, decimal).amount
    if amount is None and key == "feed":
        amount = read_amount(one.text, "count", measures, decimal).amount
    if amount is None or (one.unit and amount.unit not in _UNITS.get(usual, usual).split()):
        return []
    return [Fact(field, amount, cell, amount.guessed or not one.unit)]


def _count(key: str, one: Quantity, cell: Cell, decimal: Decimal) -> list[Fact]:
    reading = read_number(one.text, decimal)
    number = reading.number
    if number is None or impossible(one.text, reading) or too_many(number):
        return []
    if one.unit and read_amount(one.text, "count").amount is None:
        return []
    if key == "dead":
        return [Fact("dead", number, cell, reading.guessed)]
    if key == "young":
        words = Words(("yes",) if number.high > 0 else ("no",))
        return [Fact("young", words, cell), Fact("young_number", number, cell, reading.guessed)]
    return [Fact("number", number, cell, reading.guessed)]
