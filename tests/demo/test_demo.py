"""The demo workbook is what its script makes, and holds what its truth file says."""

import json
import runpy
import zipfile
from collections import Counter
from datetime import date
from pathlib import Path

import openpyxl
import pytest

DEMO = Path(__file__).parents[2] / "demo"


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    folders = [tmp_path_factory.mktemp("first"), tmp_path_factory.mktemp("second")]
    make = runpy.run_path(str(DEMO / "make_demo.py"))["make"]
    for folder in folders:
        make(folder)
    return folders


@pytest.fixture(scope="module")
def truth():
    return json.loads((DEMO / "truth.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def workbook():
    return openpyxl.load_workbook(DEMO / "cellar-bins.xlsx")


def parts(path):
    """What stands in the sheets: compression may differ from one machine to another, this not."""
    with zipfile.ZipFile(path) as file:
        names = [n for n in file.namelist() if n.startswith("xl/worksheets/") or n == "xl/sharedStrings.xml"]
        return {name: file.read(name) for name in sorted(names)}


def test_same_run_gives_same_bytes(made):
    for name in ("cellar-bins.xlsx", "truth.json"):
        assert (made[0] / name).read_bytes() == (made[1] / name).read_bytes()


def test_committed_files_are_what_the_script_makes(made):
    assert parts(DEMO / "cellar-bins.xlsx") == parts(made[0] / "cellar-bins.xlsx")
    assert (DEMO / "truth.json").read_text(encoding="utf-8") == (made[0] / "truth.json").read_text(encoding="utf-8")


def test_size_is_what_a_keeper_with_sixty_bins_has(truth):
    assert len(truth["bins"]) == 60
    assert len({(one["species"], one["line"]) for one in truth["bins"] if one["line"]}) == 12
    assert 6000 <= sum(truth["rows"].values()) <= 10000
    assert (DEMO / "cellar-bins.xlsx").stat().st_size < 1_000_000


def test_every_disordered_cell_stands_where_the_truth_says(truth, workbook):
    assert len(truth["disorder"]) > 1000
    for odd in truth["disorder"]:
        value = workbook[odd["sheet"]][odd["cell"]].value
        shown = value.date().isoformat() if hasattr(value, "date") else {"=NA()": "#N/A"}.get(value, str(value))
        assert shown == odd["written"], odd


def test_both_rooms_list_every_bin_once(truth, workbook):
    names = [row[0].value for row in workbook["Cellar"].iter_rows(min_row=4) if row[0].value]
    names += [row[1].value for row in workbook["Spare room"].iter_rows(min_row=3) if row[1].value]
    assert Counter(names) == Counter([one["name"] for one in truth["bins"]] + ["TOTAL"])


def test_moss_is_drier_the_longer_ago_it_was_watered(truth):
    watered, days = {}, {"damp": [], "drying": [], "dry": []}
    for day, bins, acts in truth["acts"]:
        for name in bins:
            if acts.get("moss") in days and name in watered:
                days[acts["moss"]].append((date.fromisoformat(day) - watered[name]).days)
            if "water" in acts:
                watered[name] = date.fromisoformat(day)
    mean = {word: sum(found) / len(found) for word, found in days.items()}
    assert mean["damp"] < mean["drying"] < mean["dry"]


def test_animals_of_old_substrate_are_found_or_left(truth):
    for one in truth["old_substrate"]:
        assert sum(one["passes"]) + sum(one["traps"]) + one["left"] == one["stayed_in"]
