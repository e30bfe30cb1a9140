import pytest

from workbook_tools.intake.lexicon import Lexicon

LEXICON = Lexicon()


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("mist+feed", ("water", "feed")),
        ("Watered; leaves & food", ("water", "leaf", "feed")),
        ("new substrate", ("substrate_change",)),
        ("mist 40 ml", ("water",)),
        ("gave them veg", ("feed",)),
        ("sold", ("animals_out",)),
    ],
)
def test_acts_are_found_in_a_keepers_words(text, keys):
    found = LEXICON.read_acts(text)

    assert found.keys == keys
    assert found.unknown == ()


def test_a_slip_is_mended_and_said():
    found = LEXICON.read_acts("wattered")

    assert found.keys == ("water",)
    assert found.guessed == (("wattered", "watered"),)


@pytest.mark.parametrize("text", ["no water", "forgot to feed", "did not water"])
def test_what_was_not_done_is_not_taken_for_done(text):
    found = LEXICON.read_acts(text)

    assert found.keys == ()
    assert found.undone == (text,)


def test_an_unknown_word_is_kept_beside_known_ones():
    found = LEXICON.read_acts("watered, swept floor")

    assert found.keys == ("water",)
    assert found.unknown == ("swept floor",)


def test_a_sight_among_acts_is_found():
    found = LEXICON.read_acts("poured, mouldy")

    assert found.keys == ("water",)
    assert found.states == {"finding": ("mould",)}


@pytest.mark.parametrize(
    ("text", "states", "key"),
    [
        ("DRY!", "moss", "dry"),
        ("damp-ish", "moss", "damp"),
        ("yy", "truth", "yes"),
        ("black mush", "substrate", "spent"),
    ],
)
def test_sights_are_found(text, states, key):
    assert LEXICON.read_state(text, states).keys == (key,)


def test_the_keepers_own_words_extend_the_tables():
    lexicon = Lexicon({"Gloop": "Water", "manky": "mouldy", "zork": "frobnicate"})

    assert lexicon.read_acts("gloop").keys == ("water",)
    assert lexicon.read_state("manky", "leftovers").keys == ("mouldy",)
    assert lexicon.unplaced == ("zork",)
    assert LEXICON.read_acts("gloop").keys == ()


@pytest.mark.parametrize(
    ("text", "states"),
    [
        ("too wet", {"moss": ("soaked",)}),
        ("moss wet", {"moss": ("wet",)}),
        ("still wet", {"moss": ("wet",)}),
        ("food gone", {"leftovers": ("gone",)}),
        ("substrate frassy", {"substrate": ("mostly frass",)}),
    ],
)
def test_a_state_among_acts_is_seen_and_not_done(text, states):
    found = LEXICON.read_acts(text)

    assert (found.keys, found.states) == ((), states)


def test_words_are_told_as_they_were_written():
    found = LEXICON.read_acts("fedd 0.5g Flakes, Waterd, swept 2 Floors")

    assert (found.guessed, found.unknown) == ((("Waterd", "watered"),), ("swept 2 Floors",))
    assert found.loose == (("fedd 0.5g Flakes", "Feed"),)
