"""The ordinary disorder of the demo: how this keeper writes cells, and what each of them means."""

from __future__ import annotations

import datetime as dt
from random import Random

from diary import Row, Year

SHEETS = ("Diary", "Feeding", "Soil changes")


def say(row: Row, heading: str, written: object, means: object) -> None:
    """Write a cell in a disorderly way and keep what it means."""
    row.cells[heading] = written
    row.truth[heading] = means


def dates(rows: list[Row], chance: Random) -> None:
    """Some dates are typed as text, in several ways, some without their year; one month is full of ditto marks."""
    before: dict[str, dt.date] = {}
    for row in rows:
        day, draw = row.day, chance.random()
        if row.sheet == "Feeding" and (day.year, day.month) == (2026, 2) and before.get(row.sheet) == day:
            say(row, "date", '"', day)
        elif draw < 0.012:
            say(row, "date", f"{day.day}/{day.month}/{day.year}", day)
        elif draw < 0.022:
            say(row, "date", f"{day.day:02d}.{day.month:02d}.{day.year % 100:02d}", day)
        elif draw < 0.030:
            say(row, "date", f"{day.day}/{day.month}", day)
        elif draw < 0.034:
            say(row, "date", f"{day.day} {day:%B}", day)
        elif draw < 0.037:
            say(row, "date", (day - dt.date(1899, 12, 30)).days, day)
        before[row.sheet] = day


def names(rows: list[Row], chance: Random) -> None:
    """Bin names in other letters, without the nought, or with a dash."""
    for row in rows:
        if len(row.bins) != 1 or row.bins[0] == "Tub" or chance.random() > 0.04:
            continue
        name = row.bins[0]
        short = f"{name[0]}{int(name[1:])}"
        say(row, "box", chance.choice((name.lower(), short, f"{name[0]}-{name[1:]}", f"{name[0]} {name[1:]}")), [name])


def amounts(rows: list[Row], chance: Random) -> None:
    """Amounts as a hand writes them: handfuls, halves, decimal commas, about so much."""
    leaf = {0.25: "1/4 L", 0.5: "½ L", 1.0: "1 L", 1.5: "1,5 L"}
    for row in rows:
        litres, grams, ml = row.cells.get("leaves"), row.cells.get("amount"), row.cells.get("ml")
        draw = chance.random()
        if litres == 0.5 and draw < 0.4:
            say(row, "leaves", "handful", "0.5 L, as the Set-up sheet says")
        elif isinstance(litres, float) and draw < 0.7:
            say(row, "leaves", leaf[litres], f"{litres} L")
        elif isinstance(grams, float) and draw < 0.03:
            say(row, "amount", str(grams).replace(".", ","), f"{grams} g")
        elif isinstance(grams, float) and grams == 4.0:
            say(row, "amount", "1 slice", "4 g")
        elif isinstance(ml, int) and draw < 0.02:
            say(row, "ml", f"~{ml}", f"about {ml} ml")
        elif isinstance(ml, int) and ml == 20 and draw < 0.1:
            say(row, "ml", "splash", "20 ml")
        temp = row.cells.get("temp")
        if temp and draw < 0.3:
            say(row, "temp", str(temp).replace(".", ","), f"{temp} C")


def words(rows: list[Row], chance: Random) -> None:
    """The keeper's own words, explained on the Set-up sheet, and other ways of joining several jobs."""
    for row in rows:
        did, draw = str(row.cells.get("did", "")), chance.random()
        if row.cells.get("moss") == "dry" and draw < 0.2:
            say(row, "moss", "crunchy", "dry")
        if did == "calcium" and draw < 0.5:
            say(row, "did", "chalked", "calcium")
        elif "water" in did and draw < 0.08:
            say(row, "did", did.replace("water", "spritz"), did)
        elif " + " in did and draw < 0.3:
            row.cells["did"] = did.replace(" + ", ", ")


def extra_rows(year: Year) -> list[Row]:
    """Rows that are there once: each a trap that ordinary workbooks hold."""
    rows = []

    def add(day: tuple[int, int, int], bins: tuple[str, ...], acts: list[tuple[str, object]], **cells: object) -> Row:
        row = Row("Diary", dt.date(*day), bins, dict(cells), acts)
        rows.append(row)
        return row

    row = add((2026, 3, 14), ("S12", "S13"), [("water", 30)], did="spritz", ml=30)
    say(row, "box", "12+13", ["S12", "S13"])
    row = add((2026, 4, 11), ("A03", "A04"), [("look", None)], did="look")
    say(row, "box", "A3 & A4", ["A03", "A04"])
    row = add((2026, 5, 9), (), [], did="look", note="which one was this?")
    say(row, "box", "E03", "no such bin")
    row = add((2026, 2, 28), ("B02",), [("look", None)], did="look")
    say(row, "temp", "toasty", "no temperature")
    for day in ((2026, 1, 10), (2026, 6, 20), (2026, 9, 12)):
        row = add(day, ("B04",), [], did="fettled", note="lid hinge")
        say(row, "did", "fettled", "a word explained nowhere")
    row = add((2026, 7, 11), ("C03",), [("note", None)], did="note")
    say(row, "note", "=> see Feeding", "text that begins with an equals sign")
    row = add((2026, 10, 17), ("A05",), [("water", 40)], did="water")
    say(row, "ml", 4000, "40 ml with two noughts too many")
    row = add((2026, 11, 21), ("D02",), [], did="look")
    say(row, "date", dt.date(2027, 11, 21), "2026-11-21 with the wrong year")
    add(
        (2026, 11, 7), ("A01",), [("animals_out", 6)], did="took out", count=6, to="A02", note="wrong box, noticed late"
    )
    row = add((2026, 8, 22), ("B01",), [("look", None)], did="look")
    say(row, "day", "Mon", "a Saturday")
    row = add((2026, 9, 26), ("S05",), [("count", "about 30")], did="count", way="under bark")
    say(row, "count", "30+", "30 or more")
    row = add((2026, 9, 27), ("S07",), [], did="count", way="trap")
    say(row, "count", "lots", "a guess at most")
    return rows


def twice(rows: list[Row]) -> None:
    """Enter one row a second time, word for word."""
    for place, row in enumerate(rows):
        if row.sheet == "Diary" and row.day >= dt.date(2026, 5, 13) and row.cells.get("ml") and not row.truth:
            again = Row(row.sheet, row.day, row.bins, dict(row.cells), [])
            again.truth["date"] = "the row above, entered twice"
            rows.insert(place + 1, again)
            return


def disorder(year: Year, chance: Random) -> list[Row]:
    """Return the rows as they are written down."""
    rows = list(year.rows)
    dates(rows, chance)
    names(rows, chance)
    amounts(rows, chance)
    words(rows, chance)
    twice(rows)
    rows += extra_rows(year)
    rows.sort(key=lambda row: row.day)
    return rows
