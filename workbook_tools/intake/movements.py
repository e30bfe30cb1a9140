"""Rows of an in-and-out book: which bin the animals left or entered, how many, and what is no animal at all."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.headings import plain
from workbook_tools.intake.moves import MOVED
from workbook_tools.intake.number_words import word_value
from workbook_tools.intake.numbers import read_number
from workbook_tools.intake.values import Amount, Fact, When, Words
from workbook_tools.problems import Problem

Facts = dict[str, list[Fact]]
_SEXES = re.compile(r"\d{1,3}\.\d{1,3}(?:\.\d{1,3})?")
_MOVING = frozenset({"animals_in", "animals_out", "split"})
_THINGS = frozenset(
    "leaf leaves litter soil substrate dirt compost springtail springtails food cuttlebone eggshell calcium lid lids "
    "label labels sprayer mesh tape".split()
)
"""Words for what is moved and is no isopod."""
_OR_NAMES = frozenset(
    "oak beech peat flake sand moss bark cork wood twigs fish carrot courgette chalk lime limestone charcoal".split()
)
"""Words for things that keepers name a line after too."""
_MEASURES = frozenset(
    "a an of the some more few lot lots new old fresh dry dried mixed big small full half bag bags box boxes tub tubs "
    "tin tins bucket buckets sack sacks pack packs packet packets cup cups handful handfuls piece pieces pc pcs slice "
    "slices l litre litres liter liters ml g kg qt quart quarts gallon gallons oz lb lbs".split()
)
"""Words for how much of a thing, which say nothing of what it is."""


def settle_movement(facts: Facts, cells: Mapping[str, Cell], problems: list[Problem]) -> None:
    """Settle a row of movements: its bin, what it says was moved, the number of animals, and frozen waste.

    Parameters
    ----------
    facts : dict of str to list of Fact
        Those of one row of a log, by field; changed in place.
    cells : mapping of str to Cell
        The row's cells by field.
    problems : list of Problem
        Those met in the row; one that is answered here is taken out, others are added.
    """
    acts = _acts(facts)
    if "did" in cells and MOVED.search(cells["did"].text):
        acts.add("animals_out")
    moving = frozenset(acts)
    thing = _thing_in(cells) if _MOVING.intersection(acts) else None
    counted = {"bin_before", "bin_after"} & facts.keys() and {"number", "amount"} & facts.keys()
    if thing and not thing[1] and counted:
        problems.append(_of_thing("moves.thing_or_animals", thing[0]))
    elif thing:
        problems.append(_of_thing("moves.no_animals", thing[0]))
        facts["did"] = [replace(fact, value=Words(("note",)), guessed=True) for fact in facts.get("did", ())[:1]]
        facts.pop("number", None)
        acts = {"note"}
    _settle_bins(facts, moving)
    if _MOVING.intersection(acts):
        _count_sexes(facts, cells, problems)
    if "waste" in facts and "amount" not in facts:
        facts["amount"] = [replace(facts["waste"][0], field="amount")]
    frozen = next((fact for fact in facts.get("frozen_from", ()) if isinstance(fact.value, When)), None)
    if frozen and "discard" in acts:
        facts["did"] = [replace(fact, value=Words(("freeze",)), guessed=True) for fact in facts["did"][:1]]
        facts["when"] = [replace(frozen, field="when"), *facts.get("when", ())]
        problems.append(Problem("moves.frozen", frozen.cell.ref, {}, frozen.text))


def _acts(facts: Mapping[str, Sequence[Fact]]) -> set[str]:
    return {key for fact in facts.get("did", ()) if isinstance(fact.value, Words) for key in fact.value.keys}


def _thing_in(cells: Mapping[str, Cell]) -> tuple[Cell, bool] | None:
    """The cell of what was moved and whether it is surely a thing; None unless all its words are things or measures."""
    if "thing" not in cells:
        return None
    words = [word for word in plain(cells["thing"].text).split() if not _says_how_much(word)]
    if not words or not _THINGS.union(_OR_NAMES).issuperset(words):
        return None
    return cells["thing"], not _THINGS.isdisjoint(words)


def _says_how_much(word: str) -> bool:
    return word in _MEASURES or word_value(word) is not None or re.fullmatch(r"[\d.,/½¼¾]+[a-z]{0,2}", word) is not None


def _of_thing(code: str, cell: Cell) -> Problem:
    return Problem(code, cell.ref, {"thing": cell.text}, cell.text)


def _settle_bins(facts: Facts, acts: frozenset[str]) -> None:
    """Take the bin that animals entered for a row of animals in, else the one they left."""
    before, after = facts.get("bin_before"), facts.get("bin_after")
    if before and after:
        for field, own_bins in (("from_bin", before), ("to_bin", after)):
            facts[field] = [replace(own_bins[0], field=field), *facts.get(field, ())]
    entered = "animals_in" in acts and "animals_out" not in acts
    first, second = (after, before) if entered else (before, after)
    own = first or second
    if own is None and entered and "from_bin" in facts and facts.get("to_bin"):
        own = facts["to_bin"]
    if own and not facts.get("bins"):
        facts["bins"] = [replace(own[0], field="bins", guessed=True)]


def _count_sexes(facts: Facts, cells: Mapping[str, Cell], problems: list[Problem]) -> None:
    """Read ``4.6`` of animals moved as males and females, and give an amount without a unit to their number."""
    key = next((key for key in ("number", "amount") if key in cells), "")
    if not key:
        return
    cell = cells[key]
    if _SEXES.fullmatch(cell.text.strip()):
        reading = read_number(cell.text, sexes=True)
        number = reading.number
        if number and number.parts and number.best == int(number.best):
            facts.pop(key, None)
            facts["number"] = [Fact("number", number, cell, True)]
            problems[:] = [one for one in problems if cell.ref not in one.cells]
            told = {"number": f"{number.best:g}", "parts": " and ".join(f"{part:g}" for part in number.parts)}
            problems.append(Problem("numbers.sexes", cell.ref, told, cell.text))
            return
    amount = facts.get("amount", [])
    value = amount[0].value if amount and "number" not in facts else None
    if isinstance(value, Amount) and value.unit in ("", "count"):
        facts["number"] = [replace(amount[0], field="number", value=value.number)]
        facts.pop("amount")
