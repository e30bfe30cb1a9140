"""Makes rows of facts by hand, as reading a workbook does."""

from __future__ import annotations

import datetime as dt
from itertools import count

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.settings import Settings, SettingValue
from workbook_tools.intake.tables import Role, Row
from workbook_tools.intake.values import Amount, Fact, Meaning, Number, When, Words
from workbook_tools.problems import CellRef

_ROW = count(2)


def day(text: str) -> When:
    """An exact day, or a month written 2026-03."""
    if len(text) == 7:
        first = dt.date.fromisoformat(f"{text}-01")
        return When(first, (first + dt.timedelta(days=31)).replace(day=1) - dt.timedelta(days=1))
    return When.on(dt.date.fromisoformat(text))


def ml(value: float) -> Amount:
    return Amount(Number.exactly(value), "ml", "ml")


def amount(value: float, unit: str) -> Amount:
    return Amount(Number.exactly(value), unit, unit)


def number(value: float) -> Number:
    return Number.exactly(value)


def words(*keys: str) -> Words:
    return Words(keys)


def shown(value: Meaning) -> str:
    if isinstance(value, When):
        return value.first.isoformat()
    if isinstance(value, Words):
        return "+".join(value.keys)
    if isinstance(value, Amount):
        return f"{value.number.best:g} {value.unit}"
    if isinstance(value, Number):
        return f"{value.best:g}"
    return str(value)


def row(role: Role, sheet: str, act: str = "", at: int = 0, **fields: Meaning | tuple[Meaning, ...]) -> Row:
    """A row; its fields stand in columns 1, 2, 3… in the order given."""
    place = at or next(_ROW)
    facts: dict[str, tuple[Fact, ...]] = {}
    col = 0
    for key, several in fields.items():
        made = []
        for value in several if isinstance(several, tuple) else (several,):
            col += 1
            made.append(Fact(key, value, Cell(CellRef(sheet, place, col), "", shown(value))))
        facts[key] = tuple(made)
    return Row(CellRef(sheet, place), role, act, facts)


def bin_row(name: str, sheet: str = "Bins", at: int = 0, **fields: Meaning | tuple[Meaning, ...]) -> Row:
    started = fields.get("started")
    if isinstance(started, str):
        fields["started"] = day(started)
    return row("bins", sheet, "", at, name=name, **fields)


def log_row(
    when: str,
    bins: str,
    did: str | Words = "",
    sheet: str = "Log",
    act: str = "",
    at: int = 0,
    **fields: Meaning | tuple[Meaning, ...],
) -> Row:
    own: dict[str, Meaning | tuple[Meaning, ...]] = {}
    if when:
        own["when"] = day(when)
    if bins:
        own["bins"] = bins
    if did != "":
        own["did"] = did if isinstance(did, Words) else Words(tuple(did.split("+")))
    return row("log", sheet, act, at, **own, **fields)


def settings(**values: float | str | tuple[int, ...]) -> Settings:
    """Settings by key with ``__`` for the dot; a scope follows ``_for_``: every__moss_for_A1=3."""
    made = []
    for place, (key, value) in enumerate(values.items(), start=2):
        name, _, scope = key.partition("_for_")
        made.append(SettingValue(name.replace("__", "."), scope, value, CellRef("Settings", place, 2)))
    return Settings(tuple(made))
