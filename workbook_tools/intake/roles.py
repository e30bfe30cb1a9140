"""Decide what a table is (list of bins, log, log of one kind of work, settings) and what each heading means."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from workbook_tools.fields import ACTS, BIN_FIELDS, LOG_FIELDS
from workbook_tools.intake.assign import (
    MOST,
    Assigned,
    as_one_question,
    assign,
    for_one_act,
    heading_text,
    with_dates,
    with_movements,
    with_things,
    with_words,
)
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.corrections import NONE, YOURS, Corrections, role_said
from workbook_tools.intake.headings import SCORE_SURE, plain
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.passed import day_rows, passed_over
from workbook_tools.intake.profile import profile
from workbook_tools.intake.regions import Region
from workbook_tools.intake.tables import Role, Table
from workbook_tools.problems import CellRef, Problem

BIN_WORDS = frozenset("bin bins box boxes tub tubs list overview inventory animals colony colonies collection".split())
LOG_WORDS = frozenset("log diary journal record records book entries history care".split())
SETTING_WORDS = frozenset("settings setting setup options preferences rules config rhythm".split())


def act_named(text: str, lexicon: Lexicon) -> str:
    """The act that a sheet name or title names ("Feeding", "Water 2025"), or an empty text."""
    bare = " ".join(word for word in plain(text).split() if word not in LOG_WORDS and not word.isdigit())
    if {"in", "out"} <= {*bare.split()}:
        return ""
    if bare in lexicon.acts:
        return lexicon.acts[bare]
    found = {lexicon.acts[word] for word in bare.split() if len(word) > 2 and word in lexicon.acts}
    return found.pop() if len(found) == 1 else ""


_TOLD = frozenset({"did", "share", "old_went", "note", "thing"})
"""Fields that tell what was done beside those that imply it: a log has one of them."""
_OF_THE_ROOM = frozenset({"room", "house", "stock"})
"""Acts that are of no bin: a log that names bins isn't one of them, whatever its title says."""
_SOIL = frozenset({"substrate", "soil", "dirt"})


def _table_act(region: Region, log: Assigned, lexicon: Lexicon) -> str:
    """The one act that a log without a column of acts records."""
    keys = {head.field.key for head in log.headings.values() if head.field}
    if region.sheet.rows_at and "did" in keys:
        return ""
    for text in (region.title, region.sheet.name):
        if _SOIL.intersection(plain(text).split()):
            return (
                "substrate_change" if keys & {"share", "old_went"} else "substrate_look" if "substrate" in keys else ""
            )
        act = act_named(text, lexicon)
        if act and not (ACTS[act].key in _OF_THE_ROOM and "bins" in keys):
            return act
    told = any(head.field and head.field.implies for head in log.headings.values())
    return "substrate_change" if keys & {"share", "old_went"} and "did" not in keys and not told else ""


def recognise(region: Region, lexicon: Lexicon, corrections: Corrections = NONE) -> tuple[Table, list[Problem]]:
    """Decide what a table is and what its headings mean.

    A log has a date and repeats its bins; a list of bins names each once. Words in the sheet's name and in the title
    help where the headings leave it open. What the keeper's corrections say goes before all that.
    """
    area = region.area
    body: dict[int, dict[int, Cell]] = {}
    for (row, col), cell in sorted(region.sheet.cells.items()):
        if region.heading_row < row <= area.bottom and area.left <= col <= area.right:
            body.setdefault(row, {})[col] = cell
    columns = {col: [cells[col] for cells in body.values() if col in cells] for col in region.headings}
    profiles = {col: profile(cells) for col, cells in columns.items()}
    texts = {col: heading_text(region, col) for col in region.headings}
    said = corrections.headings(region.sheet.name, region.title, texts)
    taken = role_said(corrections.table(region.sheet.name, texts.values()))
    log = with_things(with_dates(assign(region, LOG_FIELDS, "log", profiles, said), profiles))
    log = with_words(log, columns, lexicon)
    bins = assign(region, BIN_FIELDS, "bins", profiles, said)
    hints = {word for text in (region.sheet.name, region.title) for word in plain(text).split()}
    log, act = for_one_act(log, taken[1] if taken else _table_act(region, log, lexicon), columns, lexicon)
    log = log if act else with_movements(log, profiles)
    name_col, when_col, bins_col = bins.column("name"), log.column("when"), log.column("bins")
    score_bins = bins.score + (1.0 if hints & BIN_WORDS else 0.0)
    score_log = log.score + (1.0 if hints & LOG_WORDS or act else 0.0)
    score_bins += (
        (2.0 * (profiles[name_col].unlike - 0.8) / 0.2 if profiles[name_col].filled else 0.0) if name_col else -9.0
    )
    dated = bool(when_col) and (log.headings[when_col].score >= SCORE_SURE or log.headings[when_col].said)
    of_days = when_col and profiles[when_col].dates >= 0.3
    score_log += (1.0 if dated else 0.0) if of_days else -1.5 if when_col else -6.0
    score_bins -= 1.0 if dated and of_days and bins.headings[when_col].field is None else 0.0
    score_log += 0.5 if bins_col else -0.5
    told = act or any(head.field and (head.field.implies or head.field.key in _TOLD) for head in log.headings.values())
    score_log -= 0.0 if told else 2.0
    score_log += 3.0 if dated and when_col == min(region.headings) and profiles[when_col].dates >= MOST else 0.0
    log, bins = as_one_question(log, columns), as_one_question(bins, columns)
    chosen, why = (bins, "each row names another bin") if score_bins >= score_log else (log, "rows have a date")
    if taken:
        chosen, why = (bins if taken[0] == "bins" else log), YOURS
    used = [head for head in chosen.headings.values() if head.field]
    problems: list[Problem] = []
    role: Role = chosen.role
    key_columns = [
        col for col, head in chosen.headings.items() if head.field and head.field.key in ("name", "bins", "when")
    ]
    if taken and taken[0] == "unused":
        role = "unused"
    elif not used or not key_columns or (role == "log" and not when_col):
        role, why = "unused", "no column of bins or dates was found"
        problems.append(
            Problem(
                "tables.not_used",
                CellRef(region.sheet.name, area.top, area.left),
                {"area": str(area), "missing": "dates" if used and key_columns else "bins or dates"},
                " | ".join(cell.text for cell in region.headings.values())[:200],
            )
        )
    if role == "log" and act and not taken:
        why = f"rows have a date; every row is '{ACTS[act].label}'"
    if region.title:
        why = f"{why}; its title is '{region.title}'"
    days = day_rows(body, when_col) if role == "log" else {}
    passed = passed_over(region, {r: cells for r, cells in body.items() if r not in days}, key_columns, role)
    table = Table(
        region.sheet.name,
        area,
        role,
        act if role == "log" else "",
        chosen.headings,
        tuple(row for row in body if row not in passed and row not in days) if role != "unused" else (),
        passed,
        region.sheet.hidden,
        why,
        days,
        title=region.title,
    )
    problems.extend(_heading_problems(table, columns))
    return table, problems


def _heading_problems(table: Table, columns: Mapping[int, Sequence[Cell]]) -> list[Problem]:
    """Name headings that were guessed or aren't used although there is something below them."""
    if table.role == "unused":
        return []
    problems = []
    for col, head in table.headings.items():
        if head.said and (head.field is not None or head.other is None):
            continue
        if head.other is not None and head.field is not None:
            told = {"heading": head.text, "field": head.field.label, "other": head.other[1].text}
            problems.append(Problem("headings.one_question", head.cell.ref, told, head.text))
        elif head.other is not None and columns.get(col):
            field, other = head.other
            facts = {"heading": head.text, "field": field.label, "other": other.text, "cells": len(columns[col])}
            problems.append(Problem("headings.taken", head.cell.ref, facts, head.text))
        elif head.field is None and columns.get(col):
            problems.append(
                Problem(
                    "headings.unknown", head.cell.ref, {"heading": head.text, "cells": len(columns[col])}, head.text
                )
            )
        elif head.field is not None and head.score < SCORE_SURE:
            problems.append(
                Problem("headings.guessed", head.cell.ref, {"heading": head.text, "field": head.field.label}, head.text)
            )
    return problems
