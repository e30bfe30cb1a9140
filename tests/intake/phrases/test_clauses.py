import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.intake.phrases.clauses import read_phrase
from workbook_tools.intake.units import Measures

MEASURES = Measures()
DONE = {"water": "sprayed the moss", "feed": "gave 2 g pumpkin", "leaf": "added hazel leaves", "split": "divided it"}
MOODS = {
    "denied": ["did not {}", "no time, never {}"],
    "planned": ["tomorrow: {}", "must be {}"],
    "condition": ["if dry, {}"],
    "asked": ["{}?", "who {}"],
}


def booked(text):
    return [clause.act for clause in read_phrase(text, MEASURES) if clause.booked]


@pytest.mark.parametrize(
    ("text", "acts"),
    [
        ("spritzed, parsnip, hazel 12 g", ["water", "feed", "leaf"]),
        ("moss crisp, 45 ml", ["moss", "water"]),
        ("misted damp end, 3 oz", ["water", "water"]),
        ("pumpkin mouldy, removed", ["leftovers", "leftovers"]),
        ("sold 14 to Agathe", ["animals_out"]),
        ("old soil sifted, 6 found", ["sift", "sift"]),
        ("quarantine over", ["release"]),
        ("Set up: 4 l substrate, alder, 12 animals", ["start", "start", "animals_in"]),
        ("stock: hazel 210 g", ["stock"]),
        ("2 cork rounds in", ["hides"]),
        ("19 °C, 66 %", ["room", "room"]),
    ],
)
def test_acts_are_read_by_clauses(text, acts):
    assert booked(text) == acts


@pytest.mark.parametrize("act", DONE)
def test_what_was_done_is_booked(act):
    assert booked(DONE[act]) == [act]


@pytest.mark.parametrize(("mood", "form"), [(mood, form) for mood, forms in MOODS.items() for form in forms])
@pytest.mark.parametrize("verb", ["misted", "fed", "divided", "swapped the soil"])
def test_nothing_in_a_mood_is_booked(mood, form, verb):
    assert booked(form.format(verb)) == []


def test_what_is_not_seen_or_not_eaten_is_a_finding():
    assert booked("pumpkin not eaten") == ["leftovers"]
    assert booked("not seen") == ["count"]


def test_a_correction_puts_the_later_amount():
    clauses = read_phrase("watered 30 ml, no wait 50 ml", MEASURES)
    assert [one.value for one in clauses[0].amounts] == [50]


def test_what_was_done_in_another_bin_is_not_booked_here():
    assert booked("misted, sorry that was tub 9") == []
    assert booked("tub 9 misted") == []


def test_an_unknown_word_is_asked_and_named():
    clauses = read_phrase("added the gribble hazel", MEASURES)
    assert not clauses[0].booked
    assert booked("watered the gribble") == ["water"]
    assert booked("watered the gribble frumious") == []
    assert clauses[0].unknown == ("gribble",)


@given(st.text(max_size=80))
def test_any_text_can_be_read(text):
    assert all(0 <= clause.sure <= 1 or not clause.booked for clause in read_phrase(text, MEASURES))
