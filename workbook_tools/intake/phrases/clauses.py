"""Read a phrase clause by clause: acts that were done here by now, and what everything else is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from workbook_tools.intake.phrases.chunks import AMOUNTS, Chunk, cut
from workbook_tools.intake.phrases.context import GIVEN, in_context
from workbook_tools.intake.phrases.rules import SILENT, act_of
from workbook_tools.intake.units import Measures

BOOKED_FROM = 0.7
"""How sure an act must be to be booked."""
MOODS = ("asked", "condition", "reported", "habit", "unreal", "planned", "denied", "almost", "undone", "cross")
"""What makes a clause no act done, the strongest first."""
_SEEN = {"did eat": ("leftovers", 1.0), "did see": ("count", 0.0), "did count": ("", 0.0)}
"""What it says that something was not seen or not eaten."""
_NOUN_BESIDE = 0.3
"""How much less sure a thing without a verb is beside an event, a report or an unknown clause."""


@dataclass(frozen=True, slots=True)
class Clause:
    """A part of a phrase with what it was read as.

    Attributes
    ----------
    chunks : tuple of Chunk
        In their order, without what parts clauses.
    act : str
        The act done, or empty.
    sure : float
        How sure the act is, from 0 to 1.
    mood : str
        Why nothing was done ("planned", "denied"), or empty.
    """

    chunks: tuple[Chunk, ...]
    act: str = ""
    sure: float = 0.0
    mood: str = ""

    @property
    def booked(self) -> bool:
        """Whether the act is sure enough to be booked."""
        return bool(self.act) and self.sure >= BOOKED_FROM

    @property
    def amounts(self) -> tuple[Chunk, ...]:
        """Its quantities."""
        return tuple(one for one in self.chunks if one.kind in AMOUNTS)

    @property
    def unknown(self) -> tuple[str, ...]:
        """Its words that aren't known."""
        return tuple(one.text for one in self.chunks if one.kind == "unknown")


def read_phrase(text: str, measures: Measures) -> list[Clause]:
    """Read the text of a free cell. An act that isn't ``booked`` is to be asked, never taken.

    A clause in a mood (denied, planned, asked ...) books nothing, but for what is seen: not eaten is a finding of its
    own. A condition holds for the clauses behind it until something is said to be done.
    """
    parts = _parted(in_context(cut(text, measures)))
    clauses: list[Clause] = []
    pending = ""
    for part in parts:
        kinds = [one.kind for one in part]
        done = any(kind.startswith("did ") for kind in kinds)
        mood = next((mood for mood in MOODS if mood in kinds), "")
        if not mood and "named day" in kinds and not done:
            mood = "planned"
        if not mood and pending and not done:
            mood = pending
        pending = mood if mood in ("condition", "planned", "unreal", "reported") else ("" if done else pending)
        clauses.append(_clause(part, kinds, mood, clauses))
    return _together(clauses)


def _parted(chunks: Sequence[Chunk]) -> list[list[Chunk]]:
    """Cut at links, and where a thing with its amount follows another: 'oak 10 carrot 2'."""
    parts: list[list[Chunk]] = [[]]
    for chunk in chunks:
        last = parts[-1]
        verb = next((one.kind for one in reversed(last) if one.kind.startswith("did ")), "")
        if chunk.kind == "link":
            parts.append([])
            continue
        twice = chunk.kind in GIVEN and any(one.kind in GIVEN and _other(one.kind, chunk.kind) for one in last)
        measured = twice and not verb and last[-1].kind in AMOUNTS
        anew = chunk.kind.startswith("did ") and verb and verb != chunk.kind and chunk.kind not in ("did see", "did eat")
        if measured or anew:
            parts.append([])
        parts[-1].append(chunk)
    return [part for part in parts if part]


def _other(one: str, two: str) -> bool:
    return one.split()[0] != two.split()[0]


def _clause(part: list[Chunk], kinds: list[str], mood: str, before: list[Clause]) -> Clause:
    chunks = tuple(part)
    if mood == "denied":
        for verb, (act, _) in _SEEN.items():
            if verb in kinds and act:
                return Clause(chunks, act, 0.75)
    if mood:
        return Clause(chunks, mood=mood)
    said = [kind for kind in kinds if kind not in SILENT and kind != "unknown"]
    if "is" in said and not any(kind.startswith("did ") for kind in said):
        said.remove("is")
        act, sure = act_of(said)
        return Clause(chunks, act, min(sure, 0.75) if act in ("moss", "leftovers", "dead") else 0.0)
    said = [kind for kind in said if kind != "is"]
    act, sure = act_of(said)
    if not act and before and not before[-1].mood:
        act, sure = _with_before(said, before[-1])
    if "unknown" in kinds:
        sure = min(sure, 0.62 if "did feed" in kinds else 0.45)
    return Clause(chunks, act, sure)


def _with_before(said: list[str], before: Clause) -> tuple[str, float]:
    """A bare verb takes the thing of the clause before, a bare thing its verb: 'mould on food, removed'."""
    verbs = [one.kind for one in before.chunks if one.kind.startswith("did ")]
    things = [one.kind for one in before.chunks if one.kind in GIVEN | {"leftovers", "dead", "mould"}]
    has_verb = any(kind.startswith("did ") for kind in said)
    if has_verb and not any(kind in GIVEN for kind in said) and things:
        act, sure = act_of([*said, things[-1]])
    elif not has_verb and verbs:
        act, sure = act_of([*said, verbs[-1]])
    else:
        return "", 0.0
    return act, min(sure, 0.8)


def _together(clauses: list[Clause]) -> list[Clause]:
    """Take from the sureness of bare things that stand beside events, reports and clauses not understood."""
    strange = any(
        one.mood in ("reported", "asked", "unreal") or any(c.kind in ("house", "other animals") for c in one.chunks)
        for one in clauses
    ) or any(not one.act and not one.mood and one.unknown for one in clauses)
    if not strange:
        return clauses
    return [
        Clause(one.chunks, one.act, one.sure - _NOUN_BESIDE, one.mood)
        if one.act and not any(c.kind.startswith("did ") for c in one.chunks)
        else one
        for one in clauses
    ]
