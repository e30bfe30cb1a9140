"""How often each kind of care is due for a bin: the keeper's own setting, else common practice."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from workbook_tools.defaults import DEFAULTS, Default
from workbook_tools.fields import SETTINGS
from workbook_tools.intake.settings import Settings, SettingValue
from workbook_tools.ledger.records import Bin, Ledger
from workbook_tools.plan.usual import usual_days
from workbook_tools.problems import Problem

SOURCES = {
    "practice": "common practice",
    "derived": "worked out from common practice",
    "judgement": "a choice of this program",
}
"""What is said of a default, by where it comes from."""

USUAL = "as you have done lately"

KEYS = tuple(
    key for key in DEFAULTS if key.split(".")[0] in ("every", "after", "first", "quarantine", "lasts", "ceiling")
)
LABELS = {setting.key: setting.label for setting in SETTINGS} | {
    "first.look": "First look at a new bin after",
    "first.food": "First feeding of a new bin after",
}


@dataclass(frozen=True, slots=True)
class Interval:
    """A number of days, in words whose it is, and the default it stands for or replaces."""

    days: int
    said: str
    default: Default

    @property
    def whose(self) -> str:
        """Whose it is, in brackets after a blank; empty for common practice, which the sheet says once for all."""
        return "" if self.said == SOURCES["practice"] else f" ({self.said})"


@dataclass(frozen=True, slots=True)
class RhythmRow:
    """One line of the rhythm as used. ``scope`` is a bin, species or line, empty for all."""

    key: str
    label: str
    scope: str
    days: int
    said: str
    default: Default


@dataclass(frozen=True)
class Rhythm:
    """The care rhythm of one keeper: settings over defaults."""

    settings: Settings = field(default_factory=Settings)
    usual: Mapping[str, int] = field(default_factory=dict)
    """The keeper's own regular rhythm, in days by key: it takes the place of the default."""
    _known: dict[tuple[str, str, str, str], Interval] = field(default_factory=dict, compare=False, repr=False)

    def days(self, key: str, bin: Bin | None = None) -> Interval:
        """Return the interval for one kind of care, such as ``every.moss``, of one bin.

        The first setting found is used, in the order: this bin, its species, its line, all bins; else the
        keeper's own regular rhythm, where there is one; else the default.
        A setting that is no number within the default's range is passed over.

        Raises
        ------
        KeyError
            There is no such default.
        """
        scopes = (bin.name, bin.species, bin.line) if bin else ("", "", "")
        interval = self._known.get((key, *scopes))
        if interval is None:
            interval = self._known[(key, *scopes)] = self._look_up(key, scopes)
        return interval

    @cached_property
    def _usable(self) -> Settings:
        return Settings(tuple(value for value in self.settings.values if _is_usable(value)))

    def _look_up(self, key: str, scopes: tuple[str, ...]) -> Interval:
        default = DEFAULTS[key]
        found = self._usable.find(key, *scopes)
        if found is None:
            if key in self.usual:
                return Interval(self.usual[key], USUAL, default)
            return Interval(round(default.value), SOURCES.get(default.source, default.source), default)
        said = f"your setting for {found.scope}" if found.scope else "your setting"
        return Interval(_days(found), said, default)

    def share(self, key: str) -> float:
        """Return a chance that the keeper may set in percent, such as ``risk.moss``, as a share."""
        setting = self._usable.find(key)
        return float(setting.value if setting else DEFAULTS[key].value) / 100  # type: ignore[arg-type]

    def set_by_keeper(self, key: str) -> bool:
        """Whether the keeper set this kind of care for anything at all."""
        return any(value.key == key for value in self._usable.values)

    def rows(self) -> list[RhythmRow]:
        """List the rhythm as used: for each kind of care the line for all bins, then the keeper's exceptions."""
        rows = []
        for key in KEYS:
            whole = self.days(key)
            rows.append(RhythmRow(key, LABELS.get(key, key), "", whole.days, whole.said, whole.default))
            for value in self._usable.values:
                if value.key == key and value.scope:
                    rows.append(
                        RhythmRow(key, LABELS.get(key, key), value.scope, _days(value), "your setting", whole.default)
                    )
        return rows


def _is_usable(value: SettingValue) -> bool:
    default = DEFAULTS.get(value.key)
    return default is not None and isinstance(value.value, (int, float)) and default.low <= value.value <= default.high


def _days(value: SettingValue) -> int:
    return round(float(value.value))  # type: ignore[arg-type]


def rhythm_of(ledger: Ledger, on: dt.date) -> tuple[Rhythm, list[Problem]]:
    """Return the rhythm of a ledger on a day, by its settings and its log, with the settings that fit no bin."""
    rhythm = Rhythm(ledger.settings, usual_days(ledger, on))
    scopes = {text.casefold() for bin in ledger.bins.values() for text in (bin.name, bin.species, bin.line) if text}
    problems = []
    for value in ledger.settings.values:
        if value.key not in KEYS:
            continue
        if value.scope and value.scope.casefold() not in scopes:
            facts = {"setting": LABELS.get(value.key, value.key), "scope": value.scope}
            problems.append(Problem("settings.for_nothing", value.scope_where or value.where, facts, value.scope))
    return rhythm, problems
