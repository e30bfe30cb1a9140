"""What the cells of one row of a log say together: where a number belongs, what was not done, what went where."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from workbook_tools.fields import ACTS, LOG_FIELDS
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.meanings import Context, Place, read_cell
from workbook_tools.intake.moves import MOVED, from_and_to, parted
from workbook_tools.intake.tables import Table
from workbook_tools.intake.values import Amount, Fact, Number, Words
from workbook_tools.problems import Problem
from workbook_tools.vocabulary.presence import SILENT, UNDONE, presence_of

Facts = dict[str, list[Fact]]
_DID = next(field for field in LOG_FIELDS if field.key == "did")
_SEEN = frozenset("count look substrate_look moss leftovers dead young room stock note trap".split())
"""Acts of looking, which are done even where nothing was found."""
_MEASURE = {act.key: {field.key for field in LOG_FIELDS if field.implies == act.key} for act in ACTS.values()}


def acts_named(facts: Mapping[str, list[Fact]]) -> tuple[str, ...]:
    """The acts that a row's own words name."""
    return tuple(key for fact in facts.get("did", ()) if isinstance(fact.value, Words) for key in fact.value.keys)


def act_of_row(table: Table, facts: Mapping[str, list[Fact]], cells: Mapping[str, Cell], context: Context) -> str:
    """The act that a table of one kind of work gives a row; none where the row's words say otherwise."""
    named = acts_named(facts)
    if not table.act or table.act in named:
        return table.act
    did = cells.get("did")
    if named or (did is not None and context.lexicon.read_acts(did.text).undone):
        return ""
    return table.act


def _says_nothing(cell: Cell, lexicon: Lexicon) -> bool:
    """Whether a cell for an amount says that nothing was given, or not that anything was."""
    nothing = presence_of(cell.text) in UNDONE | SILENT or cell.text.strip() == "0"
    return nothing or lexicon.says_undone(cell.text.replace("?", ""))


def not_given(
    act: str, facts: Facts, cells: Mapping[str, Cell], headings: Mapping[str, str], lexicon: Lexicon
) -> list[Problem]:
    """Name the cell by which nothing was given: 0 or '-' under the amount of a table of one kind of work."""
    if not act or act in _SEEN:
        return []
    measured = {key: cells[key] for key in ("amount", "number", "share", *_MEASURE[act]) if key in cells}
    if not measured or not all(_says_nothing(cell, lexicon) for cell in measured.values()):
        return []
    for key in measured:
        facts.pop(key, None)
    key, cell = next(iter(measured.items()))
    told = {"value": cell.text, "heading": headings[key], "act": ACTS[act].label}
    return [Problem("values.not_given", cell.ref, told, cell.text)]


def add_told(facts: Facts, told: list[Fact], headings: Mapping[str, str]) -> list[Problem]:
    """Add what a text of acts tells beside its acts; a column of its own wins, and a difference is named."""
    problems = []
    for fact in told:
        other = next(iter(facts.get(fact.field, ())), None)
        if other is None or isinstance(fact.value, Words) or fact.field not in headings:
            facts.setdefault(fact.field, []).append(fact)
        elif _plainly(other) != _plainly(fact):
            saying = {
                "value": fact.cell.text,
                "text": str(_plainly(fact)),
                "heading": headings[fact.field],
                "other": other.text,
            }
            problems.append(Problem("words.number_twice", fact.cell.ref, saying, fact.cell.text))
    return problems


def _plainly(fact: Fact) -> str:
    """A value in short, to compare it with another of its field."""
    value = fact.value
    number = value.number if isinstance(value, Amount) else value
    return f"{number.best:g}" if isinstance(number, Number) else str(value).casefold()


def moved(facts: Facts, cells: Mapping[str, Cell], context: Context) -> list[Problem] | None:
    """Settle a row that says from which bin to which.

    Returns
    -------
    list of Problem or None
        Those of its words, read anew, where they are words for moving that mean nothing else; they replace the ones
        met before. None where the words stand as they were read.
    """
    did = cells.get("did")
    bins = facts.get("bins", [])
    if len(bins) == 1 and isinstance(bins[0].value, str):
        ends = from_and_to(bins[0].value, acts_named(facts), did.text if did else "")
        if ends:
            for fact in parted(bins.pop(), ends, facts.keys()):
                facts.setdefault(fact.field, []).append(fact)
    if not bins and {"from_bin", "to_bin"} <= facts.keys():
        facts["bins"] = [replace(facts["from_bin"][0], field="bins", guessed=True)]
    if did is None or acts_named(facts) or not ({"from_bin", "to_bin"} <= facts.keys() and MOVED.search(did.text)):
        return None
    text = MOVED.sub("animals out", did.text)
    told, problems = read_cell(Cell(did.ref, text, text), Place(_DID), context)
    facts.pop("did", None)
    for fact in told:
        fact = replace(fact, cell=did, guessed=True)
        if fact.field == "did" or fact.field not in facts:
            facts.setdefault(fact.field, []).append(fact)
    means = {"word": did.text, "means": ACTS["animals_out"].label}
    kept = [problem for problem in problems if problem.code not in ("words.guessed", "words.loose", "words.unknown")]
    return [Problem("words.guessed", did.ref, means, did.text), *kept]
