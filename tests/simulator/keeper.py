"""The keeper of a simulated room: goes the rounds, does the work, and notes some of what is seen, coarsely."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from simulator.colony import MANCA, Floats, Ints, take
from simulator.room import wander
from simulator.world import FRESH, LOOSE, YOUNG, State, World, litter, number, pass_day, worn_since

WAYS = {"under bark": 0.25, "all hides": 0.50, "trap": 0.12, "full sort": 0.85, "sieve": 0.92}
"""Ways of counting and the share of animals that each shows, as a rule."""
ROUNDS = ((0, 2, 5), (1, 4, 6), (0, 3), (2, 4, 6), (0, 2, 4, 6))
LEAF_LEFT = ("none", "little", "half", "plenty")
SHARES = (1 / 3, 1 / 2, 2 / 3, 3 / 4, 1.0)


@dataclass(frozen=True)
class Note:
    """What was written about one bin on one day; ``facts`` by the keeper's headings."""

    day: int
    bin: int
    facts: dict[str, Any]


@dataclass(frozen=True)
class Moves:
    """Animals moved by hand that day, all stages: in and out of each bin."""

    day: int
    came: Ints
    left: Ints


@dataclass
class Diary:
    """All that was written, what the keeper is like, and how things stood on each forecast day."""

    notes: list[Note] = field(default_factory=list)
    readings: list[tuple[int, float, float]] = field(default_factory=list)
    """Day, warmth, dampness of the room."""
    stood: dict[int, State] = field(default_factory=dict)
    held: list[Ints] = field(default_factory=list)
    """Animals past the manca stage on each evening, (B,)."""
    moves: list[Moves] = field(default_factory=list)
    crowded_at: Floats = field(default_factory=lambda: np.empty(0))
    """NaN where the keeper never said."""
    fill: Floats = field(default_factory=lambda: np.empty(0))
    """Share of a full load that the keeper's waterings give, at the middle."""
    founders: Ints = field(default_factory=lambda: np.empty(0, dtype=np.int64))
    """Animals that a young bin began with, 0 where the keeper doesn't know."""
    last_change: Ints = field(default_factory=lambda: np.empty(0, dtype=np.int64))
    """Day of the last change of substrate before the log, negative."""
    visits: int = 0
    born: int = 0
    died: int = 0


@dataclass
class Keeper:
    """Habits, and what is in the keeper's head about each bin.

    A dense keeper writes down most visits, a sparse one about a quarter of them; of the work that is done seldom
    (litter, substrate, splits, sales) even a sparse one writes down six of seven.
    """

    world: World
    dense: bool
    chance: np.random.Generator
    diary: Diary = field(default_factory=Diary)

    def __post_init__(self) -> None:
        chance, bins = self.chance, len(self.world.traits.kind)
        self.rounds = ROUNDS[chance.integers(len(ROUNDS))]
        self.writes = chance.uniform(0.82, 0.95) if self.dense else chance.uniform(0.2, 0.3)
        self.keeps_big = 0.98 if self.dense else 0.85
        self.forgets_water = chance.uniform(0.01, 0.05)
        self.notes_moss, self.notes_dish = chance.uniform(0.75, 0.95), chance.uniform(0.6, 0.9)
        self.looks_next_day = chance.uniform(0.3, 0.95)
        self.reads_room = chance.random() < 0.6
        self.says_percent = chance.random() < 0.6
        self.way = chance.choice(["under bark", "all hides", "trap"], p=[0.6, 0.3, 0.1])
        self.habit = self.world.wrong and chance.random() < 0.5
        self.edges = np.array([0.22, 0.42, 0.75, 0.97]) + chance.normal(0, 0.025, 4)
        self.classes = np.array([0.20, 0.38, 0.58, 0.82]) + chance.normal(0, 0.03, 4)
        self.count_every = chance.uniform(25, 60, bins)
        self.look_every = chance.uniform(25, 60, bins)
        self.notes_leaf = chance.choice([0.0, 0.04, 0.12])
        self.tops_at, self.handfuls = chance.uniform(0.2, 0.45), chance.random() < 0.4
        crowd = self.world.traits.breeding.crowd
        self.thinks_crowded = crowd * 1.3 * np.exp(chance.normal(0, 0.7 if self.world.wrong else 0.25, bins))
        self.diary.crowded_at = np.where(chance.random(bins) < 0.6, np.round(self.thinks_crowded, -1) + 10, np.nan)
        self.diary.fill = chance.uniform(0.8, 0.97, bins)
        worn = worn_since(self.world)
        self.diary.last_change = -np.round(worn * np.exp(chance.normal(0, 0.15, bins))).astype(np.int64) - 1
        young = number(self.world.start) < YOUNG
        self.diary.founders = np.where(young, number(self.world.start), 0)
        self.diary.last_change[young] = -chance.integers(3, 20, young.sum())
        horizon = self.world.days
        bent = chance.normal(0, 0.4, bins) + wander(chance, horizon, 0.35, 0.985, bins)
        self.odds = bent + (0.5 * chance.standard_t(3, (horizon, bins)) if self.world.wrong else 0)
        guess = number(self.world.start) * np.exp(chance.normal(0, 0.5, bins))
        self.portion = np.array([0.1, 0.3, 0.8])[self.world.traits.appetite] * (guess / 100 + 0.05) ** 0.8
        self.thinks = guess.astype(float)
        self.dish_day = np.full(bins, -1)
        self.dish = np.zeros(bins)
        self.watered = np.full(bins, -9)
        self.counted = -chance.uniform(0, 1, bins) * self.count_every
        self.looked = -chance.uniform(0, 1, bins) * self.look_every
        self.changed = self.diary.last_change.astype(float)
        self.split = np.full(bins, -99.0)
        self.dead = np.zeros(bins, dtype=np.int64)
        self.due_back: list[tuple[int, int, int]] = []

    def live(self, forecasts: tuple[int, ...]) -> Diary:
        """Keep the bins through the log; how they stand on the evening of each forecast day is kept."""
        state, chance = self.world.start.copy(), self.chance
        away = np.zeros(self.world.days, dtype=bool)
        for begin in chance.integers(0, self.world.days, max(1, self.world.days // 250)):
            away[begin : begin + int(chance.integers(6, 12))] = True
        feeding = self.rounds[:: max(1, len(self.rounds) // 2)]
        for day in range(self.world.days):
            gone = pass_day(self.world, state, day)
            self.diary.born += int(gone.born.sum())
            self.diary.died += int(gone.deaths.sum())
            self.dead += gone.deaths[:, MANCA:].sum(1)
            weekday = (self.world.first + day - 1) % 7
            if weekday in self.rounds and not away[day] and chance.random() > 0.06:
                self._round(state, day, weekday in feeding)
            elif (self.dish_day == day - 1).any() and not away[day] and chance.random() < self.looks_next_day:
                self._only_dishes(state, day)
            if self.reads_room and weekday == self.rounds[0] and chance.random() < 0.85:
                warmth, damp = self.world.room.warmth[day], self.world.room.damp[day]
                self.diary.readings.append(
                    (day, round(warmth + chance.normal(0, 0.5), 1), round(damp + chance.normal(0, 3)))
                )
            self.diary.held.append(number(state))
            if day in forecasts:
                self.diary.stood[day] = state.copy()
        return self.diary

    def _round(self, state: State, day: int, feeds: bool) -> None:
        self.diary.visits += 1
        bins = len(self.dish)
        facts: list[dict[str, Any]] = [{} for _ in range(bins)]
        written = self.chance.random(bins) < self.writes
        self._moss(state, day, facts)
        self._dish(state, day, feeds, facts)
        self._leaf(state, facts)
        seen_dead = self.chance.binomial(self.dead, 0.3)
        self.dead[:] = 0
        for bin in np.flatnonzero(seen_dead):
            facts[bin]["dead"] = int(seen_dead[bin])
        for bin, told in enumerate(facts):
            if not written[bin]:
                told = {"leaf": told["leaf"]} if "leaf" in told and self.chance.random() < self.keeps_big else {}
            if told:
                self.diary.notes.append(Note(day, bin, told))
        moved = np.zeros_like(state.animals), np.zeros_like(state.animals)
        self._count(state, day, written)
        self._substrate(state, day, written, moved)
        self._move(state, day, moved)
        if moved[0].any() or moved[1].any():
            self.diary.moves.append(Moves(day, *moved))

    def _only_dishes(self, state: State, day: int) -> None:
        """The evening after a feeding: a look at what is left, and nothing else."""
        facts: list[dict[str, Any]] = [{} for _ in self.dish]
        self._dish(state, day, False, facts)
        written = self.chance.random(len(facts)) < self.writes
        self.diary.notes += [Note(day, bin, told) for bin, told in enumerate(facts) if told and written[bin]]

    def _moss(self, state: State, day: int, facts: list[dict[str, Any]]) -> None:
        full, chance = self.world.traits.moss, self.chance
        wet = state.water / full + chance.normal(0, 0.04, len(full))
        found = np.searchsorted(self.edges, wet)
        waters = (found <= 1) | ((found == 2) & (chance.random(len(full)) < 0.3))
        if self.habit:
            waters = (day - self.watered >= 4) | (found == 0)
        gives = np.clip(self.diary.fill + chance.normal(0, 0.05, len(full)), 0.5, 1) * full
        noted = chance.random(len(full)) < self.notes_moss
        writes_water = chance.random(len(full)) > self.forgets_water
        for bin, fact in enumerate(facts):
            if noted[bin]:
                fact["moss"] = ("dry", "drying", "damp", "wet", "soaked")[found[bin]]
            if waters[bin]:
                given = max(5, round((gives[bin] - state.water[bin]) / 5) * 5)
                if writes_water[bin]:
                    fact["water"] = given
                state.water[bin] = max(state.water[bin], min(gives[bin], state.water[bin] + given))
                self.watered[bin] = day

    def _dish(self, state: State, day: int, feeds: bool, facts: list[dict[str, Any]]) -> None:
        chance = self.chance
        noted = chance.random(len(self.dish)) < self.notes_dish
        for bin, fact in enumerate(facts):
            out = day - self.dish_day[bin]
            if self.dish[bin] > 0 and out >= 1:
                left = state.food[bin] / self.dish[bin] * np.exp(chance.normal(0, 0.25))
                mouldy = left > 0.12 and out >= 3 and chance.random() < 0.5
                word = "mouldy" if mouldy else "gone" if left < 0.06 else "some" if left < 0.55 else "most"
                if noted[bin]:
                    fact["leftovers"] = word
                if chance.random() < 0.6:
                    self.portion[bin] *= {"gone": 1.15, "some": 0.92, "most": 0.7, "mouldy": 0.65}[word]
                if mouldy or word == "gone" or out >= 5 or feeds:
                    state.food[bin] = self.dish[bin] = 0
            if feeds and state.animals[bin].any():
                portion = float(f"{self.portion[bin] * np.exp(chance.normal(0, 0.1)):.1g}")
                fact["food"] = max(portion, 0.005)
                state.food[bin] = self.dish[bin] = fact["food"]
                self.dish_day[bin] = day

    def _leaf(self, state: State, facts: list[dict[str, Any]]) -> None:
        cover = self.world.traits.cover
        seen = litter(state) / cover * np.exp(self.chance.normal(0, 0.2, len(cover)))
        for bin in np.flatnonzero(self.chance.random(len(cover)) < self.notes_leaf):
            facts[bin]["leaf_left"] = ("none", "little", "half", "plenty")[
                np.searchsorted([0.08, 0.3, 0.65], seen[bin])
            ]
        for bin in np.flatnonzero((seen < self.tops_at) & (self.chance.random(len(cover)) < 0.5)):
            wanted = (self.chance.uniform(0.6, 1.0) - seen[bin]) * cover[bin]
            if self.handfuls:
                hands = max(1, round(wanted / 0.4))
                facts[bin]["leaf"] = f"{hands} handfuls" if hands > 1 else "handful"
                given = sum(0.4 * np.exp(self.chance.normal(0, 0.2)) for _ in range(hands))
            else:
                given = max(0.25, round(wanted * 4) / 4)
                facts[bin]["leaf"] = f"{given:g} L"
                given *= np.exp(self.chance.normal(0, 0.1))
            state.loose[bin] += given * LOOSE

    def _count(self, state: State, day: int, written: np.ndarray) -> None:
        for bin in np.flatnonzero(day - self.counted > self.count_every):
            if self.chance.random() < 0.4:
                self._count_one(state, day, int(bin), str(self.way), bool(written[bin]))

    def _count_one(self, state: State, day: int, bin: int, way: str, write: bool) -> None:
        chance, share = self.chance, WAYS[way]
        odds = np.log(share / (1 - share)) + self.odds[day, bin] * (1 if share < 0.8 else 0.6)
        share = chance.beta(*(np.array([1, np.exp(-odds)]) / (1 + np.exp(-odds)) * 25))
        older, young = state.animals[bin, MANCA:].sum(), state.animals[bin, :MANCA].sum()
        saw = int(chance.binomial(older, share) + chance.binomial(young, share / 4))
        self.counted[bin] = day
        self.thinks[bin] = 0.5 * self.thinks[bin] + 0.5 * saw / WAYS[way]
        text, whim = str(saw), chance.random()
        if saw >= 20 and way != "full sort" and whim < 0.3:
            text = f"~{round(saw, -1)}" if whim < 0.15 else f"{saw // 10 * 10}+" if whim < 0.25 else "dozens"
            text = text if text != "dozens" or saw < 120 else "100+"
        if write:
            self.diary.notes.append(Note(day, bin, {"count": text, "way": way}))

    def _substrate(self, state: State, day: int, written: np.ndarray, moved: tuple[Ints, Ints]) -> None:
        chance = self.chance
        for bin in np.flatnonzero(day - self.looked > self.look_every):
            if chance.random() > 0.4:
                continue
            self.looked[bin] = day
            seen = float(np.clip(state.good[bin] + chance.normal(0, 0.08), 0, 1))
            word = ("spent", "mostly frass", "part frass", "good", "fresh")[np.searchsorted(self.classes, seen)]
            fact = {"percent": round(seen * 10) * 10} if self.says_percent else {"substrate": word}
            if written[bin]:
                self.diary.notes.append(Note(day, int(bin), fact))
            if seen < 0.36 and day - self.changed[bin] > 60 and chance.random() < 0.5:
                self._change(state, day, int(bin), moved)

    def _change(self, state: State, day: int, bin: int, moved: tuple[Ints, Ints]) -> None:
        chance = self.chance
        share = float(chance.choice(SHARES, p=[0.3, 0.3, 0.15, 0.1, 0.15]))
        self.changed[bin] = day
        fresh = np.clip(FRESH + chance.normal(0, 0.02), 0.8, 1)
        state.good[bin] += (fresh - state.good[bin]) * np.clip(share * np.exp(chance.normal(0, 0.08)), 0, 1)
        if share == 1 or chance.random() < 0.3:
            self._count_one(state, day, bin, "full sort", chance.random() < self.keeps_big)
        if chance.random() < self.keeps_big:
            self.diary.notes.append(Note(day, bin, {"share": share}))
        lost = chance.binomial(
            state.animals[bin], np.where(np.arange(state.animals.shape[1]) < MANCA, 0.08, 0.02) * share
        )
        state.animals[bin] -= lost
        moved[1][bin] += lost
        back = int(chance.binomial(lost[MANCA:].sum(), 0.6))
        if back:
            self.due_back.append((day + int(chance.integers(10, 35)), bin, back))

    def _move(self, state: State, day: int, moved: tuple[Ints, Ints]) -> None:
        chance = self.chance
        for entry in [due for due in self.due_back if due[0] <= day]:
            self.due_back.remove(entry)
            state.animals[entry[1], MANCA] += entry[2]
            moved[0][entry[1], MANCA] += entry[2]
            self._big(day, entry[1], {"in": entry[2]})
        wanted = np.zeros(len(self.dish), dtype=np.int64)
        notes: dict[int, dict[str, Any]] = {}
        older = number(state)
        for bin in np.flatnonzero((self.thinks > self.thinks_crowded) & (day - self.split > 120)):
            if chance.random() < 0.15:
                wanted[bin] = round(older[bin] * chance.uniform(0.35, 0.6))
                told = int(wanted[bin]) if chance.random() < 0.6 else None
                notes[int(bin)] = {"split": True, "number": told, "kept": chance.random() < 0.3}
                self.split[bin] = day
        for bin in np.flatnonzero((self.thinks > 60) & (chance.random(len(wanted)) < 1 / 45) & (wanted == 0)):
            wanted[bin] = min(int(chance.choice([10, 12, 15, 20, 25])), older[bin] // 2)
            notes[int(bin)] = {"out": int(wanted[bin])}
        state.animals, taken = take(state.animals, wanted, chance)
        moved[1][:] += taken
        self.thinks = np.maximum(self.thinks - taken[:, MANCA:].sum(1), 1)
        for bin, fact in notes.items():
            if fact.get("split"):
                with_it = chance.binomial(state.animals[bin, :MANCA], min(1.0, wanted[bin] / max(older[bin], 1)))
                state.animals[bin, :MANCA] -= with_it
                moved[1][bin, :MANCA] += with_it
            if wanted[bin]:
                self._big(day, bin, fact)

    def _big(self, day: int, bin: int, facts: dict[str, Any]) -> None:
        if self.chance.random() < self.keeps_big:
            self.diary.notes.append(Note(day, bin, facts))
