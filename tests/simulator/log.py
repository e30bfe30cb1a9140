"""A simulated diary as the rows that reading a keeper's workbook would give."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from simulator.colony import KINDS
from simulator.keeper import Diary, Note
from simulator.world import CLASSES, VENTS, World
from tools.rows import bin_row, row
from workbook_tools.intake.amounts import read_amount
from workbook_tools.intake.numbers import read_number
from workbook_tools.intake.tables import Row
from workbook_tools.intake.values import Amount, Meaning, Number, When, Words


def name_of(bin: int) -> str:
    """The code on a bin."""
    return f"{'ABCDEFGH'[bin // 12 % 8]}{bin % 12 + 1:02d}"


def names(bins: int) -> list[str]:
    """The codes of all bins in their order."""
    return [name_of(bin) for bin in range(bins)]


@lru_cache(maxsize=4096)
def _leaf(text: str) -> Amount:
    amount = read_amount(text, "l").amount
    assert amount is not None
    return amount


@lru_cache(maxsize=4096)
def _number(text: str) -> Number:
    number = read_number(text).number
    assert number is not None
    return number


def _plain(value: float, unit: str) -> Amount:
    return Amount(Number.exactly(value), unit, unit)


def rows_of(world: World, diary: Diary, until: int | None = None) -> list[Row]:
    """The rows of a keeper's workbook as it stood on the evening of a day: the list of bins, then the log."""
    return [*_bins(world, diary), *_log(world, diary, world.days if until is None else until)]


def _bins(world: World, diary: Diary) -> Iterator[Row]:
    traits, told = world.traits, np.random.default_rng((world.seed, 5)).random(len(world.traits.kind)) < 0.85
    for bin in range(len(traits.kind)):
        changed = dt.date.fromordinal(world.first + int(diary.last_change[bin]))
        facts: dict[str, Meaning] = {
            "species": KINDS[traits.kind[bin]].name,
            "place": f"Shelf {name_of(bin)[0]}",
            "volume": _plain(float(traits.litres[bin]), "l"),
            "floor": _plain(round(float(traits.floor[bin]), 1), "dm2"),
            "ventilation": Words((VENTS[traits.vent[bin]],)),
            "started": When.on(changed),
            "last_substrate_change": When.on(changed),
        }
        if told[bin]:
            facts["appetite"] = Words((CLASSES[traits.appetite[bin]],))
        if diary.founders[bin]:
            facts["founders"] = Number.exactly(int(diary.founders[bin]))
        if np.isfinite(diary.crowded_at[bin]):
            facts["target"] = _plain(float(diary.crowded_at[bin]), "count")
        yield bin_row(name_of(bin), at=bin + 2, **facts)


def _log(world: World, diary: Diary, until: int) -> Iterator[Row]:
    readings = (reading for reading in diary.readings if reading[0] <= until)
    for at, (day, warmth, damp) in enumerate(readings, start=2):
        when = When.on(dt.date.fromordinal(world.first + day))
        yield row("log", "Room", "room", at, when=when, temperature=_plain(warmth, "degC"), humidity=_percent(damp))
    notes = (note for note in diary.notes if note.day <= until)
    for at, note in enumerate(notes, start=2):
        when = When.on(dt.date.fromordinal(world.first + note.day))
        yield row("log", "Log", "", at, when=when, bins=name_of(note.bin), **_facts(note, at))


def _percent(value: float) -> Amount:
    return Amount(Number.exactly(value), "percent", "%")


def _facts(note: Note, at: int) -> dict[str, Meaning]:
    """The cells of one row of the log by field."""
    told = note.facts
    out: dict[str, Meaning] = {}
    for key in ("moss", "leftovers", "leaf_left", "substrate"):
        if key in told:
            out[key] = Words((told[key],))
    if "water" in told:
        out["water"] = _plain(told["water"], "ml")
    if "food" in told:
        out["food"], out["amount"] = "dry mix", _plain(told["food"], "g")
    if "leaf" in told:
        out["leaf"] = _leaf(told["leaf"])
    if "dead" in told:
        out["dead"] = Number.exactly(told["dead"])
    if "count" in told:
        out["did"], out["number"], out["way"] = Words(("count",)), _number(told["count"]), told["way"]
    if "percent" in told:
        out["did"], out["recognisable"] = Words(("substrate_look",)), _recognisable(told["percent"])
    if "share" in told:
        out["did"], out["share"] = Words(("substrate_change",)), _share(told["share"])
    if "split" in told:
        out["did"] = Words(("split",))
        if told["kept"]:
            out["to_bin"] = f"N{at}"
        if told["number"] is not None:
            out["number"] = Number.exactly(told["number"])
    for key, act in (("out", "animals_out"), ("in", "animals_in")):
        if key in told:
            out["did"], out["number"] = Words((act,)), Number.exactly(told[key])
    return out


def _share(value: float) -> Amount:
    return Amount(Number.exactly(value), "share", "share")


def _recognisable(percent: float) -> Amount:
    return _share(percent / 100)
