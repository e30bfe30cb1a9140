import datetime as dt
from dataclasses import replace

import pytest

from tools.drawn import values
from tools.learned_sample import estimates, food, moss
from tools.report_sample import ON, a_bin, sample
from workbook_tools.plan.learned.records import Estimates, FoodSwing
from workbook_tools.plan.wording import Wording
from workbook_tools.report.sheets.learned import Row
from workbook_tools.report.sheets.moss_food import answer, sheet

WORDING = Wording("en-GB")


@pytest.fixture(scope="module")
def spec():
    return sheet(sample())


def test_first_line_says_how_many_need_a_look_and_how_many_are_too_wet(spec):
    # looks are due from two days ago on, one bin a day
    assert spec.answer == (
        "5 moss corners need a look by Mon 16 Mar 2026, 3 of them today; 1 bin is too wet: look, but give no water."
    )


@pytest.mark.parametrize(
    ("ahead", "said"),
    [
        ((5, 9), "No moss corner needs a look by Mon 16 Mar 2026."),
        ((2, 9), "1 moss corner needs a look by Mon 16 Mar 2026."),
        ((0, -1), "2 moss corners need a look by Mon 16 Mar 2026, all of them today."),
        ((None, None), "Nothing can be said of any moss corner: no watering is logged."),
    ],
)
def test_first_line_in_other_cases(ahead, said):
    days = [None if days is None else ON + dt.timedelta(days=days) for days in ahead]
    assert answer([Row(a_bin(1), moss(ON, "A01", 0, next=day)) for day in days], ON, WORDING) == said


def test_the_most_urgent_stand_first_and_unknown_ones_last(spec):
    rows = values(spec, "MossCorners")
    looks = [row["Look by"] for row in rows]
    assert looks[:-1] == sorted(looks[:-1])
    assert looks[-1] is None
    assert rows[-1]["In words"].startswith("Starting guess: dry about ")
    assert rows[-1]["In words"].endswith("no watering is logged")
    assert rows[-1]["Rests on"] == "common practice, not yet learned here"
    assert values(spec, "MossCornersFirst") == rows[:8]


def test_a_bin_that_is_too_wet_is_said_to_want_no_water(spec):
    (wet,) = [row for row in values(spec, "MossCorners") if row["Bin"] == "A01"]
    assert wet["In words"] == (
        "Too wet (condensation on 1 Mar 2026): give no water. Dry about 6, between 5 and 8 days after watering"
    )


def test_food_says_what_is_eaten_the_portion_and_its_step(spec):
    rows = values(spec, "Food")
    assert len(rows) == 2 * 13 - 2
    first = rows[0]
    assert first["In words"] == (
        "Eats about 0.3 g, between 0.2 and 0.45 a day; held at twice the last portion (0.7 g would be gone in a day): "
        "raise it by steps"
    )
    assert (first["Give next"], first["Last given"], first["Found"], first["Food"]) == (
        0.4,
        0.2,
        "all gone",
        "dry food",
    )
    assert rows[2]["Give next"] == 1.2
    guess = rows[-1]
    assert guess["In words"].startswith("Starting guess: eats about")
    assert (guess["Last given"], guess["Simple reckoning"], guess["Found"]) == (None, None, "not looked at")


def test_portion_held_at_half_the_last_says_why():
    held = replace(food(ON, "A01", 0), limited=-1, wanted=0.1, portion=0.25)
    (row,) = values(sheet(sample(estimates=Estimates(ON, {}, {"A01": (held,)}))), "Food")
    assert row["In words"].endswith("; held at half the last portion (0.1 g would be gone in a day): lower it by steps")


def test_portion_is_said_to_be_for_a_day_and_not_until_the_next_feeding(spec):
    assert "one feeding that is gone by the next day" in spec.lines[0] and "leaf litter" in spec.lines[0]
    assert "by the next day" not in sheet(sample(estimates=Estimates(ON))).lines[0]


def test_feeding_days_are_those_of_the_sheet_due(spec):
    due = {task.bin: task.due for task in sample().tasks if task.task == "food"}
    shown = {row["Bin"]: row["Feed on"] for row in values(spec, "Food")}
    assert due
    assert shown == {name: due.get(name) for name in shown}


def test_one_feeding_of_all_bins_adds_up(spec):
    rows = values(spec, "FoodForOneRound")
    assert rows[-1]["Species"] == "all"
    assert rows[-1]["Bins"] == 13 == sum(row["Bins"] for row in rows[:-1])
    assert rows[-1]["Dry food"] == pytest.approx(0.4 + 12 * 0.24, abs=0.05)
    assert rows[-1]["Fresh food"] == pytest.approx(11 * 1.2, abs=0.05)


def test_the_chart_counts_every_look_within_a_week_once(spec):
    (chart,) = spec.charts
    assert chart.over[:2] == ("before today", "today")
    counts = [sum(values) for values in zip(*(one.values for one in chart.series), strict=True)]
    assert counts == [2, 1, 1, 1, 1, 1, 1, 1, 1]  # bins 0 to 9; those later than a week are not drawn
    assert chart.says.startswith("Moss corners to look at, day by day: before today 2, today 1,")
    assert chart.whole


def test_room_readings_are_told_of_or_asked_for():
    assert "by 12 readings of temperature" in sheet(sample()).lines[0]
    known = estimates(ON, ["A01"])
    without = sheet(sample(estimates=Estimates(ON, known.moss, known.food))).lines[0]
    assert "3 readings of the room's temperature and humidity within 60 days would mend that" in without


def test_without_anything_known_the_sheet_says_so():
    spec = sheet(sample(estimates=Estimates(ON)))
    assert spec.charts == ()
    assert [len(table.rows) for table in spec.tables] == [0, 0]
    assert all(table.when_empty for table in spec.tables)
    assert spec.answer == "No moss corner needs a look by Mon 16 Mar 2026."


def test_the_next_look_is_that_of_due():
    day = ON + dt.timedelta(days=4)
    made = sheet(sample(estimates=Estimates(ON, moss={"A01": moss(ON, "A01", 0, next=ON)}), moss_days={"A01": day}))
    assert [row["Look by"] for row in values(made, "MossCorners")] == [day]
    assert made.answer == "No moss corner needs a look by Mon 16 Mar 2026."


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (
            -0.42,
            "Since about 1 Mar 2026 all bins together eat about 40 % less dry food than usual for them; the portions "
            "follow. If neither the room nor the food has changed, look for what ails them.",
        ),
        (
            0.31,
            "Since about 1 Mar 2026 all bins together eat about 30 % more dry food than usual for them; the portions "
            "follow.",
        ),
    ],
)
def test_it_says_when_all_bins_eat_more_or_less_than_usual(share, said):
    findings = sample()
    swing = FoodSwing("dry", share, dt.date(2026, 3, 1))
    swung = replace(findings, estimates=replace(findings.estimates, food_swings=(swing,)))
    assert sheet(swung).lines == (said, *sheet(findings).lines)
