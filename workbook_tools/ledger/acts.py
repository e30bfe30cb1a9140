"""What one row of the log records: its acts, and which of its facts belong to which."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from workbook_tools.fields import ACTS, LOG_FIELDS
from workbook_tools.intake.tables import Row
from workbook_tools.intake.values import Amount, Fact, Number, Words
from workbook_tools.problems import CellRef, Problem
from workbook_tools.vocabulary.presence import SILENT, UNDONE, presence_of

COMMON = ("when", "time", "weekday", "bins", "did", "note", "who")
"""Fields that stand on every entry of a row."""

ACT_FACTS: dict[str, tuple[str, ...]] = {
    "water": ("water",),
    "moss": ("moss",),
    "feed": ("food",),
    "leftovers": ("leftovers",),
    "leaf": ("leaf",),
    "calcium": ("calcium",),
    "look": ("seen", "leaf_left"),
    "count": ("way", "large", "middle", "small", "brooding"),
    "substrate_look": ("substrate", "recognisable", "depth"),
    "substrate_change": ("share", "way", "old_went", "to_bin"),
    "split": ("to_bin", "from_bin", "way"),
    "move_up": ("to_bin", "from_bin"),
    "trap": ("way", "from_bin", "to_bin", "minutes"),
    "sift": ("way", "from_bin", "to_bin", "minutes"),
    "mark": ("way",),
    "recapture": ("marked", "way"),
    "freeze": ("old_went",),
    "discard": ("old_went",),
    "animals_in": ("from_bin",),
    "animals_out": ("to_bin",),
    "dead": ("dead",),
    "young": ("young", "young_number"),
    "room": ("temperature", "humidity"),
    "start": ("from_bin",),
    "move_place": ("to_bin", "from_bin"),
    "rename": ("to_bin", "from_bin"),
}
"""Fields that belong to an act by themselves; a number and an amount are given to one act of the row."""

AMOUNT_UNITS: dict[str, frozenset[str]] = {
    "water": frozenset({"ml", "l", ""}),
    "feed": frozenset({"g", "count", ""}),
    "leaf": frozenset({"l", "g", ""}),
    "calcium": frozenset({"g", "count", ""}),
    "substrate_change": frozenset({"l", "share", ""}),
    "animals_in": frozenset({"count", ""}),
    "animals_out": frozenset({"count", ""}),
    "freeze": frozenset({"l", "g", ""}),
    "discard": frozenset({"l", "g", ""}),
    "stock": frozenset({"l", "g", "ml", "count", ""}),
}
"""Acts that can have an amount, and in which units."""

NUMBER_ACTS = (
    "count",
    "animals_in",
    "animals_out",
    "split",
    "dead",
    "young",
    "trap",
    "sift",
    "mark",
    "recapture",
    "start",
)
"""Acts that can have a number of animals; the first one named in a row takes it."""

_PARTED = frozenset({"substrate_change", "substrate_look", "sift", "trap", "freeze", "discard"})
"""Acts that a share of the substrate may belong to."""

WENT = {"freeze": "freezer", "discard": "thrown away"}
"""Where the old substrate went, by the act that is named beside a change."""

_NOTHING_DONE = frozenset({"0", "x no", "stop"})


@dataclass(frozen=True, slots=True)
class RowActs:
    """The acts of a row in order, each with its facts."""

    acts: tuple[tuple[str, Mapping[str, Fact]], ...]
    problems: tuple[Problem, ...]


def says_something(fact: Fact) -> bool:
    """Whether a filled cell means that something was done or seen: 'n', '-', 0 ml and 0 dead don't."""
    value = fact.value
    if isinstance(value, bool):
        return value
    if isinstance(value, Words):
        return value.keys not in (("no",), ("unknown",))
    if isinstance(value, Number):
        return value.high > 0 or fact.field == "number"
    if isinstance(value, Amount):
        return value.number.high > 0 or fact.field not in ("water", "leaf", "calcium", "amount", "share")
    if isinstance(value, str):
        return presence_of(value) not in UNDONE | SILENT and value.strip().casefold() not in _NOTHING_DONE
    return True


def flat(facts: Mapping[str, Iterable[Fact]]) -> dict[str, Fact]:
    """Give each field its first fact that says something; further ones are kept as ``field.2``, ``field.3``."""
    out: dict[str, Fact] = {}
    for field, several in facts.items():
        ordered = sorted(several, key=lambda fact: not says_something(fact))
        for place, fact in enumerate(ordered, start=1):
            out[field if place == 1 else f"{field}.{place}"] = fact
    return out


def acts_of(row: Row) -> RowActs:
    """Say what a row of the log records.

    The acts are those of its table and of its own words, then those that filled columns imply. A row that names
    none is kept as a note. A count without a number is kept as a look, and 0 dead is no death. A number beside words
    that name no act is no count: nobody knows what was done to so many.
    """
    facts = flat(row.facts)
    problems: list[Problem] = []
    _number_from_amount(row, facts)
    told = [fact for field in LOG_FIELDS if (fact := facts.get(field.key)) and says_something(fact)]
    filled = {fact.field for fact in told}
    named = [*_of_table(row, facts, filled), *_of_words(row)]
    implied = [field.implies for field in LOG_FIELDS if field.implies and field.key in filled]
    if any(act in NUMBER_ACTS and act != "count" for act in named) and "count" not in named:
        implied = [act for act in implied if act != "count"]
    if "count" in implied and not named and "did" in facts:
        implied.remove("count")
        problems.append(Problem("entries.number_of_nothing", _cell(facts, row, "number"), {}, _text(facts, "number")))
    acts = list(dict.fromkeys([*named, *implied]))
    if "dead" in acts and _none_dead(facts):
        acts.remove("dead")
        acts = acts or ["look"]
    if (not acts and "old_went" in filled) or ("share" in filled and not _PARTED.intersection(acts)):
        acts = [*acts, "substrate_change"] if acts != ["note"] else ["substrate_change"]
    if "count" in acts and _number(facts.get("number")) is None:
        problems.append(
            Problem("entries.count_no_number", _cell(facts, row, "number", "did"), {}, _text(facts, "number"))
        )
        acts = list(dict.fromkeys("look" if act == "count" else act for act in acts))
    if len(acts) > 1 and "note" in acts:
        acts.remove("note")
    acts = acts or ["note"]
    _say_where_it_went(acts, facts)
    number_to = _taker_of_number(acts, facts, row, problems)
    amount_to = _taker_of_amount(acts, facts, row, problems)
    return RowActs(tuple(_shared_out(acts, facts, number_to, amount_to)), tuple(problems))


def _say_where_it_went(acts: list[str], facts: dict[str, Fact]) -> None:
    """Fill in where the old substrate went, where words beside a change say so and no column does."""
    went = next((WENT[act] for act in acts if act in WENT), "")
    if went and "substrate_change" in acts and "old_went" not in facts and "did" in facts:
        facts["old_went"] = replace(facts["did"], field="old_went", value=went)


def _of_table(row: Row, facts: Mapping[str, Fact], filled: set[str]) -> list[str]:
    """The act of the row's table, unless its own columns say that it wasn't done."""
    if not row.act:
        return []
    own = [field.key for field in LOG_FIELDS if field.implies == row.act and field.key in facts]
    if own and not filled & {*own, "amount"} and row.act not in ("count", "look"):
        return []
    return [row.act]


def _number_from_amount(row: Row, facts: dict[str, Fact]) -> None:
    """Take an amount without a measure for the number of animals, where what was done has no other use for it."""
    fact = facts.get("amount")
    named = [row.act, *_of_words(row)]
    if fact is None or "number" in facts or any(act in AMOUNT_UNITS for act in named):
        return
    free = any(act in NUMBER_ACTS and act not in facts for act in named)
    if free and isinstance(fact.value, Amount) and fact.value.unit in ("", "count"):
        del facts["amount"]
        facts["number"] = replace(fact, field="number", value=fact.value.number)


def _of_words(row: Row) -> list[str]:
    return [
        key
        for fact in row.facts.get("did", ())
        if isinstance(fact.value, Words)
        for key in fact.value.keys
        if key in ACTS
    ]


def _number(fact: Fact | None) -> Number | None:
    if fact is None:
        return None
    if isinstance(fact.value, Amount):
        return fact.value.number
    return fact.value if isinstance(fact.value, Number) else None


def _none_dead(facts: Mapping[str, Fact]) -> bool:
    number = _number(facts.get("dead", facts.get("number")))
    return number is not None and number.high == 0


def _text(facts: Mapping[str, Fact], field: str) -> str:
    return facts[field].text if field in facts else ""


def _cell(facts: Mapping[str, Fact], row: Row, *fields: str) -> CellRef:
    return next((facts[field].cell.ref for field in fields if field in facts), row.where)


def _labels(acts: Iterable[str]) -> str:
    return " or ".join(f"'{ACTS[act].label}'" for act in acts)


def _taker_of_number(acts: list[str], facts: Mapping[str, Fact], row: Row, problems: list[Problem]) -> str:
    """The act that the number of a row belongs to; a doubt is noted."""
    if "number" not in facts:
        return acts[0]
    own = {act for act in ("dead", "young") if act in facts and says_something(facts[act])}
    takers = [act for act in acts if act in NUMBER_ACTS and act not in own]
    if len(takers) > 1:
        told = {"act": ACTS[takers[0]].label, "others": _labels(takers[1:])}
        problems.append(Problem("entries.number_of_which", _cell(facts, row, "number"), told, _text(facts, "number")))
    return takers[0] if takers else acts[0]


def _taker_of_amount(acts: list[str], facts: Mapping[str, Fact], row: Row, problems: list[Problem]) -> str:
    """The act that the amount of a row belongs to, by its unit; a doubt is noted."""
    fact = facts.get("amount")
    if fact is None:
        return acts[0]
    unit = fact.value.unit if isinstance(fact.value, Amount) else ""
    able = [act for act in acts if act in AMOUNT_UNITS]
    free = [act for act in able if not (act in facts and isinstance(facts[act].value, Amount))] or able
    takers = [act for act in free if unit in AMOUNT_UNITS[act]]
    where, text = fact.cell.ref, fact.text
    if not able:
        problems.append(Problem("entries.amount_of_nothing", where, {}, text))
        return acts[0]
    if not takers:
        problems.append(Problem("entries.amount_unit", where, {"act": ACTS[free[0]].label}, text))
        return free[0]
    if len(takers) > 1:
        told = {"act": ACTS[takers[0]].label, "others": _labels(takers[1:])}
        problems.append(Problem("entries.amount_of_which", where, told, text))
    return takers[0]


def _shared_out(
    acts: list[str], facts: Mapping[str, Fact], number_to: str, amount_to: str
) -> list[tuple[str, dict[str, Fact]]]:
    """Give every fact of a row to the acts it belongs to; what belongs to none stays with the first."""
    out: dict[str, dict[str, Fact]] = {act: {} for act in acts}
    for key, fact in facts.items():
        field = key.split(".")[0]
        if field in COMMON:
            owners = acts
        elif field == "number":
            owners = [number_to]
        elif field == "amount":
            owners = [amount_to]
        else:
            owners = [act for act in acts if field in ACT_FACTS.get(act, ())] or acts[:1]
        for act in owners:
            out[act][key] = fact
    return list(out.items())
