"""Read a phrase clause by clause: acts that were done here by now, and what everything else is."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from workbook_tools.intake.headings import plain
from workbook_tools.intake.phrases.chunks import AMOUNTS, OWN, Chunk, cut
from workbook_tools.intake.phrases.context import GIVEN, NOUNS, in_context, numbered
from workbook_tools.intake.phrases.rules import SILENT, act_of
from workbook_tools.intake.units import Measures

BOOKED_FROM = 0.7
"""How sure an act must be to be booked."""
_IF = frozenset({"if", "unless", "in case", "falls", "wenn", "si", "se", "jeśli", "indien"})
"""Conditions that hold for all that follows, however it is worded."""
_TAKES = {
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
MOODS = (
    "asked",
    "elsewhere",
    "condition",
    "reported",
    "habit",
    "unreal",
    "planned",
    "denied",
    "almost",
    "undone",
    "cross",
)
"""What makes a clause no act done, the strongest first."""
UNSAID = frozenset({"planned", "condition", "reported", "unreal", "asked", "elsewhere", "habit"})
"""Moods of a phrase in which no act is taken by its word alone."""
_MAY_BE_UNSEEN = frozenset(
    {"denied", "did eat", "do eat", "did see", "food", "food named", "animals", "left", "trap", "number", "into"}
)
_DRY = frozenset({"leaf", "substrate_change", "discard", "freeze", "calcium", "start"})
_LIQUID = re.compile(r"(?:ml|cl|dl|fl)\b", re.IGNORECASE)
_LEAST_DRY = 100.0
"""Less than this, ml, is no leaf litter or substrate, but water."""
_SEEN = {"did eat": "leftovers", "did see": "count", "animals": "count", "trap": "trap"}
"""What it says that something was not seen or not eaten."""
_GOES_ON = {
    "start": GIVEN | AMOUNTS | {"springtails", "into", "holds"},
    "stock": GIVEN | AMOUNTS | {"springtails", "left", "store", "equipment", "supply"},
    "sift": frozenset(
        {"number", "did see", "did take", "did get", "kept", "animals", "stragglers", "out", "denied", "store"}
    ),
    "trap": frozenset({"number", "did see", "did take", "did get", "kept", "animals", "stragglers", "young", "into"})
    | {"food named", "food", "share", "times", "denied", "now", "store"},
    "split": frozenset(
        {"number", "to", "into", "bin", "left", "animals", "share", "out", "did move", "new", "larger bin"}
    ),
    "young": frozenset({"did count", "number"}),
}
"""What may follow an act in clauses of its own and still belong to it: 'set up: soil, oak', 'sifted, 3 found'."""
WEIGHTY = frozenset(
    {"animals_in", "animals_out", "dead", "split", "move_up", "start", "end", "rest", "quarantine", "release"}
    | {"freeze", "discard", "moss"}
)
_LETTERS = 3
_TOLD = frozenset({"moss", "leftovers", "dead", "young", "substrate_look", "freeze", "quarantine", "rest", "room"})
"""Acts that a sentence with 'is' tells as well as one without."""
_HEDGES = frozenset("about,approx,approximately,roughly,around,ca,circa,between,at least,maybe,easy,easily".split(","))
_ON_HIDE = re.compile(r"under|beneath|below|on the (?:cork|bark|hide|cuttle)|in the moss|on (?:cork|bark)")
_BESIDE_IT = frozenset(
    "by the,next to,next to the,near the,behind the,beside,near,behind,on the glass,over the".split(",")
)
"""Words of place behind which a thing is only where something was seen."""
_GIVES = frozenset({"water", "feed", "leaf", "calcium", "substrate_change", "look", "hides", "split"})
"""Acts of which an amount of nothing says that they weren't done."""
_ONE_ACT = frozenset({("did rest", "did start"), ("did rest", "did put"), ("did sift", "did take")})
"""Verbs that follow one another in one act."""
_PLAIN = frozenset(
    f"did {verb}" for verb in ("feed", "water", "split", "sell", "discard", "freeze", "sift", "trap", "quarantine")
)
"""Past verbs that mean one act whatever single word beside them isn't known."""
_NO_ANIMALS = frozenset({"bin", "larger bin", "equipment", "duration", "supply", "leaf"})
"""Kinds behind a number that make it a number of something else than animals."""
_STAYS = frozenset({"animals_in", "animals_out", "split", "start", "move_up", "quarantine", "release", "end", "trap"})
"""Acts in which another bin may be named."""
_NOUN_BESIDE = 0.12
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
    by_word : bool
        Whether the act rests on a word alone that is an act by itself.
    """

    chunks: tuple[Chunk, ...]
    act: str = ""
    sure: float = 0.0
    mood: str = ""
    by_word: bool = False

    @property
    def booked(self) -> bool:
        """Whether the act is sure enough to be booked."""
        return bool(self.act) and self.sure >= BOOKED_FROM

    @property
    def at(self) -> int:
        """Where it begins in the phrase."""
        return min(one.at for one in self.chunks)

    @property
    def end(self) -> int:
        """Where it ends."""
        return max(one.end for one in self.chunks)

    @property
    def amounts(self) -> tuple[Chunk, ...]:
        """Its quantities."""
        behind = (*self.chunks[1:], Chunk("link", ""))
        return tuple(
            one
            for one, after in zip(self.chunks, behind, strict=True)
            if one.kind in AMOUNTS | {"degrees"} and not (one.kind == "number" and after.kind in _NO_ANIMALS)
        )

    @property
    def unknown(self) -> tuple[str, ...]:
        """Its words that aren't known."""
        return tuple(one.text for one in self.chunks if one.kind == "unknown")


def read_phrase(
    text: str,
    measures: Measures,
    acts: Mapping[str, str] = MappingProxyType({}),
    own: Mapping[str, str] = MappingProxyType({}),
    *,
    defines: bool = False,
) -> list[Clause]:
    """Read the text of a free cell. An act that isn't ``booked`` is to be asked, never taken.

    A clause in a mood (denied, planned, asked ...) books nothing, but for what is seen: not eaten is a finding of its
    own. A condition holds for the clauses behind it until something is said to be done.

    Parameters
    ----------
    text : str
        The phrase.
    measures : Measures
        The keeper's own measures.
    acts, own : mapping of str to str, optional
        Words that are an act where they stand alone, and the keeper's own, which are one beside others too: in plain
        letters, each with the key of the act.
    defines : bool
        Whether the phrase says what a sign or heading stands for, so that 'mist' is as good as 'misted'.
    """
    chunks = cut(text, measures, own)
    parts = _parted(in_context([_done(one) for one in chunks] if defines else chunks))
    clauses: list[Clause] = []
    pending = away = ""
    for part in parts:
        kinds = [one.kind for one in part]
        done = any(one.kind.startswith("did ") and one.text not in NOUNS for one in part)
        mood = next((mood for mood in MOODS if mood in kinds), "")
        if "correction" in kinds:
            _correct(clauses, part)
            continue
        if not mood and "named day" in kinds and not done and len(kinds) > 1:
            mood = "planned"
        if not mood and pending and (not done or pending == "if"):
            mood = "condition" if pending == "if" else pending
        if "other animals" in kinds and not mood and not act_of(kinds)[0]:
            mood = away = "elsewhere"
        mood = mood or away
        if any(one.kind == "condition" and one.text in _IF for one in part) and not done:
            pending = "if"
        else:
            pending = mood if mood in ("condition", "planned", "unreal", "reported") else ("" if done else pending)
        clauses.append(_by_word(_clause(part, kinds, mood, clauses), acts))
    return _together(clauses)


def _done(chunk: Chunk) -> Chunk:
    return replace(chunk, kind=f"did {chunk.kind.split()[1]}") if chunk.kind.startswith(("do ", "doing ")) else chunk


def _parted(chunks: Sequence[Chunk]) -> list[list[Chunk]]:
    """Cut at links, and where a thing with its amount follows another: 'oak 10 carrot 2'."""
    parts: list[list[Chunk]] = [[]]
    for chunk in chunks:
        last = parts[-1]
        verb = next((one.kind for one in reversed(last) if one.kind.startswith("did ")), "")
        if chunk.kind == "link":
            parts.append([])
            continue
        if (
            chunk.kind == "correction"
            or (chunk.kind == "new" and any(one.kind == "out" for one in last))
            or (chunk.kind == "alive" and any(one.kind == "dead" for one in last))
        ):
            parts.append([])
        last = parts[-1]
        twice = chunk.kind in GIVEN and any(one.kind in GIVEN and _other(one.kind, chunk.kind) for one in last)
        measured = twice and not verb and bool(last) and last[-1].kind in AMOUNTS
        if chunk.kind == "condition" and verb:
            parts.append([])
        anew = (
            chunk.kind.startswith("did ") and verb and verb != chunk.kind and chunk.kind not in ("did see", "did eat")
        )
        if measured or (anew and (verb, chunk.kind) not in _ONE_ACT):
            parts.append([])
            if last[-1].kind == "denied":
                parts[-1].append(last.pop())
        parts[-1].append(chunk)
    return [part for part in parts if part]


def _correct(clauses: list[Clause], part: list[Chunk]) -> None:
    """A correction puts an amount in the place of the one before, or takes back what was done in another bin."""
    if not clauses:
        clauses.append(Clause(tuple(part), mood="unreal"))
        return
    last = clauses[-1]
    amounts = tuple(one for one in part if one.kind in AMOUNTS)
    if amounts and last.act:
        clauses[-1] = replace(last, chunks=(*(one for one in last.chunks if one.kind not in AMOUNTS), *amounts))
    elif any(one.kind == "bin" for one in part):
        clauses[:] = [replace(one, act="", sure=0.0, mood="unreal") for one in clauses]
    clauses.append(Clause(tuple(part), mood="correction"))


def _other(one: str, two: str) -> bool:
    return one.split()[0] != two.split()[0]


def _clause(part: list[Chunk], kinds: list[str], mood: str, before: list[Clause]) -> Clause:
    chunks = tuple(part)
    if mood == "denied":
        act = next((act for kind, act in _SEEN.items() if kind in kinds or kind.replace("did", "do") in kinds), "")
        if act and {*kinds} <= SILENT | _MAY_BE_UNSEEN:
            return Clause(chunks, act, 0.75)
    if mood:
        return Clause(chunks, mood=mood)
    own = {kind.removeprefix(OWN) for kind in kinds if kind.startswith(OWN)}
    if len(own) == 1:
        return Clause(chunks, own.pop(), 0.97)
    said = [kind for kind in kinds if kind not in SILENT and kind != "unknown"]
    last = next((one for one in reversed(before) if one.act or one.mood or len(one.chunks) > 2), None)
    if last and said and "unknown" not in kinds and (act := _goes_on(said, last, part)):
        return Clause(chunks, act, min(last.sure, 0.8) if act != last.act else last.sure)
    if "is" in said and not any(kind.startswith("did ") for kind in said):
        said.remove("is")
        act, sure = act_of(said)
        return Clause(chunks, act, min(sure, 0.75) if act in _TOLD else 0.0)
    said = [kind for kind in said if kind != "is"]
    if said == ["mass"] and any(one.booked for one in before):
        return Clause(chunks)
    act, sure = act_of(said)
    if not act and said and last and not last.mood:
        act, sure = _with_before(said, last)
    if act not in _STAYS and any(map(numbered, part)):
        sure = min(sure, 0.6)
    if act == "count" and said in (["number"], ["number", "number"]) and _seems_counted(part):
        sure = 0.76
    counted = {"number", "animals"} <= {*said} <= {"number", "animals", "into", "new", "times"}
    if counted and any(one.act == "start" and one.booked for one in before):
        act, sure = "animals_in", 0.8
    if said and {*said} <= GIVEN | {"to", "from"} and any(one.text in _BESIDE_IT for one in part):
        sure = min(sure, 0.6)
    if act in _GIVES and (amounts := [one.value for one in part if one.kind in AMOUNTS]) and not any(amounts):
        return Clause(chunks, mood="denied")
    if "unknown" in kinds:
        sure = min(sure, BOOKED_FROM if _PLAIN.intersection(kinds) and kinds.count("unknown") == 1 else 0.45)
    return Clause(chunks, act, sure)


def _seems_counted(part: list[Chunk]) -> bool:
    """Whether a bare number is one of animals: 'about 50', '12 under the bark'."""
    text = " ".join(one.text for one in part)
    at = next(place for place, one in enumerate(part) if one.kind == "number")
    if part[at].text == "one":
        return False
    hedged = at > 0 and part[at - 1].text in _HEDGES
    return bool(_ON_HIDE.search(text)) or hedged or part[at].text[0] in "~≈"


def _by_word(clause: Clause, acts: Mapping[str, str]) -> Clause:
    """Take a clause that is a word for an act, and amounts, for that act where nothing surer is known."""
    if clause.mood:
        return clause
    word = plain(" ".join(one.text for one in clause.chunks if one.kind not in AMOUNTS))
    act = acts.get(word, "")
    measured = {one.kind for one in clause.amounts} & {"mass", "volume", "degrees"}
    if not act or (clause.booked and clause.act != act) or not measured <= _TAKES.get(act, frozenset()):
        return clause
    return replace(clause, act=act, sure=max(clause.sure, 0.9), by_word=not clause.booked)


def _goes_on(said: list[str], last: Clause, part: Sequence[Chunk]) -> str:
    """The act that a clause without one of its own belongs to, or ''."""
    text = part[0].text
    wet = any(one.kind == "volume" and (one.value or 0) < _LEAST_DRY and _LIQUID.search(one.text) for one in part)
    if wet and last.act in _DRY:
        return ""
    alone = AMOUNTS.union({"duration"}).issuperset(said) and _TAKES.get(last.act, frozenset()).intersection(said)
    if (last.booked and alone) or {*said} <= _GOES_ON.get(last.act, frozenset()):
        return last.act
    if last.act == "moss" and {*said} & AMOUNTS and {*said} <= AMOUNTS | {"did give"} and said != ["mass"]:
        return "water"
    return "water" if last.act in ("moss", "water") and said == ["mass"] and "oz" in text else ""


def _with_before(said: list[str], before: Clause) -> tuple[str, float]:
    """A bare verb takes the thing of the clause before, a bare thing its verb: 'mould on food, removed'."""
    verbs = [one.kind for one in before.chunks if one.kind.startswith("did ") and one.kind != "did take"]
    things = [
        one.kind.removeprefix("old ")
        for one in before.chunks
        if one.kind in GIVEN | {"leftovers", "dead", "mould", "old substrate"}
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


def _too_little(clause: Clause) -> bool:
    """Whether a word alone, beside other clauses, is too little for the act it is: a letter, or a weighty act."""
    return clause.act in WEIGHTY or len(clause.chunks[0].text) < _LETTERS


def _together(clauses: list[Clause]) -> list[Clause]:
    """Take from the sureness of bare things that stand beside events, reports and clauses not understood."""
    unsaid = any(one.mood in UNSAID for one in clauses)
    several = len(clauses) > 1 and any(not one.by_word for one in clauses)
    clauses = [
        replace(one, act="", sure=0.0) if one.by_word and (unsaid or (several and _too_little(one))) else one
        for one in clauses
    ]
    if any(one.act == "substrate_change" and one.booked for one in clauses):
        clauses = [
            replace(one, act="substrate_change")
            if one.act == "discard" and not any(c.kind == "did discard" for c in one.chunks)
            else one
            for one in clauses
        ]
    strange = any(
        one.mood in ("reported", "asked", "unreal") or any(c.kind in ("house", "other animals") for c in one.chunks)
        for one in clauses
    ) or any(not one.act and not one.mood and one.unknown for one in clauses)
    if not strange:
        return clauses
    return [
        replace(one, sure=one.sure - _NOUN_BESIDE)
        if one.act and not any(c.kind.startswith("did ") for c in one.chunks)
        else one
        for one in clauses
    ]
