"""What is true in a simulated room of bins: moss corners, dishes, litter, substrate and animals, a day at a time."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

import numpy as np

from simulator.colony import BODY, KINDS, Breeding, Floats, Ints, counted, live_a_day, settle
from simulator.room import Room, liveliness, make_room, wander

CLASSES = ("slow", "medium", "hearty")
VENTS = ("low", "medium", "high")
DRY = 0.22
"""Share of the moss's full load of water below which it is dry."""
SPENT = 0.20
RUN_OUT = 0.05
FRESH = 0.92
"""Recognisable share of new substrate."""
YOUNG = 25
"""A bin with fewer animals than this at the start was set up only days before, on new substrate."""
WORN_AT_MOST = 1500
"""Days before the start for which the wear of substrate is followed back."""
LOOSE, SETTLED = 20.0, 33.0
"""Grams of dry leaf in a litre, loose and after it has settled."""
TAIL = 540
"""Days that the weather goes on after the log ends, so that what would have come can be played on."""


@dataclass(frozen=True, eq=False)
class Traits:
    """What never changes in a bin; one value a bin."""

    kind: Ints
    appetite: Ints
    vent: Ints
    litres: Floats
    floor: Floats
    """dm2."""
    cover: Floats
    """Litres of litter when the floor is fully covered."""
    moss: Floats
    """Grams of water that the moss holds when full."""
    draught: Floats
    """Grams of water lost in a day for each kPa."""
    wick: Floats
    """Grams of water drawn away by the substrate in a day."""
    bite: Floats
    """Grams of food that one grown animal eats in a day at 21 C."""
    chew: Floats
    """Grams of dry leaf gone in a day for each grown animal, shreds included."""
    dig: Floats
    """Share of the substrate eaten in a day by a hundred grown animals while all of it is good."""
    rot: Floats
    """Share of litter and substrate that rots in a day at 21 C."""
    breeding: Breeding


@dataclass(eq=False)
class State:
    """What changes from day to day; one value a bin."""

    water: Floats
    food: Floats
    loose: Floats
    settled: Floats
    """Grams of leaf."""
    good: Floats
    """Recognisable share of the substrate."""
    animals: Ints
    """(B, stages)."""

    def copy(self) -> State:
        return replace(self, **{part.name: getattr(self, part.name).copy() for part in fields(self)})


@dataclass(frozen=True, eq=False)
class Gone:
    """What a day took: for checks of the balance."""

    dried: Floats
    eaten: Floats
    leaf_eaten: Floats
    leaf_rotted: Floats
    deaths: Ints
    born: Ints


@dataclass(frozen=True, eq=False)
class World:
    """The traits, the room, and all that comes from outside, for every day of the log and ``TAIL`` days more."""

    seed: int
    first: int
    days: int
    traits: Traits
    room: Room
    airing: Floats
    """(D, B) how much more or less water the moss loses than usual."""
    hunger: Floats
    breeding: Floats
    dying: Floats
    start: State
    wrong: bool

    def chance(self, day: int, of: int = 0) -> np.random.Generator:
        """The chances of one day: the same for what was and for what would have been."""
        return np.random.default_rng((self.seed, day, of))


def make_world(seed: int, *, bins: int = 60, days: int = 730, first: int = 738900, wrong: bool = False) -> World:
    """Draw a world; ``wrong`` is one that departs from what an estimator is likely to assume."""
    chance = np.random.default_rng((seed, 71))
    horizon = days + TAIL
    room = make_room(chance, first, horizon)
    traits = _traits(chance, bins)
    breeding, dying = _luck(chance, horizon, bins, wrong)
    airing = np.exp(wander(chance, horizon, 0.18, 0.8, bins))
    hunger = np.exp(wander(chance, horizon, 0.22, 0.7, bins) + wander(chance, horizon, 0.2, 0.985, bins))
    if wrong:
        hunger *= np.exp(0.6 * np.cumsum(chance.random((horizon, bins)) < 1 / 400, axis=0) * chance.normal(0, 1, bins))
        for begin in chance.integers(0, horizon, horizon // 100):
            airing[begin : begin + 7] *= chance.choice([0.5, 1.9])
            hunger[begin : begin + 7] *= chance.choice([0.3, 1.6])
        heavy = chance.standard_t(3, (horizon, bins))
        airing *= np.exp(0.1 * np.clip(heavy, -6, 6))
    start = np.clip(traits.breeding.crowd * np.exp(chance.normal(-0.7, 0.8, bins)), 8, None)
    cover = traits.cover * chance.uniform(0.2, 1, bins)
    state = State(
        water=traits.moss * chance.uniform(0.4, 1, bins),
        food=np.zeros(bins),
        loose=cover * LOOSE * 0.4,
        settled=cover * SETTLED * 0.6,
        good=chance.uniform(0.35, 0.9, bins),
        animals=settle(start, chance),
    )
    state.good = np.where(number(state) < YOUNG, FRESH - chance.uniform(0, 0.03, bins), state.good)
    return World(seed, first, days, traits, room, airing, np.clip(hunger, 0.05, 12), breeding, dying, state, wrong)


def _traits(chance: np.random.Generator, bins: int) -> Traits:
    kind = chance.integers(0, len(KINDS), bins)
    of_kind = {
        name: np.array([getattr(k, name) for k in KINDS]) for name in Breeding.__annotations__ if name != "crowd"
    }
    rate = {name: values[kind] for name, values in of_kind.items()}
    appetite = np.array([CLASSES.index(k.appetite) for k in KINDS])[kind]
    mass = np.array([k.grown_mg for k in KINDS])[kind]
    litres = chance.choice([3.0, 5.5, 6.0, 9.0, 12.0, 18.0], bins, p=[0.15, 0.25, 0.25, 0.2, 0.1, 0.05])
    floor = litres / chance.uniform(1.0, 1.4, bins)
    vent = chance.choice(3, bins, p=[0.35, 0.45, 0.2])
    crowd = litres * np.array([k.room_each for k in KINDS])[kind] * 0.8 * np.exp(chance.normal(0, 0.3, bins))

    def own(sd: float, of_species: float) -> Floats:
        return np.exp(chance.normal(0, sd, bins) + chance.normal(0, of_species, len(KINDS))[kind])

    leaf = 0.000055 * mass**0.65 * np.array([0.7, 1.1, 2.1])[appetite]
    return Traits(
        kind=kind,
        appetite=appetite,
        vent=vent,
        litres=litres,
        floor=floor,
        cover=floor * 0.22,
        moss=np.exp(chance.normal(np.log(70), 0.25, bins)),
        draught=25 * np.array([0.05, 0.15, 0.38])[vent] * own(0.3, 0.1),
        wick=1.3 * own(0.4, 0.1),
        bite=np.array([0.0008, 0.0024, 0.0066])[appetite] * own(0.3, 0.3),
        chew=leaf * 2.2 * own(0.3, 0.25),
        dig=0.0155 / litres * np.array([0.6, 0.9, 1.6])[appetite] * (20 / crowd * litres) ** 0.5 * own(0.25, 0.2),
        rot=0.0013 * own(0.3, 0.0),
        breeding=Breeding(
            ripe=rate["ripe"] * np.exp(chance.normal(0, 0.1, bins)),
            brood=rate["brood"] * np.exp(chance.normal(0, 0.15, bins)),
            interval=rate["interval"],
            young_die=rate["young_die"] * np.exp(chance.normal(0, 0.12, bins)),
            grown_die=rate["grown_die"] * np.exp(chance.normal(0, 0.25, bins)),
            crowd=crowd,
        ),
    )


def _luck(chance: np.random.Generator, days: int, bins: int, wrong: bool) -> tuple[Floats, Floats]:
    """How breeding and dying go: spells of thriving, standing still and ailing, each of some months."""
    go = np.array([1.0, 0.4, 0.12])
    hard = np.array([1.0, 1.5, 3.0])
    spell = chance.choice(3, bins, p=[0.5, 0.27, 0.23])
    breeding, dying = np.empty((days, bins)), np.empty((days, bins))
    turn = chance.random((days, bins)) < 1 / 270
    to = chance.choice(3, (days, bins), p=[0.5, 0.27, 0.23])
    for day in range(days):
        spell = np.where(turn[day], to[day], spell)
        breeding[day], dying[day] = go[spell], hard[spell]
    if wrong:
        for begin in chance.integers(0, days, max(1, days // 250)):
            dying[begin : begin + 10, chance.random(bins) < 0.3] *= 6
        for bin in np.flatnonzero(chance.random(bins) < 0.3):
            begin = chance.integers(0, days)
            dying[begin : begin + 14, bin] *= 20
    return breeding, dying


def pass_day(world: World, state: State, day: int) -> Gone:
    """Let one day pass over all bins, with nobody doing anything; ``state`` is changed in place."""
    traits, pace = world.traits, float(liveliness(world.room.warmth[day]))
    body = state.animals @ BODY**0.7
    wet = state.water / traits.moss
    dried = (traits.draught * world.room.pull[day] * world.airing[day] + traits.wick * np.sqrt(wet)) * np.minimum(
        1, wet / 0.4
    )
    dried = np.minimum(dried, state.water)
    state.water = state.water - dried
    eaten = bitten(state.food, appetite_now(world, state, day))
    state.food = state.food - eaten
    grams = state.loose + state.settled
    share_loose = np.divide(state.loose, grams, out=np.zeros_like(grams), where=grams > 0)
    seen = litter(state)
    wanted = traits.chew * body * pace * world.hunger[day] ** 0.4 * seen / (seen + 0.08 * traits.cover)
    leaf_eaten = np.minimum(wanted, grams)
    rotted = (grams - leaf_eaten) * (1 - np.exp(-traits.rot * pace))
    loss = leaf_eaten + rotted
    state.loose = state.loose - loss * share_loose
    state.settled = state.settled - loss * (1 - share_loose)
    sunk = state.loose / 12
    state.loose = np.maximum(state.loose - sunk, 0)
    state.settled = np.maximum(state.settled + sunk, 0)
    dug = traits.dig * body / 100 * pace * 1.35 * state.good / (state.good + 0.35)
    state.good = np.maximum(state.good * np.exp(-0.6 * traits.rot * pace) - dug, 0)
    state.animals, deaths, born = live_a_day(
        state.animals, traits.breeding, pace, world.breeding[day], world.dying[day], world.chance(day)
    )
    return Gone(dried, eaten, leaf_eaten, rotted, deaths, born)


def worn_since(world: World) -> Floats:
    """Days that the substrate of each bin took to wear from new to what it is at the start, at the bin's own rate.

    Fewer animals lived there before: three quarters of those at the start are reckoned with.
    """
    traits = world.traits
    body, pace = 0.75 * (world.start.animals @ BODY**0.7), float(liveliness(world.room.warmth).mean())
    days, good = np.zeros(len(body)), np.full(len(body), FRESH)
    for _ in range(WORN_AT_MOST):
        days += good > world.start.good
        good = good * np.exp(-0.6 * traits.rot * pace) - traits.dig * body / 100 * pace * 1.35 * good / (good + 0.35)
    return days


def appetite_now(world: World, state: State, day: int) -> Floats:
    """Grams that the animals of each bin could eat in a day of food they don't have to search for."""
    pace = float(liveliness(world.room.warmth[day]))
    return np.asarray(world.traits.bite * (state.animals @ BODY**0.7) * pace * world.hunger[day])


def bitten(food: Floats, able: Floats) -> Floats:
    """Grams eaten of a dish in a day: less and less is found as it empties."""
    left = food
    for _ in range(8):
        half = 0.12 * able
        left = left - np.minimum(left, able / 8 * np.divide(left, left + half, out=np.zeros_like(left), where=left > 0))
    return np.asarray(food - left)


def litter(state: State) -> Floats:
    """Litres of litter to be seen."""
    return np.asarray(state.loose / LOOSE + state.settled / SETTLED)


def number(state: State) -> Ints:
    """Animals past the manca stage."""
    return counted(state.animals)
