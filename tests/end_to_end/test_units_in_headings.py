"""Each unit in a heading and in a cell, through the whole reader."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from openpyxl import Workbook
from pint import UnitRegistry

from workbook_tools.intake.values import Amount
from workbook_tools.pipeline import read

UNITS = UnitRegistry()
VOLUMES = {
    "ml": "milliliter", "cl": "centiliter", "dl": "deciliter", "litres": "liter", "fl oz": "fluid_ounce",
    "pints": "pint", "gallons": "gallon", "uk gallons": "imperial_gallon", "tsp": "teaspoon",
}  # fmt: skip
MASSES = {"g": "gram", "grams": "gram", "kg": "kilogram", "ounces": "ounce", "lbs": "pound", "mg": "milligram"}
COLUMNS = {
    "water": ("Water", "ml", VOLUMES), "leaf": ("Leaf litter", "l", VOLUMES), "litter": ("Leaf litter", "g", MASSES),
    "feed": ("Food", "g", MASSES),
}  # fmt: skip


def amounts(folder: Path, heading: str, cell: str | float) -> tuple[set[str], list[Amount]]:
    """The acts of a log with one column beside date and bin, and the amounts of its first row."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Log"
    sheet.append(["Date", "Bin", heading])
    for day in (4, 11, 18):
        sheet.append([dt.date(2026, 3, day), "A1", cell])
    path = folder / "book.xlsx"
    book.save(path)
    entries = read(path, dt.date(2026, 4, 1)).ledger.entries
    found = [fact.value for fact in entries[0].facts.values() if isinstance(fact.value, Amount)] if entries else []
    return {entry.act for entry in entries}, found


@pytest.mark.parametrize(
    ("act", "unit", "place"),
    [
        (act, unit, place)
        for act, (_, _, units) in COLUMNS.items()
        for unit in units
        for place in ("heading", "brackets", "cell")
        if not (act == "feed" and place == "cell") and not (act == "litter" and unit == "ounces")
    ],
)
def test_an_amount_is_the_same_whether_its_unit_stands_in_the_heading_or_in_the_cell(tmp_path, act, unit, place):
    name, kept, units = COLUMNS[act]
    heading = {"heading": f"{name} {unit}", "brackets": f"{name} ({unit})", "cell": name}[place]

    acts, found = amounts(tmp_path, heading, f"3 {unit}" if place == "cell" else 3)

    wanted = UNITS.Quantity(3, units[unit]).to({"l": "liter", "ml": "milliliter", "g": "gram"}[kept]).magnitude
    assert acts == {"leaf" if act == "litter" else act}
    assert [(one.unit, one.number.best) for one in found] == [(kept, pytest.approx(wanted, rel=1e-9))]


def test_no_food_is_no_feeding(tmp_path):
    acts, _ = amounts(tmp_path, "Food (g)", 0)

    assert "feed" not in acts
