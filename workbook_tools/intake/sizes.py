"""Animals counted by size: their sum where none is written, and whether a written one agrees."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.values import Fact, Number
from workbook_tools.problems import Problem

SIZES = ("large", "middle", "small")
"""Fields of the log that each hold animals of one size."""
_UNCOUNTED = frozenset({"n/c", "nc", "not ctd", "not counted", "not ct", "?", "??", "tbc", "uncounted"})


def add_sizes(facts: dict[str, list[Fact]], cells: Mapping[str, Cell]) -> list[Problem]:
    """Give a row its number of animals from those of each size.

    A number written for all is used, and named where the sizes don't add up to it. Where a size wasn't counted the
    number is a lower bound. Without any number, the sizes are added up.

    Parameters
    ----------
    facts : dict of str to list of Fact
        Those of one row of a log, by field; the number is added or replaced.
    cells : mapping of str to Cell
        The row's cells by field.
    """
    sized = [fact for key in SIZES for fact in facts.get(key, ())[:1] if isinstance(fact.value, Number)]
    uncounted = [cells[key] for key in SIZES if key in cells and cells[key].text.strip().casefold() in _UNCOUNTED]
    if not sized:
        return []
    parts = [fact.value for fact in sized if isinstance(fact.value, Number)]
    added = parts[0] if len(parts) == 1 else _sum(parts)
    problems: list[Problem] = []
    written = next((fact for fact in facts.get("number", ()) if isinstance(fact.value, Number)), None)
    if written is None:
        told = {"number": f"{added.best:g}"}
        problems.append(Problem("numbers.sizes_added", sized[0].cell.ref, told, " + ".join(f.text for f in sized)))
        written = replace(sized[0], field="number", value=added, guessed=True)
    elif isinstance(written.value, Number) and not uncounted and _apart(written.value, added):
        told = {"value": written.text, "number": f"{added.best:g}"}
        problems.append(Problem("numbers.sizes_differ", written.cell.ref, told, written.text))
    if uncounted and isinstance(written.value, Number) and written.value.exact:
        least = written.value.best
        at_least = Number(max(least * DEFAULTS["number.at_least"].value, least), least, float("inf"))
        also = tuple(cell.ref for cell in uncounted[1:])
        told = {"number": f"{least:g}"}
        problems.append(Problem("numbers.size_uncounted", uncounted[0].ref, told, uncounted[0].text, also))
        written = replace(written, value=at_least, guessed=True)
    facts["number"] = [written]
    return problems


def _sum(parts: list[Number]) -> Number:
    return Number(
        sum(part.best for part in parts),
        sum(part.low for part in parts),
        sum(part.high for part in parts),
        tuple(part.best for part in parts),
    )


def _apart(written: Number, added: Number) -> bool:
    """Whether no number fits both."""
    return written.low > added.high or written.high < added.low
