"""What a clause takes from the one before it: the act it goes on with, the thing, or the verb."""

from __future__ import annotations

import re
from collections.abc import Sequence

from workbook_tools.intake.phrases.chunks import AMOUNTS, Chunk
from workbook_tools.intake.phrases.clause import Clause
from workbook_tools.intake.phrases.context import GIVEN
from workbook_tools.intake.phrases.rules import SILENT, act_of

TAKES = {
    "water": frozenset({"volume", "mass", "number"}),
    "feed": frozenset({"mass", "number"}),
    "leaf": frozenset({"mass", "volume", "number"}),
    "calcium": frozenset({"mass", "volume", "number"}),
    "substrate_change": frozenset({"volume", "share", "mass"}),
    "discard": frozenset({"volume", "mass", "duration"}),
    "freeze": frozenset({"volume", "mass", "duration"}),
    "split": frozenset({"number"}),
    "sift": frozenset({"number", "volume"}),
    "trap": frozenset({"number"}),
    "count": frozenset({"number"}),
    "dead": frozenset({"number"}),
    "young": frozenset({"number"}),
    "room": frozenset({"share", "degrees", "number"}),
    "move_up": frozenset({"volume", "number"}),
    "quarantine": frozenset({"duration", "number"}),
    "rest": frozenset({"degrees", "duration"}),
    "start": frozenset({"number", "volume", "mass"}),
}
"""Quantities that stand alone behind an act and belong to it: 'misted wet side, 2 oz'."""
_MAY_BE_UNSEEN = frozenset(
    {"denied", "did eat", "do eat", "did see", "food", "food named", "animals", "left", "trap", "number", "into"}
)
_DRY = frozenset({"leaf", "substrate_change", "discard", "freeze", "calcium", "start"})
_LIQUID = re.compile(r"(?:ml|cl|dl|fl)\b", re.IGNORECASE)
_LEAST_DRY = 100.0
"""Less than this, ml, is no leaf litter or substrate, but water."""
_SEEN = {"did eat": "leftovers", "did see": "count", "animals": "count", "trap": "trap"}
"""What it says that something was not seen or not eaten."""
_ANIMALS_COUNTED = frozenset({"number", "animals"})
_GOES_ON = {
    "start": GIVEN | AMOUNTS | {"springtails", "into", "holds"},
    "substrate_change": frozenset({"volume", "share", "did take", "did give", "out", "into", "new"}),
    "stock": GIVEN | AMOUNTS | {"springtails", "left", "store", "equipment", "supply"},
    "sift": frozenset(
        {
            "number",
            "did see",
            "did take",
            "did get",
            "kept",
            "animals",
            "stragglers",
            "out",
            "denied",
            "store",
            "new",
            "into",
        }
    ),
    "trap": frozenset({"number", "did see", "did take", "did get", "kept", "animals", "stragglers", "young", "into"})
    | {"food named", "food", "share", "times", "denied", "now", "store"},
    "split": frozenset(
        {"number", "to", "into", "bin", "left", "animals", "share", "out", "did move", "new", "larger bin"}
    ),
    "young": frozenset({"did count", "number"}),
    "freeze": frozenset({"leaf", "hide", "moss", "substrate", "duration", "into", "supply", "number", "new", "out"}),
    "release": frozenset({"number", "animals", "did move", "did give", "to", "bin", "into", "equipment"}),
    **dict.fromkeys(("dead", "animals_in", "animals_out", "quarantine", "move_up"), _ANIMALS_COUNTED),
}
"""What may follow an act in clauses of its own and still belong to it: 'set up: soil, oak', 'sifted, 3 found'."""


def unseen(part: list[Chunk], kinds: list[str], last: Clause | None) -> str:
    """The act of seeing nothing: not eaten is how leftovers are, none found a count of none."""
    act = next((act for kind, act in _SEEN.items() if kind in kinds or kind.replace("did", "do") in kinds), "")
    text = {one.text for one in part}
    if act == "count" and {"food", "food named"}.intersection(kinds):
        return ""
    if not act or not {*kinds} <= SILENT | _MAY_BE_UNSEEN or text & {"yet", "not yet", "that", "never"}:
        return ""
    return last.act if last and act == "count" and last.act in ("sift", "trap") else act


def goes_on(said: list[str], last: Clause, part: Sequence[Chunk]) -> str:
    """The act that a clause without one of its own belongs to, or ''."""
    text = part[0].text
    wet = any(one.kind == "volume" and (one.value or 0) < _LEAST_DRY and _LIQUID.search(one.text) for one in part)
    if wet and last.act in _DRY:
        return ""
    alone = AMOUNTS.union({"duration", "degrees"}).issuperset(said) and TAKES.get(last.act, frozenset()).intersection(
        said
    )
    if (last.booked and alone) or {*said} <= _GOES_ON.get(last.act, frozenset()):
        return last.act
    if last.act == "moss" and {*said} & AMOUNTS and {*said} <= AMOUNTS | {"did give"} and said != ["mass"]:
        return "water"
    return "water" if last.act in ("moss", "water") and said == ["mass"] and "oz" in text else ""


def with_before(said: list[str], before: Clause) -> tuple[str, float]:
    """A bare verb takes the thing of the clause before, a bare thing its verb: 'mould on food, removed'."""
    verbs = [one.kind for one in before.chunks if one.kind.startswith("did ") and one.kind != "did take"]
    things = [
        one.kind.removeprefix("old ")
        for one in before.chunks
        if one.kind in GIVEN | {"leftovers", "dead", "mould", "old substrate", "supply"}
    ]
    has_verb = any(kind.startswith("did ") for kind in said)
    if has_verb and not any(kind in GIVEN for kind in said) and things and set(said) - {"did give", "did put"}:
        act, sure = act_of([*said, things[-1]])
    elif not has_verb and verbs and "moss" not in said:
        act, sure = act_of([*said, verbs[-1]])
    elif "into" in said and things:
        act, sure = act_of([*said, things[-1]])
    else:
        return "", 0.0
    return act, min(sure, 0.8)
