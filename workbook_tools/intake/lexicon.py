"""Keepers' words for what was done and seen, matched to our own; extended by the keeper's Settings."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from rapidfuzz import process
from rapidfuzz.distance import OSA

from workbook_tools.fields import ACTS, STATES, WELL
from workbook_tools.fields.things import FOODS, NOT_ANIMALS
from workbook_tools.intake.act_text import NOT, Part, Quantity, parts_of
from workbook_tools.intake.amount_words import PARTS
from workbook_tools.intake.headings import SLIP, plain
from workbook_tools.intake.loose import SLIP_FROM, WEIGHTY, says_empty, weighed
from workbook_tools.intake.noticed import among_others, found_here, noticed, signs_in
from workbook_tools.intake.phrases.chunks import Chunk
from workbook_tools.intake.phrases.clauses import read_phrase
from workbook_tools.intake.units import Measures

FADED = frozenset(
    "very still a the them some bit quite today again all little ish gave did was of and to it new with more good "
    "small big".split()
)
_PARTS = re.compile(r"\s*(?:[+;,&/|\n]|\band\b|\bthen\b|\bund\b|\bet\b|\by\b(?=\s))\s*", re.IGNORECASE)
_AMOUNT = re.compile(r"[~<>]?\d+(?:[.,/]\d+)?\s*(?:ml|l|g|x|cm|%)?\b", re.IGNORECASE)
SUBJECTS = {
    "moss": frozenset({"moss", "corner", "mosscorner"}),
    "leftovers": frozenset({"food", "leftovers", "leftover", "meal"}),
    "substrate": frozenset({"substrate", "soil", "dirt"}),
}
"""Words beside which a sight is one of this kind: 'moss wet', 'food gone', 'soil frassy'."""
_LINKS = frozenset("is was were are the a bit very looks looked found now again today still all pretty quite".split())
_VERY = re.compile(r"\b(?:good|nice|lovely|well) and\b", re.IGNORECASE)
"""Words that only make another stronger: 'good and wet'."""
GIVING = frozenset(
    "added add adding gave given give giving put new fresh more extra topped topping got did done some in up".split()
)
"""Words that say by themselves little of what was done: with a thing beside them, the thing says it."""
COUNTED = frozenset({"count", "animals_in", "animals_out", "split", "dead", "young", "trap", "start"})
"""Acts behind which a number without a unit stands for animals."""


@dataclass(frozen=True, slots=True)
class WordsFound:
    """What a cell's words were taken for: our keys in order, words not known, and words taken with a slip mended."""

    keys: tuple[str, ...] = ()
    states: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """States named inside a text of acts, by table of states."""
    unknown: tuple[str, ...] = ()
    guessed: tuple[tuple[str, str], ...] = ()
    """Pairs of the keeper's word and the word it was taken for."""
    undone: tuple[str, ...] = ()
    """Parts that say that something was not done, is wanted or asked."""
    numbers: tuple[tuple[tuple[str, ...], Quantity], ...] = ()
    """Numbers that stand with acts: the keys of the acts, and the number."""
    unplaced: tuple[Quantity, ...] = ()
    """Numbers that stand with no act."""
    loose: tuple[tuple[str, str], ...] = ()
    """Pairs of a wording and a known word inside it that is too weighty to be taken from there: kept as notes."""


UNSAID = frozenset({"planned", "condition", "reported", "unreal", "asked", "elsewhere", "habit"})
"""Moods of a phrase in which no act is taken by its words alone."""
SURE = 0.86
"""From here on an act read in a phrase is no guess."""
LOOK_OF = {"moss": "moss", "leftovers": "leftovers", "substrate_look": "substrate"}
"""Looks that are recorded by what was seen."""


def _inside(written: str, means: str) -> bool:
    """Whether a known word stands inside a wording, and isn't a slip for all of it."""
    return set(means.split()) <= set(plain(written).split())


def _unit_of(amount: Chunk) -> str:
    """The unit of an amount as written: what stands behind its digits."""
    return amount.text.lstrip("0123456789.,/½⅓⅔¼¾~≈<>±+-x× ").strip() if amount.kind in ("volume", "mass") else ""


def _table(pairs: Iterable[tuple[str, Iterable[str]]]) -> dict[str, str]:
    table: dict[str, str] = {}
    for key, words in pairs:
        for word in (key, *words):
            table.setdefault(plain(word) or word, key)
    return table


def _share_of(one: Quantity, keys: tuple[str, ...]) -> bool:
    return "substrate_change" in keys and any(sign in one.text for sign in "/%½⅓⅔¼¾⅕⅛")


class Lexicon:
    """Tables of words for acts and for each kind of sight.

    Parameters
    ----------
    extra : mapping of str to str
        The keeper's own words, each with the word or label of ours that it means.
    measures : Measures, optional
        The keeper's own measures, known as units in a text of acts.
    """

    def __init__(self, extra: Mapping[str, str] | None = None, measures: Measures | None = None) -> None:
        self.measures = measures or Measures()
        self.extra = dict(extra or {})
        self._read: dict[str, WordsFound] = {}
        self.acts = _table((key, (act.label, *act.words)) for key, act in ACTS.items())
        self.states = {name: _table(words.items()) for name, words in STATES.items()}
        self.unplaced: tuple[str, ...] = tuple(
            word for word, means in (extra or {}).items() if not self._add(plain(word) or word, plain(means) or means)
        )

    def _add(self, word: str, means: str) -> bool:
        added = False
        if means in self.acts:
            self.acts[word] = self.acts[means]
            added = True
        for table in self.states.values():
            if means in table:
                table[word] = table[means]
                added = True
        return added

    def extended(self, extra: Mapping[str, str]) -> Lexicon:
        """A lexicon that also knows these words, each with the word or label of ours that it means."""
        return Lexicon({**self.extra, **extra}, self.measures) if extra else self

    def read_state(self, text: str, states: str) -> WordsFound:
        """Match the text of a cell of sights (``states`` names the table of words)."""
        finding = states == "finding"
        table = self._findings() if finding else self.states[states]
        whole = plain(text) or text.strip()
        if whole in table:
            return WordsFound((table[whole],))
        keys: dict[str, None] = {}
        unknown: list[str] = []
        guessed: list[tuple[str, str]] = []
        for part in _PARTS.split(_VERY.sub(" ", text)):
            bare = plain(_AMOUNT.sub(" ", part)) or plain(part) or part.strip()
            if not bare:
                continue
            if finding and (seen := noticed(bare, table)) is not None:
                keys.update(dict.fromkeys(seen))
            elif finding and (signs := signs_in(part, denied=bool(NOT.intersection(bare.split())))):
                keys.update(dict.fromkeys(signs))
                guessed += [(part.strip(), key) for key in signs]
            elif found := self._look_up(bare, part.strip(), among_others(bare, table) if finding else table):
                keys.update(dict.fromkeys(found.keys))
                guessed.extend(found.guessed)
            else:
                unknown.append(part.strip())
        return WordsFound(tuple(keys), {}, tuple(unknown), tuple(guessed))

    def _findings(self) -> dict[str, str]:
        return {**self.states["settled"], **self.states["finding"]}

    def read_acts(self, text: str) -> WordsFound:
        """Match the text of a cell of acts; sights and numbers named there are found too."""
        found = self._read.get(text)
        if found is None:
            whole = plain(text) or text.strip()
            asked = "?" in text and whole in self.acts
            known = WordsFound((self.acts[whole],)) if whole in self.acts and not asked else None
            found = known or self._by_clauses(self._acts(parts_of(text, self.measures)), text)
            self._read[text] = found
        return found

    def by_words(self, text: str) -> WordsFound:
        """Match a text of acts word by word alone, as the words of a key are."""
        whole = plain(text) or text.strip()
        return WordsFound((self.acts[whole],)) if whole in self.acts else self._acts(parts_of(text, self.measures))

    def _by_clauses(self, words: WordsFound, text: str) -> WordsFound:
        """Settle what was found word by word by what the whole phrase says.

        An act known only inside other words is taken where the phrase bears it out; else it is told and not taken. A
        phrase in a mood (planned, asked, of another bin) takes an act only where the phrase itself books one.
        """
        clauses = read_phrase(text, self.measures)
        heard = found_here(words.states, clauses, self._findings())
        booked = {
            clause.act: clause
            for clause in clauses
            if clause.booked and clause.act in ACTS and LOOK_OF.get(clause.act) not in words.states
        }
        unsaid = any(clause.mood in UNSAID for clause in clauses)
        loose = [
            pair
            for pair in words.guessed
            if self.acts.get(pair[1]) in words.keys and self.acts[pair[1]] not in booked and _inside(*pair)
        ]
        doubtful = {self.acts[means] for _, means in loose}
        whole = bool(booked) and all(clause.booked or clause.mood for clause in clauses)
        kept = [
            key for key in words.keys if key in booked or not (key in doubtful or unsaid or (whole and key in WEIGHTY))
        ]
        dropped = [key for key in words.keys if key not in kept and key not in doubtful]
        keys = tuple(dict.fromkeys([*(key for key in booked if key not in kept), *kept]))
        numbers = [(of, one) for of, one in words.numbers if set(of) & set(keys)]
        lost = [one for of, one in words.numbers if not set(of) & set(keys)]
        told = {one for of, _ in numbers for one in of}
        added = [
            ((act,), Quantity(amount.text, _unit_of(amount), last=amount.kind == "number"))
            for act, clause in booked.items()
            if act not in told
            for amount in clause.amounts
        ]
        placed = {one.text for _, one in added}
        read = [chunk.text for clause in clauses if clause.booked for chunk in clause.chunks if len(chunk.text) > 2]
        signs = [text for text, _ in heard.guessed]
        read += signs
        unread = tuple(word for word in words.unknown if not any(one in word.casefold() for one in read))
        return replace(
            words,
            keys=keys,
            states=heard.states,
            unknown=unread,
            guessed=tuple(
                [pair for pair in words.guessed if pair not in loose]
                + [(text, act) for act, clause in booked.items() if act not in words.keys and clause.sure < SURE]
                + [*heard.guessed]
            ),
            numbers=(*numbers, *added),
            unplaced=tuple(one for one in (*words.unplaced, *lost) if one.text not in placed),
            undone=tuple(text for text in words.undone if not any(one in text.casefold() for one in signs)),
            loose=(
                *(pair for pair in words.loose if pair[0].casefold() not in signs),
                *loose,
                *((text, key) for key in dropped),
                *heard.others,
            ),
        )

    def _acts(self, parts: Iterable[Part]) -> WordsFound:
        keys: dict[str, None] = {}
        states: dict[str, tuple[str, ...]] = {}
        unknown: list[str] = []
        guessed: list[tuple[str, str]] = []
        undone: list[str] = []
        numbers: list[tuple[tuple[str, ...], Quantity]] = []
        unplaced: list[Quantity] = []
        loose: list[tuple[str, str]] = []
        before: tuple[str, ...] = ()
        parts = list(parts)
        emptied = any(says_empty(part.bare.split()) for part in parts)
        for part in parts:
            whole = plain(part.text)
            if not part.bare and whole not in self.acts:
                for one in part.quantities:
                    if before and (one.unit or _share_of(one, before) or COUNTED.intersection(before)):
                        numbers.append((before, one))
                    else:
                        unplaced.append(one)
                continue
            if "substrate_change" in before and not part.quantities and part.share() == (part.bare, ""):
                numbers.append((before, Quantity(part.bare)))
                continue
            if whole in self.acts and part.undone in ("", "said"):
                before = (self.acts[whole],)
                keys[before[0]] = None
                continue
            words = part.bare.split()
            nothing_in = says_empty(words) or (part.bare in self.states["leftovers"] and not FOODS.intersection(words))
            if emptied and nothing_in and not part.undone:
                loose.append((part.text, "emptied"))
                before = ()
                continue
            if seen := self._sight(part):
                states[seen[0]] = (*states.get(seen[0], ()), *seen[1])
                unplaced += part.quantities
                continue
            if part.undone:
                undone.append(part.text)
                before = ()
                continue
            share, others = part.share()
            found = self._act_in(part.bare, part) if not (share and part.bare not in self.acts) else None
            if found is None and share:
                found = self._act_in(others, part) if others else None
                if found and "substrate_change" in found.keys:
                    numbers.append((found.keys, Quantity(share)))
                else:
                    found = self._act_in(part.bare, part)
            if found is not None:
                loose.extend(found.loose)
            if (found is None or not found.keys) and (sight := self._loose_sight(part)):
                states[sight[0]] = (*states.get(sight[0], ()), *sight[1])
                guessed.extend(sight[2])
                unplaced += part.quantities
            elif found is None or not found.keys:
                unknown += [] if found else [part.text]
                unplaced += part.quantities if found else ()
                before = ()
            else:
                before = found.keys
                keys.update(dict.fromkeys(found.keys))
                guessed.extend(found.guessed)
                for one in part.quantities:
                    if COUNTED.issuperset(found.keys) and one.behind in NOT_ANIMALS:
                        unplaced.append(one)
                    else:
                        numbers.append((found.keys, one))
        return WordsFound(
            tuple(keys),
            states,
            tuple(unknown),
            tuple(guessed),
            tuple(undone),
            tuple(numbers),
            tuple(unplaced),
            tuple(loose),
        )

    def _sight(self, part: Part) -> tuple[str, tuple[str, ...]] | None:
        """What a part says was seen, in the words of a table of sights: 'too wet', 'moss wet', 'food all gone'."""
        words = part.bare.split()
        if not any(ch.isalpha() for ch in part.bare) or part.bare in self.acts:
            return None
        for name, subjects in SUBJECTS.items():
            others = [word for word in words if word not in subjects]
            if len(others) == len(words) or not others or (words[-1] in subjects and {"new", "fresh"} & {*others}):
                continue
            for said in (" ".join(others), " ".join(word for word in others if word not in _LINKS)):
                if said in self.states[name] and said not in PARTS and any(ch.isalpha() for ch in said):
                    return name, (self.states[name][said],)
        if part.undone == "asked":
            return None
        core = " ".join(word for word in words if word not in _LINKS)
        for name in ("moss", "leftovers"):
            for said in (part.bare, core):
                if said in self.states[name] and not (name == "moss" and self.states["finding"].get(said) == WELL):
                    return name, (self.states[name][said],)
        seen = noticed(part.bare, self._findings(), spoken=True)
        return None if seen is None else ("finding", seen)

    def _loose_sight(self, part: Part) -> tuple[str, tuple[str, ...], tuple[tuple[str, str], ...]] | None:
        """A sight known inside other words, and what was guessed: mould is known beside any food."""
        words = part.bare.split()
        if not any(ch.isalpha() for ch in part.bare):
            return None
        findings = among_others(part.bare, self._findings())
        for name, table in (*((name, self.states[name]) for name in ("moss", "leftovers")), ("finding", findings)):
            seen = self._look_up(part.bare, part.text, table)
            if seen and not seen.guessed:
                return name, seen.keys, ((part.text, seen.keys[0]),) if part.bare not in self.states[name] else ()
        mouldy = next((word for word in words if self.states["leftovers"].get(word) == "mouldy"), "")
        if mouldy and FOODS.intersection(words) and not NOT.intersection(words):
            return "leftovers", ("mouldy",), ((part.text, mouldy),)
        return None

    def _act_in(self, bare: str, part: Part) -> WordsFound | None:
        """Acts in a part; those that are too weighty for so loose a likeness are told apart."""
        return self._look_up(bare, part.text, self.acts, part)

    def _look_up(
        self, bare: str, written: str, table: Mapping[str, str], part: Part | None = None
    ) -> WordsFound | None:
        """One part of a cell: known as it stands, known inside a few other words, or known but for a slip.

        ``part`` is given for a text of acts, whose weighty acts need words that are about what they are done to.
        """
        if bare in table:
            return WordsFound((table[bare],))
        words = bare.split()
        if NOT.intersection(words):
            return None
        core = [word for word in words if word not in FADED]
        joined = " ".join(core)
        if joined and joined in table and not (part and table[joined] in WEIGHTY and "it" in words):
            return WordsFound((table[joined],))
        for size in range(min(4, len(core)), 0, -1):
            hits = {
                " ".join(core[i : i + size]): None
                for i in range(len(core) - size + 1)
                if " ".join(core[i : i + size]) in table and len(" ".join(core[i : i + size])) > 2
            }
            if things := {hit: None for hit in hits if not GIVING.issuperset(hit.split())}:
                hits = things
            if hits and part:
                found = {hit: table[hit] for hit in hits}
                taken, refused = weighed(words, found, self.acts, counted=bool(part.quantities))
                told = tuple((written, hit) for hit in taken)
                return WordsFound(
                    tuple(dict.fromkeys(taken.values())), guessed=told, loose=((written, refused),) if refused else ()
                )
            if hits:
                return WordsFound(
                    tuple(dict.fromkeys(table[hit] for hit in hits)), guessed=((written, next(iter(hits))),)
                )
        if len(joined) >= 5:
            near = process.extractOne(
                joined, [word for word in table if len(word) >= 5], scorer=OSA.normalized_similarity, score_cutoff=SLIP
            )
            if near and not (part and table[near[0]] in WEIGHTY and len(joined) < SLIP_FROM):
                return WordsFound((table[near[0]],), guessed=((written, near[0]),))
        return None
