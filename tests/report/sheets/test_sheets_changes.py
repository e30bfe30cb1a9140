import dataclasses
import datetime as dt

from tools.report_sample import ON, sample
from workbook_tools.ledger.records import Ledger
from workbook_tools.plan.records import NextChange, SubstrateChange
from workbook_tools.problems import CellRef
from workbook_tools.report.sheets.changes import sheet


def table(findings, name):
    return next(table for table in sheet(findings).tables if table.name == name)


def values(table):
    return [[column.get(row) for column in table.columns] for row in table.rows]


def test_first_line_says_that_no_bin_was_read():
    assert sheet(sample(ledger=Ledger({}, ()))).answer == "Nothing can be said of changes: no bin was read."


def change(name, day, share=None, last=None):
    return SubstrateChange(name, day, last or day, "one side", share, "freezer", CellRef("Soil", 4))


def test_first_line_counts_changes_and_names_bins_due_for_new_substrate():
    answer = sheet(sample()).answer
    assert answer == "3 changes in 3 bins since 14 Feb 2026; new substrate is due in 1 bin (A01)."


def test_first_line_names_the_next_change_when_none_is_due():
    coming = (NextChange("A02", ON + dt.timedelta(days=9), "w"), NextChange("A01", None, "w"))
    assert sheet(sample(next_changes=coming, happenings=())).answer == (
        "No change in any bin since 14 Feb 2026; next change of substrate: A02, expected 23 Mar 2026."
    )
    assert sheet(sample(next_changes=())).answer.endswith("can be expected from what is written.")


def test_every_bin_has_one_line_with_its_last_change():
    days = (dt.date(2025, 6, 1), dt.date(2025, 9, 1), None)
    findings = sample(changes=tuple(change("A01", day, 0.5) for day in days), next_changes=())
    by_bin = values(table(findings, "SubstrateByBin"))
    assert [row[0] for row in by_bin] == list(findings.ledger.bins)
    assert by_bin[0] == ["A01", dt.date(2025, 9, 1), "not known", None, 0.5, "one side", "freezer"]
    assert by_bin[1][1:3] == ["no change written", "not known"]


def test_vague_days_and_missing_shares_are_said_in_words():
    made = (change("A01", dt.date(2025, 7, 1), last=dt.date(2025, 7, 31)), change("A02", None, 1.0))
    rows = values(table(sample(changes=made), "AllSubstrateChanges"))
    assert rows[0][:3] == ["A01", "July 2025", "not written"]
    assert rows[1][:3] == ["A02", "no date written", 1.0]


def test_all_changes_are_listed_in_the_order_of_the_keepers_bins():
    made = tuple(change(name, dt.date(2025, month, 1)) for name, month in (("B", 3), ("A", 9), ("B", 1), ("A", 2)))
    rows = values(table(sample(changes=made), "AllSubstrateChanges"))
    assert [(row[0], row[1].month) for row in rows] == [("B", 3), ("A", 9), ("B", 1), ("A", 2)]


def test_a_happening_keeps_its_cell_and_a_missing_day_is_said():
    first = dataclasses.replace(sample().happenings[0], day=None)
    (row,) = values(table(sample(happenings=(first,)), "WhatChanged"))
    assert row == ["A03", "no date written", "animals out", "12 to a friend", "Log!55"]
