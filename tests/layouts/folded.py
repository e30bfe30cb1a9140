"""What is no plain table: grids of dates, a sheet a bin, bins as columns, census blocks, a book of movements."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from layouts.hand import MONTHS, Hand
from layouts.known import Fact, Known
from layouts.page import Page
from layouts.tables import Line, by_row, start, told_in_columns, write
from workbook_tools.intake.cells import Raw

LETTERS = {
    "water": ("W", "w", "M"), "feed": ("F", "f", "E"), "leaf": ("L", "l", "B"),
    "count": ("C", "n"), "dead": ("d", "D"), "substrate_change": ("S", "s", "N"), "moss": ("K", "k"),
}  # fmt: skip


def grid(page: Page, hand: Hand, known: Known) -> None:
    """Bins down and days across (or turned), letters in the cells, and the key somewhere on the sheet.

    Told are only the acts, and the number behind the letter for counts and deaths.
    """
    rows = by_row(known.deeds)
    days = sorted({day for day, _ in rows})
    acts = sorted({deed.act for deed in known.deeds})
    letters: dict[str, str] = {}
    for act in acts:
        letters[act] = hand.rng.choice([one for one in LETTERS[act] if one.casefold() not in
                                        {known.casefold() for known in letters.values()}])  # fmt: skip
    across = hand.chance(0.75)
    top, left = start(page, hand) if across else (1, 1)
    taken: set[str] = set()
    extra = ["volume"] if across and hand.chance(0.5) else []
    place = (lambda r, c: (top + r, left + c)) if across else (lambda r, c: (top + c, left + r))
    page.put(*place(0, 0), hand.heading("bin", taken) if across or hand.chance(0.5) else "")
    for at, key in enumerate(extra, 1):
        page.put(*place(0, at), hand.heading(key, taken))
    first = 1 + len(extra)
    heads = {day: page.put(*place(0, first + at), value) for at, (day, value) in enumerate(_over(hand, days))}
    for line, name in enumerate(known.bins, 1):
        named = page.put(*place(line, 0), name)
        for at, key in enumerate(extra, 1):
            fact = known.of(name)[key]
            page.tell(fact, [page.put(*place(line, at), hand.number(float(str(fact.value)))), place(0, at)], [named])
        for day, head in heads.items():
            deeds = rows.get((day, name), [])
            if not deeds:
                continue
            numbered = [deed for deed in deeds if deed.act in ("count", "dead")]
            plain = [deed for deed in deeds if deed not in numbered]
            codes = [letters[deed.act] for deed in plain]
            codes += [f"{letters[deed.act]}{deed.value}" for deed in numbered]
            cell = head[0] if not across else place(line, 0)[0], head[1] if across else place(line, 0)[1]
            if numbered:
                text = hand.rng.choice((" ", "+")).join(codes)
            else:
                text = hand.rng.choice(("", "", " ", "+", "/")).join(codes)
            page.put(*cell, text)
            for deed in deeds:
                value = deed.value if deed in numbered else None
                page.tell(Fact(name, day, deed.act, value), [cell], [head, named])
    _key(page, hand, letters, left)


def _over(hand: Hand, days: Sequence[dt.date]) -> list[tuple[dt.date, Raw]]:
    """Days as headings: in full, or day and month with bare days carried on."""
    style = hand.rng.choice(("own", "cell", "short", "carried"))
    made: list[tuple[dt.date, Raw]] = []
    for at, day in enumerate(days):
        value: Raw
        if style == "own":
            value = hand.day(day)
        elif style == "cell":
            value = day
        else:
            new = not at or days[at - 1].month != day.month or style == "short"
            value = f"{day.day} {MONTHS['en'][day.month - 1][:3]}" if new else day.day
        made.append((day, value))
    return made


def _key(page: Page, hand: Hand, letters: dict[str, str], left: int) -> None:
    """The key: in one row, in a cell each, or below one another; under the grid."""
    row = max(row for row, _ in page.cells) + 1
    form = hand.rng.choice(("one", "cells", "down"))
    pairs = [(code, hand.word(act)) for act, code in letters.items()]
    hand.rng.shuffle(pairs)
    if form == "one":
        sign = hand.rng.choice((" = ", " ", "="))
        page.put(row + hand.rng.randint(0, 1), left, hand.rng.choice(("KEY", "Key:", "key")))
        end = max(row for row, _ in page.cells)
        page.put(end, left + 1, hand.rng.choice((", ", "; ")).join(f"{code}{sign}{word}" for code, word in pairs))
        return
    row += 1
    if form == "cells":
        for at, (code, word) in enumerate(pairs):
            page.put(row, left + at, f"{code} = {word}")
        return
    if hand.chance(0.5):
        page.put(row, left, hand.rng.choice(("Key", "Legend")))
        row += 1
    for at, (code, word) in enumerate(pairs):
        page.put(row + at, left, f"{code} = {word}")


def bin_sheet(hand: Hand, known: Known, name: str) -> Page:
    """A sheet a bin: a card of labels above, the bin's own log below, without a column of bins."""
    page = Page(name)
    taken: set[str] = set()
    keys = ["species", "volume", "started"]
    hand.rng.shuffle(keys)
    keys = ["bin", *keys] if hand.chance(0.5) else keys
    style = hand.rng.choice(("inside", "beside", "pairs"))
    row, col = 1, 1
    own = known.of(name)
    for key in keys:
        label = hand.heading(key, taken).rstrip(":")
        value: Raw = name
        if key != "bin":
            fact = own[key]
            raw = fact.value
            value = hand.day(raw) if isinstance(raw, dt.date) else str(raw)
            if isinstance(raw, int | float):
                value = hand.number(raw)
        if style == "inside":
            text = hand.number(value) if isinstance(value, int | float) else value
            text = f"{text.day}.{text.month}.{text.year}" if isinstance(text, dt.date) else text
            places = [page.put(row, col, f"{label}: {text}")]
            row, col = (row, col + 1) if col < 4 else (row + 1, 1)
        elif style == "beside":
            places = [page.put(row, 1, label + ":"), page.put(row, 2, value)]
            row += 1
        else:
            places = [page.put(row, col, label + ":"), page.put(row, col + 1, value)]
            row, col = (row, col + 2) if col < 3 else (row + 1, 1)
        if key != "bin":
            page.tell(own[key], places)
    lines = []
    deeds = [deed for deed in known.deeds if deed.bin == name]
    for (day, _), done in by_row(deeds).items():
        line = Line({"date": hand.day(day)})
        for deed in done:
            told_in_columns(hand, line, deed, ("date",))
        lines.append(line)
    columns = list(dict.fromkeys(key for line in lines for key in line.cells if key != "date"))
    hand.rng.shuffle(columns)
    if lines:
        write(page, hand, ["date", *columns], lines, (max(r for r, _ in page.cells) + hand.rng.choice((1, 2, 3)), 1))
    return page


def turned_list(page: Page, hand: Hand, known: Known) -> None:
    """The list of bins on its side: labels down, bins across."""
    top, left = start(page, hand)
    taken: set[str] = set()
    page.put(top, left, hand.heading("bin", taken) if hand.chance(0.6) else hand.rng.choice(("", "field")))
    heads = [page.put(top, left + at, name) for at, name in enumerate(known.bins, 1)]
    keys = ["species", "volume", "started"]
    hand.rng.shuffle(keys)
    for at, key in enumerate(keys, 1):
        label = page.put(top + at, left, hand.heading(key, taken))
        for head, name in zip(heads, known.bins, strict=True):
            fact = known.of(name)[key]
            raw = fact.value
            value: Raw = hand.day(raw) if isinstance(raw, dt.date) else str(raw)
            if isinstance(raw, int | float):
                value = hand.number(raw)
            page.tell(fact, [page.put(top + at, head[1], value), label], [head])


def census(page: Page, hand: Hand, known: Known) -> None:
    """Counts in blocks with titles over them and sums under them."""
    top, left = start(page, hand)
    taken: set[str] = set()
    sized = hand.chance(0.5)
    keys = ["bin", "date", "way", *(("big", "mid", "tiny") if sized else ()), "count"]
    columns = {key: left + at for at, key in enumerate(keys)}
    for key, col in columns.items():
        page.put(top, col, hand.heading(key, taken))
    row = top
    counts = [deed for deed in known.deeds if deed.act == "count"]
    halves = [counts[: len(counts) // 2], counts[len(counts) // 2 :]] if len(counts) > 2 else [counts]
    for letter, block in zip(("Rollers", "Runners"), halves, strict=False):
        row += 1
        page.put(row, left, hand.rng.choice((f"== {letter} ==", letter.upper(), f"-- {letter} --")))
        for deed in block:
            row += 1
            number = int(str(deed.value))
            values: dict[str, Raw] = {"bin": deed.bin, "date": hand.day(deed.day or dt.date.min), "count": number}
            values["way"] = hand.way(str(deed.also))
            if sized:
                big, mid = number // 2, number // 4
                values |= {"big": big, "mid": mid, "tiny": number - big - mid}
            cells = {key: page.put(row, columns[key], value) for key, value in values.items()}
            at = {key: (cell, (top, columns[key])) for key, cell in cells.items()}
            finders = [place for key in ("bin", "date") for place in at[key]]
            page.tell(deed, [place for places in at.values() for place in places if place not in finders], finders)
        row += 1
        page.put(row, left, hand.rng.choice(("sub", "subtotal", "Sum", "total")))
        page.put(row, columns["count"], sum(int(str(deed.value)) for deed in block))


def book(page: Page, hand: Hand, known: Known) -> None:
    """A book of what came and what went: a row a movement."""
    lines = []
    for (day, name), deeds in by_row(known.deeds).items():
        for deed in deeds:
            line = Line({"date": hand.day(day), "bin": name, "inout": hand.word(deed.act), "qty": int(str(deed.value))})
            line.told.append((deed, ("date", "bin", "inout", "qty")))
            lines.append(line)
    keys = ["date", "bin", "inout", "qty"]
    write(page, hand, keys if hand.chance(0.6) else hand.rng.sample(keys, 4), lines, start(page, hand))
