import dataclasses
import datetime as dt

import pytest

from tools.drawn import values
from tools.losses_sample import alarm
from tools.report_sample import ON, sample
from workbook_tools.plan.losses.records import Losses, Sight
from workbook_tools.plan.wording import Wording
from workbook_tools.problems import CellRef
from workbook_tools.report import cautions
from workbook_tools.report.sheets.losses import HINT, SLOW, answer, cautions_of, sheet

WORDING = Wording("en-GB")
FOUND = sample()


@pytest.fixture(scope="module")
def spec():
    return sheet(FOUND)


def said(**changes):
    return answer(dataclasses.replace(FOUND.losses, **changes), WORDING)


def test_first_line_says_who_and_after_what(spec):
    first, second, *_ = FOUND.ledger.bins

    assert spec.answer == (
        f"1 bin loses more than usual: {first}; {second} is worth a look; 2 bins at Shelf 1 lose together, after 'bug "
        "spray' on 4 Mar 2026."
    )


def test_first_line_in_other_cases():
    none = {"alarms": (), "clusters": ()}
    many = tuple(alarm(ON, f"A{i:02d}") for i in range(1, 7))

    assert said(**none) == "No bin loses more than is usual, as far as finds tell."
    assert said(alarms=many, clusters=()) == "6 bins lose more than usual: A01, A02, A03 and 3 more."
    assert answer(Losses(ON), WORDING) == "Nothing can be said of losses: no dead animal is logged."


def test_what_the_alarm_cannot_see_and_its_false_alarms_are_said(spec):
    assert SLOW in spec.lines
    assert (
        "Of 50 bins about 1 a year has one though nothing is wrong, and 6 more are called worth a look" in spec.lines[0]
    )
    assert "of your 13 bins about 0.3 and 2" in spec.lines[0]
    assert "One or two deaths in a bin of many raise none." in spec.lines[0]
    assert spec.lines[-1] == "1 entry of deaths has no day that is known well enough, and isn't counted."
    assert sheet(sample(losses=Losses(ON))).lines == (SLOW,)


def test_alarms_in_words(spec):
    rows = values(spec, "LossAlarms")

    assert [row["Says"] for row in rows] == ["alarm", "worth a look", "alarm"]
    assert (
        rows[0]["In words"] == "11 dead found in the 10 days to 8 Mar 2026, where fewer than 1 is usual, and 3 since."
    )
    assert [row["By luck"] for row in rows[:2]] == ["Less than 1 in 10,000", "1 in 500"]
    assert [row["All well"] is None for row in rows] == [True, True, False]


def test_bins_that_lose_together_are_a_hint_with_the_event_and_its_day(spec):
    after, alone = values(spec, "LossesTogether")

    assert after["Bins"] == "2 of 5"
    assert "Bug spray (next door) is logged on 4 Mar 2026, 3 days before the first find." in after["In words"]
    assert after["In words"].endswith(HINT) and alone["In words"].endswith(HINT)
    assert "No house event is logged" in alone["In words"]
    assert (after["By luck"], alone["By luck"]) == ("1 in 2,000", "1 in 30")
    assert not any("cause of" in text or "because" in text for text in (after["In words"], alone["In words"]))


def test_questions_stand_in_their_order_with_what_is_logged(spec):
    rows = values(spec, "LookFirst")

    assert [(row["Order"], row["Look at"], row["Noted"]) for row in rows] == [
        (1, "Chemicals", "yes"),
        (2, "Moisture", "nothing"),
    ]
    assert rows[0]["Ask"] == "Was anything sprayed? Logged: bug spray on 4 Mar 2026."
    assert rows[1]["Ask"] == "Is one side damp?"


def test_all_bins_the_most_found_first_and_one_never_opened(spec):
    rows = values(spec, "LossesAll")

    assert len(rows) == len(FOUND.ledger.bins)
    assert [row["Found now"] for row in rows][:3] == [9, 6, 3]
    assert rows[0]["In words"] == "9 dead in the last 10 days, where fewer than 1 is usual; 20 in a year."
    never = next(row for row in rows if row["In words"].startswith("Never opened"))
    assert never["A month per 100"] is None and never["From"] is None


def test_what_was_seen_stands_with_its_day(spec):
    huddling, mould = values(spec, "SeenAgain")

    assert huddling["On"] == ON - dt.timedelta(days=3)
    assert huddling["Seen"] == "Huddling: feel whether the rest is too dry, too wet or too warm."
    assert mould["Due"] == ON - dt.timedelta(days=1)


def test_the_caution_of_the_virus_stands_where_animals_die_and_where_one_was_blue(spec):
    blue = Sight("A", "blue or violet", ON, ON, ON, CellRef("Log", 5))
    settled = [dataclasses.replace(one, well=ON) for one in FOUND.losses.alarms]

    assert cautions.VIRUS in spec.cautions
    assert cautions_of(Losses(ON, alarms=tuple(settled)), deaths=True) == ()
    assert cautions_of(Losses(ON, sights=(blue,))) == (cautions.VIRUS,)
    assert cautions_of(Losses(ON, sights=(dataclasses.replace(blue, finding="gnats"),))) == (cautions.PESTS,)


def test_the_chart_tells_bins_with_an_alarm_from_others(spec):
    (chart,) = spec.charts

    assert [series.name for series in chart.series] == ["other bins", "bins named above"]
    assert "The most: 11 in the week to 7 Mar 2026, 9 of them" in chart.says
    assert sheet(sample(losses=Losses(ON))).charts == ()


def test_a_report_without_losses_still_has_the_sheet():
    assert sheet(sample(losses=None)).answer.startswith("Nothing can be said of losses")


def test_deaths_that_stand_in_notes_alone_are_said():
    *_, quiet = FOUND.ledger.bins
    bins = {quiet: dataclasses.replace(next(iter(FOUND.losses.bins.values())), bin=quiet, year=0.0, opened=True)}
    losses = dataclasses.replace(FOUND.losses, bins=bins, alarms=(), in_notes={quiet: 2})
    made = sheet(dataclasses.replace(FOUND, losses=losses))
    words = [row["In words"] for row in values(made, "LossesAll")]
    assert words == ["None counted in the last year, but your notes speak of deaths in 2 rows."]
    said = "Your notes of 1 bin speak of deaths that aren't counted here; 'How it was read' names them."
    assert said in made.lines
    empty = sheet(dataclasses.replace(FOUND, losses=Losses(ON, in_notes={quiet: 1})))
    assert said in empty.lines
