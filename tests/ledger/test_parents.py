import datetime as dt

import pytest

from tools.rows import bin_row, log_row, number, settings, words
from workbook_tools.ledger.build import build_ledger

ON = dt.date(2026, 6, 30)
DAM = {"species": "Porcellionides pruinosus", "line": "Oreo", "appetite": words("hearty"), "ventilation": words("mesh")}


def bins_of(*rows, on=ON):
    ledger, problems = build_ledger(rows, settings(), on=on)
    return ledger.bins, problems


def split(day="2026-05-04", source="P1", to="P8", did="split", **fields):
    return log_row(day, source, did, to_bin=to, number=number(10), **fields)


def test_a_bin_split_off_takes_species_line_appetite_and_ventilation():
    bins, _ = bins_of(bin_row("P1", **DAM), split())
    child = bins["P8"]
    assert child.parents == ("P1",)
    assert (child.species, child.line) == ("Porcellionides pruinosus", "Oreo")
    assert (child.word("appetite"), child.word("ventilation")) == ("hearty", "mesh")
    assert child.inherited == ("species", "line", "appetite", "ventilation")
    assert all(child.facts[key].guessed for key in child.inherited)
    assert not bins["P1"].facts["appetite"].guessed


def test_what_is_written_for_the_new_bin_wins_and_what_is_taken_is_said():
    bins, problems = bins_of(bin_row("P1", **DAM), bin_row("P8", line="Oreo F2", ventilation=words("low")), split())
    child = bins["P8"]
    assert (child.line, child.word("ventilation")) == ("Oreo F2", "low")
    assert child.inherited == ("species", "appetite")
    told = [p for p in problems if p.code == "bins.takes_after"]
    assert [(p.facts["bin"], p.facts["parents"], p.facts["what"]) for p in told] == [
        ("P8", "P1", "species and appetite")
    ]


@pytest.mark.parametrize(
    "row",
    [
        split(),
        log_row("2026-05-04", "P8", "split", from_bin="P1", number=number(10)),
        log_row("2026-05-04", "P8", "start", from_bin="P1", number=number(10)),
        split(did="move_up"),
        split(did="animals_out"),
        log_row("2026-05-04", "P8", "animals_in", from_bin="P1", number=number(10)),
    ],
)
def test_whichever_way_it_began_it_has_a_parent(row):
    bins, _ = bins_of(bin_row("P1", **DAM), bin_row("P8"), row, log_row("2026-05-09", "P8", "water"))
    assert bins["P8"].parents == ("P1",)
    assert bins["P8"].word("appetite") == "hearty"


def test_the_list_may_name_the_parent():
    bins, _ = bins_of(bin_row("P1", **DAM), bin_row("P8", came_from="P1"), bin_row("P9", came_from="fair"))
    assert (bins["P8"].parents, bins["P9"].parents) == (("P1",), ())
    assert bins["P8"].line == "Oreo"


@pytest.mark.parametrize(
    "child",
    [
        [bin_row("P8", started="2025-05-01")],
        [bin_row("P8"), log_row("2026-04-01", "P8", "water")],
        [bin_row("P8", status=words("straggler tub")), bin_row("P1b", status=words("straggler tub"))],
    ],
)
def test_a_bin_that_lived_before_takes_after_none(child):
    source = "P1b" if len(child) == 2 and child[1].role == "bins" else "P1"
    bins, _ = bins_of(bin_row("P1", **DAM), *child, split(source=source))
    assert (bins["P8"].parents, bins["P8"].inherited) == ((), ())


def test_a_bin_of_another_species_takes_nothing():
    bins, _ = bins_of(bin_row("P1", **DAM), bin_row("P8", species="Porcellio dilatatus"), split())
    assert (bins["P8"].line, bins["P8"].inherited) == ("", ())


def test_grandchildren_take_after_their_parents_in_any_order_of_rows():
    bins, _ = bins_of(
        bin_row("P1", **DAM),
        split("2026-06-02", "P8", "P9"),
        split("2026-05-04", "P1", "P8"),
    )
    assert bins["P9"].parents == ("P8",)
    assert (bins["P9"].line, bins["P9"].word("appetite")) == ("Oreo", "hearty")


def test_bins_that_founded_one_another_are_not_both_parents():
    bins, _ = bins_of(
        bin_row("P1", started="2026-05-01"),
        bin_row("P2", started="2026-05-01"),
        split("2026-05-02", "P1", "P2"),
        split("2026-05-03", "P2", "P1"),
    )
    assert (bins["P2"].parents, bins["P1"].parents) == (("P1",), ())


def test_what_two_parents_dont_share_is_taken_from_none():
    bins, _ = bins_of(bin_row("P1", **DAM), bin_row("P2", **{**DAM, "appetite": words("slow")}), split(source="P1+P2"))
    assert bins["P8"].parents == ("P1", "P2")
    assert (bins["P8"].line, bins["P8"].word("appetite")) == ("Oreo", "")


def test_a_split_of_a_later_day_is_not_known_yet():
    bins, _ = bins_of(bin_row("P1", **DAM), bin_row("P8"), split(), on=dt.date(2026, 4, 1))
    assert bins["P8"].parents == ()
