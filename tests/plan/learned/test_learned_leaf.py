import datetime as dt

import pytest

from tools.rows import amount, bin_row, log_row, number, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.leaf import forecast_leaf
from workbook_tools.plan.learned.numbers import numbers_of

ON = dt.date(2026, 3, 31)


def ago(days):
    return (ON - dt.timedelta(days=days)).isoformat()


def bin(name, **more):
    return bin_row(name, started="2025-01-01", founders=number(60), volume=amount(6, "l"), **more)


def forecast(*rows, history=True):
    frame = Frame.of(build_ledger([*rows], settings(), on=ON)[0], ON)
    return forecast_leaf(frame, numbers_of(frame), history=history)


def tops(step, litres, bins="A", left="little"):
    return [
        log_row(ago(step * n), bins, leaf=amount(litres, "l"), leaf_left=words(left)) for n in range(360 // step, 0, -1)
    ]


def test_use_comes_near_what_was_given():
    one = forecast(bin("A"), *tops(20, 1.0))["A"]
    assert one.simple == pytest.approx(0.35)
    assert one.a_week.low < 0.35 < one.a_week.high
    assert one.grams_a_week.middle == pytest.approx(20 * one.a_week.middle)
    assert one.left.low <= one.left.middle <= one.left.high
    assert one.basis.learned


def test_what_is_used_faster_runs_out_sooner():
    found = forecast(bin("A"), bin("B"), *tops(15, 1.5, "A"), *tops(30, 0.4, "B"))
    assert found["A"].a_week.middle > found["B"].a_week.middle
    assert found["A"].next is not None
    assert found["A"].next == found["A"].runs_out.low


def test_bin_without_any_leaf_logged_has_none():
    assert set(forecast(bin("A"), bin("B"), *tops(20, 1.0))) == {"A"}
    assert forecast(bin("A")) == {}


def test_chart_has_the_past_only_when_asked():
    rows = [bin("A"), *tops(20, 1.0)]
    whole, coming = forecast(*rows)["A"].path, forecast(*rows, history=False)["A"].path
    assert coming[0].day == ON
    assert whole[-len(coming) :] == coming
    assert whole[0].day == ON - dt.timedelta(weeks=26)
    assert all(point.low <= point.middle <= point.high for point in whole)


def child(source):
    """A bin of thirty of the third kind of origin: split off another bin, or from elsewhere."""
    came = {"from_bin": source} if source else {}
    return log_row(ago(20), "C", "animals_in", number=number(30), **came)


def test_a_bin_split_off_begins_with_what_its_parent_uses():
    rows = [bin("A"), bin("B"), *tops(12, 1.4, "A"), *tops(30, 0.3, "B"), log_row(ago(20), "C", leaf=amount(1, "l"))]
    rows += [log_row(ago(days), "A+B", "count", number=number(120), way="full sort") for days in (300, 200, 100, 30)]
    of_a, of_b, of_none = (
        forecast(*rows, bin_row("C", volume=amount(6, "l"), started=ago(20)), child(source))["C"]
        for source in ("A", "B", "")
    )
    assert of_a.a_week.middle > 1.25 * of_none.a_week.middle
    assert of_b.a_week.middle < of_none.a_week.middle / 1.25
    assert of_a.a_week.high / of_a.a_week.low < of_none.a_week.high / of_none.a_week.low
    assert of_a.basis.said == "learned from A, which it was split off, not yet here"
    assert of_none.basis.said == "common practice, not yet learned here"
    assert not of_a.basis.learned


def test_a_bin_split_off_one_with_leaf_logged_has_a_forecast():
    rows = [bin("A"), *tops(20, 1.0), bin_row("C", started=ago(20)), child("A")]
    assert set(forecast(*rows)) == {"A", "C"}
