"""Read a Settings sheet: pairs of a name and a value, and a table of the keeper's own words."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import KNOWN_WORDS_HEADINGS, SETTINGS, Setting
from workbook_tools.intake.amounts import Measures, read_amount, read_share
from workbook_tools.intake.cells import Area, Cell, Sheet
from workbook_tools.intake.date_words import fold, weekdays
from workbook_tools.intake.headings import likeness, normalise, plain
from workbook_tools.intake.intervals import read_interval
from workbook_tools.intake.roles import SETTING_WORDS
from workbook_tools.intake.settings import Settings, SettingValue
from workbook_tools.intake.tables import Heading, Table
from workbook_tools.intake.units import measure_named
from workbook_tools.problems import CellRef, Problem

ORDERS: Mapping[str, Sequence[str]] = {
    "dmy": ("day month", "d m", "dmy", "dd mm", "dd mm yyyy", "d m y", "day first", "day month year", "european"),
    "mdy": (
        "month day",
        "m d",
        "mdy",
        "mm dd",
        "mm dd yyyy",
        "m d y",
        "month first",
        "month day year",
        "american",
        "us",
    ),
    "ymd": ("year month day", "y m d", "ymd", "yyyy mm dd", "iso", "year first"),
}
QUARTS: Mapping[str, Sequence[str]] = {
    "US liquid": ("us liquid", "us", "liquid", "american"),
    "US dry": ("us dry", "dry"),
    "imperial": ("imperial", "uk", "british"),
}
_A_MEASURE_IS = re.compile(r"(?:an?|one|1)\s+(\S.*?)\s+(?:is|holds|means|equals|=)", re.IGNORECASE)
"""How a setting names a measure of the keeper's own: 'A spoon is'."""
MEASURE_UNITS = {"handful": "l", "pinch": "g", "splash": "ml", "cup": "ml"}


@dataclass(frozen=True)
class SettingsRead:
    """What the settings sheets held: settings, own words (with the cell of their meaning), and the tables as read."""

    settings: Settings
    words: Mapping[str, tuple[str, Cell]]
    tables: tuple[Table, ...]


def is_settings_sheet(sheet: Sheet) -> bool:
    """Whether a sheet is for settings: by its name, or by headings Setting and Value."""
    if SETTING_WORDS.intersection(plain(sheet.name).split()) or plain(sheet.name) in ("set up", "my rules"):
        return True
    texts = {plain(cell.text) for (row, _), cell in sheet.cells.items() if row <= 5}
    return {"setting", "value"} <= texts


def known_words(sheet: Sheet) -> Table | None:
    """The list of known words that our own blank workbook brings along; it is for the keeper and holds no data."""
    rows: dict[int, list[str]] = {}
    for (row, _), cell in sorted(sheet.cells.items()):
        rows.setdefault(row, []).append(cell.text)
    head = next((row for row, texts in rows.items() if row <= 5 and tuple(texts) == KNOWN_WORDS_HEADINGS), 0)
    if not head:
        return None
    area = Area(head, 1, sheet.last_row, sheet.last_col)
    why = "the list of known words of our blank workbook"
    return Table(sheet.name, area, "unused", "", {}, (), {}, sheet.hidden, why)


def read_settings(sheets: Sequence[Sheet]) -> tuple[SettingsRead, list[Problem]]:
    """Read every settings sheet, row by row; what isn't understood is a problem with its cell."""
    values: list[SettingValue] = []
    words: dict[str, tuple[str, Cell]] = {}
    tables: list[Table] = []
    problems: list[Problem] = []
    for sheet in sheets:
        _Reader(sheet, values, words, problems).read()
        tables.append(_as_table(sheet))
    return SettingsRead(Settings(tuple(values)), words, tuple(tables)), problems


def _as_table(sheet: Sheet) -> Table:
    rows = sorted({row for row, _ in sheet.cells})
    cols = sorted({col for _, col in sheet.cells})
    area = Area(rows[0], cols[0], rows[-1], cols[-1]) if rows else Area(1, 1, 1, 1)
    heads: dict[int, Heading] = {}
    return Table(sheet.name, area, "settings", "", heads, tuple(rows), {}, sheet.hidden, "the sheet's name or headings")


class _Reader:
    """Reads one sheet; keeps which columns hold the name, the scope and the value."""

    def __init__(
        self,
        sheet: Sheet,
        values: list[SettingValue],
        words: dict[str, tuple[str, Cell]],
        problems: list[Problem],
    ) -> None:
        self.sheet, self.values, self.words, self.problems = sheet, values, words, problems
        self.columns: dict[str, int] = {}
        self.word_columns: tuple[int, int] | None = None

    def read(self) -> None:
        for cells in self.sheet.rows.values():
            texts = {plain(cell.text): col for col, cell in cells.items()}
            means = texts.get("means") or texts.get("meaning")
            if "word" in texts and means:
                self.word_columns = (texts["word"], means)
                if not {"setting", "value"} <= set(texts):
                    self.columns = {}
                    continue
            if {"setting", "value"} <= set(texts):
                self.columns = {"name": texts["setting"], "value": texts["value"]}
                if scope := texts.get("for") or texts.get("applies to"):
                    self.columns["scope"] = scope
                continue
            self._row(cells)

    def _row(self, cells: Mapping[int, Cell]) -> None:
        used: set[int] = set()
        if self.word_columns:
            word, means = (cells.get(col) for col in self.word_columns)
            used.update(self.word_columns)
            if word and means:
                if not plain(word.text).startswith("example"):
                    self.words[word.text] = (means.text, means)
            elif word and not self.columns:
                self.problems.append(Problem("settings.word_alone", word.ref, {"word": word.text}, word.text))
        rest = {col: cell for col, cell in cells.items() if col not in used}
        if rest and (self.columns or not self.word_columns):
            self._pair(rest)

    def _pair(self, cells: Mapping[int, Cell]) -> None:
        columns = sorted(cells)
        name = cells.get(self.columns["name"]) if self.columns else cells[columns[0]]
        if name is None:
            return
        scope, value = "", None
        said_in = name
        if self.columns:
            value = cells.get(self.columns["value"])
            if scope_cell := cells.get(self.columns.get("scope", 0)):
                scope, said_in = scope_cell.text, scope_cell
        elif len(columns) > 1:
            value = cells[columns[1]]
        setting = find_setting(name.text)
        if setting is None:
            if value is not None and (measure := _A_MEASURE_IS.fullmatch(name.text.strip())):
                self.words[measure[1]] = (value.text, value)
            elif value is not None:
                self.problems.append(Problem("settings.unknown", name.ref, {"setting": name.text}, name.text))
            return
        if value is None:
            return
        scope = scope or normalise(name.text).aside
        if plain(scope) in ("all", "every bin", "all bins", "everything", "days", "ml", "l", "g"):
            scope = ""
        self._keep(setting, scope, value, said_in.ref)

    def _keep(self, setting: Setting, scope: str, cell: Cell, said_in: CellRef) -> None:
        found = setting_value(setting, scope, cell, said_in)
        if isinstance(found, Problem):
            self.problems.append(found)
        else:
            self.values.append(found)


def setting_value(setting: Setting, scope: str, cell: Cell, said_in: CellRef) -> SettingValue | Problem:
    """What a cell sets a setting to, or the problem that says why it can't be."""
    meaning = _meaning(setting, cell)
    if meaning is None:
        facts = {"setting": setting.label, "kind": KIND_SAYS[setting.kind]}
        return Problem("settings.value", cell.ref, facts, cell.text)
    limits = DEFAULTS.get(setting.default)
    if limits and isinstance(meaning, float) and not limits.low <= meaning <= limits.high:
        range_facts = {
            "setting": setting.label,
            "low": f"{limits.low:g}",
            "high": f"{limits.high:g}",
            "unit": limits.unit,
        }
        return Problem("settings.range", cell.ref, range_facts, cell.text)
    return SettingValue(setting.key, scope, meaning, cell.ref, said_in if scope else None)


KIND_SAYS = {
    "days": "a number of days, such as 7, '2 weeks' or 'twice a week'",
    "weekdays": "weekdays, such as 'Mon, Thu, Sun'",
    "order": "'day-month', 'month-day' or 'year-month-day'",
    "region": "a language and country, such as en-GB",
    "unit": "'US liquid', 'US dry' or 'imperial'",
    "amount": "an amount with its unit",
    "share": "a percentage",
    "paper": "A4 or Letter",
    "text": "a text",
}


def find_setting(text: str) -> Setting | None:
    """The setting that a name means, or None."""
    words = normalise(text).words
    best, chosen = 0.0, None
    for setting in SETTINGS:
        for phrase in (setting.label, *setting.names):
            found = likeness(words, phrase)
            if found > best:
                best, chosen = found, setting
    return chosen if best >= 0.8 else None


def own_measure(means: str, measures: Measures) -> tuple[float, float, float, str, bool] | None:
    """What a word holds that means a measure ("handful") or an amount with its unit ("5 ml"); None when neither."""
    if key := measure_named(means):
        return measures.holds(key)
    amount = read_amount(means, "", measures).amount
    if amount is None or not amount.as_written or amount.unit not in ("ml", "l", "g"):
        return None
    return amount.number.best, amount.number.low, amount.number.high, amount.unit, amount.guessed


def _weekdays(text: str) -> tuple[int, ...] | None:
    """Weekdays of a list such as 'Mon, Thu and Sun', 0 for Monday; None when one of them isn't known."""
    parts = [part for part in plain(text).split() if part not in ("and", "und", "et", "y", "en")]
    days = [weekdays().get(fold(part), frozenset()) for part in parts]
    return tuple(sorted({min(day) for day in days})) if days and all(len(day) == 1 for day in days) else None


def _percent(cell: Cell) -> float | None:
    """A share in percent: 10 %, 1/10 and 10 are the same."""
    if isinstance(cell.value, int | float) and not isinstance(cell.value, bool) and "%" not in cell.text:
        return float(cell.value) * (1 if cell.value >= 1 else 100)
    text = cell.text.strip()
    found = read_share(cell.text if not text.isdigit() else f"{text} %").amount
    return None if found is None else found.number.best * (100 if found.unit == "share" else 1)


def _meaning(setting: Setting, cell: Cell) -> float | str | tuple[int, ...] | None:
    text = plain(cell.text)
    if setting.kind == "days":
        return read_interval(cell.value)
    if setting.kind == "weekdays":
        return _weekdays(cell.text)
    if setting.kind == "order":
        return next((order for order, names in ORDERS.items() if text in names), None)
    if setting.kind == "unit":
        return next((unit for unit, names in QUARTS.items() if text in names), None)
    if setting.kind == "amount":
        found = read_amount(cell.text, usual=MEASURE_UNITS[setting.key], measures=Measures(), decimal="").amount
        return found.number.best if found and found.unit == MEASURE_UNITS[setting.key] else None
    if setting.kind == "share":
        return _percent(cell)
    if setting.kind == "paper":
        return {"a4": "A4", "letter": "Letter"}.get(text)
    if setting.kind == "region":
        parts = cell.text.strip().replace("_", "-").split("-")
        fine = len(parts[0]) in (2, 3) and parts[0].isalpha() and all(part.isalnum() for part in parts)
        return "-".join((parts[0].lower(), *(part.upper() for part in parts[1:]))) if fine else None
    return cell.text
