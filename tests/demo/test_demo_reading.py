"""The demo read against what is true about it: every act on its day, in its bin, with its amount; every trap named."""

import datetime as dt
import json
from collections import defaultdict
from pathlib import Path

import pytest
from openpyxl.utils import coordinate_to_tuple

from workbook_tools import pipeline
from workbook_tools.ledger.series.sifting import old_substrate
from workbook_tools.problems import CellRef

DEMO = Path(__file__).parents[2] / "demo"
AMOUNTS = {
    "water": "water",
    "feed": "amount",
    "leaf": "leaf",
    "dead": "dead",
    "animals_out": "number",
    "sift": "number",
}
TWICE = "the row above, entered twice"
MISTYPED = "40 ml with two noughts too many"
NO_TRUTH = {TWICE, "no such bin", "a word explained nowhere", "2026-11-21 with the wrong year", "a guess at most"}
"""What the truth file says of cells whose row can't be read as it was meant."""


@pytest.fixture(scope="module")
def truth():
    return json.loads((DEMO / "truth.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def reading(truth):
    return pipeline.read(DEMO / "cellar-bins.xlsx", dt.date.fromisoformat(truth["report_on"]))


@pytest.fixture(scope="module")
def trap_rows(truth):
    return {
        (odd["sheet"], coordinate_to_tuple(odd["cell"])[0])
        for odd in truth["disorder"]
        if str(odd["means"]) in NO_TRUTH
    }


@pytest.fixture(scope="module")
def meant(truth):
    """The amount that was meant, by sheet and row, where the keeper wrote another."""
    return {
        (odd["sheet"], coordinate_to_tuple(odd["cell"])[0]): float(odd["means"].split()[0])
        for odd in truth["disorder"]
        if odd["means"] == MISTYPED
    }


@pytest.fixture(scope="module")
def true_acts(truth):
    """Day, bin and act, with every value recorded for them."""
    acts = defaultdict(list)
    for day, bins, done in truth["acts"]:
        for act, value in done.items():
            if act != "seen":
                for name in bins or [""]:
                    acts[day, name, act].append(value)
    return acts


@pytest.fixture(scope="module")
def read_acts(reading, trap_rows):
    acts = defaultdict(list)
    for entry in reading.ledger.entries:
        if (entry.where.sheet, entry.where.row) in trap_rows or entry.where.sheet in ("Cellar", "Spare room"):
            continue
        day = entry.when.first.isoformat() if entry.when and entry.when.exact else "not exact"
        for name in entry.bins or ("",):
            acts[day, name, entry.act].append(entry)
    return acts


def test_every_bin_is_read_with_its_species_and_place(truth, reading):
    read = {one.name: (one.species, one.line, one.place) for one in reading.ledger.bins.values() if one.listed}
    assert read == {one["name"]: (one["species"], one["line"], one["place"]) for one in truth["bins"]}


def test_every_act_is_read_on_its_day_and_in_its_bin(true_acts, read_acts):
    assert {key: len(found) for key, found in read_acts.items()} == {key: len(all) for key, all in true_acts.items()}


@pytest.mark.parametrize("act", sorted(AMOUNTS))
def test_every_amount_is_read(act, true_acts, read_acts, meant):
    wrong, seen = [], 0
    for key, entries in read_acts.items():
        if key[2] != act:
            continue
        read = sorted(
            meant.get((entry.where.sheet, entry.where.row), number.best)
            for entry in entries
            if (number := entry.number(AMOUNTS[act]))
        )
        seen += len(read)
        if read != pytest.approx(sorted(true_acts[key])):
            wrong.append((key, read, true_acts[key]))
    assert wrong == []
    assert seen == sum(len(values) for key, values in true_acts.items() if key[2] == act) > 0


def test_every_moss_state_is_read(true_acts, read_acts):
    read = {key: [entry.state("moss") for entry in entries] for key, entries in read_acts.items() if key[2] == "moss"}
    assert read
    assert read == {key: values for key, values in true_acts.items() if key[2] == "moss"}


def test_every_trap_is_named(truth, reading):
    named = {cell for problem in reading.problems for cell in problem.cells}
    traps = {
        CellRef(odd["sheet"], row, 0 if odd["means"] == TWICE else col): odd["means"]
        for odd in truth["disorder"]
        for row, col in [coordinate_to_tuple(odd["cell"])]
        if str(odd["means"]) in {*NO_TRUTH, MISTYPED} - {"a guess at most"} or odd["written"] == "#N/A"
    }
    assert {*NO_TRUTH, MISTYPED} - {str(means) for means in traps.values()} == {"a guess at most"}
    assert {cell: means for cell, means in traps.items() if cell not in named} == {}


def test_no_row_is_left_out_and_the_cell_that_is_no_temperature_is_named(reading):
    kept = [entry for entry in reading.ledger.entries if entry.act == "note"]
    assert reading.ledger.rows_used + reading.ledger.rows_noted == reading.ledger.rows_read
    assert reading.ledger.rows_noted == len(kept) == 4  # a word of nobody's else, three times, and a pointer elsewhere
    assert [problem.value for problem in reading.problems if problem.code.startswith("amounts.")] == ["toasty"]


def test_changes_before_the_log_are_read_from_the_lists_of_bins(truth, reading):
    read = {
        entry.bins[0]: entry.when
        for entry in reading.ledger.entries
        if entry.act == "substrate_change" and entry.where.sheet in ("Cellar", "Spare room")
    }
    true = {one["name"]: one["soil_changed_before_the_log"] for one in truth["bins"]}
    assert set(read) == {name for name, day in true.items() if day}
    assert all(when.first <= dt.date.fromisoformat(true[name]) <= when.last for name, when in read.items())


def test_old_substrate_is_followed_from_its_change_to_the_freezer(truth, reading):
    on = dt.date.fromisoformat(truth["report_on"])
    read = {
        (lot.bin, dt.date.fromordinal(lot.begun).isoformat()): (
            [one.found for one in lot.passes],
            [one.found for one in lot.traps],
            dt.date.fromordinal(lot.closed).isoformat() if lot.closed else None,
        )
        for lot in old_substrate(reading.ledger, on).lots
    }
    true = {
        (one["bin"], one["changed"]): (one["passes"], one["traps"], one["frozen"]) for one in truth["old_substrate"]
    }
    assert {key: read.get(key) for key in true} == true
    assert sum(frozen is None for _, _, frozen in true.values()) == 2


def test_animals_put_in_with_another_line_are_named(reading):
    said = [problem.says for problem in reading.problems if problem.code == "entries.lines_mixed"]
    assert said == [
        "Animals of A01 (Porcellio scaber, Slate Rust) went in with those of A02 (Porcellio scaber, Tin Roof) here."
    ]
