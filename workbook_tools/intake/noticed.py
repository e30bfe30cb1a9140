"""What a few words say was found in a bin: a finding, a thing that is well again, or that all is well."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from workbook_tools.fields import FINDINGS, THINGS, WELL, Thing
from workbook_tools.fields.findings import BLUE, COLOURS, WELL_WORDS
from workbook_tools.fields.things import ANIMALS, BOXES
from workbook_tools.intake.headings import plain
from workbook_tools.intake.phrases.clause import Clause
from workbook_tools.vocabulary.sign_words import signs

_COLOURED = (ANIMALS - {"stock", "lot", "both", "rest", "pc", "ct", "head", "heads"}) | frozenset(
    "sheen shine tint tinge turned turning gone going became becoming dead died weak sluggish".split()
)
"""Words that, beside a colour, say that animals have it."""
_FINE = frozenset(
    "fine ok okay good well healthy normal alright great nice lovely perfect happy thriving booming abundant active "
    "busy lively super".split()
)
_ENOUGH = frozenset("plenty lots enough many loads everywhere".split())
_ADDED = frozenset("added add adding gave given new topped restocked refilled renewed seeded".split())
_FEW = frozenset("low few scarce short hardly little scarcely".split())
_GONE = frozenset(
    "gone cleared vanished disappeared away over past fixed closed shut sealed mended tight stopped settled "
    "finished".split()
)
_DENIED = frozenset("no not none nil never without free zero isnt arent wasnt".split())
_FILLERS = frozenset(
    "a an the is are was were be been being to of in on at it its them they there this that now today again still all "
    "very quite rather pretty really so too look looks looking looked seem seems seemed seen saw found find any more "
    "longer sign signs left have has had some bit small with and as every anymore getting got becoming "
    "here both theyre doing doin".split()
)
_NEARLY = frozenset("nearly almost mostly population numbers stock".split())
"""Words that make no difference to what is said of a thing."""
_PLACES = frozenset(
    "lid bark wood cork hide hides leaf leaves litter moss corner wall walls glass side end top surface substrate soil "
    "over under by".split()
)
"""Words for where in a bin something is found."""
_UNSURE = frozenset(
    "full packed dry wet climbing gap young baby flies smell sour film spider fungus escape soggy clumped".split()
)
"""Words that mean a finding by themselves or beside their thing, and anything among other words."""
_OTHERS = frozenset({"person", "source", "reported", "house"})
"""Kinds of chunks that make a clause one about other people, a shop or the house."""
_TOLD = frozenset({"", "almost", "habit", "cross", "denied"})
"""Moods of a clause in which something may have been found."""
_WONDERS = re.compile(r"(?:should|do|does|can|could|what|how|why|when|where|who|would|will|did)\b")
"""How a clause begins that asks for advice; any other question is of what was seen: 'white dots, mites?'."""
_LOOKED_FOR = re.compile(r"\b(?:look|looking|check|checking|watch|watching|search|searching|trap|treated|treat) for\b")
_WHENEVER = re.compile(r"\w+ .*\b(?:when|whenever|as soon as) (?:i|you|we|the|it)\b")
_THING_OF = {thing.settled: thing.key for thing in THINGS.values() if thing.settled}
_LOOKED_AT = frozenset({"moisture", "food", "substrate", "leaf"})
"""Things of which a phrase says by a look of its own how they were."""
_SAID_BY = {"moisture": "moss", "mould": "leftovers"}
"""Things whose finding is said already where a state of this kind was read."""
_NO_SIGN = re.compile(r"\b(?:leaf mou?ld|leafmould|(?<=slime )mou?ld|fungus(?= gnat| fl))\b")
"""Words that are no sign: what is given, or part of another name."""
_LESS = frozenset("gone vanished disappeared cleared less fewer".split())
_PUT_IN = _ADDED | {"released", "introduced", "ordered", "bought"}
"""Words beside which animals were put in on purpose: predatory mites against others."""
_DENYING = re.compile(
    r"n't|\b(?:not|no|none|nobody|nobody's|hardly|barely|nearly|wont|cant|doesnt|wasnt|kaum|keine|geen|"
    r"nauwelijks|apenas|brak)\b"
)
_WHOLE = (
    (ANIMALS - {"stock", "lot", "rest"})
    | BOXES
    | frozenset("everything everyone everybody things activity condition specimens specimen bugs".split())
)
"""Words for the whole bin and all its animals: fine words beside them mean that all is well."""


@cache
def _named() -> dict[str, Thing]:
    return {word: thing for thing in THINGS.values() for word in thing.named}


def noticed(bare: str, findings: Mapping[str, str], *, spoken: bool = False) -> tuple[str, ...] | None:
    """Say what a few words mean, if all of them are understood.

    Parameters
    ----------
    bare : str
        The words, plain and without numbers.
    findings : mapping of str to str
        Known words for findings and for what is well again, each with what we call it.
    spoken : bool
        Whether they stand in a text of acts, where 'no calcium' means that none was given.

    Returns
    -------
    tuple of str, or None
        What we call it: a finding, what we say once a thing is well again, or 'all well'. Empty for a good sign that is
        denied; None where the words say something else, or a fine word stands beside what isn't known.
    """
    if bare in findings and not (spoken and bare in COLOURS):
        return (findings[bare],)
    if bare not in findings and _NO_SIGN.search(bare):
        return None
    words = bare.split()
    if COLOURS.intersection(words):
        others = {*words} - COLOURS - _FILLERS
        return (BLUE,) if others and others <= _COLOURED else None
    for size in range(min(4, len(words)), 0, -1):
        for start in range(len(words) - size + 1):
            wording = " ".join(words[start : start + size])
            rest = [word for word in (*words[:start], *words[start + size :]) if word not in _FILLERS]
            if wording in _named():
                about = findings.get(" ".join((wording, *rest))) or findings.get(" ".join(rest), "")
                found = _of_thing(_named()[wording], rest, about, spoken=spoken and "left" not in words)
            elif findings.get(wording) in FINDINGS and wording not in COLOURS:
                found = _of_finding(findings[wording], rest, words[start + size :])
            else:
                continue
            if found is not None:
                return found
    rest = [word for word in words if word not in _FILLERS]
    fine = [word for word in rest if word in _FINE]
    return (WELL,) if fine and {*rest} <= _WHOLE | _FINE else None


def _of_thing(thing: Thing, rest: Sequence[str], about: str, *, spoken: bool) -> tuple[str, ...] | None:
    """What is said of a thing that is named by itself: 'hides ok', 'moss too dry', 'no calcium left'.

    ``about`` is the finding that its other words are by themselves or with the thing.
    """
    if about in FINDINGS and FINDINGS[about].about == thing.key:
        return (about,)
    said = {*rest}
    denied = bool(said & _DENIED)
    said -= _DENIED | _NEARLY
    if said and said <= _FINE | _ENOUGH and not denied:
        return (thing.settled,)
    if not thing.lacking:
        closed = thing.key == "lid" and said and said <= _GONE and not denied
        return (thing.settled,) if closed else None
    if said and said <= _ADDED and not spoken and not denied:
        return (thing.settled,)
    short = said <= _FEW | _GONE if said else denied and not spoken
    return (thing.lacking,) if short or (denied and said and said <= _FINE | _ENOUGH) else None


def _of_finding(key: str, rest: Sequence[str], behind: Sequence[str]) -> tuple[str, ...] | None:
    """What is said of a finding by its own words: 'mites on bark', 'mites gone', 'no longer crowded', 'mites fine'."""
    said = {*rest} - _WHOLE
    settled = tuple(filter(None, (THINGS[FINDINGS[key].about].settled,)))
    if said & _DENIED:
        return settled if said <= _DENIED | _GONE else None
    if said and said <= _GONE:
        return settled
    if said and said <= _FINE:
        return settled if not said - {*behind} else None
    return (key,) if said <= _FEW | _ENOUGH | _PLACES else None


def among_others(bare: str, findings: Mapping[str, str]) -> dict[str, str]:
    """Known words that may be taken from among others in a part.

    No fine words, no colours and nothing else that may be of anything, and none where something is said to be gone.
    """
    if _GONE.intersection(bare.split()):
        return {}
    unsure = {word for word in WELL_WORDS if " " not in word} | COLOURS | _UNSURE
    return {word: key for word, key in findings.items() if key in FINDINGS and word not in unsure}


def signs_in(text: str, *, denied: bool = False) -> tuple[str, ...]:
    """What the words of a clause are signs of; ``denied``: only those that the denial belongs to ('lid won't shut')."""
    said = _NO_SIGN.sub(" ", " ".join(text.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").split()))
    less = not _LESS.isdisjoint(said.split())
    keys: dict[str, None] = {}
    for key, groups in signs():
        met = [group.search(said) for group in groups]
        if not all(met) or (denied and not any(one and _DENYING.search(one[0]) for one in met)):
            continue
        finding = FINDINGS.get(key)
        if finding and finding.caution == "pests" and not _PUT_IN.isdisjoint(said.split()):
            continue
        if not (less and finding and not finding.good and not THINGS[finding.about].lacking):
            keys[key] = None
    return tuple(keys)


@dataclass(frozen=True, slots=True)
class Heard:
    """What a phrase says was found here, and pairs of a wording and the finding that is a guess or is of others."""

    states: dict[str, tuple[str, ...]]
    guessed: tuple[tuple[str, str], ...] = ()
    others: tuple[tuple[str, str], ...] = ()


def found_here(states: Mapping[str, tuple[str, ...]], clauses: Sequence[Clause], findings: Mapping[str, str]) -> Heard:
    """Take what the clauses of a phrase are signs of, and leave out what they say of other people's animals.

    Signs are taken from clauses in no mood. What is said of others, or of the house, is told and not taken.
    """
    others: dict[str, str] = {}
    guessed: dict[str, str] = {}
    plainly: dict[str, None] = {}
    away = False
    for clause in clauses:
        text = " ".join(chunk.text for chunk in clause.chunks)
        kinds = {chunk.kind for chunk in clause.chunks}
        away = bool(kinds & _OTHERS) or clause.mood in ("reported", "elsewhere") or (away and not clause.booked)
        away = away or "next door" in text
        seen = signs_in(text, denied=clause.mood == "denied") if _told(clause.mood, text) else ()
        if away and "way out" not in seen:
            named = (findings[word] for word in findings if re.search(rf"\b{re.escape(word)}\b", text))
            others.update((key, text) for key in (*named, *seen) if key in FINDINGS)
            continue
        exact = noticed(plain(text), findings, spoken=True) if _told(clause.mood, text) else None
        plainly.update((key, None) for key in exact or () if _THING_OF.get(key, "") not in _LOOKED_AT)
        guessed.update((key, text) for key in seen)
    bare = _well_of_one_thing(clauses, findings)
    about = {thing for thing, field in _SAID_BY.items() if field in states}
    plain_new = [key for key in plainly if key not in states.get("finding", ()) and _about(key) not in about]
    said = [key for key in (*states.get("finding", ()), *plain_new) if key not in others and not (bare and key == WELL)]
    about |= {thing.key for thing in THINGS.values() if thing.settled in said}
    new = {key: text for key, text in guessed.items() if key not in said and _about(key) not in about}
    kept = {name: keys for name, keys in states.items() if name != "finding"}
    if said or new or ("finding" in states and not states["finding"]):
        kept["finding"] = (*said, *new)
    return Heard(
        kept,
        tuple((text, key) for key, text in new.items()),
        tuple((text, key) for key, text in others.items()),
    )


def _told(mood: str, text: str) -> bool:
    """Whether a clause in this mood may say what was found."""
    if _LOOKED_FOR.search(text):
        return False
    if mood == "asked":
        return not _WONDERS.match(text)
    return mood in _TOLD or (mood == "condition" and bool(_WHENEVER.match(text)))


def _well_of_one_thing(clauses: Sequence[Clause], findings: Mapping[str, str]) -> bool:
    """Whether 'fine' stands alone behind what is no act and of which it may be said: 'one drop came out, good'."""
    texts = [" ".join(chunk.text for chunk in clause.chunks) for clause in clauses]
    fine = [noticed(text, findings, spoken=True) == (WELL,) for text in texts]
    return any(not (one or clause.booked) for one, clause in zip(fine, clauses, strict=True)) and all(
        " " not in text for one, text in zip(fine, texts, strict=True) if one
    )


def _about(key: str) -> str:
    return FINDINGS[key].about if key in FINDINGS else ""
