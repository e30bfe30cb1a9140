import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tools.rows import bin_row, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.learned.dates import (
    animals,
    crowded_day,
    grams,
    learned_change,
    learned_day,
    portion,
    why_split,
)
from workbook_tools.plan.learned.records import (
    Basis,
    DateRange,
    Estimates,
    FoodForecast,
    LeafForecast,
    MossForecast,
    NumberForecast,
    Range,
    SubstrateForecast,
)
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 31)
DAY = dt.timedelta(days=1)
LEARNED = Basis(9, True, "learned from 9 notes")
NOT_YET = Basis(1, False, "common practice, not yet learned here")
ONE = Range(1.0, 2.0, 3.0)
(BIN,) = build_ledger([bin_row("A")], settings(), on=ON)[0].bins.values()
RHYTHM = Rhythm(settings())


def soon(*days):
    return DateRange(*(ON + day * DAY for day in days))


MOSS = MossForecast("A", LEARNED, Range(4, 5, 6), None, ON, soon(4, 5, 6), ON + 4 * DAY, False, "", None, "", None)
LEAF = LeafForecast("A", LEARNED, ONE, ONE, ONE, None, soon(10, 20, 30), ON + 10 * DAY, ())
FOOD = FoodForecast("A", "dry", LEARNED, ONE, None, 0.8, 0.8, 0, 1.0, "flakes", ON - DAY, "gone")
SOIL = SubstrateForecast("A", LEARNED, Range(0.5, 0.6, 0.7), soon(100, 200, 300), 1 / 3, 6.0, None, ())
COLONY = NumberForecast(
    "A", LEARNED, Range(123, 180, 258), ONE, None, 250.0, soon(10, 60, 90), False, None, None, "", True, ()
)


def day(key, estimates, done=ON, every=None):
    interval = RHYTHM.days(every or f"every.{key}", BIN)
    latest = done + dt.timedelta(days=interval.days)
    return learned_day(key, BIN, done, latest, interval, estimates, Wording())


def test_moss_is_due_when_learned_and_says_what_that_rests_on():
    made = day("moss", Estimates(ON, moss={"A": MOSS}))
    assert made.due == ON + 4 * DAY
    assert made.rule == "dry about 5 days after watering (learned from 9 notes), at most every 7 days"


def test_not_yet_learned_keeps_the_rhythm_and_says_so():
    made = day("moss", Estimates(ON, moss={"A": replace(MOSS, basis=NOT_YET)}))
    assert made.due == ON + 7 * DAY
    assert made.rule == "every 7 days (common practice, not yet learned here)"
    assert day("moss", Estimates(ON)).rule == ""
    assert day("calcium", Estimates(ON, moss={"A": MOSS})).due == ON + 30 * DAY


def test_a_rate_of_the_bin_it_was_split_off_is_no_rule_for_due_days():
    handed_on = Basis(1, False, "learned from K2, which it was split off, not yet here")
    made = day("leaf", Estimates(ON, leaf={"A": replace(LEAF, basis=handed_on)}))
    assert made.due > LEAF.next
    assert made.rule.endswith("(common practice, not yet learned here)")


def test_too_wet_is_said():
    made = day("moss", Estimates(ON, moss={"A": replace(MOSS, too_wet="condensation seen")}))
    assert made.more == "It is too wet (condensation seen): look, but give no water."


def test_leaf_is_due_before_it_runs_out():
    made = day("leaf", Estimates(ON, leaf={"A": LEAF}))
    assert made.due == ON + 10 * DAY
    assert made.rule == "lasts until about 20 Apr 2026 (learned from 9 notes), at most every 14 days"
    gone = replace(LEAF, left=Range(0, 0, 0.1), runs_out=soon(0, 0, 2), next=ON)
    assert "used up by now" in day("leaf", Estimates(ON, leaf={"A": gone}), done=ON - 5 * DAY).rule
    ever = replace(LEAF, runs_out=DateRange(None, None, None), next=None)
    assert day("leaf", Estimates(ON, leaf={"A": ever})).due == ON + 14 * DAY


@given(st.integers(-400, 4000), st.integers(0, 200), st.sampled_from(["moss", "leaf"]), st.booleans())
def test_a_learned_day_is_after_the_last_time_and_never_past_the_ceiling(ahead, ago, key, learned):
    done = ON - ago * DAY
    basis, then = LEARNED if learned else NOT_YET, ON + ahead * DAY
    estimates = Estimates(
        ON,
        moss={"A": replace(MOSS, basis=basis, next=then)},
        leaf={"A": replace(LEAF, basis=basis, next=then)},
    )
    made = day(key, estimates, done)
    assert done < made.due <= done + RHYTHM.days(f"every.{key}", BIN).days * DAY


def test_portion_is_that_of_the_food_given_last():
    older = replace(FOOD, kind="fresh", last_day=ON - 9 * DAY, last_food="carrot")
    said = portion((older, FOOD), Wording())
    assert said == "Give about 0.8 g; last 1 g flakes, all gone (learned from 9 notes)."
    assert "(no more than twice the last)" in portion((replace(FOOD, limited=1),), Wording())
    assert portion((replace(FOOD, basis=NOT_YET),), Wording()) == ""
    assert portion((replace(FOOD, last_grams=None),), Wording()) == ""


def change(soil, since=ON - 100 * DAY, **values):
    return learned_change(soil, since, Rhythm(settings(**values)).days("every.change", BIN), ON, Wording())


def test_substrate_is_due_when_spent_but_never_past_the_ceiling():
    made = change(SOIL)
    assert made.due == ON + 200 * DAY
    assert made.why == (
        "About 60 % of it can still be recognised; spent about 17 Oct 2026, not before 9 Jul 2026 nor after "
        "25 Jan 2027 (learned from 9 notes). Renewing a third lasts 6 months."
    )
    capped = change(SOIL, every__change=150.0)
    assert capped.due == ON + 50 * DAY
    assert "To be changed at least every 150 days (your setting)." in capped.why
    ever = replace(SOIL, spent=DateRange(None, None, None), smallest=None)
    assert change(ever, since=None) is None
    assert change(ever).due == ON + 995 * DAY
    assert "it is spent" in change(replace(SOIL, spent=soon(0, 0, 5))).why
    assert change(replace(SOIL, basis=NOT_YET)) is None
    assert change(None) is None


def test_crowded_by_a_day_or_already():
    assert crowded_day(COLONY, ON) == ON + 60 * DAY
    assert why_split(COLONY, ON, Wording()) == (
        "About 180 animals, between 120 and 260; crowded by 30 May 2026, at 250 (learned from 9 notes)."
    )
    assert crowded_day(replace(COLONY, already=True), ON) == ON
    assert "crowded now" in why_split(replace(COLONY, already=True), ON, Wording())
    assert crowded_day(replace(COLONY, basis=NOT_YET), ON) is None
    assert crowded_day(replace(COLONY, crowded=None), ON) is None
    assert crowded_day(None, ON) is None


@pytest.mark.parametrize(("value", "text"), [(0.3, "0"), (7, "7"), (85, "85"), (183, "180"), (1249, "1,200")])
def test_animals_are_written_to_two_digits(value, text):
    assert animals(value, Wording()) == text


@pytest.mark.parametrize(("value", "text"), [(0.347, "0.35 g"), (1.44, "1.4 g"), (12.4, "12 g")])
def test_grams_are_written_as_they_can_be_weighed(value, text):
    assert grams(value, Wording()) == text
