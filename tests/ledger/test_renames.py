import datetime as dt

import pytest

from tools.rows import bin_row, log_row, number, settings, words
from workbook_tools.ledger.build import build_ledger

ON = dt.date(2026, 6, 30)


def build(*rows, **values):
    return build_ledger(rows, settings(**values), on=ON)


def done(ledger):
    return [(entry.act, str(entry.when.first)[5:], entry.bins) for entry in ledger.entries]


def renamed(day="2026-05-10", bin="G3", to="H1", **fields):
    return log_row(day, bin, "rename", to_bin=to, **fields)


BEFORE = [log_row("2026-04-02", "G3", "water"), log_row("2026-05-01", "G3", "count", number=number(40))]
AFTER = [log_row("2026-05-20", "H1", "feed")]


@pytest.mark.parametrize("listed", ["G3", "H1"])
@pytest.mark.parametrize(
    "row", [renamed(), log_row("2026-05-10", "H1", "rename", from_bin="G3"), renamed(from_bin="G3")]
)
def test_a_renamed_bin_is_one_bin_under_its_new_name_whichever_name_the_list_has(listed, row):
    ledger, problems = build(bin_row(listed, species="Philoscia muscorum", started="2025-01-01"), *AFTER, row, *BEFORE)
    assert list(ledger.bins) == ["H1"]
    bin = ledger.bins["H1"]
    assert (bin.species, bin.listed, bin.doubtful) == ("Philoscia muscorum", True, False)
    assert done(ledger) == [
        ("water", "04-02", ("H1",)),
        ("count", "05-01", ("H1",)),
        ("rename", "05-10", ("H1",)),
        ("feed", "05-20", ("H1",)),
    ]
    assert ledger.entries[2].text("from_bin") == "G3"
    assert problems == []


def test_the_list_may_tell_the_former_name():
    ledger, problems = build(bin_row("H1", formerly="G3"), bin_row("K1"), *BEFORE, *AFTER)
    assert list(ledger.bins) == ["H1", "K1"]
    assert {entry.bins for entry in ledger.entries} == {("H1",)}
    assert problems == []


def test_several_former_names_and_one_that_was_renamed_twice():
    ledger, _ = build(
        bin_row("H1", formerly="G3 / F2"),
        log_row("2026-01-05", "F2", "water"),
        log_row("2026-02-05", "G3", "water"),
    )
    assert done(ledger) == [("water", "01-05", ("H1",)), ("water", "02-05", ("H1",))]
    twice, _ = build(
        bin_row("H1"),
        log_row("2026-01-05", "F2", "water"),
        renamed("2026-02-01", "F2", "G3"),
        log_row("2026-02-05", "G3", "feed"),
        renamed("2026-03-01", "G3", "H1"),
    )
    assert list(twice.bins) == ["H1"]
    assert {entry.bins for entry in twice.entries} == {("H1",)}


def test_what_goes_on_under_the_old_name_is_the_bins_too():
    ledger, _ = build(bin_row("H1"), *BEFORE, renamed(), log_row("2026-06-01", "G3", "water"))
    assert list(ledger.bins) == ["H1"]
    assert len([entry for entry in ledger.entries if entry.bins == ("H1",)]) == 4


def test_a_name_given_to_another_bin_later_means_that_one_from_then_on():
    rows = [*BEFORE, renamed(), log_row("2026-06-01", "G3", "water"), log_row("2026-06-02", "H1", "water")]
    ledger, _ = build(bin_row("G3", started="2026-05-25", species="Oniscus asellus"), bin_row("H1"), *rows)
    assert [bins for act, _, bins in done(ledger)] == [("H1",), ("H1",), ("H1",), ("G3",), ("H1",)]
    assert (ledger.bins["G3"].species, ledger.bins["H1"].species) == ("Oniscus asellus", "")


def test_two_bins_that_changed_names_with_one_another():
    ledger, _ = build(
        bin_row("G3"),
        bin_row("H1"),
        log_row("2026-04-01", "G3", "water"),
        log_row("2026-04-02", "H1", "feed"),
        renamed("2026-05-10", "G3", "H1"),
        renamed("2026-05-10", "H1", "G3"),
        log_row("2026-06-01", "G3", "calcium"),
        log_row("2026-06-02", "H1", "leaf"),
    )
    found = [(act, bins) for act, _, bins in done(ledger) if act != "rename"]
    assert found == [("water", ("H1",)), ("feed", ("G3",)), ("calcium", ("G3",)), ("leaf", ("H1",))]


def test_a_former_name_that_another_bin_has_now_needs_a_day():
    rows = [bin_row("H1", formerly="G3"), log_row("2026-04-02", "G3", "water"), log_row("2026-06-02", "G3", "feed")]
    unsure, problems = build(*rows, bin_row("G3"))
    assert [p.code for p in problems] == ["bins.rename_when"]
    assert {entry.bins for entry in unsure.entries} == {("G3",)}
    told, problems = build(*rows, bin_row("G3", started="2026-05-25"))
    assert problems == []
    assert [entry.bins for entry in told.entries] == [("H1",), ("G3",)]


def test_an_old_row_of_the_list_fills_what_the_new_one_leaves_empty():
    ledger, _ = build(
        bin_row("G3", species="Philoscia muscorum", line="Fern", started="2025-01-01"),
        bin_row("H1", line="Fern 2"),
        *BEFORE,
        renamed(),
    )
    assert list(ledger.bins) == ["H1"]
    bin = ledger.bins["H1"]
    assert (bin.species, bin.line, bin.text("name"), bin.started.first.year) == (
        "Philoscia muscorum",
        "Fern 2",
        "H1",
        2025,
    )


def test_moves_and_parents_are_known_by_the_new_name():
    ledger, _ = build(
        bin_row("H1", species="Philoscia muscorum", formerly="G3"),
        bin_row("K1", started="2025-01-01"),
        bin_row("K2", came_from="G3"),
        log_row("2026-04-01", "K1", "animals_out", to_bin="G3", number=number(4)),
        log_row("2026-04-02", "G3", "split", to_bin="K5", number=number(4)),
        log_row("2026-04-03", "all", "water"),
    )
    assert ledger.entries[0].text("to_bin") == "H1"
    assert (ledger.bins["K5"].parents, ledger.bins["K5"].species) == (("H1",), "Philoscia muscorum")
    assert ledger.bins["K2"].parents == ("H1",)
    assert ledger.entries[2].bins == ("H1", "K1", "K2", "K5")


def test_settings_for_the_old_name_are_for_the_bin():
    ledger, _ = build(bin_row("H1", formerly="G3"), every__moss_for_G3=3.0)
    assert ledger.settings.find("every.moss", "H1").value == 3.0


@pytest.mark.parametrize("row", [log_row("2026-05-10", "G3", "rename"), renamed(to="G3"), renamed(bin="G3+K1")])
def test_a_rename_that_doesnt_say_what_to_is_named(row):
    ledger, problems = build(bin_row("G3"), bin_row("K1"), row)
    assert [p.code for p in problems if p.code.startswith("bins.rename")] == ["bins.rename_what"]
    assert list(ledger.bins)[:2] == ["G3", "K1"]


def test_status_and_number_stand_in_the_row_of_the_new_name():
    ledger, _ = build(
        bin_row("G3", status=words("gone"), number_now=number(12)),
        bin_row("H1", status=words("active"), number_now=number(70)),
        renamed(),
    )
    assert ledger.bins["H1"].word("status") == "active"
    assert [entry.number("number").best for entry in ledger.entries if entry.act == "count"] == [70]
