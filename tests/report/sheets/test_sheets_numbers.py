import datetime as dt
from dataclasses import replace

import pytest

from tools.drawn import values
from tools.learned_sample import days, estimates, numbers
from tools.report_sample import ON, a_bin, sample
from workbook_tools.plan.learned.records import Estimates, MarksCount, Range
from workbook_tools.plan.wording import Wording
from workbook_tools.report.sheets.learned import Row
from workbook_tools.report.sheets.numbers import answer, sheet

WORDING = Wording("en-GB")


@pytest.fixture(scope="module")
def spec():
    return sheet(sample())


def test_first_line_says_how_many_there_are_and_how_many_get_crowded(spec):
    assert spec.answer == "About 2,600 animals in 13 bins; 1 crowded now and 1 more crowded by Sep 2026."


def test_first_line_without_crowding_numbers_says_what_is_missing():
    rows = [Row(a_bin(i), numbers(ON, f"A0{i}", i)) for i in (1, 2)]
    assert answer(rows, ON, WORDING) == (
        "About 390 animals in 2 bins; no crowding number is written, so when a bin gets crowded can't be said."
    )


def test_first_line_of_bins_never_counted_calls_it_a_guess():
    rows = [Row(a_bin(1), numbers(ON, "A01", 1, counted=False, now=Range(14, 50, 180), crowding=500.0))]
    assert answer(rows, ON, WORDING) == "A starting guess of 50 animals in 1 bin; none crowded by Sep 2026."


def test_crowded_bins_stand_first_then_those_without_a_number_in_your_order(spec):
    rows = values(spec, "AnimalNumbers")
    assert [row["Bin"] for row in rows] == ["A01", "A02", "A03", *(f"A{i:02d}" for i in range(4, 13)), "=1+1"]
    assert [row["Crowded about"] for row in rows[:4]] == [ON, WORDING_DAY_90, "can't say", None]
    assert rows[0]["In words"] == "About 180, between 90 and 330; growing; crowded now"
    assert rows[1]["In words"] == "About 180, between 90 and 330; growing; crowded by Jun 2026"
    assert rows[2]["In words"].endswith("not crowded in years to come")
    assert rows[3]["In words"] == "About 180, between 90 and 330; growing"
    assert [row["Bin"] for row in values(spec, "CrowdedFirst")] == ["A01", "A02", "A03"]


def test_no_growth_is_claimed_where_its_interval_holds_none(spec):
    last = values(spec, "AnimalNumbers")[-1]
    assert last["In words"] == "Never counted; starting guess: about 50, between 14 and 180; no clear growth"
    assert (last["Twice as many"], last["Simple reckoning"], last["Counted"], last["By"]) == (
        "can't say",
        None,
        None,
        "",
    )


def test_a_bin_known_only_by_what_it_eats_says_so(spec):
    found = sample()
    one = replace(found.estimates.numbers["A04"], counted=False, by_eating=True)
    made = sheet(replace(found, estimates=replace(found.estimates, numbers={**found.estimates.numbers, "A04": one})))
    (row,) = [row for row in values(made, "AnimalNumbers") if row["Bin"] == "A04"]
    assert row["In words"].startswith("Never counted; by what it eats: about 180")
    assert ["What a bin eats" in one.lines[0] for one in (made, spec)] == [True, False]


def test_census_by_marks_shows_beside_a_later_plain_count():
    found = sample()
    day = dt.date(2026, 3, 3)
    shown = []
    for marks in (MarksCount(190.0, 150.0, 262.0, day), MarksCount(60.0, 60.0, None, day), None):
        one = replace(found.estimates.numbers["A04"], marks=marks)
        made = replace(found, estimates=replace(found.estimates, numbers={**found.estimates.numbers, "A04": one}))
        (row,) = [row for row in values(sheet(made), "AnimalNumbers") if row["Bin"] == "A04"]
        shown.append(row["By marks"])
        assert (row["Simple reckoning"], row["By"]) == (45.0, "hide lift")
    assert shown == ["About 190, between 150 and 260; 3 Mar 2026", "60 or more; 3 Mar 2026", None]


def test_a_count_worked_out_is_said_to_be_by_marks_or_by_passes(spec):
    found = sample()
    marks, passes, *others = found.estimates.numbers.values()
    ways = [replace(marks, last_method="marks", last_count=183.7), replace(passes, last_method="passes"), *others]
    made = sheet(replace(found, estimates=replace(found.estimates, numbers={one.bin: one for one in ways})))
    rows = {row["Bin"]: row for row in values(made, "AnimalNumbers")}
    assert (rows[marks.bin]["By"], rows[marks.bin]["Simple reckoning"]) == ("by marks", 184)
    assert rows[passes.bin]["By"] == "by passes"
    assert rows[others[0].bin]["By"] == "hide lift"
    assert ["by marks" in one.lines[0] for one in (made, spec)] == [True, False]


def test_numbers_are_given_no_more_exactly_than_they_are_known(spec):
    assert {row["Animals"] for row in values(spec, "AnimalNumbers")} == {180, 190, 50}


def test_lines_add_up_and_have_a_chart_each(spec):
    rows = values(spec, "AnimalsByLine")
    assert rows[-1]["Species"] == "all"
    assert sum(row["Bins"] for row in rows[:-1]) == rows[-1]["Bins"] == 13
    charts = [chart for chart in spec.charts if chart.below == "AnimalsByLine"]
    assert len(charts) == len(rows) - 1
    titles = {chart.title for chart in charts}
    assert "Animals: Armadillidium vulgare, Orange, from the old cellar stock (3 bins)" in titles
    assert "Animals: no species written (1 bin)" in titles


def test_charts_of_bins_have_the_crowding_number_as_a_line(spec):
    charts = [chart for chart in spec.charts if chart.below == "CrowdedFirst"]
    assert [chart.title for chart in charts] == ["Bin A01: animals", "Bin A02: animals", "Bin A03: animals"]
    assert [chart.series[-1].values[0] for chart in charts] == [150, 300, 9000]


def test_without_crowding_numbers_the_most_numerous_bins_are_drawn():
    known = {f"A{i:02d}": numbers(ON, f"A{i:02d}", i) for i in range(1, 13)}
    known["=1+1"] = numbers(ON, "=1+1", 0, now=Range(800, 900, 1000))
    spec = sheet(sample(estimates=Estimates(ON, numbers=known)))
    assert spec.tables[0].title == "Most animals"
    assert [chart.title for chart in spec.charts[:2]] == ["Bin =1+1: animals", "Bin A12: animals"]
    assert all(len(chart.series) == 4 for chart in spec.charts)


def test_bins_never_counted_are_named_in_the_lines():
    assert "1 bin was never counted" in sheet(sample()).lines[0]
    assert "nothing is said of crowding" in sheet(sample()).lines[0]
    all_counted = Estimates(ON, numbers=dict(list(estimates(ON, ["A01", "A02"]).numbers.items())[:1]))
    assert "never counted" not in sheet(sample(estimates=all_counted)).lines[0]


def test_without_anything_known_the_sheet_says_so():
    spec = sheet(sample(estimates=Estimates(ON)))
    assert spec.answer == "Nothing can be said of numbers: there is no bin in use."
    assert spec.charts == ()


WORDING_DAY_90 = ON.fromordinal(ON.toordinal() + 90)


def test_without_clear_growth_no_day_of_doubling_is_given_and_crowding_is_only_perhaps():
    crowded = {"crowding": 300.0, "crowded": days(ON, 30, 90, None), "doubles": days(ON, 30, 90, None)}
    unsure = numbers(ON, "A01", 0, growth=Range(-0.1, 0.05, 0.2), already=False, **crowded)
    made = sheet(sample(estimates=Estimates(ON, numbers={"A01": unsure})))
    (row,) = values(made, "AnimalNumbers")
    assert "no clear growth; crowded perhaps by " in row["In words"]
    assert row["Twice as many"] == "can't say"
