"""The demo's scent plug by the window: what the report says eleven days after it, and what it said the week before."""

import datetime as dt

import pytest

from tools.tree import ROOT
from workbook_tools.pipeline import find
from workbook_tools.plan.wording import Wording
from workbook_tools.report.sheets.losses import answer

BEFORE, PLUGGED, AFTER = dt.date(2026, 6, 12), dt.date(2026, 6, 14), dt.date(2026, 6, 25)


@pytest.fixture(scope="module")
def after():
    return find(ROOT / "demo" / "cellar-bins.xlsx", AFTER)


def test_the_window_sill_is_shown_with_the_event_and_its_day(after):
    (cluster,) = after.losses.clusters
    sill = {name for name, bin in after.ledger.bins.items() if bin.place == "Window sill"}

    assert cluster.shares == "at Window sill"
    assert len(cluster.bins) >= 6 and set(cluster.bins) <= sill
    assert [(event.day, event.says) for event in cluster.events] == [(PLUGGED, "air freshener")]
    assert cluster.luck < 0.001
    assert {alarm.bin for alarm in after.losses.alarms if alarm.tier == "alarm"} <= sill
    assert answer(after.losses, Wording("en-GB")).endswith("lose together, after 'air freshener' on 14 Jun 2026.")


def test_chemicals_are_asked_about_first(after):
    assert after.losses.questions[0].topic == "Chemicals"
    assert after.losses.questions[0].noted == ("air freshener on 14 Jun 2026",)


def test_their_bins_are_due_for_a_look(after):
    due = {task.bin for task in after.tasks if task.task == "losses"}

    assert set(after.losses.clusters[0].bins) <= due
    assert len(due) <= 10


def test_the_week_before_there_was_nothing():
    before = find(ROOT / "demo" / "cellar-bins.xlsx", BEFORE).losses

    assert before.clusters == ()
    assert all(alarm.tier != "alarm" for alarm in before.alarms)


def test_nothing_of_a_later_day_is_known(after):
    assert all(entry.when is None or entry.when.first <= AFTER for entry in after.ledger.entries)
    assert all(change.when_first is None or change.when_first <= AFTER for change in after.changes)
    assert "S23" not in after.ledger.bins
    assert {after.past.status[name].word for name in ("S06", "B04")} == {"active"}
