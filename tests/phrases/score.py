"""Read phrases through the whole reader and say which acts and values were taken from them.

python tests/phrases/score.py [--show wrong|missed|silent] read|sealed|FILE ...
"""

from __future__ import annotations

import argparse
import csv
import datetime as dt
import sys
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from workbook_tools.intake.cells import Book, Cell, Sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.values import Amount, Fact, Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.problems import CellRef

HERE = Path(__file__).parent
ON = dt.date(2026, 3, 20)
DAY = dt.date(2026, 3, 5)
LOG = "Log"
TEXT = 3
"""The column of the phrases."""
SEEN_BY = {"moss": {"too_dry", "too_wet"}, "substrate_look": {"frassy", "too_dry", "too_wet"}}
"""Looks that a finding says as much as."""
UNIT = {"ml": "ml", "l": "l", "g": "g", "share": "share", "temp": "degC", "rh": "percent"}


@dataclass(frozen=True)
class Phrase:
    """A phrase with what a person takes from it."""

    text: str
    kind: str
    acts: frozenset[str]
    values: tuple[tuple[str, str, str], ...]
    """Act (or empty), key and value as written."""
    findings: frozenset[str]
    day: str


@dataclass
class Outcome:
    """What was taken from one phrase."""

    phrase: Phrase
    right: set[str] = field(default_factory=set)
    guessed: set[str] = field(default_factory=set)
    wrong: set[str] = field(default_factory=set)
    missed: set[str] = field(default_factory=set)
    silent: set[str] = field(default_factory=set)
    values: Counter[str] = field(default_factory=Counter)


def phrases(path: Path) -> list[Phrase]:
    """The phrases of a file."""
    with path.open(encoding="utf-8", newline="") as file:
        return [_phrase(line) for line in csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE)]


def _phrase(line: dict[str, str]) -> Phrase:
    values = []
    for part in filter(None, (line["values"] or "").split(";")):
        name, _, value = part.partition("=")
        act, _, key = name.strip().rpartition(".")
        values.append((act, key, value.strip()))
    return Phrase(
        line["phrase"],
        line["kind"],
        frozenset(filter(None, line["acts"].split(","))),
        tuple(values),
        frozenset(filter(None, (line["findings"] or "").split(","))),
        line.get("day") or "",
    )


def _workbook(found: list[Phrase]) -> Book:
    def sheet(name: str, rows: list[list[str | dt.date]]) -> Sheet:
        return Sheet(
            name,
            {
                (at, col): Cell(CellRef(name, at, col), value, str(value))
                for at, row in enumerate(rows, start=1)
                for col, value in enumerate(row, start=1)
            },
        )

    names = [f"T{at:03}" for at in range(1, len(found) + 1)]
    bins = sheet("Bins", [["Bin", "Species"], *([name, "Porcellio scaber"] for name in names)])
    log: list[list[str | dt.date]] = [["Date", "Bin", "What I did"]]
    log += [[DAY, name, phrase.text] for name, phrase in zip(names, found, strict=True)]
    return Book(Path("phrases.xlsx"), (bins, sheet(LOG, log)))


def outcomes(found: list[Phrase]) -> list[Outcome]:
    """Read the phrases as one log."""
    intake, problems = read_book(_workbook(found), ON)
    ledger, more = build_ledger(intake.rows, intake.settings, on=ON)
    named = {cell.row for one in (*problems, *more) for cell in one.cells if cell.sheet == LOG}
    out = []
    for row, phrase in enumerate(found, start=2):
        entries = [entry for entry in ledger.entries if entry.where.sheet == LOG and entry.where.row == row]
        acts = {entry.act for entry in entries} - {"note"}
        doubtful = {entry.act for entry in entries if "did" in entry.facts and entry.facts["did"].guessed}
        neutral = {act for act, seen in SEEN_BY.items() if seen & phrase.findings}
        neutral |= {"look"} if phrase.acts or phrase.findings else set()
        neutral |= {"house"} if phrase.kind in ("event", "mixed") else set()
        one = Outcome(phrase)
        one.right = acts & phrase.acts
        one.guessed = doubtful & acts
        one.wrong = acts - phrase.acts - neutral
        one.missed = set(phrase.acts - acts)
        one.silent = one.missed if row not in named else set()
        facts = [(entry.act, fact) for entry in entries for fact in entry.facts.values()]
        for act, key, value in phrase.values:
            if one.right and (not act or act in one.right):
                one.values["there"] += 1
                one.values["right"] += any(_same(key, value, fact) for own, fact in facts if not act or own == act)
        out.append(one)
    return out


def _same(key: str, value: str, fact: Fact) -> bool:
    if key == "what":
        return value.casefold() in fact.text.casefold()
    low, _, high = value.partition("..")
    try:
        wanted = (float(low), float(high or low))
    except ValueError:
        return False
    if isinstance(fact.value, Amount):
        number, unit = fact.value.number, fact.value.unit
        times = {("ml", "l"): 1000.0, ("l", "ml"): 0.001}.get((key, unit), 1.0)
        if key == "n" and unit not in ("", "count"):
            return False
        if key in UNIT and times == 1.0 and unit not in (UNIT[key], ""):
            return False
        share = 0.01 if key == "share" and unit == "percent" else 1.0
        return wanted[0] * 0.95 <= number.best * times * share <= wanted[1] * 1.05
    if isinstance(fact.value, Number) and key == "n":
        return wanted[0] * 0.95 <= fact.value.best <= wanted[1] * 1.05
    return False


def table(files: Iterable[Path]) -> tuple[str, list[Outcome]]:
    """The figures by file as text, and all outcomes."""
    lines = [
        f"{'':24}{'phrases':>8}{'acts':>6}{'right':>7}{'':>6}{'wrong':>7}{'of booked':>10}{'as guess':>9}"
        f"{'silent':>7}{'values':>7}{'right':>7}"
    ]
    every: list[Outcome] = []
    for path in files:
        found = outcomes(phrases(path))
        lines.append(_line(path.stem, found))
        every += found
    lines.append(_line("all", every))
    return "\n".join(lines), every


def _line(name: str, found: list[Outcome]) -> str:
    acts = sum(len(one.phrase.acts) for one in found)
    right, wrong = (sum(len(getattr(one, kind)) for one in found) for kind in ("right", "wrong"))
    guess = sum(len(one.wrong & one.guessed) for one in found)
    silent = sum(len(one.silent) for one in found)
    there, true = (sum(one.values[kind] for one in found) for kind in ("there", "right"))
    return (
        f"{name:24}{len(found):8}{acts:6}{right:7}{right / max(acts, 1):6.0%}{wrong:7}"
        f"{wrong / max(right + wrong, 1):10.1%}{guess:9}{silent:7}{there:7}{true / max(there, 1):7.0%}"
    )


def main() -> None:
    """Print the table, and the phrases that are asked for."""
    asked = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    asked.add_argument("--show", choices=("wrong", "missed", "silent"))
    asked.add_argument("files", nargs="+")
    said = asked.parse_args()
    files = [path for one in said.files for path in (sorted((HERE / one).glob("*.tsv")) or [Path(one)])]
    text, found = table(files)
    print(text)
    for one in found if said.show else ():
        if acts := getattr(one, said.show):
            print(f"{','.join(sorted(acts))}\t{one.phrase.text}\t(is: {','.join(sorted(one.phrase.acts)) or '-'})")


if __name__ == "__main__":
    main()
