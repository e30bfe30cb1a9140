import datetime as dt

import pytest

from tools.rows import amount, bin_row, log_row, number, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.numbers import numbers_of
from workbook_tools.plan.learned.substrate import forecast_substrate

ON = dt.date(2026, 3, 31)
OLD = bin_row("A", started="2025-03-31", founders=number(60))


def ago(days):
    return (ON - dt.timedelta(days=days)).isoformat()


def forecast(*rows, **values):
    frame = Frame.of(build_ledger([*rows], settings(**values), on=ON)[0], ON)
    return forecast_substrate(frame, numbers_of(frame))


def look(days, word):
    return log_row(ago(days), "A", substrate=words(word))


def test_share_falls_with_what_was_seen_and_a_change_mends_it():
    looks = [look(300, "good"), look(150, "part frass"), look(20, "mostly frass")]
    worn = forecast(OLD, *looks)["A"]
    assert 0.15 < worn.share.middle < 0.45
    assert worn.basis.said == "learned from 3 notes"
    half = forecast(OLD, *looks, log_row(ago(10), "A", "substrate_change", share=amount(0.5, "share")))["A"]
    assert half.share.middle > worn.share.middle + 0.2
    assert half.spent.middle > worn.spent.middle


def test_longer_wanted_needs_a_larger_share():
    looks = [look(300, "good"), look(150, "part frass"), look(20, "mostly frass")]
    short = forecast(OLD, *looks, lasts__substrate=30.0)["A"]
    long = forecast(OLD, *looks, lasts__substrate=150.0)["A"]
    assert short.smallest <= long.smallest
    assert long.months == pytest.approx(150 / 30.4375)
    assert forecast(OLD, *looks, lasts__substrate=1000.0)["A"].smallest is None


def test_straight_line_from_the_last_renewal_through_the_last_look():
    one = forecast(OLD, look(165, "part frass"))["A"]
    assert one.simple == dt.date(2025, 3, 31) + dt.timedelta(days=int(0.7 / 0.4 * 200))
    assert forecast(OLD)["A"].simple is None
    assert forecast(OLD, look(165, "fresh"))["A"].simple is None


def test_depth_that_sinks_is_a_note():
    depths = [log_row(ago(days), "A", depth=amount(cm, "cm")) for days, cm in ((250, 7), (150, 6), (50, 5))]
    deep = bin_row("A", started="2025-03-31", founders=number(60), depth=amount(8, "cm"))
    one = forecast(deep, *depths)["A"]
    assert one.basis.notes == 3
    assert one.share.middle < forecast(deep)["A"].share.middle


def test_bin_of_which_nothing_is_known_has_none():
    assert forecast(bin_row("A"), log_row(ago(20), "A", "water")) == {}


def test_chart_runs_from_the_past_to_a_year_ahead():
    path = forecast(OLD, look(20, "good"))["A"].path
    assert path[0].day >= dt.date(2025, 3, 31)
    assert path[-1].day == ON + dt.timedelta(days=28 * 13)
    assert all(0 <= point.low <= point.middle <= point.high <= 1 for point in path)


def test_a_warm_half_year_since_the_last_look_brings_the_date_nearer():
    looks = [look(300, "good"), look(150, "part frass")]

    def room(days, warmth):
        return log_row(ago(days), "", "room", temperature=amount(warmth, "degC"), humidity=amount(60, "percent"))

    mild = [room(days, 21.0) for days in range(5, 365, 10)]
    warm_now = [room(days, 19.0 if 95 < days < 275 else 25.0) for days in range(5, 365, 10)]
    cold_now = [room(days, 25.0 if 95 < days < 275 else 19.0) for days in range(5, 365, 10)]
    dates = [forecast(OLD, *looks, *some)["A"].spent.middle for some in (warm_now, mild, cold_now)]
    assert dates[0] < dates[1] < dates[2]
    assert forecast(OLD, *looks, *mild[:2])["A"].spent == forecast(OLD, *looks)["A"].spent


def test_a_bin_split_off_begins_with_its_share_of_the_old_substrate():
    worn = [OLD, look(300, "part frass"), look(150, "mostly frass"), look(45, "spent")]
    split = log_row(ago(40), "A", "split", to_bin="B", number=number(20))
    fresh = forecast(*worn, bin_row("B", started=ago(40), founders=number(20)))["B"]
    filled = forecast(*worn, bin_row("B"), split)["B"]
    assert fresh.share.middle > 0.8
    assert filled.share.middle < fresh.share.middle - 0.15
    assert filled.share.high - filled.share.low > fresh.share.high - fresh.share.low
    assert filled.spent.middle < fresh.spent.middle
    renewed = forecast(*worn, bin_row("B"), split, log_row(ago(39), "B", "substrate_change"))["B"]
    assert renewed.share.middle == pytest.approx(fresh.share.middle, abs=0.02)


def test_a_bin_split_off_begins_with_the_pace_of_its_parent():
    bins = [OLD, bin_row("Z", started="2025-03-31", founders=number(60))]
    slow = [log_row(ago(days), "Z", substrate=words("fresh")) for days in (300, 150, 20)]
    quick = [look(300, "part frass"), look(230, "mostly frass"), look(160, "spent")]
    fresh = {"number": number(60), "note": "fresh substrate"}
    counts = [log_row(ago(days), "A+Z", "count", number=number(200), way="full sort") for days in (300, 200, 100)]
    new = [
        log_row(ago(99), "A", "split", to_bin="B", **fresh),
        log_row(ago(99), "Z", "split", to_bin="Y", **fresh),
        log_row(ago(99), "X", "start", number=number(60)),
        *(bin_row(name) for name in "BYX"),
    ]
    made = forecast(*bins, *slow, *quick, *counts, *new)
    assert made["B"].share.middle + 0.04 < made["X"].share.middle < made["Y"].share.middle - 0.02
    assert made["B"].basis.said == "learned from A, which it was split off, not yet here"
