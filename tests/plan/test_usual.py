import datetime as dt

from tools.rows import bin_row, log_row, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.rhythm import rhythm_of
from workbook_tools.plan.usual import usual_days

ON = dt.date(2026, 3, 14)  # a Saturday
WEDNESDAY = dt.date(2026, 3, 11)


def made(gaps, names="A+B+C", more=(), **values):
    days = [WEDNESDAY]
    for gap in gaps:
        days.append(days[-1] - dt.timedelta(days=gap))
    rows = [bin_row(name) for name in names.split("+")]
    rows += [log_row(day.isoformat(), names, "feed") for day in days]
    return build_ledger([*rows, *more], settings(**values), on=ON)[0]


def test_feeding_once_a_week_is_the_keepers_own_rhythm():
    assert usual_days(made([7, 7, 7, 7]), ON) == {"every.food": 7}
    assert usual_days(made([7, 6, 8, 7, 2, 1]), ON) == {"every.food": 7}


def test_it_counts_in_the_rhythm_and_is_said():
    rhythm, _ = rhythm_of(made([7, 7, 7, 7]), ON)
    assert rhythm.days("every.food").days == 7
    assert rhythm.days("every.food").whose == " (as you have done lately)"


def test_a_setting_goes_before_it():
    rhythm, _ = rhythm_of(made([7, 7, 7, 7], every__food=4.0), ON)
    assert rhythm.days("every.food").days == 4


def test_feeding_without_a_rhythm_or_more_often_than_common_practice_changes_nothing():
    assert usual_days(made([7, 2, 12, 7]), ON) == {}
    assert usual_days(made([2, 2, 2, 2]), ON) == {}
    assert usual_days(made([7, 7]), ON) == {}


def test_most_bins_have_to_keep_to_it():
    others = [bin_row(name) for name in "DEFG"]
    others += [log_row(f"2026-03-{day:02d}", "D+E+F+G", "feed") for day in (1, 2, 9, 10)]
    assert usual_days(made([7, 7, 7, 7], more=others), ON) == {}


def test_feedings_to_come_are_not_used():
    more = [log_row(day, "A+B+C", "feed") for day in ("2026-03-15", "2026-03-16", "2026-03-17", "2026-03-18")]
    assert usual_days(made([7, 7, 7, 7], more=more), ON) == {"every.food": 7}
