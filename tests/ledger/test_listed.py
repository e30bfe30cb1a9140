import pytest

from tools.rows import amount, bin_row, day, number, words
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.tables import Row
from workbook_tools.intake.values import Fact
from workbook_tools.ledger.listed import read_bins
from workbook_tools.problems import CellRef


def test_row_that_names_two_bins_makes_two_with_the_same_facts():
    bins, _, problems, used = read_bins([bin_row("A04 / A05", species="Copper")])
    assert list(bins) == ["A04", "A05"]
    assert bins["A04"].species == bins["A05"].species == "Copper"
    assert [problem.code for problem in problems] == ["bins.two_in_row"]
    assert used == 1


def test_names_of_shelf_and_place_stay_whole():
    bins, _, problems, _ = read_bins([bin_row(name) for name in ("1/1", "1/2", "2/1", "2/2")])
    assert list(bins) == ["1/1", "1/2", "2/1", "2/2"]
    assert problems == []


def test_bin_on_two_sheets_is_one_and_differing_facts_name_both_cells():
    rows = [
        bin_row("A1", sheet="Bins", at=5, species="Porcellio scaber", volume=amount(6, "l")),
        bin_row("a-1", sheet="Old", at=9, species="Porcellio scaber", volume=amount(11, "l"), line="Grey"),
    ]
    bins, _, problems, _ = read_bins(rows)
    assert list(bins) == ["A1"]
    assert bins["A1"].line == "Grey"
    assert bins["A1"].text("volume") == "6 l"
    assert [(str(p.where), p.code, str(p.facts["cell"])) for p in problems] == [("Old!C9", "bins.differ", "Bins!C5")]


def test_names_alike_on_one_sheet_are_two_bins_and_the_same_name_is_one():
    bins, _, problems, _ = read_bins([bin_row("B7"), bin_row("B07"), bin_row("b07")])
    assert list(bins) == ["B7", "B07"]
    assert [problem.code for problem in problems] == ["bins.twice"]


@pytest.mark.parametrize("name", ["", "-", "?"])
def test_row_without_a_name_is_left_out_and_named(name):
    bins, _, problems, used = read_bins([bin_row(name, at=7, species="Ash Roller")])
    assert (bins, used) == ({}, 0)
    assert [(str(p.where), p.code) for p in problems] == [("Bins!7", "bins.no_name")]


def test_dates_of_last_care_imply_dated_entries_and_numbers_undated_counts():
    row = bin_row("A1", last_water=day("2026-03-01"), last_substrate_change=day("2025-10"), last_count=number(34))
    _, entries, _, _ = read_bins([row])
    found = {entry.act: entry for entry in entries}
    assert set(found) == {"water", "substrate_change", "count"}
    assert found["water"].when == day("2026-03-01")
    assert not found["substrate_change"].when.exact
    assert found["count"].when is None
    assert found["count"].number("number").best == 34
    assert found["water"].where == row.facts["last_water"][0].cell.ref


def listed_as(field, text, when, guessed=True):
    cell = Cell(CellRef("Bins", 4, 2), text, text)
    row = bin_row("A1", at=4)
    return Row(row.where, row.role, row.act, {**row.facts, field: (Fact(field, when, cell, guessed),)})


@pytest.mark.parametrize("text", ["Mon", "Tuesday", "sun.", "Freitag"])
def test_weekday_alone_is_no_date_of_last_care(text):
    bins, entries, problems, _ = read_bins([listed_as("last_water", text, day("2026-03-09"))])
    assert "last_water" not in bins["A1"].facts
    assert entries == []
    assert [(str(p.where), p.code, p.value) for p in problems] == [("Bins!B4", "dates.relative", text)]


@pytest.mark.parametrize(
    ("text", "when", "guessed"),
    [("Mon 9 March", day("2026-03-09"), True), ("Mar", day("2026-03"), True), ("9/3", day("2026-03-09"), True)],
)
def test_other_dates_of_last_care_are_used(text, when, guessed):
    _, entries, problems, _ = read_bins([listed_as("last_water", text, when, guessed)])
    assert [entry.when for entry in entries] == [when]
    assert problems == []


def test_rows_of_other_tables_are_passed_over():
    from tools.rows import log_row

    assert read_bins([log_row("2026-03-01", "A1", "water")])[0] == {}


def test_status_is_kept():
    bins, _, _, _ = read_bins([bin_row("A1", status=words("resting"))])
    assert bins["A1"].word("status") == "resting"


def test_a_number_in_a_row_of_two_bins_is_given_to_neither():
    row = bin_row("A04 / A05", number_now=number(11), species="x")
    bins, entries, problems, _ = read_bins([row])

    assert [("species" in one.facts, "number_now" in one.facts) for one in bins.values()] == [(True, False)] * 2
    assert entries == []
    assert [problem.code for problem in problems] == ["bins.two_in_row", "bins.number_of_several"]
