"""The keeper's settings: records and look-up."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from workbook_tools.problems import CellRef


@dataclass(frozen=True, slots=True)
class SettingValue:
    """One setting the keeper made: its value, what it is for ('' for all), and its cell."""

    key: str
    scope: str
    value: float | str | tuple[int, ...]
    where: CellRef
    scope_where: CellRef | None = None
    """The cell that says what it is for, when one does."""


@dataclass(frozen=True)
class Settings:
    """All settings the keeper made."""

    values: tuple[SettingValue, ...] = ()

    @cached_property
    def _first(self) -> dict[tuple[str, str], SettingValue]:
        return {(value.key, value.scope.casefold()): value for value in reversed(self.values)}

    def find(self, key: str, *scopes: str) -> SettingValue | None:
        """The setting for the first scope that has one, in the order given, then for all."""
        found = (self._first.get((key, scope.casefold())) for scope in (*scopes, ""))
        return next((value for value in found if value is not None), None)
