import datetime as dt

from tools.rows import amount, log_row, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.room import room_series

ON = dt.date(2026, 3, 31)


def reading(when, warm, damp, unit="percent"):
    return log_row(when, "", "room", temperature=amount(warm, "degC"), humidity=amount(damp, unit))


def series(*rows):
    return room_series(build_ledger(rows, settings(), on=ON)[0], ON)


def test_readings_of_a_day_are_averaged_and_those_to_come_left_out():
    made = series(reading("2026-03-02", 20, 50), reading("2026-03-02", 22, 60), reading("2026-04-01", 1, 1))
    assert (made.temperature.tolist(), made.humidity.tolist()) == ([21.0], [55.0])
    day = dt.date(2026, 3, 2).toordinal()
    assert made.day.tolist() == [day]
    assert made.between(day, day) == 1
    assert made.between(day + 1, day + 9) == 0


def test_half_a_reading_or_a_vague_one_is_left_out_and_a_share_is_a_percentage():
    half = log_row("2026-03-03", "", "room", temperature=amount(20, "degC"))
    made = series(half, reading("2026-02", 20, 50), reading("2026-03-04", 20, 0.6, "share"))
    assert made.humidity.tolist() == [60.0]
