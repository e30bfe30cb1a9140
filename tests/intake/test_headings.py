import pytest

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS
from workbook_tools.intake.headings import SCORE_SURE, candidates, likeness, normalise, plain


@pytest.mark.parametrize(
    ("text", "words", "unit"),
    [
        ("Water (ml)", ("water",), "ml"),
        ("  WATER\nml ", ("water",), "ml"),
        ("Leaf litter [L]", ("leaf", "litter"), "l"),
        ("💧 Moss corner!", ("moss", "corner"), ""),
        ("lastFed", ("last", "fed"), ""),
        ("Temp °C", ("temp",), "degC"),
        ("Humidity %", ("humidity",), "percent"),
        ("Box dm²", ("box",), "dm2"),
        ("L", ("l",), "l"),
        ("Water (dl)", ("water",), "dl"),
        ("Poured fl oz", ("poured",), "fl oz"),
        ("Leaf litter (pounds)", ("leaf", "litter"), "lb"),
        ("kilograms of leaf", ("leaf",), "kg"),
        ("Number of days", ("number", "of", "days"), ""),
        ("Größe", ("grosse",), ""),
    ],
)
def test_normalise_takes_out_signs_and_units(text, words, unit):
    found = normalise(text)

    assert (found.words, found.unit) == (words, unit)


def test_plain_folds_signs_and_case():
    assert plain("  Dämp -- ISH?! ") == "damp ish"


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("When", "when"),
        ("Bin no.", "bins"),
        ("bin_no", "bins"),
        ("Did what?", "did"),
        ("Leaves topped up", "leaf"),
        ("How much", "amount"),
        ("Temperatur", "temperature"),
        ("Look again on", "look_again"),
        ("†", "dead"),
    ],
)
def test_a_log_heading_is_known(heading, field):
    assert candidates(heading, "", LOG_FIELDS)[0][1].key == field


def test_a_unit_in_the_heading_of_a_measure_is_no_name():
    best = candidates("Box dm²", "", BIN_FIELDS)[0]

    assert best[1].key == "floor"


def test_a_group_label_completes_a_heading():
    assert candidates("fed", "Last", BIN_FIELDS)[0][1].key == "last_feed"


def test_a_slip_is_a_guess_and_a_stranger_is_nothing():
    slip = likeness(("speceis",), "species")

    assert 0 < slip < SCORE_SURE
    assert likeness(("invoice",), "species") == 0
    assert candidates("Invoice no. of shop", "", LOG_FIELDS) == []


@pytest.mark.parametrize(
    ("heading", "key"),
    [
        ("How is the moss?", "moss"),
        ("What did you do? (tick all)", "did"),
        ("How much water?", "water"),
        ("How many dead?", "dead"),
        ("Which bin?", "bins"),
        ("Did you feed them?", "food"),
        ("Anything else?", "note"),
    ],
)
def test_a_question_is_taken_for_what_it_asks_for(heading, key):
    assert candidates(heading, "", LOG_FIELDS)[0][1].key == key


def test_a_question_about_nothing_known_is_no_field():
    assert candidates("How is the weather?", "", LOG_FIELDS) == []


@pytest.mark.parametrize("heading", ["ml / g", "g or ml", "ml, g", "L / kg", "Handfuls / g"])
def test_two_units_are_the_amount_of_whatever_was_done(heading):
    best, field = candidates(heading, "", LOG_FIELDS)[0]

    assert (field.key, best >= SCORE_SURE) == ("amount", True)


@pytest.mark.parametrize(
    "heading", ["How many at start", "Start no", "No. at start", "Animals at set-up", "Initial qty"]
)
def test_a_number_at_the_start_is_the_founders(heading):
    best, field = candidates(heading, "", BIN_FIELDS)[0]

    assert (field.key, best >= SCORE_SURE) == ("founders", True)


@pytest.mark.parametrize(("heading", "field"), [("How many now", "number_now"), ("Start", "started")])
def test_other_numbers_and_starts_stay_what_they_are(heading, field):
    assert candidates(heading, "", BIN_FIELDS)[0][1].key == field


def test_a_list_of_bins_may_say_until_when_they_are_kept_apart():
    assert candidates("Quarantine until", "", BIN_FIELDS)[0][1].key == "quarantine_until"
