import dataclasses
import datetime as dt

import pytest

from plan.losses.losses_log import NAMES, ON, at, dead, log
from tools.learned_sample import numbers
from tools.rows import bin_row, log_row, number, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.learned.records import Point
from workbook_tools.plan.losses.find import losses_of
from workbook_tools.plan.wording import Wording


def found(*more, on=ON, **changes):
    known = {name: numbers(ON, name, 0) for name in NAMES}
    return losses_of(log(*more, **changes), on, known, Wording())


def test_a_quiet_log_has_no_alarm():
    losses = found()

    assert losses.alarms == losses.clusters == losses.questions == ()
    assert list(losses.bins) == NAMES
    assert 3 <= losses.bins["A1"].year <= 7
    assert losses.bins["A1"].a_month.low < losses.bins["A1"].a_month.middle < losses.bins["A1"].a_month.high


def test_two_more_deaths_in_a_bin_of_many_are_no_alarm():
    assert found(dead(5, "A1", 1), dead(6, "A1", 1)).alarms == ()


def test_a_die_off_is_an_alarm_with_the_rows_it_rests_on():
    losses = found(dead(9, "A2", 6), dead(6, "A2", 5), dead(3, "A2", 2))
    (alarm,) = losses.alarms

    assert (alarm.bin, alarm.tier, alarm.well) == ("A2", "alarm", None)
    assert alarm.day == ON - dt.timedelta(days=9)
    assert alarm.found >= 6 > 1 > alarm.expected
    assert alarm.after >= 7
    assert alarm.chance < 0.0003
    assert len(alarm.rests_on) >= 3
    assert losses.questions[0].topic == "Moisture", "nothing is noted, so the usual order"


def test_it_stays_until_a_later_look_says_all_is_well():
    die_off = (dead(9, "A2", 6), dead(6, "A2", 5))
    early = log_row(at(8), "A2", "look", seen=words("all well"))
    late = log_row(at(1), "A2", "look", seen=words("all well"))

    assert found(*die_off, early).alarms[0].well is None
    assert found(*die_off, late).alarms[0].well == ON - dt.timedelta(days=1)
    assert found(*die_off, late).questions == ()


def test_an_alarm_is_the_same_on_a_later_day_and_lapses():
    die_off = (dead(9, "A2", 6), dead(6, "A2", 5))
    today, later = found(*die_off).alarms[0], found(*die_off, on=ON + dt.timedelta(days=12)).alarms[0]

    assert dataclasses.replace(later, rests_on=()) == dataclasses.replace(today, rests_on=())
    assert found(*die_off, on=ON + dt.timedelta(days=40)).alarms == ()


def test_bins_of_one_shelf_after_an_event_are_shown_with_it():
    event = log_row(at(12), "", "house", note="cleaned the shelf with spray")
    more = [dead(day, name, 3) for day in (9, 5) for name in ("A1", "A2", "A3", "A4")]
    losses = found(event, *more)
    (cluster,) = losses.clusters

    assert cluster.shares == "at Top"
    assert cluster.bins == ("A1", "A2", "A3", "A4")
    assert [happened.day for happened in cluster.events] == [ON - dt.timedelta(days=12)]
    assert cluster.luck < 0.001
    assert losses.questions[0].topic == "Chemicals"


def test_a_bin_that_is_gone_since_wants_no_look_any_more():
    seen = log_row(at(4), "A3", "look", seen=words("huddling"))
    rows = dead(9, "A2", 6), dead(6, "A2", 5), seen
    closed = [log_row(at(1), name, "end") for name in ("A2", "A3")]

    assert {alarm.bin for alarm in found(*rows).alarms} == {"A2"}
    assert {sight.bin for sight in found(*rows).sights} == {"A3"}
    assert found(*rows, *closed).alarms == found(*rows, *closed).sights == ()
    assert found(*rows, *closed).bins["A2"].year >= 11


def test_weeks_tell_bins_with_an_alarm_from_others():
    losses = found(dead(3, "A2", 12))

    assert losses.by_week[-1][0] == ON
    assert losses.by_week[-1][1] >= 12
    assert sum(others for _, _, others in losses.by_week) > 10


def test_without_a_death_there_is_nothing_but_what_was_seen():
    rows = [bin_row("A"), log_row("2026-05-28", "A", "look", seen=words("huddling"))]
    losses = losses_of(build_ledger(rows, settings(), on=ON)[0], ON, {}, Wording())

    assert losses.bins == {} and losses.alarms == ()
    assert [sight.finding for sight in losses.sights] == ["huddling"]


def test_rate_is_of_the_animals_that_lived_there_however_rarely_the_bin_was_opened():
    once_a_month = [log_row(at(day), "A1", "look", dead=number(1)) for day in range(200, 1, -30)]
    ledger = build_ledger([bin_row("A1", started=at(200)), *once_a_month], settings(), on=ON)[0]
    flat = dataclasses.replace(numbers(ON, "A1", 0), path=(Point(ON, 90.0, 100.0, 110.0),))

    rate = losses_of(ledger, ON, {"A1": flat}, Wording()).bins["A1"].a_month

    assert rate.middle == pytest.approx(7 / 201 * 30.4)


def test_a_bin_of_a_few_days_has_no_rate():
    assert found(log_row(at(3), "Z9", "look", dead=number(1))).bins["Z9"].a_month is None


def test_a_name_that_may_be_a_slip_of_the_log_has_no_rate():
    assert list(found(log_row(at(4), "Z9", "look")).bins) == NAMES


def test_rows_whose_notes_speak_of_deaths_are_told_by_bin():
    noted = (log_row(at(4), "A1", "look", note="2 dead"), log_row(at(400), "A1", "look", note="all died"))
    assert found(*noted).in_notes == {"A1": 1}
