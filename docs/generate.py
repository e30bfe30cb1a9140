"""Tables of the reference pages, made from the package. The pages call this through cog; see DEVELOPERS.md."""

from __future__ import annotations

from collections.abc import Iterable

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS, BIN_FIELDS, FINDINGS, LOG_FIELDS, SETTINGS, STATES, Field
from workbook_tools.plan import care
from workbook_tools.plan.losses.looks import settled_by
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import KINDS, Severity
from workbook_tools.report.export.estimates import QUANTITIES
from workbook_tools.report.export.tables import HEADINGS

AREAS = {
    "file": "The file",
    "sheet": "Sheets and tables",
    "sheets": "Sheets and tables",
    "table": "Sheets and tables",
    "tables": "Sheets and tables",
    "heading": "Headings",
    "headings": "Headings",
    "cell": "Cells",
    "cells": "Cells",
    "date": "Dates",
    "dates": "Dates",
    "number": "Numbers and amounts",
    "numbers": "Numbers and amounts",
    "amount": "Numbers and amounts",
    "amounts": "Numbers and amounts",
    "unit": "Numbers and amounts",
    "word": "Words",
    "words": "Words",
    "row": "Rows",
    "rows": "Rows",
    "bin": "Bins",
    "bins": "Bins",
    "setting": "Settings",
    "settings": "Settings",
    "check": "Checks of the log",
    "checks": "Checks of the log",
    "entries": "Entries of the log",
    "plan": "The plan",
    "learned": "What was learned",
}
EFFECTS = {
    Severity.STOPS: "nothing could be read",
    Severity.DROPS_ROW: "the row is left out",
    Severity.DROPS_CELL: "the cell is not used",
    Severity.KEPT: "used as stated",
}


TASKS = {
    **{one.key: one.label for one in (*care.CARE, care.TRAP)},
    **dict((care.LEFTOVERS, care.LOSSES, care.LOOK_AGAIN, care.QUARANTINE)),
    **{one.task: one.label for one in FINDINGS.values() if one.task},
    "sight": "What follows from something that was found",
    **dict((care.CHANGE, care.SPLIT, care.SIFT, care.DECIDE)),
}
"""Every task by its key."""


def table(headings: Iterable[str], rows: Iterable[Iterable[object]]) -> str:
    """One Markdown table; bars inside cells are escaped."""
    heads = list(headings)
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    lines += ["| " + " | ".join(str(cell).replace("|", "\\|") for cell in row) + " |" for row in rows]
    return "\n".join(lines)


def gaps(sentence: str) -> str:
    """Show the gaps of a sentence in italics: ``{heading}`` as *heading*."""
    return sentence.replace("{{", "").replace("{", "*").replace("}", "*").replace("<", "&lt;")


def problems() -> str:
    """Every kind of problem under its area."""
    by_area: dict[str, list[tuple[object, ...]]] = {}
    for code, kind in KINDS.items():
        area = AREAS.get(code.split(".")[0], code.split(".")[0].capitalize())
        by_area.setdefault(area, []).append((gaps(kind.says), gaps(kind.fix), EFFECTS[kind.severity], f"`{code}`"))
    heads = ("What is wrong", "What to do", "What happens", "Code")
    return "\n\n".join(f"## {area}\n\n{table(heads, rows)}" for area, rows in by_area.items())


def fields(which: tuple[Field, ...]) -> str:
    """What a row may hold, with the headings it is known by."""
    rows = (
        (
            f"**{one.label}**",
            one.says,
            one.kind.value + (f" ({one.unit})" if one.unit else ""),
            ", ".join(one.headings),
        )
        for one in which
    )
    return table(("Field", "What belongs there", "Kind", "Headings it is known by"), rows)


def bin_fields() -> str:
    """The columns of a list of bins."""
    return fields(BIN_FIELDS)


def log_fields() -> str:
    """The columns of a log."""
    return fields(LOG_FIELDS)


def acts() -> str:
    """What can be done, and the words for it."""
    return table(
        ("What was done", "Words it is known by"), ((f"**{a.label}**", ", ".join(a.words)) for a in ACTS.values())
    )


def states() -> str:
    """What can be seen, and the words for it."""
    blocks = []
    for name, words in STATES.items():
        rows = ((f"**{word}**", ", ".join(known)) for word, known in words.items())
        blocks.append(f"### {name.capitalize()}\n\n{table(('We say', 'Words it is known by'), rows)}")
    return "\n\n".join(blocks)


def findings() -> str:
    """What follows from each thing that can be found in a bin."""
    wording = Wording()
    rows = (
        (f"**{one.key}**", "", "", "a good sign: shown on *Bins*, no task")
        if one.good
        else (
            f"**{one.key}**",
            f"*{one.label}*, {_after(DEFAULTS[one.days].value, wording)}: {one.do}",
            settled_by(one, wording),
            {"virus": "nothing of it leaves the bin", "pests": "no insect poison in the room"}.get(one.caution, ""),
        )
        for one in FINDINGS.values()
    )
    return table(("Found", "What follows", "Settled once", "Besides"), rows)


def _after(days: float, wording: Wording) -> str:
    return f"{wording.count(days, 'day')} later" if days else "the same day"


def settings() -> str:
    """What can be set."""
    rows = ((f"**{one.label}**", one.says, "yes" if one.scoped else "", ", ".join(one.names)) for one in SETTINGS)
    return table(("Setting", "What it does", "For one species or bin too", "Other names"), rows)


def defaults() -> str:
    """Every number that isn't from the workbook."""
    rows = (
        (
            one.says,
            f"{one.value:g} {one.unit}",
            f"{one.low:g} to {one.high:g}",
            f"[{one.source}](sources.md#{one.source})",
            f"`{key}`",
        )
        for key, one in DEFAULTS.items()
    )
    return table(("What", "Value", "Range", "Source", "Key"), rows)


def exported(name: str) -> str:
    """The columns of an exported table."""
    return ", ".join(f"`{heading}`" for heading in HEADINGS[name])


def act_keys() -> str:
    """The keys of acts in an export."""
    return table(("Key", "What was done"), ((f"`{key}`", act.label) for key, act in ACTS.items()))


def field_keys(which: tuple[Field, ...]) -> str:
    """The keys of fields in an export, with their usual unit."""
    return table(("Key", "Field", "Usual unit"), ((f"`{one.key}`", one.label, one.unit) for one in which))


def bin_field_keys() -> str:
    """The keys of fields of a bin."""
    return field_keys(BIN_FIELDS)


def log_field_keys() -> str:
    """The keys of fields of an entry."""
    return field_keys(LOG_FIELDS)


def task_keys() -> str:
    """The keys of tasks in an export."""
    return table(("Key", "Task"), ((f"`{key}`", label) for key, label in TASKS.items()))


def quantity_keys() -> str:
    """What is estimated, by key."""
    return table(("Key", "What it is", "Unit"), ((f"`{key}`", one.says, one.unit) for key, one in QUANTITIES.items()))


def severities() -> str:
    """What a problem did to the reading, as an export says it."""
    return ", ".join(f"*{one.value}*" for one in Severity if one is not Severity.STOPS)
