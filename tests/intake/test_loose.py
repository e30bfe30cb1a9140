import pytest

from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.loose import WEIGHTY, says_empty, weighed

LEXICON = Lexicon()


@pytest.mark.parametrize(
    "text",
    [
        "closed vents", "closed the grille", "ended trial of pellets", "rest of bark turned", "dead twigs removed",
        "split stone in two", "swapped lids", "sent picture to Ute", "sold out of pellets", "got new sprayer",
        "cleaned out dust", "froze leaves for 2 days", "took it out", "out for a week", "retired old lid",
        "gone through notes", "new box of chalk bought", "died down a bit", "closer",
    ],
)  # fmt: skip
def test_no_bin_closes_and_no_animal_moves_or_dies_on_a_loose_likeness(text):
    found = LEXICON.read_acts(text)

    assert not WEIGHTY.intersection(found.keys)
    assert text in [*(written for written, _ in found.loose), *found.unknown, *found.undone, *dict(found.guessed)]


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("sold 12 to Ute", "animals_out"),
        ("took out 8 adults", "animals_out"),
        ("got 10 from Ute", "animals_in"),
        ("sold the whole colony", "animals_out"),
        ("closed the tub", "end"),
        ("bin ended", "end"),
        ("split into 2 boxes", "split"),
        ("split into R4", "split"),
        ("2 dead adults", "dead"),
        ("2 died after moult", "dead"),
        ("one found dead", "dead"),
        ("old soil to freezer", "freeze"),
        ("started new culture", "start"),
    ],
)
def test_words_about_animals_bins_or_old_substrate_leave_an_act_as_it_is(text, key):
    found = LEXICON.read_acts(text)

    assert (found.keys, found.loose) == ((key,), ())


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("fed dead leaves", ("feed",)),
        ("removed leaves", ()),
        ("took out old carrot", ("leftovers",)),
        ("rest of food removed", ("leftovers",)),
        ("added bark", ("hides",)),
    ],
)
def test_what_was_done_goes_before_what_it_was_done_to(text, keys):
    assert LEXICON.read_acts(text).keys == keys


def test_each_wording_is_named_with_what_it_was_taken_for():
    found = LEXICON.read_acts("fed dead leaves, closed vents")

    assert found.guessed == (("fed dead leaves", "fed"),)
    assert found.loose == (("fed dead leaves", "dead"), ("closed vents", "closed"))


def test_boxes_and_days_are_no_animals():
    found = LEXICON.read_acts("split into 2 boxes")

    assert (found.numbers, [one.text for one in found.unplaced]) == ((), ["2"])


@pytest.mark.parametrize(
    ("text", "states"),
    [
        ("mould on the carrot, took it out", {"leftovers": ("mouldy",)}),
        ("cleaned out mould", {"finding": ("mould",)}),
        ("a few mites by the lid", {"finding": ("mites",)}),
        ("no mites by the lid", {}),
    ],
)
def test_mould_and_mites_are_seen_beside_any_words(text, states):
    found = LEXICON.read_acts(text)

    assert (found.states, found.keys) == (states, ())


def test_a_box_said_to_be_empty_is_named_and_its_words_are_no_leftovers():
    found = LEXICON.read_acts("nothing left, box empty, scrubbed")

    assert (found.keys, found.states) == ((), {})
    assert found.loose == (("nothing left", "emptied"), ("box empty", "emptied"))
    assert says_empty(["box", "empty"])
    assert not says_empty(["dish", "empty"])
    assert LEXICON.read_acts("food nothing left").states == {"leftovers": ("gone",)}


def test_soil_changed_and_the_old_thrown_out_moves_no_animals():
    found = LEXICON.read_acts("swapped all the soil, threw old out")

    assert (found.keys, found.loose) == (("substrate_change",), (("threw old out", "out"),))


def test_weighing_keeps_what_fits():
    assert weighed(["sold", "to", "ute"], {"sold": "animals_out"}, {"sold"}) == ({"sold": "animals_out"}, "")
    assert weighed(["sold", "lids"], {"sold": "animals_out"}, {"sold"}) == ({}, "sold")
