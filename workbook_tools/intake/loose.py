"""Acts known inside other words: what may be taken from them, and what is too weighty to rest on a likeness."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence

from workbook_tools.fields.things import ANIMALS, BOXES, FOODS, NOT_ANIMALS, OLD

_LINKS = frozenset(
    "a the an some more another other again today now still also about ca circa approx roughly first last next few "
    "several many small big large little old new good poor just only well in out from to into of off up down and with "
    "was were is are have has been being this that my our its there here left over back total altogether whole found "
    "saw seen removed very quite did gave by each taken took brought went sale put".split()
)
_WITH_ANIMALS = frozenset({"animals_in", "animals_out", "dead", "split", "move_up", "start", "mark", "recapture"})
_WITH_BOXES = frozenset({"split", "move_up", "start", "end", "rest", "quarantine", "release"})
_WITH_OLD = frozenset({"freeze", "discard"})
WEIGHTY = _WITH_ANIMALS | _WITH_BOXES | _WITH_OLD
"""Acts that move animals, record deaths, or close, pause or set up a bin: never taken from words about other things."""
SLIP_FROM = 8
"""From so many letters on a slip in the name of a weighty act is mended."""
_DONE = re.compile(
    r"fed|froze|frozen|gave|took|sold|swept|threw|split|checked|looked|(?!feed$|need$|weed$|seed$)\w{2,}ed"
)
_GIVING = frozenset("added add adding gave given give giving put new fresh more extra topped topping refilled".split())
_REMOVED = frozenset("removed removing took taken threw thrown cleared cleaned picked tipped binned discarded".split())
_AWAY = _REMOVED | {"lost", "without", "away", "out"}
"""Words beside which a thing was taken away and not given."""
_PERSON = frozenset("to from by for at via with".split())
_PLACE = frozenset("after since under on in at near from of inside behind below during".split())
_EMPTY = frozenset("empty vacant deserted".split())


def weighed(
    words: Sequence[str], hits: Mapping[str, str], known: Collection[str], *, counted: bool = False
) -> tuple[dict[str, str], str]:
    """Say which acts found inside other words may be taken.

    Parameters
    ----------
    words : sequence of str
        All words of a part of a text of acts, without its numbers.
    hits : mapping of str to str
        The known wordings found among them, each with its act.
    known : collection of str
        Known words for acts: such a word behind 'to' or 'from' is nobody's name.
    counted : bool
        Whether a number stands in the part.

    Returns
    -------
    dict of str to str, str
        The wordings that may be taken with their acts, and the wording that was too loose to be taken, or ''.
    """
    kept = dict(hits)
    refused = ""
    for phrase, act in hits.items():
        if act in WEIGHTY and not _fitting(words, act, [hit for hit in hits if hits[hit] == act], known, counted):
            del kept[phrase]
            refused = refused or phrase
    away = bool(_AWAY.intersection(words))
    if len(words) > 1 and (kept or away):
        done = {phrase: act for phrase, act in kept.items() if act in _WITH_OLD or _is_done(phrase)}
        if _REMOVED.intersection(words) and FOODS.intersection(words):
            kept = {**done, "removed food": "leftovers"}
        elif (away and not _GIVING.intersection(words)) or refused:
            kept = done
            refused = refused or next((phrase for phrase in hits if phrase not in done), "")
        elif done and not _GIVING.intersection(words):
            kept = done
    named = not kept or hits.get(refused) in WEIGHTY
    return kept, refused if named else ""


def _is_done(phrase: str) -> bool:
    return any(_DONE.fullmatch(word) and word not in _GIVING for word in phrase.split())


def _fitting(words: Sequence[str], act: str, hits: Sequence[str], known: Collection[str], counted: bool) -> bool:
    """Whether all words beside a weighty act are about what it is done to."""
    if "it" in words:
        return False
    own = {word for hit in hits for word in hit.split()}
    about = _LINKS | own
    about |= ANIMALS if act in _WITH_ANIMALS else frozenset()
    about |= BOXES if act in _WITH_BOXES else frozenset()
    about |= OLD if act in _WITH_OLD else frozenset()
    if act == "dead":
        about |= frozenset({"took", "out", "picked"})
    others = [place for place, word in enumerate(words) if word not in about and not _names_bin(word)]
    if not others:
        return True
    if act not in ("animals_in", "animals_out", "dead", "split"):
        return False
    first = others[0]
    tail = words[first:]
    joint = words[first - 1] if first else ""
    if words[first] in _PERSON | _PLACE and first + 1 < len(words):
        joint, tail = words[first], words[first + 1 :]
    if act == "dead":
        return counted and joint in _PLACE
    strange = {*FOODS, *NOT_ANIMALS, *known}.intersection(tail)
    return joint in _PERSON and len(tail) <= 3 and not strange and "out of" not in " ".join(words)


def _names_bin(word: str) -> bool:
    return any(ch.isdigit() for ch in word)


def says_empty(words: Collection[str]) -> bool:
    """Whether words say of a bin that it is empty: 'box empty'."""
    return bool(_EMPTY.intersection(words) and BOXES.intersection(words))
