import pytest

from workbook_tools.intake.act_text import parts_of
from workbook_tools.intake.units import Measures


def parts(text, **own):
    return parts_of(text, Measures(own=own))


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("new soil 1/3, old to freezer", ["new soil 1/3", "old to freezer"]),
        ("fed 0,5 g flakes", ["fed 0,5 g flakes"]),
        ("water + feed and leaves", ["water", "feed", "leaves"]),
        ("watered but not fed", ["watered", "not fed"]),
        ("watered (forgot A2)", ["watered", "forgot A2)"]),
    ],
)
def test_a_text_is_parted_between_acts_but_not_inside_numbers(text, written):
    assert [part.text for part in parts(text)] == written


@pytest.mark.parametrize(
    ("text", "bare", "numbers"),
    [
        ("mist 40 ml", "mist", [("40 ml", "ml")]),
        ("topped up leaves (2 handfuls)", "topped up leaves", [("2 handfuls", "handfuls")]),
        ("30+ counted", "counted", [("30+", "")]),
        ("count 40-60", "count", [("40-60", "")]),
        ("feed .5g", "feed", [(".5 g", "g")]),
        ("room 21 C 55%", "room", [("21 C", "C"), ("55%", "")]),
        ("moved to A4", "moved to a4", []),
        ("moved to shelf 3", "moved to shelf 3", []),
        ("fed at 18:30", "fed at 18 30", []),
    ],
)
def test_numbers_are_set_aside_with_their_units(text, bare, numbers):
    (part,) = parts(text)

    assert (part.bare, [(one.text, one.unit) for one in part.quantities]) == (bare, numbers)


def test_a_measure_of_the_keepers_own_is_a_unit():
    (part,) = parts("watered 2 spoons", spoon=(5, 5, 5, "ml", False))

    assert part.quantities[0].text == "2 spoons"


@pytest.mark.parametrize(
    "text",
    [
        "did not water", "didn't water", "no water", "not watered", "forgot to water", "skipped feeding", "needs water",
        "should feed", "water tomorrow!", "to do: split", "todo split", "order new leaves", "buy leaves",
        "plan to split", "water?", "water if dry", "to water", "bought leaves for it", "feed next week", "kein Wasser",
    ],
)  # fmt: skip
def test_what_is_denied_wanted_planned_or_asked_is_undone(text):
    assert [bool(part.undone) for part in parts(text)] == [True]


@pytest.mark.parametrize("text", ["watered", "watered as needed", "put in order", "count 20?", "moved next to A2"])
def test_what_was_done_is_not_taken_for_undone(text):
    assert [part.undone for part in parts(text)] == [""]


@pytest.mark.parametrize(
    ("text", "undone"),
    [
        ("no water/feed", [True, True]),
        ("didn't water and feed", [True, True]),
        ("no water and changed leaves", [True, False]),
        ("no water, feed", [True, False]),
        ("water/feed?", [True, True]),
        ("water + feed?", [False, True]),
    ],
)
def test_a_denial_reaches_over_what_it_is_joined_to(text, undone):
    assert [bool(part.undone) for part in parts(text)] == undone


def test_words_for_a_share_are_parted_from_the_others():
    assert parts("changed half the substrate")[0].share() == ("half", "changed the substrate")
    assert parts("changed the substrate")[0].share() == ("", "")
