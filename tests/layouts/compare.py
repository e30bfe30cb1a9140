"""What was read back, against what is known: recovered, named as a problem, or silently wrong."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

from layouts.known import SHARES, TODAY, Fact
from layouts.workbooks import Workbook
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.values import Amount, Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.checks import check
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.series.numbers import method_of
from workbook_tools.problems import CannotRead, CellRef, Problem

BESIDE = frozenset({"look", "note", "substrate_look"})
"""Acts that say no more than that a bin was seen or something was written; they may stand beside what is known."""
_AREA = re.compile(r"([A-Z]+)(\d+)(?::([A-Z]+)(\d+))?")


@dataclass
class Outcome:
    """What became of a workbook's facts."""

    counts: Counter[str] = field(default_factory=Counter)
    named: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)


def key_of(name: str) -> str:
    """A bin's name without case, signs and leading zeros."""
    return re.sub(r"\b0+(?=\d)|(?<=[a-z])0+(?=\d)", "", re.sub(r"[^a-z0-9]", "", name.casefold()))


def compare(workbook: Workbook) -> Outcome:
    """Read a workbook as sheets in memory and compare."""
    book = workbook.book()
    try:
        intake, reading = read_book(book, TODAY)
    except CannotRead as refused:
        return _refused(workbook, str(refused))
    ledger, building = build_ledger(intake.rows, intake.settings, on=TODAY)
    return against(workbook, ledger, [*reading, *building, *check(ledger, TODAY)])


def _refused(workbook: Workbook, why: str) -> Outcome:
    outcome = Outcome()
    outcome.counts["named"] = sum(len(page.told) for page in workbook.pages)
    outcome.named.append(f"refused: {why}")
    return outcome


def against(workbook: Workbook, ledger: Ledger, problems: Iterable[Problem]) -> Outcome:
    """Compare a ledger with what a workbook tells."""
    outcome = Outcome()
    named = Named(problems)
    entries: dict[tuple[str, dt.date, str], list[Entry]] = {}
    for entry in ledger.entries:
        for name in entry.bins:
            if entry.when and entry.when.exact:
                entries.setdefault((key_of(name), entry.when.first, entry.act), []).append(entry)
    bins = {key_of(name): one for name, one in ledger.bins.items()}
    known = {(key_of(f.bin), f.day, f.act) for page in workbook.pages for f, *_ in page.told if f.day}
    met_days = {(key_of(name), entry.day) for entry in ledger.entries for name in entry.bins}
    for page in workbook.pages:
        for fact, refs, finders in page.where():
            if fact.day is None:
                one = bins.get(key_of(fact.bin))
                found = [_of_bin(one, fact.act)] if one else []
                right = bool(found) and same(found[0], fact.value)
            else:
                met = entries.get((key_of(fact.bin), fact.day, fact.act), [])
                found = [_value(entry) for entry in met]
                right = len(met) == 1 and _right(met[0], fact)
            if right:
                outcome.counts["recovered"] += 1
                continue
            if fact.day is None or (fact.day and not found and (key_of(fact.bin), fact.day) not in met_days):
                refs |= finders
            why = named.why(refs)
            kind = "named" if why else "wrong"
            outcome.counts[kind] += 1
            told = f"{page.name}: {fact.bin} {fact.day} {fact.act} {fact.value} {fact.also or ''}: read {found}; {why}"
            (outcome.named if why else outcome.wrong).append(told)
    for entry in ledger.entries:
        for name in entry.bins:
            at = (key_of(name), entry.when.first if entry.when and entry.when.exact else None, entry.act)
            if entry.act in BESIDE or at in known or (entry.act == "young" and (*at[:2], "count") in known):
                continue
            refs = frozenset(
                ref
                for cell in (entry.where, *(fact.cell.ref for fact in entry.facts.values()))
                for ref in (cell, CellRef(cell.sheet, cell.row), CellRef(cell.sheet, 0, cell.col))
            )
            if why := named.why(refs):
                outcome.counts["invented, named"] += 1
            else:
                outcome.counts["wrong"] += 1
                outcome.wrong.append(f"{entry.where}: invented {name} {at[1]} {entry.act} {_value(entry)}")
    return outcome


def same(read: object, known: object) -> bool:
    """Whether a value read is the known one, to rounding."""
    if isinstance(read, int | float) and isinstance(known, int | float):
        return math.isclose(read, known, rel_tol=1e-6)
    return read == known


def _of_bin(one: Bin, act: str) -> object:
    if act == "species":
        return one.species
    if act == "volume":
        volume = one.amount("volume")
        return volume.number.best if volume and volume.unit == "l" else None
    return one.started.first if one.started and one.started.exact else None


def _number(entry: Entry, *keys: str) -> tuple[float | None, str]:
    for key in keys:
        fact = entry.facts.get(key)
        if fact is not None and isinstance(fact.value, Amount):
            return fact.value.number.best, fact.value.unit
        if fact is not None and isinstance(fact.value, Number):
            return fact.value.best, ""
    return None, ""


def _value(entry: Entry) -> tuple[object, object]:
    match entry.act:
        case "water":
            return _number(entry, "water", "amount")
        case "leaf":
            return _number(entry, "leaf", "amount")
        case "feed":
            return entry.text("food"), _number(entry, "amount")
        case "count":
            return _number(entry, "number")[0], method_of(entry.text("way"), entry.text("did"))
        case "dead":
            return _number(entry, "dead", "number")[0], ""
        case "substrate_change":
            return _number(entry, "share", "amount")[0], ""
        case "moss":
            return entry.state("moss"), ""
    return _number(entry, "number", "amount")


UNITS = {"water": ("ml", 1.0), "leaf": ("l", 1.0)}


def _right(entry: Entry, fact: Fact) -> bool:
    first, second = _value(entry)
    if fact.act in UNITS:
        return same(first, fact.value) and (fact.value is None or second == UNITS[fact.act][0])
    if fact.act == "feed":
        grams = second if isinstance(second, tuple) else (None, "")
        if fact.value is None:
            return grams[0] is None
        return first == fact.value and same(grams[0], fact.also) and grams[1] == "g"
    if fact.act == "count":
        return same(first, fact.value) and (fact.also is None or second == fact.also)
    if fact.act == "substrate_change":
        return same(first, SHARES[str(fact.value)] if fact.value is not None else None)
    if fact.act == "moss":
        return fact.value is None or first == fact.value
    return same(first, fact.value)


class Named:
    """The problems by what they name: a cell, a row, a column, a table that isn't used."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.at: dict[CellRef, str] = {}
        self.sheets: dict[str, str] = {}
        self.areas: list[tuple[str, tuple[int, int, int, int], str]] = []
        for problem in problems:
            for ref in problem.cells:
                if problem.code == "sheets.no_table":
                    self.sheets[ref.sheet] = problem.code
                if ref.row or ref.col:
                    self.at.setdefault(ref, problem.code)
            area = _AREA.fullmatch(str(problem.facts.get("area", "")))
            if area:
                first, top, last, bottom = area.groups()
                corners = (int(top), _column(first), int(bottom or top), _column(last or first))
                self.areas.append((problem.where.sheet, corners, problem.code))

    def why(self, refs: Iterable[CellRef]) -> str:
        """The code of a problem that names one of the places; empty when none does."""
        for ref in sorted(refs):
            if code := self.sheets.get(ref.sheet):
                return f"{code} at {ref}"
            if code := self.at.get(ref):
                return f"{code} at {ref}"
            for sheet, (top, left, bottom, right), code in self.areas:
                if ref.sheet == sheet and top <= ref.row <= bottom and left <= ref.col <= right:
                    return f"{code} at {ref}"
        return ""


def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number
