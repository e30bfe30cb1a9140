"""Labels with a value beside them, as on a card: 'Box: D-09' in one cell, or 'Box' and 'D-09' in two."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS, Field
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.endings import is_words
from workbook_tools.intake.headings import SCORE_SURE, candidates

_LONGEST = 40
_INSIDE = re.compile(rf"([^\w:]{{0,4}}[^\W\d][^:]{{0,{_LONGEST}}}?)\s*:(?!(?<=\d:)\d)\s*(?=\S)(?!//)(.+)", re.DOTALL)
_LABEL = re.compile(rf"([^\w:]{{0,4}}[^\W\d][^:]{{0,{_LONGEST}}}?)\s*:")


@dataclass(frozen=True, slots=True)
class Pair:
    """A label and the value that stands with it, None where none does; each names the keeper's own cell."""

    label: Cell
    value: Cell | None


@lru_cache(maxsize=20_000)
def known(text: str, fields: tuple[Field, ...] = BIN_FIELDS) -> str:
    """The key of the field that a text surely is a heading of; empty when there is none."""
    found = candidates(text, "", fields)
    return found[0][1].key if found and found[0][0] >= SCORE_SURE else ""


def pairs_of(cells: Mapping[int, Cell]) -> list[Pair] | None:
    """The pairs of one row (cells by column); None when it holds anything else.

    Labels end with a colon; without one, only a known heading with a single cell beside it makes a pair.
    """
    found: list[Pair] = []
    row = [cell for _, cell in sorted(cells.items())]
    at = 0
    while at < len(row):
        cell = row[at]
        if not isinstance(cell.value, str):
            return None
        text = cell.text.strip()
        if inside := _INSIDE.fullmatch(text):
            found.append(Pair(Cell(cell.ref, inside[1], inside[1]), Cell(cell.ref, inside[2], inside[2])))
        elif label := _LABEL.fullmatch(text):
            value = row[at + 1] if at + 1 < len(row) and not _labelled(row[at + 1]) else None
            found.append(Pair(Cell(cell.ref, label[1], label[1]), value))
            at += value is not None
        elif len(row) == 2 and at == 0 and is_words(cell) and known(text) and not known(row[1].text):
            found.append(Pair(cell, row[1]))
            at += 1
        else:
            return None
        at += 1
    return found or None


def _labelled(cell: Cell) -> bool:
    return isinstance(cell.value, str) and bool(_INSIDE.fullmatch(cell.text) or _LABEL.fullmatch(cell.text.strip()))


def has_field(cells: Mapping[int, Cell], key: str) -> bool:
    """Whether a row of headings has one that is surely a field of the log; 'Day' may be a date's too."""
    return any(
        field.key == key and score >= SCORE_SURE
        for cell in cells.values()
        if isinstance(cell.value, str)
        for score, field in candidates(cell.text, "", LOG_FIELDS)[: 2 if key == "when" else 1]
    )
