"""The ledger as it was known on a day: nothing after it, and no word of the list that is of a later day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.values import Fact, When, Words
from workbook_tools.ledger.known import as_known
from workbook_tools.ledger.records import Bin, Entry, Ledger
from workbook_tools.ledger.status import statuses
from workbook_tools.problems import CellRef

ON = dt.date(2026, 6, 25)


def day(text: str) -> When:
    one = dt.date.fromisoformat(text)
    return When(one, one)


def fact(field: str, value: object, text: str) -> Fact:
    return Fact(field, value, Cell(CellRef("Bins", 2, 1), text, text))  # type: ignore[arg-type]


def a_bin(name: str, status: str = "", started: str = "", *, listed: bool = True) -> Bin:
    facts = {}
    if status:
        facts["status"] = fact("status", Words((status,)), status)
    if started:
        facts["started"] = fact("started", day(started), started)
    return Bin(name, CellRef("Bins", 2, 1), facts, listed)


def entry(act: str, when: str, name: str, facts: Mapping[str, Fact] | None = None) -> Entry:
    return Entry(act, day(when) if when else None, (name,), CellRef("Log", 3, 1), facts or {})


def ledger(bins: list[Bin], entries: list[Entry]) -> Ledger:
    return Ledger({one.name: one for one in bins}, tuple(entries))


def word(known: Ledger, name: str) -> str:
    return statuses(known, ON)[name].word


def test_entries_after_the_day_are_left_out() -> None:
    before, after = entry("feed", "2026-06-25", "A1"), entry("substrate_change", "2026-06-26", "A1")
    assert as_known(ledger([a_bin("A1")], [before, after]), ON).entries == (before,)


def test_bins_that_begin_later_are_left_out() -> None:
    bins = [a_bin("A1", started="2026-06-25"), a_bin("S23", "quarantine", "2026-10-25"), a_bin("B2")]
    known = as_known(ledger(bins, [entry("start", "2026-07-01", "B2"), entry("feed", "2026-07-05", "B2")]), ON)
    assert list(known.bins) == ["A1"]


def test_a_bin_that_only_a_later_entry_names_is_left_out() -> None:
    bins = [a_bin("A1", listed=False), a_bin("A2", listed=False)]
    known = as_known(ledger(bins, [entry("feed", "2026-06-01", "A1"), entry("feed", "2026-07-01", "A2")]), ON)
    assert list(known.bins) == ["A1"]


def test_a_bin_with_an_entry_before_its_start_stays() -> None:
    known = as_known(ledger([a_bin("A1", started="2026-08-01")], [entry("feed", "2026-06-01", "A1")]), ON)
    assert list(known.bins) == ["A1"]


def test_a_bin_closed_later_was_not_gone_yet() -> None:
    entries = [entry("feed", "2026-06-01", "A1"), entry("end", "2026-08-30", "A1")]
    assert word(as_known(ledger([a_bin("A1", "gone")], entries), ON), "A1") == "active"


def test_a_bin_still_watered_later_was_not_gone_yet() -> None:
    entries = [entry("water", when, "A1") for when in ("2026-06-20", "2026-07-02", "2026-07-09", "2026-07-16")]
    assert word(as_known(ledger([a_bin("A1", "gone")], entries), ON), "A1") == "active"


def test_one_slip_of_a_date_does_not_bring_a_gone_bin_back() -> None:
    entries = [entry("water", "2025-06-20", "A1"), entry("water", "2062-06-20", "A1")]
    assert word(as_known(ledger([a_bin("A1", "gone")], entries), ON), "A1") == "gone"


def test_a_bin_put_aside_later_was_not_in_quarantine_yet() -> None:
    entries = [entry("feed", "2026-06-01", "A1"), entry("quarantine", "2026-10-30", "A1")]
    assert word(as_known(ledger([a_bin("A1", "quarantine")], entries), ON), "A1") == "active"


def test_a_bin_closed_before_stays_gone() -> None:
    entries = [entry("end", "2026-05-01", "A1"), entry("end", "2026-08-30", "A1")]
    assert word(as_known(ledger([a_bin("A1", "gone")], entries), ON), "A1") == "gone"


def test_numbers_and_states_without_a_date_are_of_the_later_day() -> None:
    later = [entry("water", when, "A1") for when in ("2026-07-02", "2026-07-09", "2026-07-16")]
    guess = entry("count", "", "A1")
    assert as_known(ledger([a_bin("A1")], [guess, *later]), ON).entries == ()
    assert as_known(ledger([a_bin("A1")], [guess, *later[:2]]), ON).entries == (guess,)


def test_a_bin_that_only_later_animals_of_another_bin_begin_is_left_out() -> None:
    to = {"to_bin": fact("to_bin", "B9", "B9")}
    moved = entry("animals_out", "2026-08-01", "A1", to)
    known = as_known(ledger([a_bin("A1"), a_bin("B9", listed=False)], [moved, entry("look", "2026-05-01", "A1")]), ON)
    assert list(known.bins) == ["A1"]
