"""Deaths that stand in notes alone: such rows aren't counted, so they are named."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping

from workbook_tools.ledger.records import Entry, Ledger
from workbook_tools.problems import CellRef, Problem

_WORDS = re.compile(
    r"\b(?:dead|died|dying|doa|deaths?|corpses?|casualt(?:y|ies)|die[- ]?offs?|mortality|perished|carcass(?:es)?)\b"
)
_NOT_ANY = re.compile(
    r"\b(?:no|none|not|nothing|never|zero|0|without|any|if|looks?|looked|seems?|seemed|playing|play)\s+(?:\w+\s+)?$"
)
"""What stands before such a word where nothing died: 'none dead', 'no more deaths', 'playing dead'."""
_OTHERS = re.compile(
    r"^[ -]+(?:leaf|leaves|litter|moss|wood|bark|plants?|twigs?|roots?|cork|stuff|foliage|mites?|flies|fly|gnats?|"
    r"springtails?|spiders?|battery|end|weight|skins?)\b"
)
"""What is said to be dead and is no isopod."""
_OTHERS_BEFORE = re.compile(
    r"\b(?:moss|plants?|mites|flies|gnats|springtails|spiders?|mould)\s+(?:is|are|all|has|have|\s)*$"
)


def speaks_of_death(text: str) -> bool:
    """Whether a note says that animals died: '2 dead', 'all died, mites', '2 doa'; 'dead leaves' doesn't."""
    low = " ".join(text.casefold().split())
    return any(
        not _NOT_ANY.search(low[: found.start()])
        and not _OTHERS.match(low[found.end() :])
        and not _OTHERS_BEFORE.search(low[: found.start()])
        and not low[found.end() :].lstrip().startswith("?")
        for found in _WORDS.finditer(low)
    )


def death_notes(ledger: Ledger, on: dt.date) -> Mapping[CellRef, Entry]:
    """The entries up to a day whose notes speak of deaths while their row logs none, by the cell of the note."""
    logged = {entry.where for entry in ledger.entries if entry.act == "dead"}
    return {
        entry.cell("note"): entry
        for entry in ledger.entries
        if entry.when is not None and entry.when.first <= on and entry.where not in logged
        if speaks_of_death(entry.text("note"))
    }


def deaths_in_notes(ledger: Ledger, on: dt.date) -> list[Problem]:
    """Name the notes that speak of deaths which aren't counted, all in one problem."""
    found = death_notes(ledger, on)
    if not found:
        return []
    first, *also = sorted(found)
    rows = "1 row" if len(found) == 1 else f"{len(found)} rows"
    return [Problem("entries.deaths_in_notes", first, {"rows": rows}, found[first].text("note"), tuple(also))]
