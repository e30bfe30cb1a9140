"""The blank workbook to keep bins in, built from the fields that we read: what it offers is what is understood."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import (
    ACTS,
    BIN_FIELDS,
    KNOWN_WORDS_HEADINGS,
    LOG_FIELDS,
    SETTINGS,
    STATES,
    Field,
    Kind,
    Setting,
)
from workbook_tools.report.columns import Column, Place, SheetSpec, Style, TableSpec, Value

BIN_ROWS = 120
LOG_ROWS = 600
SETTING_ROWS = 20
WORD_ROWS = 40
"""Empty rows to write in; below them one can go on writing all the same."""
_WORDS_SHEET, _WORDS_TABLE = "Words", "KnownWords"
_WIDTHS = {Kind.TEXT: 18.0, Kind.ACT: 22.0, Kind.NAME: 12.0, Kind.BINS: 12.0, Kind.STATE: 13.0}
_STYLES: dict[Kind, Style] = {Kind.DATE: "date"}
_SETTING_CHOICES = {
    "order": ("day-month", "month-day", "year-month-day"),
    "unit": ("US liquid", "US dry", "imperial"),
}
_PAPERS = ("A4", "Letter")


@dataclass(frozen=True, slots=True)
class KnownWord:
    """One meaning that a word of the keeper's own can have, and the words known for it already."""

    meaning: str
    said_of: str
    words: tuple[str, ...]


def blank_sheets() -> tuple[SheetSpec, ...]:
    """Make the sheets of the blank workbook: Bins, Log, Settings, and the words that are known already."""
    return (
        SheetSpec(
            "Bins",
            "One row for each bin; only its name must be there.",
            (_fields_table("Bins", BIN_FIELDS, BIN_ROWS),),
            ("The first row is an example and is not read. Point at a heading to see what belongs below it.",),
            frozen_columns=1,
        ),
        SheetSpec(
            "Log",
            "One row for each thing done or seen: a date, a bin, and what you did.",
            (_fields_table("Log", LOG_FIELDS, LOG_ROWS),),
            ("The first row is an example and is not read. Several bins may stand in one row: A1 + A2, all shelf A.",),
            frozen_columns=2,
        ),
        SheetSpec(
            "Settings",
            "Only what you want otherwise: an empty value leaves common practice in force.",
            (_settings_table(), _own_words_table()),
        ),
        SheetSpec(
            _WORDS_SHEET,
            "Words that are understood already, and what each can mean.",
            (_known_words_table(),),
            landscape=False,
        ),
    )


def known_words() -> tuple[KnownWord, ...]:
    """List every meaning that a word can have: what was done, then what was seen; yes and no left out."""
    done = [KnownWord(act.label, "what was done", act.words) for act in ACTS.values()]
    seen: dict[str, KnownWord] = {}
    for states, table in STATES.items():
        for meaning, words in table.items():
            if states != "truth":
                known = seen.get(meaning, KnownWord(meaning, "", ()))
                said_of = f"{known.said_of}, {_SAID_OF[states]}".lstrip(", ")
                seen[meaning] = KnownWord(meaning, said_of, tuple(dict.fromkeys((*known.words, *words))))
    return (*done, *seen.values())


_SAID_OF = {
    "moss": "the moss corner",
    "leftovers": "leftovers",
    "outcome": "whether it was done",
    "substrate": "the substrate",
    "litter": "leaf litter",
    "method": "how a count was made",
    "finding": "what was seen",
    "settled": "what was seen, well again",
    "ventilation": "ventilation",
    "appetite": "appetite",
    "status": "status",
}


def _fields_table(name: str, fields: Sequence[Field], rows: int) -> TableSpec:
    shown = tuple(field for field in fields if field.in_blank)
    examples = {field.key: _example(field) for field in shown}
    return TableSpec(
        f"{name}Table",
        tuple(_column(field) for field in shown),
        (examples,),
        tone=lambda record: "example",
        blank_rows=rows,
    )


def _column(field: Field) -> Column:
    choices: tuple[str, ...] = ()
    source = None
    if field.kind in (Kind.STATE, Kind.CHOICE):
        choices = tuple(STATES[field.states])
    elif field.kind is Kind.ACT:
        source = Place(_WORDS_SHEET, _WORDS_TABLE)
    return Column(
        field.label,
        _value_of(field.key),
        _STYLES.get(field.kind, "text"),
        18 if field.key == "note" else _WIDTHS.get(field.kind, 11.0),
        field.says,
        choices=choices,
        choices_from=source,
    )


def _value_of(key: str) -> Callable[[dict[str, Value]], Value]:
    return lambda record: record[key]


def _example(field: Field) -> Value:
    if field.kind is Kind.DATE and field.example.count("-") == 2:
        return dt.date.fromisoformat(field.example)
    if field.kind in (Kind.NUMBER, Kind.AMOUNT):
        try:
            return float(field.example)
        except ValueError:
            pass
    return field.example or None


def _settings_table() -> TableSpec:
    return TableSpec(
        "SettingsTable",
        (
            Column(
                "Setting",
                lambda setting: setting.label,
                width=27,
                note="What you can set. In the empty rows below, set one again for a bin, species or line.",
            ),
            Column(
                "For",
                lambda setting: None,
                "box",
                18,
                "Empty: for all bins. Else the bin, species or line that it is for.",
            ),
            Column(
                "Value",
                lambda setting: None,
                "box",
                16,
                "What you want. Empty: common practice.",
                choices_for=_setting_choices,
            ),
            Column("What it does", _what_it_does, width=64, note="What the setting means, and what holds without it."),
        ),
        SETTINGS,
        blank_rows=SETTING_ROWS,
    )


def _setting_choices(setting: Setting) -> tuple[str, ...]:
    return _PAPERS if setting.key == "paper" else _SETTING_CHOICES.get(setting.kind, ())


def _what_it_does(setting: Setting) -> str:
    default = DEFAULTS.get(setting.default)
    return f"{setting.says} Left empty: {default.value:.4g} {default.unit}." if default else setting.says


def _own_words_table() -> TableSpec:
    return TableSpec(
        "OwnWords",
        (
            Column("Word", lambda row: None, "box", note="A word that you use in your log or list of bins."),
            Column(
                "Means",
                lambda row: None,
                "box",
                note=f"What it means: pick from the list. The sheet {_WORDS_SHEET} shows all of it.",
                choices_from=Place(_WORDS_SHEET, _WORDS_TABLE),
            ),
        ),
        (),
        title="Your own words",
        blank_rows=WORD_ROWS,
    )


def _known_words_table() -> TableSpec:
    meaning, said_of, known = KNOWN_WORDS_HEADINGS
    return TableSpec(
        _WORDS_TABLE,
        (
            Column(meaning, lambda word: word.meaning, width=22, note="What a word of yours can mean."),
            Column(said_of, lambda word: word.said_of, width=20, note="Where it is understood."),
            Column(known, lambda word: ", ".join(word.words), width=66, note="Words understood without help."),
        ),
        known_words(),
    )
