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
