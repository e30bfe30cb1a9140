"""Whether a row's work was done: its status, a plan without a day, and columns that hold ticks and not amounts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from workbook_tools.fields import LOG_FIELDS, Field, Kind
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.values import Fact, Words
from workbook_tools.problems import CellRef, Problem
from workbook_tools.vocabulary.presence import Presence, presence_of

_OF_WORK = frozenset(field.key for field in LOG_FIELDS if field.implies) | {"did", "share", "amount", "number"}
"""Fields of what was done, which a status can say wasn't."""
_FILLED = 0.3
_LITRE_OF_LEAVES = "leaf"
"""Of leaves 1 is a usual amount, a litre; of anything else given 1 is none."""


def undone(facts: dict[str, list[Fact]]) -> list[Problem]:
    """Take what was done out of a row whose status says that it wasn't, and name that; nothing for any other row."""
    status = next(iter(facts.get("outcome", ())), None)
    if status is None or not isinstance(status.value, Words) or status.value.keys != ("not done",):
        return []
    _take_out(facts)
    return [Problem("words.not_done", status.cell.ref, {"word": status.text}, status.text)]


def unticked(facts: dict[str, list[Fact]], act: str, where: CellRef, heading: str) -> list[Problem]:
    """Take what was done out of a row without a status, in a column that has one for most, and name that.

    ``act`` is the work that the whole table is of, if it is of one; a row that tells of no work needs no word.
    """
    if not act and not _OF_WORK.intersection(facts):
        return []
    _take_out(facts)
    return [Problem("values.no_status", where, {"heading": heading}, "")]


def _take_out(facts: dict[str, list[Fact]]) -> None:
    """Leave of what was done its words alone, which are kept as a note."""
    for key in _OF_WORK.intersection(facts) - {"did"}:
        del facts[key]
    if "did" in facts:
        facts["did"] = [replace(fact, value=Words(())) for fact in facts["did"]]


def told_of_all(cells: Iterable[Cell | None]) -> bool:
    """Whether a column of statuses is filled often enough that an empty cell says that it wasn't done."""
    filled = [cell is not None for cell in cells]
    return sum(filled) >= _FILLED * len(filled)


def only_planned(columns: Iterable[Field], cells: Mapping[str, Cell]) -> bool:
    """Whether a row has a plan and no day on which it was done."""
    return "planned" in cells and "when" not in cells and any(field.key == "when" for field in columns)


def ticked(field: Field, unit: str, cells: Iterable[Cell]) -> bool:
    """Whether a column of something given holds ticks: 1 and 0, and marks, but no amount.

    A column of leaves needs a 0 or a mark besides, as its 1 can be a litre.
    """
    if unit or not (field.kind is Kind.AMOUNT or field.key == "food") or not field.implies:
        return False
    texts = [cell.text.strip() for cell in cells]
    ones, zeros = texts.count("1"), texts.count("0")
    marks = sum(presence_of(text) not in (None, Presence.NOT_YET, Presence.ASKED) for text in texts)
    if ones < 2 or ones + zeros + marks < len(texts):
        return False
    return field.key != _LITRE_OF_LEAVES or zeros + marks > 0
