"""The keeper's settings: records and look-up."""

from __future__ import annotations

from dataclasses import dataclass

from workbook_tools.problems import CellRef


@dataclass(frozen=True, slots=True)
class SettingValue:
    """One setting the keeper made: its value, what it is for ('' for all), and its cell."""

    key: str
    scope: str
    value: float | str | tuple[int, ...]
    where: CellRef


@dataclass(frozen=True)
class Settings:
    """All settings the keeper made."""

    values: tuple[SettingValue, ...] = ()

    def find(self, key: str, *scopes: str) -> SettingValue | None:
        """The setting for the first scope that has one, in the order given, then for all."""
        for scope in (*scopes, ""):
            for value in self.values:
                if value.key == key and value.scope.casefold() == scope.casefold():
                    return value
        return None
