"""How often a bin is to be cared for, as its row of the list says, made a setting of that bin."""

from __future__ import annotations

from collections.abc import Iterable

from workbook_tools.intake.intervals import read_interval
from workbook_tools.intake.settings import SettingValue
from workbook_tools.intake.tables import Row
from workbook_tools.problems import Problem

SETTING = {"every_moss": "every.moss", "every_food": "every.food"}
"""Fields of the list of bins, and the setting that each is for one bin."""


def settings_of_bins(rows: Iterable[Row]) -> tuple[tuple[SettingValue, ...], list[Problem]]:
    """The settings that rows of the lists of bins make, each for its own bin; what is no interval is named."""
    found: list[SettingValue] = []
    problems: list[Problem] = []
    for row in rows:
        name = row.first("name")
        for field, key in SETTING.items():
            fact = row.first(field) if row.role == "bins" else None
            if fact is None or name is None:
                continue
            days = read_interval(fact.cell.value)
            if days is None or days <= 0:
                problems.append(Problem("bins.every", fact.cell.ref, {"value": fact.text}, fact.text))
            else:
                found.append(SettingValue(key, str(name.value), days, fact.cell.ref, name.cell.ref))
    return tuple(found), problems
