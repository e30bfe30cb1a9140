"""Moves between bins that a free cell tells of: what leaves one bin and has a place to go arrives there."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from openpyxl import Workbook

from workbook_tools.pipeline import find

ON = dt.date(2026, 5, 1)


def animals(folder: Path, *rows: tuple[str, str]) -> dict[str, int]:
    """The animals that each bin is thought to hold, to the nearest whole one, in a log that begins with a count."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Log"
    sheet.append(["Date", "Bin", "What I did"])
    told = [("B1", "set up with 40 animals"), ("B2", "set up with 20 animals"), *rows]
    for at, (name, text) in enumerate(told):
        sheet.append([dt.date(2026, 4, 1) + dt.timedelta(days=at), name, text])
    path = folder / "book.xlsx"
    book.save(path)
    ledger = find(path, ON).ledger
    moved = dict.fromkeys(ledger.bins, 0)
    for entry in ledger.entries:
        number = entry.facts.get("number")
        if entry.act in ("animals_out", "animals_in", "split") and number is not None:
            source = entry.text("from_bin") or ("" if entry.act == "animals_in" else entry.bins[0])
            target = entry.text("to_bin") or (entry.bins[0] if entry.act == "animals_in" else "")
            for name, sign in ((source, -1), (target, 1)):
                if name in moved:
                    moved[name] += sign * round(number.value.best)
    return moved


@pytest.mark.parametrize(
    ("row", "moved"),
    [
        (("B1", "moved 7 to B2"), {"B1": -7, "B2": 7}),
        (("B2", "7 moved from B1 to B2"), {"B1": -7, "B2": 7}),
        (("B1", "7 moved from B1 to B2"), {"B1": -7, "B2": 7}),
        (("B2", "7 from B1"), {"B1": -7, "B2": 7}),
        (("B1", "B1 -> B2 x7"), {"B1": -7, "B2": 7}),
        (("B1", "split 7 into B2"), {"B1": -7, "B2": 7}),
        (("B1", "7 out to b2"), {"B1": -7, "B2": 7}),
        (("B1", "sold 7"), {"B1": -7, "B2": 0}),
        (("B1", "7 in from a friend"), {"B1": 7, "B2": 0}),
    ],
)
def test_what_leaves_one_bin_arrives_in_the_other(tmp_path, row, moved):
    assert animals(tmp_path, row) == moved


def test_a_bin_renamed_in_words_is_one_bin(tmp_path):
    assert set(animals(tmp_path, ("B1", "renamed B1 to B7"), ("B7", "moved 5 to B2"))) == {"B7", "B2"}
