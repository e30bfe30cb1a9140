"""Make the demo: cellar-bins.xlsx, a keeper's own workbook, and truth.json, what is true about it.

Run as ``python demo/make_demo.py``. The keeper, the bins and every entry are invented. The same run gives the same
files.
"""

from __future__ import annotations

import datetime as dt
import json
import sys
from pathlib import Path
from random import Random

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))

import xlsxwriter  # noqa: E402
from diary import Row, Year, eighteen_months  # noqa: E402
from disorder import SHEETS, disorder  # noqa: E402
from scenario import FIRST, LAST, REPORT_ON, START_NUMBER, Bin  # noqa: E402
from stragglers import stragglers  # noqa: E402
from xlsxwriter.utility import xl_rowcol_to_cell  # noqa: E402
from xlsxwriter.workbook import Workbook, Worksheet  # noqa: E402

NAME = "cellar-bins.xlsx"
COLUMNS = {
    "Diary": (
        ("date", "Date", 11),
        ("day", "Day", 6),
        ("box", "Box", 15),
        ("did", "What I did", 22),
        ("moss", "Moss corner", 12),
        ("ml", "Water (ml)", 10),
        ("leftovers", "Left over", 10),
        ("leaves", "Leaves", 9),
        ("count", "Count", 8),
        ("way", "Way", 11),
        ("babies", "Babies", 7),
        ("dead", "Dead", 6),
        ("seen", "Noticed", 13),
        ("soil", "Soil", 13),
        ("temp", "Temp", 7),
        ("hum", "Hum", 6),
        ("to", "To", 6),
        ("", "", 3),
        ("who", "By", 5),
        ("note", "Note", 30),
        ("min", "Minutes", 8),
    ),
    "Feeding": (("date", "Date", 11), ("box", "Box", 15), ("food", "Food", 14), ("amount", "How much (g)", 12)),
    "Soil changes": (
        ("date", "Date", 11),
        ("box", "Box", 15),
        ("share", "Replaced", 10),
        ("way", "How", 24),
        ("went", "Old soil to", 14),
        ("mix", "New mix (L)", 11),
    ),
}
SETTINGS = (
    ("Round days", "", "Tue, Wed, Sat, Sun"),
    ("Moss every", "", "7 days"),
    ("Moss every", "Oniscus asellus", "5 days"),
    ("Feed every", "", "4 days"),
    ("Count every", "", "90 days"),
    ("A handful is", "", "0.5 L"),
    ("Dates are", "", "day-month"),
    ("Region", "", "en-GB"),
)
REMARKS = {
    "A02": "keep apart from A01",
    "B06": "=1 spare lid",
    "C04": "lid warps when warm",
    "Tub": "old soil waits here",
}
OWN_WORDS = (("spritz", "Water"), ("chalked", "Give calcium"), ("crunchy", "dry"))


class Book:
    """The workbook being written, and the disordered cells met on the way."""

    def __init__(self, path: Path) -> None:
        self.file: Workbook = xlsxwriter.Workbook(
            path, {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
        )
        self.file.set_properties({"title": "My bins", "created": dt.datetime.fromisoformat("2026-11-22T20:00:00")})
        self.title = self.file.add_format({"bold": True, "font_size": 14})
        self.bold = self.file.add_format({"bold": True, "bottom": 1, "text_wrap": True})
        self.date = self.file.add_format({"num_format": "dd/mm/yyyy", "align": "left"})
        self.month = self.file.add_format({"num_format": "mmm yyyy", "align": "left"})
        self.odd: list[dict[str, object]] = []

    def put(self, sheet: Worksheet, row: int, col: int, value: object) -> None:
        """Write one cell by its kind."""
        if value is None or value == "":
            return
        if isinstance(value, dt.date):
            done = sheet.write_datetime(row, col, value, self.date)
        elif isinstance(value, (int, float)):
            done = sheet.write_number(row, col, value)
        else:
            done = sheet.write_string(row, col, str(value))
        if done:
            raise ValueError(f"{sheet.name} {row} {col}: {value!r} was not written")

    def note_odd(self, sheet: Worksheet, row: int, col: int, written: object, means: object) -> None:
        """Keep what a disordered cell means, by its address."""
        self.odd.append(
            {"sheet": sheet.name, "cell": xl_rowcol_to_cell(row, col), "written": str(written), "means": plain(means)}
        )

    def headings(self, sheet: Worksheet, row: int, left: int, names: tuple[str, ...]) -> None:
        for col, name in enumerate(names, start=left):
            if name:
                sheet.write_string(row, col, name, self.bold)


def plain(value: object) -> object:
    """Turn dates into text for the truth file."""
    if isinstance(value, dt.date):
        return value.isoformat()
    return [plain(item) for item in value] if isinstance(value, (list, tuple)) else value


def month(day: dt.date | None) -> str:
    """A day as the keeper remembers it: by its month."""
    return f"{day:%b} {day.year}" if day else ""


def cellar(book: Book, bins: list[Bin]) -> None:
    """One room: a merged title, headings in row 3, a blank row between shelves, ditto marks, an error cell."""
    sheet = book.file.add_worksheet("Cellar")
    sheet.merge_range(0, 0, 0, 10, "CELLAR - shelves A to D", book.title)
    book.headings(
        sheet,
        2,
        0,
        (
            "Bin",
            "Species",
            "Line",
            "Shelf",
            "Size (L)",
            "Vents",
            "Since",
            "Started with",
            "Status",
            "Soil changed",
            "Remarks",
        ),
    )
    sheet.set_column(1, 2, 24)
    row, before = 3, None
    for one in sorted(bins, key=lambda b: (b.place, b.name)):
        if before and one.place != before.place:
            row += 1
            before = None
        vents = '"' if before and before.air == one.air else one.air
        values = (one.name, one.species, one.line, one.place, one.litres, vents)
        remark = REMARKS.get(one.name, "" if len(one.came_from) > 3 else f"off {one.came_from}")
        values += (one.started, one.founders or None, one.status, month(one.soil_changed), remark)
        for col, value in enumerate(values):
            if one.name == "B03" and col == 4:
                sheet.write_formula(row, col, "=NA()", None, "#N/A")
                book.note_odd(sheet, row, col, "#N/A", f"{one.litres} L")
            elif one.name == "D03" and col == 4:
                book.put(sheet, row, col, f"{one.litres} l".replace(".", ","))
                book.note_odd(sheet, row, col, f"{one.litres} l".replace(".", ","), f"{one.litres} L")
            else:
                book.put(sheet, row, col, value)
        if vents == '"':
            book.note_odd(sheet, row, 5, '"', one.air)
        row, before = row + 1, one


def spare_room(book: Book, bins: list[Bin]) -> None:
    """The other room: an empty first column, other headings in another order, an empty column, a totals row."""
    sheet = book.file.add_worksheet("Spare room")
    names = (
        "Code",
        "Where",
        "Kind",
        "Strain",
        "Box l",
        "Air",
        "Got from",
        "Start",
        "Start qty",
        "",
        "Eats",
        "State",
        "New soil",
    )
    book.headings(sheet, 1, 1, (*names, "Notes"))
    sheet.set_column(2, 4, 22)
    row = 2
    for one in sorted(bins, key=lambda b: b.name):
        start: object = one.started
        if row % 5 == 0 and one.started < FIRST:
            start = month(one.started)
            book.note_odd(sheet, row, 8, start, f"some day of {start}")
        values = (one.name, one.place, one.species, one.line, one.litres, one.air, one.came_from, start)
        values += (one.founders, None, one.kind.appetite, "qt" if one.status == "quarantine" else one.status)
        values += (month(one.soil_changed),)
        for col, value in enumerate(values, start=1):
            book.put(sheet, row, col, value)
        row += 1
    sheet.write_string(row, 1, "TOTAL", book.bold)
    sheet.write_formula(row, 9, f"=SUM(J3:J{row})", book.bold, sum(one.founders for one in bins))
    book.note_odd(sheet, row, 1, "TOTAL", "a totals row, no bin")


def log(book: Book, name: str, rows: list[Row]) -> None:
    """One log sheet, oldest row on top; the Diary has a blank row between months."""
    sheet = book.file.add_worksheet(name)
    columns = COLUMNS[name]
    book.headings(sheet, 0, 0, tuple(heading for _, heading, _ in columns))
    sheet.freeze_panes(1, 0)
    for col, (_, _, width) in enumerate(columns):
        sheet.set_column(col, col, width)
    at, month = 1, None
    for row in rows:
        if name == "Diary" and month not in (None, row.day.month):
            at += 1
        month = row.day.month
        cells: dict[str, object] = {"date": row.day, "box": row.bins[0] if row.bins else "", **row.cells}
        if name == "Diary":
            cells.setdefault("day", f"{row.day:%a}")
        for col, (key, _, _) in enumerate(columns):
            book.put(sheet, at, col, cells.get(key))
            if key in row.truth:
                book.note_odd(sheet, at, col, cells.get(key), row.truth[key])
        at += 1
    if name == "Diary":
        sheet.write_comment(0, 9, "full sort / under bark / trap")


def set_up(book: Book) -> None:
    """A small sheet of settings and, below it, the keeper's own words."""
    sheet = book.file.add_worksheet("Set-up")
    sheet.set_column(0, 2, 20)
    book.headings(sheet, 0, 0, ("Setting", "For", "Value"))
    for at, line in enumerate(SETTINGS, start=1):
        for col, value in enumerate(line):
            book.put(sheet, at, col, value)
    top = len(SETTINGS) + 3
    book.headings(sheet, top, 0, ("Word", "Means"))
    for at, line in enumerate(OWN_WORDS, start=top + 1):
        for col, value in enumerate(line):
            book.put(sheet, at, col, value)


def make(folder: Path) -> None:
    """Write the workbook and its truth into a folder."""
    year = eighteen_months(Random(START_NUMBER))
    rows = disorder(year, Random(START_NUMBER + 1))
    sifted, left = stragglers(year, Random(START_NUMBER + 2))
    rows = sorted(rows + sifted, key=lambda row: row.day)
    book = Book(folder / NAME)
    cellar(book, [one for one in year.bins if one.name[0] != "S"])
    spare_room(book, [one for one in year.bins if one.name[0] == "S"])
    for name in SHEETS:
        log(book, name, [row for row in rows if row.sheet == name])
    set_up(book)
    book.file.close()
    (folder / "truth.json").write_text(truth(year, rows, left, book), encoding="utf-8", newline="\n")


def truth(year: Year, rows: list[Row], left: list[dict[str, object]], book: Book) -> str:
    """Say in JSON what is true: bins with hidden rates, what rows record, old substrate, every disordered cell."""
    bins = [
        {
            "name": one.name,
            "species": one.species,
            "line": one.line,
            "place": one.place,
            "litres": one.litres,
            "status": one.status,
            "started": one.started.isoformat(),
            "came_from": one.came_from,
            "soil_changed_before_the_log": plain(one.soil_changed),
            "drying_days": one.dry_days,
            "growth_a_month": one.growth,
            "food_mg_a_day_each": round(one.kind.food_mg * one.appetite, 3),
            "month_number_recognisable": one.numbers,
        }
        for one in year.bins
    ]
    acts = [
        [row.day.isoformat(), list(row.bins), {act: plain(value) for act, value in row.acts}]
        for row in rows
        if row.acts
    ]
    facts = {"first": FIRST.isoformat(), "last": LAST.isoformat(), "report_on": REPORT_ON.isoformat()}
    parts = [f'"{key}": "{value}"' for key, value in facts.items()]
    parts.append(f'"rows": {json.dumps({name: sum(row.sheet == name for row in rows) for name in SHEETS})}')
    for key, items in (("bins", bins), ("acts", acts), ("old_substrate", left), ("disorder", book.odd)):
        lines = ",\n".join(json.dumps(item, ensure_ascii=False, separators=(",", ":")) for item in items)
        parts.append(f'"{key}": [\n{lines}\n]')
    return "{\n" + ",\n".join(parts) + "\n}\n"


if __name__ == "__main__":
    make(HERE)
    print(f"Made {HERE / NAME}")
