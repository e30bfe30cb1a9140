"""Bins from the rows of the list of bins, and the entries those rows imply."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import BIN_FIELDS
from workbook_tools.intake.date_words import fold, weekdays
from workbook_tools.intake.tables import Row
from workbook_tools.intake.values import Fact, When
from workbook_tools.ledger.acts import flat
from workbook_tools.ledger.names import alike_key, pieces
from workbook_tools.ledger.records import Bin, Entry, said
from workbook_tools.problems import CellRef, Problem, merged
from workbook_tools.vocabulary.presence import Presence, words_of

LABELS = {field.key: field.label for field in BIN_FIELDS}
NUMBERS = ("founders", "number_now", "last_count")
ABSENT_NAMES = words_of(Presence.EMPTY) | {"?"}


def read_bins(rows: Sequence[Row]) -> tuple[dict[str, Bin], list[Entry], list[Problem], int]:
    """Turn the rows of the lists of bins into bins and implied entries.

    A row that names two bins makes two with the same facts, but for numbers of animals. A bin listed twice is one bin:
    the first fact of each field is used and a differing one is a problem that names both cells. A row
    without a name is left out.

    Returns
    -------
    tuple
        Bins by name in the keeper's order, entries without order, problems, and how many rows were used.
    """
    bins: dict[str, Bin] = {}
    known: dict[str, str] = {}
    entries: list[Entry] = []
    problems: list[Problem] = []
    used = 0
    rows = [row for row in rows if row.role == "bins"]
    stroked = sum(pieces(_name(row)) != (_name(row),) for row in rows)
    for row in rows:
        facts = flat(row.facts)
        problems += _without_weekdays(facts)
        text = _name(row)
        if not text:
            first = min((fact.cell for fact in facts.values()), key=lambda cell: cell.ref, default=None)
            problems.append(Problem("bins.no_name", row.where, {}, first.text if first else ""))
            continue
        used += 1
        names = pieces(text)
        if names[0][0].isdigit() and stroked > max(1, DEFAULTS["names.stroked"].value * len(rows)):
            names = (text,)
        if len(names) > 1:
            problems.append(Problem("bins.two_in_row", facts["name"].cell.ref, {"bins": " and ".join(names)}, text))
            problems += _without_numbers(facts, names)
        for name in names:
            before = _listed_before(name, row.where, bins, known)
            if before is None:
                bins[name] = Bin(name, row.where, facts)
                known[" ".join(name.casefold().split())] = known[alike_key(name)] = name
            else:
                bins[before.name] = Bin(before.name, before.where, {**facts, **before.facts})
                problems += _differing(before, facts, row.where)
            entries += _implied(facts, before.name if before else name)
    return bins, entries, merged(problems), used


def _without_numbers(facts: dict[str, Fact], names: Sequence[str]) -> list[Problem]:
    """Take numbers of animals out of a row of several bins: they may be of all of them together."""
    held = [facts.pop(key) for key in NUMBERS if key in facts]
    bins = " and ".join(names)
    return [
        Problem("bins.number_of_several", one.cell.ref, {"heading": LABELS[one.field], "bins": bins}, one.text)
        for one in held
    ]


def _without_weekdays(facts: dict[str, Fact]) -> list[Problem]:
    """Take out dates that are a weekday alone: read from the day of the report, they would move with it for ever."""
    alone = [key for key, fact in facts.items() if isinstance(fact.value, When) and _weekday_alone(fact, fact.value)]
    dropped = [facts.pop(key) for key in alone]
    return [Problem("dates.relative", fact.cell.ref, {"value": fact.text}, fact.text) for fact in dropped]


def _weekday_alone(fact: Fact, when: When) -> bool:
    return when.exact and fact.guessed and fold(fact.text).strip(".! ") in weekdays()


def _name(row: Row) -> str:
    fact = row.first("name")
    return said(fact).strip() if fact and said(fact).strip() not in ABSENT_NAMES else ""


def _listed_before(name: str, where: CellRef, bins: dict[str, Bin], known: dict[str, str]) -> Bin | None:
    """The bin of that name; on another sheet a name that is only alike will do."""
    same = known.get(" ".join(name.casefold().split()))
    if same is None:
        alike = known.get(alike_key(name))
        same = alike if alike and bins[alike].where.sheet != where.sheet else None
    return bins[same] if same else None


def _differing(before: Bin, facts: dict[str, Fact], where: CellRef) -> Iterable[Problem]:
    """Say that a bin is listed twice, and which facts differ."""
    if before.where.sheet == where.sheet:
        first = facts["name"].cell
        yield Problem("bins.twice", first.ref, {"bin": before.name, "first": before.where}, first.text)
    for key, fact in facts.items():
        first_fact = before.facts.get(key)
        if first_fact is None or key not in LABELS or key in ("name", "note", "plan") or first_fact.value == fact.value:
            continue
        told = {"bin": before.name, "heading": LABELS[key], "other": said(first_fact), "cell": first_fact.cell.ref}
        yield Problem("bins.differ", fact.cell.ref, told, fact.text)


def _implied(facts: dict[str, Fact], name: str) -> Iterable[Entry]:
    """Entries that a row of the list implies: one for each date of last care, one without a date for a number."""
    for field in BIN_FIELDS:
        fact = facts.get(field.key)
        seen = facts.get(field.states) if field.implies and field.states else None
        if fact is None and seen is not None:
            yield Entry(field.implies, None, (name,), seen.cell.ref, {seen.field: seen})
        if not field.implies or fact is None:
            continue
        if isinstance(fact.value, When):
            yield Entry(field.implies, fact.value, (name,), fact.cell.ref, {field.key: fact, "when": fact})
        elif field.implies == "count" and not isinstance(fact.value, (str, bool)):
            way = facts.get("way")
            own = {"way": way} if way and way.cell.ref == fact.cell.ref else {}
            yield Entry("count", None, (name,), fact.cell.ref, {"number": fact, **own})
