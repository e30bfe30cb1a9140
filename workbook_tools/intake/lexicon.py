"""Keepers' words for what was done and seen, matched to our own; extended by the keeper's Settings."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from rapidfuzz import process
from rapidfuzz.distance import OSA

from workbook_tools.fields import ACTS, STATES
from workbook_tools.intake.headings import SLIP, plain

NOT = frozenset({"no", "not", "none", "without", "skip", "skipped", "forgot", "didnt", "dont", "never", "non"})
FADED = frozenset(
    "very still a the them some bit quite today again all little ish gave did was of and to it new with more good "
    "small big".split()
)
_PARTS = re.compile(r"\s*(?:[+;,&/|\n]|\band\b|\bthen\b|\bund\b|\bet\b|\by\b(?=\s))\s*", re.IGNORECASE)
_AMOUNT = re.compile(r"[~<>]?\d+(?:[.,/]\d+)?\s*(?:ml|l|g|x|cm|%)?\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class WordsFound:
    """What a cell's words were taken for: our keys in order, words not known, and words taken with a slip mended."""

    keys: tuple[str, ...] = ()
    states: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """States named inside a text of acts, by table of states."""
    unknown: tuple[str, ...] = ()
    guessed: tuple[tuple[str, str], ...] = ()
    """Pairs of the keeper's word and the word it was taken for."""


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
    """

    def __init__(self, extra: Mapping[str, str] | None = None) -> None:
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

    def read_state(self, text: str, states: str) -> WordsFound:
        """Match the text of a cell of sights (``states`` names the table of words)."""
        table = self.states[states]
        whole = plain(text) or text.strip()
        if whole in table:
            return WordsFound((table[whole],))
        return self._each(_PARTS.split(text), table, {})

    def read_acts(self, text: str) -> WordsFound:
        """Match the text of a cell of acts; sights named there are found too."""
        whole = plain(text) or text.strip()
        if whole in self.acts:
            return WordsFound((self.acts[whole],))
        return self._each(_PARTS.split(text), self.acts, self.states)

    def _each(
        self, parts: Iterable[str], table: Mapping[str, str], others: Mapping[str, Mapping[str, str]]
    ) -> WordsFound:
        keys: dict[str, None] = {}
        states: dict[str, tuple[str, ...]] = {}
        unknown: list[str] = []
        guessed: list[tuple[str, str]] = []
        for part in parts:
            bare = plain(_AMOUNT.sub(" ", part)) or plain(part) or part.strip()
            if not bare:
                continue
            found = self._look_up(bare, table)
            if found:
                keys.update(dict.fromkeys(found.keys))
                guessed.extend(found.guessed)
                continue
            for name, other in others.items():
                if (
                    name in ("moss", "leftovers", "finding")
                    and (seen := self._look_up(bare, other))
                    and not seen.guessed
                ):
                    states[name] = (*states.get(name, ()), *seen.keys)
                    break
            else:
                unknown.append(part.strip())
        return WordsFound(tuple(keys), states, tuple(unknown), tuple(guessed))

    def _look_up(self, bare: str, table: Mapping[str, str]) -> WordsFound | None:
        """One part of a cell: known as it stands, known inside a few other words, or known but for a slip."""
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
            hits = {
                " ".join(core[i : i + size]): None
                for i in range(len(core) - size + 1)
                if " ".join(core[i : i + size]) in table and len(" ".join(core[i : i + size])) > 2
            }
            if hits:
                return WordsFound(tuple(dict.fromkeys(table[hit] for hit in hits)), guessed=((bare, next(iter(hits))),))
        if len(joined) >= 5:
            near = process.extractOne(
                joined, [word for word in table if len(word) >= 5], scorer=OSA.normalized_similarity, score_cutoff=SLIP
            )
            if near:
                return WordsFound((table[near[0]],), guessed=((bare, near[0]),))
        return None
