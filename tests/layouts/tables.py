"""Plain tables: a list of bins, one long log, a sheet a kind of work, the answers of a form."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from layouts.hand import Hand
from layouts.known import Fact, Known
from layouts.page import Page, Place
from layouts.pool import NOTES, TITLES
from workbook_tools.intake.cells import Area, Raw

FINDERS = ("bin", "date", "stamp")


@dataclass
class Line:
    """One row of a table: cells by column key, and each fact with the keys of the cells that tell it."""

    cells: dict[str, Raw] = field(default_factory=dict)
    told: list[tuple[Fact, tuple[str, ...]]] = field(default_factory=list)


def by_row(deeds: Iterable[Fact]) -> dict[tuple[dt.date, str], list[Fact]]:
    """Deeds by day and bin, in the order of days."""
    rows: dict[tuple[dt.date, str], list[Fact]] = {}
    for deed in sorted(deeds, key=lambda one: (one.day or dt.date.min, one.bin)):
        if deed.day:
            rows.setdefault((deed.day, deed.bin), []).append(deed)
    return rows


def start(page: Page, hand: Hand, row: int = 1) -> Place:
    """Where the table begins: below a title now and then, and away from the left edge."""
    left = hand.rng.choice((1, 1, 1, 2, 3))
    if hand.chance(0.3):
        page.put(row, left, hand.rng.choice(TITLES))
        row += hand.rng.choice((1, 2))
    elif hand.chance(0.2):
        row += hand.rng.choice((1, 2))
    return row, left


def write(
    page: Page,
    hand: Hand,
    keys: Sequence[str],
    lines: Sequence[Line],
    at: Place,
    heads: Mapping[str, str] | None = None,
) -> int:
    """Write a table with its headings; gives the last row."""
    top, left = at
    taken: set[str] = set()
    columns = {key: left + place for place, key in enumerate(keys)}
    for key, col in columns.items():
        page.put(top, col, heads[key] if heads and key in heads else hand.heading(key, taken))
    row = top
    for line in lines:
        row += 1 + (hand.chance(0.05))
        for key, value in line.cells.items():
            page.put(row, columns[key], value)
        for fact, own in line.told:
            finders = [(r, columns[key]) for key in own if key in FINDERS for r in (row, top)]
            page.tell(fact, [(r, columns[key]) for key in own if key not in FINDERS for r in (row, top)], finders)
    return row


def shuffled(hand: Hand, keys: Sequence[str], first: Sequence[str] = ()) -> list[str]:
    """Columns in a keeper's order: often the usual ones first, else any."""
    rest = [key for key in keys if key not in first]
    hand.rng.shuffle(rest)
    front = list(first)
    if hand.chance(0.3):
        hand.rng.shuffle(front)
    if hand.chance(0.15):
        rest += front
        hand.rng.shuffle(rest)
        return rest
    return front + rest


def list_of_bins(page: Page, hand: Hand, known: Known, row: int = 1, *, grouped: bool = False) -> int:
    """One row a bin; ``grouped`` puts a row of merged labels over the headings."""
    keys = shuffled(hand, ["bin", "species", "volume", "started"], ["bin"])
    if hand.chance(0.4):
        keys.append("note")
    lines = []
    for name in known.bins:
        own = known.of(name)
        line = Line({"bin": name})
        for act, fact in own.items():
            line.cells[act] = _of_bin(hand, fact)
            line.told.append((fact, ("bin", act)))
        if "note" in keys and hand.chance(0.3):
            line.cells["note"] = hand.rng.choice(NOTES)
        lines.append(line)
    top, left = start(page, hand, row)
    if grouped:
        keys = ["bin", "volume", "species", "started", *keys[4:]]
        for label, first, last in (
            (hand.rng.choice(("BOX", "Box ....", "THE TUB")), 0, 1),
            ("ANIMALS", 2, len(keys) - 1),
        ):
            page.put(top, left + first, label)
            page.merged.append(Area(top, left + first, top, left + last))
        top += 1
    return write(page, hand, keys, lines, (top, left))


def _of_bin(hand: Hand, fact: Fact) -> Raw:
    if isinstance(fact.value, dt.date):
        return hand.day(fact.value)
    if isinstance(fact.value, int | float):
        return hand.number(fact.value, "l" if hand.chance(0.15) else "")
    return str(fact.value)


def told_in_columns(hand: Hand, line: Line, deed: Fact, also: tuple[str, ...] = ()) -> None:
    """Write a deed into the columns that are its own."""
    keys = [deed.act if deed.act != "substrate_change" else "share"]
    match deed.act:
        case "water" | "leaf" | "dead" | "count":
            unit = {"water": "ml", "leaf": "l"}.get(deed.act, "") if hand.chance(0.15) else ""
            line.cells[keys[0]] = hand.number(float(str(deed.value)), unit)
        case "feed":
            keys = ["food", "grams"]
            line.cells["food"] = str(deed.value)
            line.cells["grams"] = hand.number(float(str(deed.also)), "g" if hand.chance(0.15) else "")
        case "moss":
            line.cells["moss"] = hand.moss(str(deed.value))
        case "substrate_change":
            line.cells["share"] = hand.share(str(deed.value))
    if deed.act == "count":
        line.cells["way"] = hand.way(str(deed.also))
        keys.append("way")
    line.told.append((deed, (*keys, *also)))


def _columns_of(deeds: Iterable[Fact]) -> list[str]:
    keys: dict[str, None] = {}
    for deed in deeds:
        own = {"feed": ("food", "grams"), "count": ("count", "way"), "substrate_change": ("share",)}
        keys.update(dict.fromkeys(own.get(deed.act, (deed.act,))))
    return list(keys)


def long_log(page: Page, hand: Hand, known: Known, row: int = 1) -> int:
    """One log of everything: with columns for each kind of work, with words of what was done, or both."""
    style = hand.rng.choice(("columns", "words", "both"))
    keys = ["date", "bin"]
    lines: list[Line] = []
    if style == "words":
        for (day, name), deeds in by_row(known.deeds).items():
            lines += [_in_words(hand, day, name, deed) for deed in deeds]
        keys += shuffled(hand, ["did", "amount", "food", "moss", "way"])
    else:
        for (day, name), deeds in by_row(known.deeds).items():
            line = Line({"date": hand.day(day), "bin": hand.bin(name)})
            for deed in deeds:
                told_in_columns(hand, line, deed, ("date", "bin", *(("did",) if style == "both" else ())))
            if style == "both":
                join = hand.rng.choice((", ", " + ", " & ", " and "))
                line.cells["did"] = join.join(hand.word(deed.act) for deed in deeds)
            lines.append(line)
        keys += (["did"] if style == "both" else []) + shuffled(hand, _columns_of(known.deeds))
    if hand.chance(0.4):
        keys.append("note")
        for line in lines:
            if hand.chance(0.15):
                line.cells["note"] = hand.rng.choice(NOTES)
    if hand.chance(0.3):
        lines.reverse()
    keys = shuffled(hand, keys, ["date", "bin"]) if style != "words" else keys
    return write(page, hand, keys, lines, start(page, hand, row))


def _in_words(hand: Hand, day: dt.date, name: str, deed: Fact) -> Line:
    """A row of one deed: its word, and the amount with its unit in a column for all amounts."""
    line = Line({"date": hand.day(day), "bin": hand.bin(name), "did": hand.word(deed.act)})
    keys = ["date", "bin", "did", "amount"]
    match deed.act:
        case "water" | "leaf":
            line.cells["amount"] = hand.number(float(str(deed.value)), {"water": "ml", "leaf": "l"}[deed.act])
        case "feed":
            line.cells |= {"food": str(deed.value), "amount": hand.number(float(str(deed.also)), "g")}
            keys.append("food")
        case "count" | "dead":
            line.cells["amount"] = int(str(deed.value))
        case "substrate_change":
            line.cells["amount"] = hand.share(str(deed.value))
        case "moss":
            line.cells["moss"] = hand.moss(str(deed.value))
            keys[-1] = "moss"
    if deed.act == "count":
        line.cells["way"] = hand.way(str(deed.also))
        keys.append("way")
    line.told.append((deed, tuple(keys)))
    return line


def job_sheets(hand: Hand, known: Known, taken: set[str]) -> list[Page]:
    """A sheet a kind of work, named after it; no column says what was done."""
    pages = []
    for act in dict.fromkeys(deed.act for deed in known.deeds):
        page = Page(hand.sheet(act, taken))
        lines = []
        for (day, name), deeds in by_row(deed for deed in known.deeds if deed.act == act).items():
            line = Line({"date": hand.day(day), "bin": hand.bin(name)})
            told_in_columns(hand, line, deeds[0], ("date", "bin"))
            lines.append(line)
        own = _columns_of(deed for deed in known.deeds if deed.act == act)
        write(page, hand, shuffled(hand, ["date", "bin", *own], ["date", "bin"]), lines, start(page, hand))
        pages.append(page)
    return pages


def form(page: Page, hand: Hand, known: Known) -> int:
    """The answers of a form: a time stamp, ticks in one cell, a question reworded midway, a double press."""
    taken: set[str] = set()
    old, new = (hand.heading("moss", taken) for _ in range(2))
    heads = {"moss": old, "moss2": new, "stamp": hand.heading("stamp", taken)}
    lines: list[Line] = []
    rows = list(by_row(known.deeds).items())
    stamped = hand.rng.random() < 0.5
    for place, ((day, name), deeds) in enumerate(rows):
        clock = dt.time(hand.rng.randint(7, 21), hand.rng.randint(0, 59), hand.rng.randint(0, 50))
        line = Line({"stamp": _stamp(hand, dt.datetime.combine(day, clock), stamped), "bin": name})
        for deed in deeds:
            told_in_columns(hand, line, deed, ("stamp", "bin", "did"))
        line.cells["did"] = "; ".join(hand.word(deed.act) for deed in deeds)
        if place > len(rows) / 2 and "moss" in line.cells:
            line.cells["moss2"] = line.cells.pop("moss")
            line.told = [(fact, tuple("moss2" if key == "moss" else key for key in own)) for fact, own in line.told]
        lines.append(line)
        if hand.chance(0.08):
            later = dt.datetime.combine(day, clock) + dt.timedelta(seconds=8)
            lines.append(Line({**line.cells, "stamp": _stamp(hand, later, stamped)}))
    keys = ["stamp", "bin", "did", *shuffled(hand, [*_columns_of(known.deeds), "moss2"])]
    keys = [key for key in dict.fromkeys(keys) if any(key in line.cells for line in lines)]
    return write(page, hand, keys, lines, (1, 1), heads)


def _stamp(hand: Hand, at: dt.datetime, as_cell: bool) -> Raw:
    if as_cell:
        return at
    if hand.style == "american":
        return f"{at.month}/{at.day}/{at.year} {at:%H:%M:%S}"
    return f"{at:%d/%m/%Y %H:%M:%S}" if hand.style in ("slashed", "dotted") else f"{at:%Y-%m-%d %H:%M:%S}"
