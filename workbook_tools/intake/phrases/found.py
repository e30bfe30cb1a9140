"""What a phrase, read clause by clause, comes to: acts to book, sights, numbers, and what is told and not taken."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from workbook_tools.fields import ACTS
from workbook_tools.intake.headings import plain
from workbook_tools.intake.phrases.chunks import AMOUNTS, Chunk
from workbook_tools.intake.phrases.clause import Clause
from workbook_tools.intake.phrases.context import GIVEN, numbered
from workbook_tools.intake.phrases.rules import SILENT
from workbook_tools.intake.units import Measures, find_unit
from workbook_tools.intake.words_found import Quantity, Told, WordsFound

SURE = 0.86
"""From here on an act read in a phrase is no guess."""
_LOOK_OF = {"moss": "moss", "leftovers": "leftovers", "substrate_look": "substrate"}
"""Looks that are recorded by what was seen."""
_BARE = frozenset({"number", "share", "times"})
"""Amounts without a unit."""
_KITCHEN = frozenset({"modifier", "water measure", "animals"})
"""Kinds of words that may be a measure behind a number."""
_WORD = re.compile(r"\s*([^\W\d_]+)")
_DAY = frozenset({"past day", "named day", "date"})
_TODAY = frozenset({"today", "tonight", "this morning", "this evening", "heute", "vandaag", "oggi", "hoy", "dziś"})
_NONE_IS_0 = frozenset({"count", "trap"})
_GONE = frozenset({"gone", "eaten", "used up"})
_LEADS = {"to": "to_bin", "into": "to_bin", "arrow": "to_bin", "from": "from_bin"}
Sight = tuple[str, tuple[str, ...], bool]
"""A table of states, the states seen, and whether they were guessed."""


@dataclass
class _Gathered:
    keys: dict[str, None] = field(default_factory=dict)
    states: dict[str, tuple[str, ...]] = field(default_factory=dict)
    unknown: list[str] = field(default_factory=list)
    guessed: list[tuple[str, str]] = field(default_factory=list)
    undone: list[str] = field(default_factory=list)
    numbers: list[Told] = field(default_factory=list)
    unplaced: list[Quantity] = field(default_factory=list)
    loose: list[tuple[str, str]] = field(default_factory=list)
    bins: dict[str, str] = field(default_factory=dict)
    _undone_last: Clause | None = None

    def leave_undone(self, text: str, clause: Clause) -> None:
        """Name what isn't done; clauses side by side that aren't done for the same reason are named as one."""
        if clause.mood == "correction":
            return
        last = self._undone_last
        if last and last.mood in (clause.mood, "condition") and not text[last.end : clause.at].strip(" ,"):
            self.undone[-1] = text[text.rindex(self.undone[-1], 0, clause.at) : clause.end].strip(" ,;.")
        else:
            self.undone.append(text[clause.at : clause.end].strip(" ,;."))
        self._undone_last = clause

    def tell(self, clause: Clause, states: Mapping[str, Mapping[str, str]]) -> None:
        """Say how what was looked at was, in a clause whose act is a look at it."""
        name = _LOOK_OF.get(clause.act.split("+")[-1], "")
        keys = _state(clause, states[name], name) if name else ()
        if keys:
            self.states[name] = tuple(dict.fromkeys((*self.states.get(name, ()), *keys)))
        if name == "leftovers":
            self.numbers = [one for one in self.numbers if "leftovers" not in one.acts or one.acts[0] == "feed"]

    def see(self, sight: Sight, said: str, amounts: Sequence[Quantity]) -> None:
        name, keys, guess = sight
        self.states[name] = (*self.states.get(name, ()), *keys)
        self.guessed += [(said, keys[0])] if guess else []
        self.unplaced += amounts


def found_in_clauses(
    text: str,
    clauses: Sequence[Clause],
    measures: Measures,
    seen: Callable[[str], Sight | None],
    perhaps: Callable[[str], Sight | None],
    states: Mapping[str, Mapping[str, str]],
) -> WordsFound:
    """Settle what is booked from the clauses of a phrase.

    Parameters
    ----------
    text : str
        The phrase, as its clauses were read from it.
    clauses : sequence of Clause
        Its clauses in their order.
    measures : Measures
        The keeper's own measures.
    seen, perhaps : callables
        The sight that a part surely, or perhaps, names.
    states : mapping
        By table of states, the key of each wording in plain letters.
    """
    all_of_it = _Gathered()
    strange = any(one.kind in ("house", "other animals", "reported") for clause in clauses for one in clause.chunks)
    seen, perhaps = (_nothing, _nothing) if strange else (seen, perhaps)
    for before, clause in zip((None, *clauses), clauses, strict=False):
        said = text[clause.at : clause.end].strip(" ,;.")
        amounts = [_quantity(one, clause, text, measures) for one in clause.amounts]
        if (
            (not clause.booked or clause.act in _LOOK_OF)
            and clause.mood != "asked"
            and (sight := _told(seen, said, before))
        ):
            all_of_it.see(sight, said, [] if clause.booked else amounts)
        elif clause.booked:
            _book(all_of_it, clause, said, text, measures)
            all_of_it.tell(clause, states)
        elif clause.mood:
            all_of_it.leave_undone(text, clause)
        elif {one.kind for one in clause.chunks} <= SILENT | AMOUNTS:
            all_of_it.unplaced += amounts
        elif sight := perhaps(said):
            all_of_it.see(sight, said, amounts)
        elif clause.act:
            all_of_it.loose.append((said, _label(clause)))
        else:
            all_of_it.unknown.append(said)
    if not any(vars(all_of_it).values()):
        all_of_it.unknown.append(text.strip())
    return WordsFound(
        tuple(all_of_it.keys),
        all_of_it.states,
        tuple(all_of_it.unknown),
        tuple(all_of_it.guessed),
        tuple(all_of_it.undone),
        tuple(all_of_it.numbers),
        tuple(all_of_it.unplaced),
        tuple(all_of_it.loose),
        tuple(all_of_it.bins.items()),
        *_days([one for one in clauses if one.booked], text),
    )


def _told(seen: Callable[[str], Sight | None], said: str, before: Clause | None) -> Sight | None:
    """The sight that a part names; how moist something else was, named before it, is not how the moss is."""
    sight = seen(said)
    of_other = before is not None and any(one.kind in ("substrate", "dead", "animals") for one in before.chunks)
    return None if sight and sight[0] == "moss" and of_other else sight


def _nothing(said: str) -> None:
    """No sight: beside what happened in the house, a smell is none of the bin."""


def _book(to: _Gathered, clause: Clause, said: str, text: str, measures: Measures) -> None:
    acts = tuple(clause.act.split("+"))
    to.keys.update(dict.fromkeys(acts))
    slips = [one for one in clause.chunks if one.slip]
    to.guessed += [(said[one.at - clause.at : one.end - clause.at], one.text) for one in slips]
    if clause.sure < SURE and not slips:
        to.guessed.append((said, _label(clause)))
    to.bins.update(_bins(clause))
    thing = next((one.text for one in clause.chunks if one.kind in GIVEN), "")
    if clause.act in _NONE_IS_0 and not clause.amounts and any(one.kind == "denied" for one in clause.chunks):
        to.numbers.append(Told(acts, Quantity("0", "", True)))
    to.numbers += [Told(acts, _quantity(one, clause, text, measures), thing) for one in clause.amounts]


def _days(booked: Sequence[Clause], text: str) -> tuple[str, tuple[str, ...]]:
    """The words for the day of all that was done, or those for days of a part of it."""
    by_clause = [[one for one in clause.chunks if one.kind in _DAY] for clause in booked]
    named = tuple(dict.fromkeys(text[one.at : one.end].strip(" ,;.:") for found in by_clause for one in found))
    today = any(one.text in _TODAY for clause in booked for one in clause.chunks)
    if len(named) == 1 and not today and (by_clause[0] or by_clause[-1]):
        return named[0], ()
    return "", named


def _state(clause: Clause, table: Mapping[str, str], name: str) -> tuple[str, ...]:
    """The state of what was looked at, by the words of a clause, or by the share of food that was eaten or left."""
    kinds = {one.kind for one in clause.chunks}
    if name == "leftovers" and (shares := [one.value for one in clause.chunks if one.kind == "share"]):
        eaten = "did eat" in kinds or any(one.text in _GONE for one in clause.chunks)
        left = 1 - (shares[0] or 0) if eaten else shares[0] or 0
        return ("gone" if left <= 0 else "some" if left <= 1 / 2 else "most",)
    if name == "leftovers" and "denied" in kinds and kinds & {"did eat", "do eat"}:
        return ("most",)
    found = (table.get(plain(one.text)) for one in clause.chunks if one.kind not in AMOUNTS)
    return tuple(dict.fromkeys(key for key in found if key))


def _label(clause: Clause) -> str:
    return ACTS[clause.act.split("+")[0]].label


def _bins(clause: Clause) -> Iterator[tuple[str, str]]:
    """The fields of the bins that animals came from or went to, and what names those bins."""
    named_to = any(one.kind in ("to", "arrow") for one in clause.chunks)
    leads = _LEADS | {"did rename": "from_bin" if named_to else "to_bin"}
    for before, one in itertools.pairwise(clause.chunks):
        if numbered(one) and before.kind in leads:
            yield leads[before.kind], one.text.upper()


def _quantity(amount: Chunk, clause: Clause, text: str, measures: Measures) -> Quantity:
    """A number of a clause with its unit, which may be a measure of the kitchen: '2 slices'."""
    written = amount.text.strip("x× ") if amount.kind == "times" else amount.text
    next_one = next((one for one in clause.chunks if one.at >= amount.end), None)
    measured = amount.kind == "number" and next_one is not None and next_one.kind in _KITCHEN
    if measured and (behind := _WORD.match(text, amount.end)) and find_unit(behind[1], "", measures):
        return Quantity(f"{written} {behind[1]}", behind[1])
    return Quantity(written, _unit(amount), clause.chunks[-1] is amount)


def _unit(amount: Chunk) -> str:
    """The unit of an amount as written: what stands behind its digits."""
    if amount.kind in _BARE:
        return ""
    return amount.text.lstrip("0123456789.,/½⅓⅔¼¾~≈<>±+-x× ").strip()
