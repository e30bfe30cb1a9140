import datetime as dt

from tools.rows import amount, bin_row, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.moss import forecast_moss

ON = dt.date(2026, 3, 31)


def ago(days):
    return (ON - dt.timedelta(days=days)).isoformat()


def forecast(*rows, **values):
    return forecast_moss(Frame.of(build_ledger([*rows], settings(**values), on=ON)[0], ON))


def dry_every(step, bins="A", until=0):
    rows = [log_row(ago(until + step * 15), bins, "water")]
    return rows + [
        log_row(ago(until + step * n), bins, "water", moss=words("dry" if n % 2 else "drying"))
        for n in range(14, -1, -1)
    ]


def reading(days, warm, damp):
    return log_row(ago(days), "", "room", temperature=amount(warm, "degC"), humidity=amount(damp, "percent"))


def test_a_bin_that_dries_faster_is_looked_at_sooner():
    found, readings = forecast(bin_row("A"), bin_row("B"), *dry_every(3, "A"), *dry_every(7, "B"))
    fast, slow = found["A"], found["B"]
    assert readings == 0
    assert fast.days.middle < 4 < slow.days.middle
    assert fast.next < slow.next
    assert (fast.watered, fast.simple, slow.simple) == (ON, 3, 7)
    assert fast.dry.low <= fast.dry.middle <= fast.dry.high


def test_never_watered_has_days_but_no_date():
    found, _ = forecast(bin_row("A"), log_row(ago(3), "A", moss=words("damp")))
    one = found["A"]
    assert (one.watered, one.dry, one.next, one.simple, one.basis.notes) == (None, None, None, None, 0)
    assert one.days.low < one.days.middle < one.days.high


def test_drier_air_than_before_means_dry_sooner():
    damp = [reading(days, 20, 70) for days in range(7, 60, 7)]
    rows = [bin_row("A"), *dry_every(5), *damp]
    usual, readings = forecast(*rows)
    drier, _ = forecast(*rows, *(reading(days, 24, 30) for days in (6, 4, 2, 0)))
    assert readings == 8
    assert drier["A"].days.middle < 0.7 * usual["A"].days.middle


def test_old_readings_alone_set_no_pace():
    _, readings = forecast(bin_row("A"), *dry_every(5), *(reading(days, 20, 50) for days in range(61, 90, 7)))
    assert readings == 0


def test_what_was_found_since_the_watering_is_told_and_ceiling_holds():
    rows = [bin_row("A"), *dry_every(8, until=10), log_row(ago(2), "A", moss=words("damp"))]
    one = forecast(*rows, every__moss=2.0)[0]["A"]
    assert (one.found, one.looked) == ("damp", ON - dt.timedelta(days=2))
    assert one.next == ON
    assert one.by_ceiling
    assert forecast(*rows, every__moss=30.0)[0]["A"].next > ON
