"""Decide what a table is (list of bins, log, log of one kind of work, settings) and what each heading means."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from workbook_tools.fields import ACTS, BIN_FIELDS, LOG_FIELDS, Field
from workbook_tools.intake.cells import Area, Cell
from workbook_tools.intake.headings import SCORE_SURE, SCORE_USED, candidates, normalise, plain
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.profile import Profile, fits, profile
from workbook_tools.intake.regions import Region
from workbook_tools.intake.tables import Heading, Role, Table
from workbook_tools.problems import CellRef, Problem

REPEATABLE = frozenset({"note", "plan", "seen", "species"})
"""Fields that several columns of one table may fill."""
BIN_WORDS = frozenset("bin bins box boxes tub tubs list overview inventory animals colony colonies collection".split())
LOG_WORDS = frozenset("log diary journal record records book entries history care".split())
SETTING_WORDS = frozenset("settings setting setup options preferences rules config rhythm".split())
TOTALS = frozenset(
    "total totals sum sums subtotal subtotals sub subs average averages mean grand overall together".split()
)


@dataclass(frozen=True)
class _Assigned:
    role: Role
    headings: Mapping[int, Heading]
    score: float


def _assign(region: Region, fields: Sequence[Field], role: Role, profiles: Mapping[int, Profile]) -> _Assigned:
    """Give each column its best field, the surest first, each field once unless it is repeatable."""
    offers = []
    for col, cell in region.headings.items():
        for likeness, field in candidates(cell.text, region.groups.get(col, ""), fields):
            suited = likeness * fits(profiles[col], field)
            if suited >= SCORE_USED:
                offers.append((suited, -col, field, likeness))
    offers.sort(key=lambda offer: (-offer[0], -offer[1]))
    chosen: dict[int, tuple[float, Field]] = {}
    taken: set[str] = set()
    total = 0.0
    for suited, negative, field, likeness in offers:
        if -negative in chosen or (field.key in taken and field.key not in REPEATABLE):
            continue
        chosen[-negative] = (likeness, field)
        taken.add(field.key)
        total += suited
    headings = {}
    for col, cell in region.headings.items():
        label = region.groups.get(col, "")
        text = f"{label} {cell.text}".strip() if label else cell.text
        found = chosen.get(col)
        if found:
            why = "" if found[0] >= SCORE_SURE else f"much like '{found[1].label}'"
            headings[col] = Heading(cell, text, found[1], normalise(cell.text).unit, round(min(found[0], 1.0), 2), why)
        else:
            headings[col] = Heading(cell, text, None, score=0.0, why="not used")
    return _Assigned(role, headings, total)


def _column(assigned: _Assigned, key: str) -> int:
    return next((col for col, head in assigned.headings.items() if head.field and head.field.key == key), 0)


def act_named(text: str, lexicon: Lexicon) -> str:
    """The act that a sheet name or title names ("Feeding", "Water 2025"), or an empty text."""
    bare = " ".join(word for word in plain(text).split() if word not in LOG_WORDS and not word.isdigit())
    if bare in lexicon.acts:
        return lexicon.acts[bare]
    found = {lexicon.acts[word] for word in bare.split() if len(word) > 2 and word in lexicon.acts}
    return found.pop() if len(found) == 1 else ""


_SOIL = frozenset({"substrate", "soil", "dirt"})


def _table_act(region: Region, log: _Assigned, lexicon: Lexicon) -> str:
    """The one act that a log without a column of acts records."""
    keys = {head.field.key for head in log.headings.values() if head.field}
    if "did" in keys:
        return ""
    for text in (region.title, region.sheet.name):
        if _SOIL.intersection(plain(text).split()):
            return (
                "substrate_change" if keys & {"share", "old_went"} else "substrate_look" if "substrate" in keys else ""
            )
        act = act_named(text, lexicon)
        if act:
            return act
    if keys & {"share", "old_went"}:
        return "substrate_change"
    return ""


def _passed_over(region: Region, cells: Mapping[int, Mapping[int, Cell]], keys: Sequence[int]) -> dict[int, str]:
    """Body rows that are no data: titles, totals, the example."""
    reasons: dict[int, str] = {}
    for row, filled in cells.items():
        texts = [plain(cell.text) for cell in filled.values() if isinstance(cell.value, str)]
        key_texts = [plain(filled[col].text) for col in keys if col in filled]
        words = [word for text in texts for word in text.split()[:2]]
        named = [text for text in key_texts if not TOTALS.intersection(text.split()[:2])]
        if any(text.startswith("example") for text in key_texts):
            reasons[row] = "example row"
        elif TOTALS.intersection(words) and not named:
            reasons[row] = "totals row"
        elif _is_title(region, filled, keys):
            reasons[row] = "a title between rows"
    return reasons


def _is_title(region: Region, filled: Mapping[int, Cell], keys: Sequence[int]) -> bool:
    """Whether a row holds one text in its first column that is no bin: '== Rollers ==', 'Kitchen shelf, top'."""
    if len(filled) != 1 or len(region.headings) < 3:
        return False
    col, cell = next(iter(filled.items()))
    if col != region.area.left or not isinstance(cell.value, str):
        return False
    return col not in keys or len(plain(cell.text).split()) > 2 or "=" in cell.text


def recognise(region: Region, lexicon: Lexicon) -> tuple[Table, list[Problem]]:
    """Decide what a table is and what its headings mean.

    A log has a date and repeats its bins; a list of bins names each once. Words in the sheet's name and in the title
    help where the headings leave it open.
    """
    area = region.area
    body: dict[int, dict[int, Cell]] = {}
    for (row, col), cell in sorted(region.sheet.cells.items()):
        if region.heading_row < row <= area.bottom and area.left <= col <= area.right:
            body.setdefault(row, {})[col] = cell
    columns = {col: [cells[col] for cells in body.values() if col in cells] for col in region.headings}
    profiles = {col: profile(cells) for col, cells in columns.items()}
    log = _assign(region, LOG_FIELDS, "log", profiles)
    bins = _assign(region, BIN_FIELDS, "bins", profiles)
    hints = {word for text in (region.sheet.name, region.title) for word in plain(text).split()}
    act = _table_act(region, log, lexicon)
    name_col, when_col, bins_col = _column(bins, "name"), _column(log, "when"), _column(log, "bins")
    score_bins = bins.score + (1.0 if hints & BIN_WORDS else 0.0)
    score_log = log.score + (1.0 if hints & LOG_WORDS or act else 0.0)
    score_bins += (
        (2.0 * (profiles[name_col].unlike - 0.8) / 0.2 if profiles[name_col].filled else 0.0) if name_col else -9.0
    )
    score_log += 1.0 if when_col and profiles[when_col].dates >= 0.3 else -1.5 if when_col else -6.0
    score_log += 0.5 if bins_col else -0.5
    chosen, why = (bins, "each row names another bin") if score_bins >= score_log else (log, "rows have a date")
    used = [head for head in chosen.headings.values() if head.field]
    problems: list[Problem] = []
    role: Role = chosen.role
    key_columns = [
        col for col, head in chosen.headings.items() if head.field and head.field.key in ("name", "bins", "when")
    ]
    if not used or not key_columns or (role == "log" and not when_col):
        role, why = "unused", "no column of bins or dates was found"
        problems.append(
            Problem(
                "tables.not_used",
                CellRef(region.sheet.name, area.top, area.left),
                {"area": area_text(area)},
                " | ".join(cell.text for cell in region.headings.values())[:200],
            )
        )
    if role == "log" and act:
        why = f"rows have a date; every row is '{ACTS[act].label}'"
    if region.title:
        why = f"{why}; its title is '{region.title}'"
    passed = _passed_over(region, body, key_columns) if role != "unused" else {}
    table = Table(
        region.sheet.name,
        area,
        role,
        act if role == "log" else "",
        chosen.headings,
        tuple(row for row in body if row not in passed) if role != "unused" else (),
        passed,
        region.sheet.hidden,
        why,
    )
    problems.extend(_heading_problems(table, columns))
    return table, problems


def area_text(area: Area) -> str:
    """An area as a spreadsheet writes it: B3:H40."""
    return f"{CellRef('', area.top, area.left)}:{CellRef('', area.bottom, area.right)}"


def _heading_problems(table: Table, columns: Mapping[int, Sequence[Cell]]) -> list[Problem]:
    """Name headings that were guessed or aren't used although there is something below them."""
    if table.role == "unused":
        return []
    problems = []
    for col, head in table.headings.items():
        if head.field is None and columns.get(col):
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
