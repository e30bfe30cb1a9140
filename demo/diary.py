"""Play the demo's eighteen months through: the keeper's rounds, and the rows the keeper writes about them."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from random import Random

from scenario import (
    AWAY,
    CELLAR,
    FIRST,
    HEATING_ON,
    KINDS,
    LAST,
    PLUG_IN_SCENT,
    SATURDAY,
    SITTER,
    SPARE,
    SUNDAY,
    TUESDAY,
    WAYS,
    WEDNESDAY,
    Bin,
    dryness,
    first_bins,
    new_bin,
    poisson,
    room,
)

HOW_MANY = 60
FOODS = ("courgette", "carrot", "fish flakes", "mushroom", "pea flour", "squash")
PLACES = ("Shelf A", "Shelf B", "Shelf C", "Shelf D", "Window sill", "Rack top", "Rack low")


@dataclass
class Row:
    """One row the keeper writes: its sheet, its cells by heading, and the acts it means."""

    sheet: str
    day: dt.date
    bins: tuple[str, ...]
    cells: dict[str, object]
    acts: list[tuple[str, object]] = field(default_factory=list)
    truth: dict[str, object] = field(default_factory=dict)
    """What deliberately disordered cells mean, by heading."""


class Year:
    """The bins and the rows written so far."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.bins = first_bins(chance)
        self.rows: list[Row] = []
        self.free = [name for name in CELLAR + SPARE if name not in {b.name for b in self.bins}]
        self.free.sort(key=lambda name: (int(name[1:]), name))
        self.thaw: list[tuple[dt.date, str, str]] = []

    def write(self, sheet: str, day: dt.date, bins: tuple[str, ...], *acts: tuple[str, object], **cells: object) -> Row:
        row = Row(sheet, day, bins, dict(cells), list(acts))
        self.rows.append(row)
        return row

    def play(self) -> None:
        """Go through every day from the first to the last."""
        day = FIRST
        while day <= LAST:
            warm, humid = room(day, self.chance)
            for one in self.bins:
                if one.live and one.started <= day:
                    one.pass_day(day, dryness(warm, humid), self.chance)
            if day.day == 1:
                for one in self.bins:
                    if one.live:
                        one.numbers.append((day.isoformat(), round(one.number), round(one.fresh, 3)))
            if not AWAY[0] <= day <= AWAY[1]:
                self.round(day, warm, humid)
            day += dt.timedelta(days=1)

    def round(self, day: dt.date, warm: float, humid: float) -> None:
        """Do what falls on this day of the week."""
        sitter = SITTER[0] <= day <= SITTER[1]
        live = [one for one in self.bins if one.live and one.started <= day]
        self.house(day)
        if day.weekday() == TUESDAY and not sitter:
            for one in live:
                if self.chance.random() > 0.15:
                    self.feed(one, day)
        if day.weekday() == SATURDAY and not sitter:
            self.feed_shelves(day)
        if day.weekday() == WEDNESDAY or (day.weekday() == SUNDAY and not sitter):
            for one in live:
                quick = one.dry_days <= 9 or one.status == "quarantine"
                if (day.weekday() == WEDNESDAY or quick) and self.chance.random() > 0.03:
                    self.look(one, day, "J" if sitter else "")
        if day.weekday() == SUNDAY and not sitter:
            self.write("Diary", day, (), ("room", [warm, humid]), did="room", temp=warm, hum=humid)
            for one in live:
                self.count(one, day)
            for one in live:
                self.soil(one, day)
            if day.day <= 14 and day.day > 7:
                self.write("Diary", day, ("Tub",), ("trap", None), did="trap check", note="carrot half, left a night")
            self.freezer(day)
            self.newcomers(day)
        self.shelf_jobs(day)

    def house(self, day: dt.date) -> None:
        if day in HEATING_ON:
            self.write("Diary", day, (), ("house", "heating on"), did="heating on", note="drier from now on")
        if day == PLUG_IN_SCENT:
            self.write(
                "Diary", day, (), ("house", "air freshener"), did="air freshener", note="scent plug by the window"
            )

    def feed(self, one: Bin, day: dt.date) -> None:
        wants = one.kind.food_mg * one.appetite * one.number / 1000
        grams = max(0.1, round(wants * self.chance.uniform(0.6, 1.7), 1))
        food = self.chance.choice(FOODS)
        one.fed_on, one.portion, one.left = day, grams, grams
        self.write("Feeding", day, (one.name,), ("feed", grams), food=food, amount=grams)

    def feed_shelves(self, day: dt.date) -> None:
        for place in PLACES:
            there = [one for one in self.bins if one.live and one.started <= day and one.place == place]
            if not there or self.chance.random() < 0.1:
                continue
            for one in there:
                one.fed_on, one.portion, one.left = day, 0.1, one.left + 0.1
            names = tuple(one.name for one in there)
            self.write("Feeding", day, names, ("feed", 0.1), food="leaf powder", amount="pinch", box=f"all {place}")

    def look(self, one: Bin, day: dt.date, who: str) -> None:
        """One visit: moss, leftovers, water and leaf where needed, the dead taken out."""
        moss, did = one.moss_state(), ["look"]
        row = self.write("Diary", day, (one.name,), ("look", None), ("moss", moss), moss=moss, who=who)
        left = one.leftovers(day)
        if left:
            row.cells["leftovers"] = left
            row.acts.append(("leftovers", left))
            one.portion = one.left = 0.0
        if moss in ("dry", "drying") or (moss == "damp" and self.chance.random() < 0.35):
            ml = 5 * max(2, round(one.litres * 1.2 * (1.05 - one.wet) + self.chance.uniform(0, 2)))
            one.wet = 1.0
            did.append("water")
            row.cells["ml"] = ml
            row.acts.append(("water", ml))
        if one.leaf < 0.02 * one.litres and not who:
            litres = (
                self.chance.choice((0.25, 0.5, 0.5, 1.0)) if one.litres < 9 else self.chance.choice((0.5, 1.0, 1.5))
            )
            one.leaf += litres
            did.append("leaves")
            row.cells["leaves"] = litres
            row.acts.append(("leaf", litres))
        if one.dead_waiting:
            row.cells["dead"] = one.dead_waiting
            row.acts.append(("dead", one.dead_waiting))
            one.dead_waiting = 0
        if self.chance.random() < 0.06:
            sight = (
                "condensation"
                if one.wet > 0.9 and one.air == "low"
                else self.chance.choice(("mites", "gnats", "all well", "all well", "mould"))
            )
            row.cells["seen"] = sight
            row.acts.append(("seen", sight))
        if one.number > 30 and self.chance.random() < one.growth * 0.25:
            row.cells["babies"] = self.chance.choice(("y", "y", "lots"))
            row.acts.append(("young", True))
        row.cells["did"] = " + ".join(did)

    def count(self, one: Bin, day: dt.date) -> None:
        if day < one.next_count:
            return
        one.next_count = day + dt.timedelta(days=self.chance.randrange(60, 110))
        way = self.chance.choice(("under bark", "trap", "full sort"))
        seen = min(poisson(one.number * WAYS[way], self.chance), round(one.number))
        text: object = seen
        if way == "full sort" and one.number > 0.9 * one.crowd and len(self.bins) < HOW_MANY - 1:
            self.split(one, day)
        elif way == "full sort" and one.number > 0.8 * one.crowd and self.chance.random() < 0.7:
            sold = 5 * max(2, round(one.number * 0.04))
            one.number -= sold
            self.write("Diary", day, (one.name,), ("animals_out", sold), did="sold", count=sold, note="meet-up")
        if seen >= 40 and self.chance.random() < 0.3:
            text = f"~{round(seen, -1)}"
        elif seen >= 30 and self.chance.random() < 0.15:
            text = f"{seen // 10 * 10}+"
        self.write("Diary", day, (one.name,), ("count", [seen, way]), did="count", count=text, way=way)

    def split(self, one: Bin, day: dt.date) -> None:
        name = self.free.pop(0)
        moved = round(one.number * self.chance.uniform(0.35, 0.5))
        one.number -= moved
        new = new_bin(name, one.kind, day, one.name, moved, one.litres, self.chance)
        self.bins.append(new)
        self.write("Diary", day, (one.name,), ("split", [moved, name]), did="split", count=moved, to=name)

    def soil(self, one: Bin, day: dt.date) -> None:
        if day < one.next_soil:
            return
        one.next_soil = day + dt.timedelta(days=self.chance.randrange(45, 75))
        state = one.soil_state()
        self.write("Diary", day, (one.name,), ("substrate_look", state), did="soil check", soil=state)
        if one.fresh > 0.33:
            return
        share, words = self.chance.choice(((1 / 3, "1/3"), (0.5, "half"), (0.5, "1/2"), (2 / 3, "2/3"), (0.75, "75 %")))
        if one.fresh < 0.12:
            share, words = 1.0, "all"
        way = (
            "everything out, hides kept" if share == 1 else self.chance.choice(("one side", "front half", "top layer"))
        )
        went = "straggler tub" if self.chance.random() < 0.8 else "freezer"
        litres = round(one.litres * 0.4 * share, 1)
        one.fresh = one.fresh * (1 - share) + 0.95 * share
        self.write(
            "Soil changes",
            day,
            (one.name,),
            ("substrate_change", [round(share, 3), way, went]),
            share=words,
            way=way,
            went=went,
            mix=litres,
        )
        self.thaw.append((day + dt.timedelta(days=21 if went == "straggler tub" else 0), one.name, "freeze"))

    def freezer(self, day: dt.date) -> None:
        """Old substrate goes from the straggler tub into the freezer, and out a week later."""
        for due, name, what in [item for item in self.thaw if item[0] <= day]:
            self.thaw.remove((due, name, what))
            if what == "freeze":
                self.write("Diary", day, (name,), ("freeze", None), did="into freezer", note=f"old soil of {name}")
                self.thaw.append((day + dt.timedelta(days=7), name, "discard"))
            else:
                self.write(
                    "Diary", day, (name,), ("discard", None), did="threw away", note=f"old soil of {name}, frozen"
                )

    def shelf_jobs(self, day: dt.date) -> None:
        """Jobs done shelf by shelf: calcium about every five weeks, new bark twice a year."""
        week = (day - FIRST).days // 7
        for order, place in enumerate(PLACES):
            there = tuple(one.name for one in self.bins if one.live and one.started <= day and one.place == place)
            if not there or day.weekday() != SATURDAY:
                continue
            if week % 5 == order % 5:
                self.write("Diary", day, there, ("calcium", None), did="calcium", box=f"all {place}")
            if week % 26 == 3 * order:
                self.write("Diary", day, there, ("hides", None), did="new bark", box=f"all {place}")

    def newcomers(self, day: dt.date) -> None:
        """Animals that came from outside: every few weeks until the shelves are full; the last one in quarantine."""
        left = HOW_MANY - len(self.bins)
        weeks_left = (dt.date(2026, 10, 25) - day).days // 7
        last_one = day == dt.date(2026, 10, 25)
        if not last_one and (left <= 1 or weeks_left > 5 * left or self.chance.random() < 0.5):
            return
        if not left:
            return
        name = self.free.pop(0)
        new = new_bin(name, self.chance.choice(KINDS), day, "swap", self.chance.randrange(10, 30), 5.7, self.chance)
        if last_one:
            new.status = "quarantine"
        self.bins.append(new)
        self.write(
            "Diary", day, (name,), ("animals_in", new.founders), did="arrived", count=new.founders, note="new box"
        )

    def endings(self) -> None:
        """Close two bins, rest one and make one the straggler tub, late in the log, so that no later row names them.

        The resting bin still gets its pinch when its whole shelf does.
        """
        for one, status, word, days in (
            (self.bins[9], "gone", "closed", 40),
            (self.bins[27], "gone", "closed", 75),
            (self.bins[14], "resting", "resting", 33),
        ):
            day = LAST - dt.timedelta(days=days)
            act = "end" if word == "closed" else "rest"
            one.status, one.ended = status, day
            self.rows = [row for row in self.rows if row.day <= day or one.name not in row.bins or len(row.bins) > 1]
            for row in self.rows:
                if status == "gone" and row.day > day and one.name in row.bins:
                    row.bins = tuple(name for name in row.bins if name != one.name)
            self.write("Diary", day, (one.name,), (act, None), did=word)
        self.rows.sort(key=lambda row: row.day)


def eighteen_months(chance: Random) -> Year:
    """Return all bins and rows."""
    year = Year(chance)
    year.play()
    year.endings()
    return year
