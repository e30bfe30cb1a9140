"""A made-up set of findings for tests of the report: an invented keeper of twelve bins, with ordinary disorder."""

import datetime as dt

from tools.learned_sample import estimates
from tools.losses_sample import losses
from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS
from workbook_tools.intake.cells import Area, Cell
from workbook_tools.intake.settings import Settings, SettingValue
from workbook_tools.intake.tables import Heading, Table
from workbook_tools.intake.values import Amount, Fact, Number, When, Words
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.plan.history import History
from workbook_tools.plan.records import Happening, NextChange, SubstrateChange, Task
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.problems import CellRef, Problem
from workbook_tools.report.findings import Findings

ON = dt.date(2026, 3, 14)
NASTY = ("=1+1", "+44 shelf", "@here", "-5 mites", "http://example.org/x", '=HYPERLINK("http://example.org","x")')
"""Texts of a keeper that a program could run."""

_SPECIES = ("Porcellio scaber", "Porcellionides pruinosus", "Armadillidium vulgare", "Cubaris sp. 'Rubber Ducky'")
_BINS = {field.key: field for field in BIN_FIELDS}
_LOG = {field.key: field for field in LOG_FIELDS}


def fact(key, value, row, col=1, sheet="Bins", text=None):
    shown = str(value) if text is None else text
    return Fact(key, value, Cell(CellRef(sheet, row, col), shown, shown))


def a_bin(number, name=None):
    row = number + 3
    facts = {
        "species": fact("species", _SPECIES[number % 4], row, 2),
        "line": fact("line", ("Grey A", "", "Orange, from the old cellar stock", "")[number % 4], row, 3),
        "place": fact("place", f"Shelf {'ABC'[number % 3]}", row, 4),
        "volume": fact("volume", Amount(Number.exactly(5.5 + number % 3), "l"), row, 5),
        "status": fact("status", Words(("quarantine",) if number == 7 else ("active",)), row, 6),
    }
    if number % 5 == 0:
        facts["started"] = fact("started", When(dt.date(2025, 3, 1), dt.date(2025, 3, 31)), row, 7)
    elif number % 5 < 4:
        facts["started"] = fact("started", When.on(dt.date(2024, 11, 2) + dt.timedelta(days=31 * number)), row, 7)
    return Bin(name or f"A{number:02d}", CellRef("Bins", row), facts)


def entries(bins):
    made = []
    row = 5
    for i, name in enumerate(bins):
        for week in range(24):
            acts = ["moss", "feed"] if (i + week) % 3 else ["water", "look", "feed"]
            for act in acts:
                day = ON - dt.timedelta(days=7 * week + i % 5 + 2)
                made.append(Entry(act, When.on(day), (name,), CellRef("Log", row)))
            row += 1
    made.append(
        Entry(
            "count",
            When.on(dt.date(2026, 2, 20)),
            ("A01",),
            CellRef("Log", row),
            {"number": fact("number", Number(50, 40, 60), row, 6, "Log", "~50 under bark")},
        )
    )
    return tuple(sorted(made, key=lambda entry: (entry.when.first, entry.where)))


def tasks(count=12):
    made = []
    kinds = (
        ("moss", "Look at moss corner", 7),
        ("food", "Feed", 4),
        ("leftovers", "Look at leftovers", 1),
        ("substrate", "Look at substrate", 60),
        ("look", "Look the bin over", 7),
        ("calcium", "Give calcium", 30),
    )
    for i in range(count):
        kind, label, every = kinds[i % 6]
        days = (9, 4, 3, 1, 1, 0, 0, 0, -1, -2, -4, -6)[i * 12 // count]
        due = ON - dt.timedelta(days=days)
        last = due - dt.timedelta(days=every)
        why = (
            f"Last done {last.day} {last:%b %Y} ({(ON - last).days} days ago); you do it every {every} days "
            f"(common practice)."
        )
        made.append(
            Task(
                f"A{i % 12 + 1:02d}",
                _SPECIES[(i + 1) % 4],
                f"Shelf {'ABC'[(i + 1) % 3]}",
                kind,
                label,
                due,
                days,
                why,
                None if i == 4 else last,
                (CellRef("Log", 14 + i), CellRef("Log", 40 + 3 * i)),
            )
        )
    return tuple(made)


def _table(sheet, area, role, act, names, fields, body, passed):
    headings = {}
    for col, text in enumerate(names, start=area.left):
        key = fields.get(text)
        kind = _BINS if role == "bins" else _LOG
        cell = Cell(CellRef(sheet, area.top, col), text, text)
        field = kind[key] if key else None
        headings[col] = Heading(cell, text, field, "", 0.0 if field is None else 0.86 if text == "Whre" else 1.0)
    return Table(sheet, area, role, act, headings, tuple(body), passed, why="each row names another bin")


def sample(**changes):
    """Make the findings; keyword arguments replace whole fields."""
    bins = [a_bin(number) for number in range(1, 12)] + [a_bin(12, "A12")]
    bins.append(Bin("=1+1", CellRef("Log", 90), {}, listed=False))
    problems = (
        Problem(
            "bins.unlisted",
            CellRef("Log", 90, 2),
            _facts("bins.unlisted", "=1+1"),
            NASTY[0],
            tuple(CellRef("Log", row, 2) for row in range(91, 104)),
        ),
        Problem("entries.no_date", CellRef("Log", 31, 1), _facts("entries.no_date", "31st Feb"), "31st Feb"),
        Problem("entries.no_date", CellRef("Log", 77, 1), _facts("entries.no_date", "soonish"), "soonish"),
        Problem(
            "words.unknown",
            CellRef("Log", 18, 3),
            _facts("words.unknown", "zhuzhed"),
            "zhuzhed the corner a bit, then left it, and put the leaves back as they had been before the move",
            tuple(CellRef("Log", row, 3) for row in range(20, 600, 3)),
        ),
        *(
            Problem("headings.unknown", CellRef("Bins", 3, 9 + i), _facts("headings.unknown", text), text)
            for i, text in enumerate(NASTY[1:])
        ),
    )
    settings = Settings(
        (
            SettingValue("every.food", "", 3.0, CellRef("Settings", 3, 2)),
            SettingValue("every.moss", "Porcellio scaber", 5.0, CellRef("Settings", 4, 2)),
        )
    )
    names = [bin.name for bin in bins[:12]]
    ledger = Ledger({bin.name: bin for bin in bins}, entries(names), settings, rows_read=1240, rows_used=1238)
    changes_made = tuple(
        SubstrateChange(
            f"A{i:02d}",
            dt.date(2025, 4 + i, 5),
            dt.date(2025, 4 + i, 5) if i != 3 else dt.date(2025, 7, 31),
            ("one side", "full change", "", "=cmd|' /C calc'!A0")[i % 4],
            (0.5, 1.0, None)[i % 3],
            ("straggler tub", "freezer, then bin")[i % 2],
            CellRef("Substrate", 4 + i),
        )
        for i in range(1, 8)
    )
    made = {
        "source": "cellar & shelf.xlsx",
        "on": ON,
        "since": dt.date(2026, 2, 14),
        "region": "en-GB",
        "paper": "A4",
        "ledger": ledger,
        "tables": (
            _table(
                "Bins",
                Area(3, 1, 15, 10),
                "bins",
                "",
                ("Bin", "Who", "Line", "Whre", "=1+1"),
                {"Bin": "name", "Who": "species", "Line": "line", "Whre": "place"},
                range(4, 15),
                {15: "totals row"},
            ),
            _table(
                "Log",
                Area(4, 1, 620, 6),
                "log",
                "feed",
                ("Date", "Box", "Food"),
                {"Date": "when", "Box": "bins", "Food": "food"},
                range(5, 620),
                {19: "a title between rows", 620: "totals row"},
            ),
        ),
        "notes": ("Dates such as 3/4 were read day first, as 14 of them can only be that.",),
        "problems": problems,
        "tasks": tasks(),
        "rhythm": Rhythm(settings),
        "changes": changes_made,
        "next_changes": tuple(
            NextChange(
                f"A{i:02d}",
                ON + dt.timedelta(days=60 * i - 90) if i < 9 else None,
                "Changed 5 May 2025, half of it; substrate lasts about 14 months with a medium appetite."
                if i < 9
                else "No change and no start is written.",
            )
            for i in range(1, 13)
        ),
        "happenings": (
            Happening("A03", dt.date(2026, 2, 20), "animals out", "12 to a friend", CellRef("Log", 55)),
            Happening("A07", dt.date(2026, 3, 1), "quarantine", "=2*3", CellRef("Log", 61)),
            Happening("A12", None, "new bin", "split off A03", CellRef("Bins", 15)),
        ),
        "estimates": estimates(ON, [bin.name for bin in bins]),
        "losses": losses(ON, [bin.name for bin in bins]),
    }
    made |= changes
    return Findings(**{"past": History.of(made["ledger"], made["on"]), **made})


def _facts(code, text):
    from workbook_tools.problems import KINDS

    return {name: 14 if name in ("cells", "count", "number") else text for name in KINDS[code].gaps}
