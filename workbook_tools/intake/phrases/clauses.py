"""Read a phrase clause by clause: acts that were done here by now, and what everything else is."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from workbook_tools.intake.headings import plain
from workbook_tools.intake.phrases.before import TAKES, goes_on, unseen, with_before
from workbook_tools.intake.phrases.chunks import AMOUNTS, OWN, Chunk, cut
from workbook_tools.intake.phrases.clause import BOOKED_FROM, Clause
from workbook_tools.intake.phrases.context import GIVEN, NOUNS, in_context, numbered
from workbook_tools.intake.phrases.rules import SILENT, act_of
from workbook_tools.intake.units import Measures

_IF = frozenset({"if", "unless", "in case", "falls", "wenn", "si", "se", "jeśli", "indien"})
"""Conditions that hold for all that follows, however it is worded."""
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
UNDONE_MOODS = frozenset({"denied", "planned", "condition", "asked"})
"""Moods that say of what was to be given that it wasn't."""
UNSAID = frozenset({"planned", "condition", "reported", "unreal", "asked", "elsewhere", "habit"})
"""Moods of a phrase in which no act is taken by its word alone."""
WEIGHTY = frozenset(
    {"animals_in", "animals_out", "dead", "split", "move_up", "start", "end", "rest", "quarantine", "release"}
    | {"freeze", "discard"}
)
_LETTERS = 3
_TOLD = frozenset({"moss", "leftovers", "dead", "young", "substrate_look", "freeze", "quarantine", "rest", "room"})
"""Acts that a sentence with 'is' tells as well as one without."""
_HEDGES = frozenset("about,approx,approximately,roughly,around,ca,circa,between,at least,maybe,easy,easily".split(","))
_ON_HIDE = re.compile(
    r"under|beneath|below|on the (?:cork|bark|hide|cuttle)|in the moss|on (?:cork|bark)|on (?:the )?surface"
)
_THROWN = frozenset("chucked tossed threw dumped slung thrown".split())
_NEEDS_THING = frozenset({"did take", "did discard", "did give", "did put", "did move", "did swap"})
"""Verbs that alone stand for a thing said before."""
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
_STAYS = frozenset(
    {"animals_in", "animals_out", "split", "start", "move_up", "quarantine", "release", "end", "trap", "rename"}
)
"""Acts in which another bin may be named."""
_NOUN_BESIDE = 0.12
"""How much less sure a thing without a verb is beside an event, a report or an unknown clause."""


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
    last = next((one for one in reversed(before) if one.act or one.mood or len(one.chunks) > 2), None)
    if mood == "denied" and (act := unseen(part, kinds, last)):
        return Clause(chunks, act, 0.75)
    if mood:
        return Clause(chunks, mood=mood)
    own = {kind.removeprefix(OWN) for kind in kinds if kind.startswith(OWN)}
    if len(own) == 1:
        return Clause(chunks, own.pop(), 0.97)
    said = [kind for kind in kinds if kind not in SILENT and kind != "unknown"]
    if last and said and "unknown" not in kinds and (act := goes_on(said, last, part)):
        return Clause(chunks, act, min(last.sure, 0.8) if act != last.act else last.sure)
    if "is" in said and not any(kind.startswith("did ") for kind in said):
        said.remove("is")
        act, sure = act_of(said)
        return Clause(chunks, act, min(sure, 0.75) if act in _TOLD else 0.0)
    said = [kind for kind in said if kind != "is"]
    if said == ["mass"] and any(one.booked for one in before):
        return Clause(chunks)
    if "did dig" in kinds and any(one.text in ("moss", "sphagnum", "moss corner") for one in part):
        said = [*(kind for kind in said if kind != "substrate"), "moss"]
    thrown = any(one.kind == "did discard" and one.text in _THROWN for one in part)
    if thrown and ("into" in said or any(one.text in ("on", "on top") for one in part)) and "out" not in said:
        said = ["did put" if kind == "did discard" else kind for kind in said]
    act, sure = act_of(said)
    if said == ["mass"] and "oz" in part[-1].text:
        act, sure = "water", 0.74  # a weight without a thing: a fluid ounce
    if {*said} <= _NEEDS_THING | {"out", "into"} and last and not last.mood:
        inherited = with_before(said, last)
        act, sure = inherited if inherited[0] else (act, sure)
    if len(said) == 1 and said[0] in _NEEDS_THING and before and not (before[-1].act or before[-1].mood):
        sure = min(sure, 0.6)
    if not act and said and last and not last.mood:
        act, sure = with_before(said, last)
    if act not in _STAYS and any(map(numbered, part)):
        sure = min(sure, 0.6)
    if act == "count" and any(one.text in ("one", "1") for one in part) and "did count" not in kinds:
        sure = min(sure, 0.6)
    about_bin = {"bin", "colony", "animals", "number"}.intersection(kinds)
    if act == "end" and not about_bin and {"named", "person", "now", "place", "unknown"}.intersection(kinds):
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
    nothing = act in _GIVES and clause.amounts and not any(one.value for one in clause.amounts)
    if nothing:
        return replace(clause, act="", sure=0.0, mood="denied")
    if not act or (clause.booked and clause.act != act) or not measured <= TAKES.get(act, frozenset()):
        return clause
    return replace(clause, act=act, sure=max(clause.sure, 0.9), by_word=not clause.booked)


def _done_in(clause: Clause) -> bool:
    return any(one.kind.startswith("did ") or one.kind in AMOUNTS for one in clause.chunks)


def _too_little(clause: Clause) -> bool:
    """Whether a word alone, beside other clauses, is too little for the act it is: a letter, or a weighty act."""
    return clause.act in WEIGHTY or len(clause.chunks[0].text) < _LETTERS


def _together(clauses: list[Clause]) -> list[Clause]:
    """Take from the sureness of bare things that stand beside events, reports and clauses not understood."""
    if clauses and clauses[-1].mood == "condition" and not any(_done_in(one) for one in clauses):
        clauses = [replace(one, act="", sure=0.0, mood="condition") for one in clauses]
    unsaid = any(one.mood in UNSAID for one in clauses)
    several = len(clauses) > 1 and any(not one.by_word for one in clauses)
    filled = any(one.act in ("start", "freeze") for one in clauses)

    def falls(one: Clause) -> bool:
        """Whether an act that rests on its word alone falls by what stands beside it."""
        return unsaid or (several and _too_little(one)) or (filled and one.act == "moss")

    clauses = [replace(one, act="", sure=0.0) if one.by_word and falls(one) else one for one in clauses]
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
