"""Keepers' words for what was done and seen, matched to our own; extended by the keeper's Settings."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import replace

from rapidfuzz import process
from rapidfuzz.distance import OSA

from workbook_tools.fields import ACTS, STATES, WELL
from workbook_tools.fields.things import FOODS
from workbook_tools.intake.amount_words import PARTS
from workbook_tools.intake.headings import SLIP, plain
from workbook_tools.intake.noticed import among_others, found_here, noticed, signs_in
from workbook_tools.intake.phrases.clause import Clause
from workbook_tools.intake.phrases.clauses import MOODS, UNDONE_MOODS, read_phrase
from workbook_tools.intake.phrases.found import Sight, found_in_clauses
from workbook_tools.intake.units import Measures
from workbook_tools.intake.words_found import WordsFound
from workbook_tools.vocabulary.presence import NOT

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
_NAMED_FOODS = FOODS - {"fish"}
_LEFT = frozenset("left eaten uneaten gone touched untouched leftovers scraps crumbs".split())
"""Words that tell of food, though none is named."""


def _table(pairs: Iterable[tuple[str, Iterable[str]]]) -> dict[str, str]:
    table: dict[str, str] = {}
    for key, words in pairs:
        for word in (key, *words):
            table.setdefault(plain(word) or word, key)
    return table


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
        self._own: dict[str, str] = {}
        self._clauses: dict[tuple[str, bool], list[Clause]] = {}
        self.unplaced: tuple[str, ...] = tuple(
            word for word, means in (extra or {}).items() if not self._add(plain(word) or word, plain(means) or means)
        )
        self._findings = {**self.states["settled"], **self.states["finding"]}

    def _add(self, word: str, means: str) -> bool:
        added = False
        if means in self.acts:
            self.acts[word] = self._own[word] = self.acts[means]
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
        table = self._findings if finding else self.states[states]
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

    def read_acts(self, text: str) -> WordsFound:
        """Match the text of a cell of acts; sights and numbers named there are found too."""
        found = self._read.get(text)
        if found is None:
            whole = plain(text) or text.strip()
            known = whole in self.acts and "?" not in text
            found = WordsFound((self.acts[whole],)) if known else self._by_clauses(text)
            self._read[text] = found
        return found

    def read_definition(self, text: str) -> WordsFound:
        """Match what a key or a heading says that a sign stands for: 'mist' is as good as 'misted' there."""
        whole = plain(text) or text.strip()
        return WordsFound((self.acts[whole],)) if whole in self.acts else self._by_clauses(text, defines=True)

    def says_undone(self, text: str) -> bool:
        """Whether all of a text says by its words that nothing was done: denied, planned, asked or hung on an if."""
        clauses = self._read_phrase(unicodedata.normalize("NFC", text))
        return bool(clauses) and all(
            clause.mood in UNDONE_MOODS and any(one.kind in MOODS for one in clause.chunks) for clause in clauses
        )

    def _read_phrase(self, text: str, *, defines: bool = False) -> list[Clause]:
        """The clauses of a text, read once however often it stands in the workbook."""
        if (text, defines) not in self._clauses:
            self._clauses[text, defines] = read_phrase(text, self.measures, self.acts, self._own, defines=defines)
        return self._clauses[text, defines]

    def _by_clauses(self, text: str, *, defines: bool = False) -> WordsFound:
        text = unicodedata.normalize("NFC", text)
        clauses = self._read_phrase(text, defines=defines)
        found = found_in_clauses(text, clauses, self.measures, self._sight, self._loose_sight, self.states)
        heard = found_here(found.states, clauses, self._findings)
        signs = [said for said, _ in heard.guessed]

        def told(said: str) -> bool:
            return any(one in said.casefold() or said.casefold() in one for one in signs)

        return replace(
            found,
            states=heard.states,
            unknown=tuple(said for said in found.unknown if not told(said)),
            undone=tuple(said for said in found.undone if not told(said)),
            guessed=(*found.guessed, *heard.guessed),
            loose=(*(pair for pair in found.loose if not told(pair[0])), *heard.others),
        )

    def _sight(self, said: str) -> Sight | None:
        """What a part says was seen, in the words of a table of sights: 'too wet', 'moss wet', 'food all gone'."""
        bare = plain(_AMOUNT.sub(" ", said))
        words = bare.split()
        if not any(map(str.isalpha, bare)) or bare in self.acts:
            return None
        for name, subjects in SUBJECTS.items():
            others = [word for word in words if word not in subjects]
            if len(others) == len(words) or not others or (words[-1] in subjects and {"new", "fresh"} & {*others}):
                continue
            for wording in (" ".join(others), " ".join(word for word in others if word not in _LINKS)):
                if wording in self.states[name] and wording not in PARTS and any(map(str.isalpha, wording)):
                    return name, (self.states[name][wording],), False
        core = " ".join(word for word in words if word not in _LINKS)
        left = bool(_LEFT.intersection(words) or _NAMED_FOODS.intersection(words))
        for name in ("moss", "leftovers") if left else ("moss",):
            for wording in (bare, core):
                if wording in self.states[name] and (name != "moss" or self.states["finding"].get(wording) != WELL):
                    return name, (self.states[name][wording],), False
        seen = noticed(bare, self._findings, spoken=True)
        return None if seen is None else ("finding", seen, False)

    def _loose_sight(self, said: str) -> Sight | None:
        """A sight known inside other words: mould and its like are known beside any words."""
        bare = plain(_AMOUNT.sub(" ", said))
        words = bare.split()
        if not any(map(str.isalpha, bare)):
            return None
        tables = {"moss": self.states["moss"], "finding": among_others(bare, self._findings)}
        if food := bool(_NAMED_FOODS.intersection(words)):
            tables = {"moss": tables["moss"], "leftovers": self.states["leftovers"], "finding": tables["finding"]}
        for name, table in tables.items():
            seen = self._look_up(bare, said, table)
            if seen and not seen.guessed:
                return name, seen.keys, bare not in self.states[name]
        if food and not NOT.intersection(words) and "mouldy" in map(self.states["leftovers"].get, words):
            return "leftovers", ("mouldy",), True
        return None

    def _look_up(self, bare: str, written: str, table: Mapping[str, str]) -> WordsFound | None:
        """One part of a cell of sights: known as it stands, known inside a few other words, or known but for a slip."""
        if bare in table:
            return WordsFound((table[bare],))
        words = bare.split()
        if NOT.intersection(words):
            return None
        core = [word for word in words if word not in FADED]
        joined = " ".join(core)
        if joined and joined in table:
            return WordsFound((table[joined],))
        for size in range(min(4, len(core)), 0, -1):
            hits = [
                wording
                for wording in dict.fromkeys(" ".join(core[i : i + size]) for i in range(len(core) - size + 1))
                if wording in table and len(wording) > 2
            ]
            if hits:
                return WordsFound(tuple(dict.fromkeys(table[hit] for hit in hits)), guessed=((written, hits[0]),))
        if len(joined) >= 5:
            near = process.extractOne(
                joined, [word for word in table if len(word) >= 5], scorer=OSA.normalized_similarity, score_cutoff=SLIP
            )
            if near:
                return WordsFound((table[near[0]],), guessed=((written, near[0]),))
        return None
