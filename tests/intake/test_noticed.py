import pytest

from workbook_tools.fields import FINDINGS, STATES, THINGS, WELL
from workbook_tools.intake.lexicon import Lexicon
from workbook_tools.intake.noticed import among_others, noticed

KNOWN = {
    word: key for table in ("settled", "finding") for key, words in STATES[table].items() for word in (key, *words)
}
LEXICON = Lexicon()
BAD = {key for key, one in FINDINGS.items() if not one.good}


def seen(text):
    """What a column of what was seen, and a text of acts, take it for."""
    return LEXICON.read_state(text, "finding").keys, LEXICON.read_acts(text).states.get("finding")


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("springies look good", "springtails fine"),
        ("the bark is still ok", "hides fine"),
        ("lots of litter left", "leaf litter fine"),
        ("cuttlebone fine", "calcium fine"),
        ("lid tight again", "lid closed"),
        ("no gnats any more", "gnats gone"),
        ("mites have all gone", "mites gone"),
        ("there is no sign of slime", "slime gone"),
        ("not overcrowded now", "not crowded"),
        ("gnats ok", "gnats gone"),
        ("humidity good", "moisture fine"),
    ],
)
def test_a_fine_word_about_a_thing_is_about_that_thing_and_not_all_well(text, key):
    assert seen(text) == ((key,), (key,))


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("collembola scarce", "springtails low"),
        ("springtails have vanished", "springtails low"),
        ("hardly any cork left", "hides worn"),
        ("eggshell all gone", "calcium gone"),
        ("bark is not good", "hides worn"),
        ("quite a few grain mites", "mites"),
        ("still some slime", "slime"),
        ("two violet adults", "blue or violet"),
        ("one has turned purple", "blue or violet"),
    ],
)
def test_too_little_of_a_thing_and_few_or_many_of_a_pest_are_findings(text, key):
    assert seen(text) == ((key,), (key,))


@pytest.mark.parametrize("text", ["tub fine", "everyone looks healthy", "the colony is doing ok", "all animals fine"])
def test_a_fine_word_about_the_whole_bin_is_all_well(text):
    assert noticed(text.replace(" doing", ""), KNOWN) == (WELL,)


@pytest.mark.parametrize("text", ["powder blue", "blue carrot slice", "dairy cow line ok", "not so good", "lamp good"])
def test_what_is_beside_words_not_known_is_told_and_not_taken(text):
    assert noticed(text, KNOWN) is None
    assert LEXICON.read_state(text, "finding").keys == ()
    assert LEXICON.read_state(text, "finding").unknown == (text,)


def test_a_colour_alone_is_a_finding_where_findings_stand_and_nowhere_else():
    assert seen("violet") == (("blue or violet",), None)
    assert seen("blue mould on bark")[0] == ("mould",)


def test_fungus_gnats_are_no_fungus():
    assert seen("fungus gnats round the lamp")[1] == ("gnats",)


def test_none_given_is_no_finding_in_a_text_of_acts_and_none_left_is_one():
    assert seen("no chalk left") == (("calcium gone",), ("calcium gone",))
    assert seen("no cuttlebone") == (("calcium gone",), None)
    assert LEXICON.read_acts("no cuttlebone").undone == ("no cuttlebone",)


def test_what_is_gone_from_somewhere_is_no_finding():
    assert among_others("mites vanished from the corner", KNOWN) == {}
    assert seen("mites vanished from the corner") == ((), None)


def test_no_good_sign_is_understood_and_says_nothing():
    assert noticed("no babies", KNOWN) == ()
    assert LEXICON.read_state("no babies", "finding").unknown == ()


@pytest.mark.parametrize("text", ["look for mites", "buy springtails", "if crowded", "how do mites get in?"])
def test_what_is_planned_looked_for_or_asked_about_is_not_seen(text):
    assert LEXICON.read_acts(text).states == {}


def test_one_cell_may_say_several_things():
    assert LEXICON.read_state("mites gone, hides ok; bit of slime", "finding").keys == (
        "mites gone",
        "hides fine",
        "slime",
    )


@pytest.mark.parametrize("key", [*FINDINGS, *(one.settled for one in THINGS.values() if one.settled)])
def test_all_that_we_say_ourselves_is_read_back_in_a_column_of_what_was_seen(key):
    assert LEXICON.read_state(key, "finding").keys == (key,)


@pytest.mark.parametrize(
    "key", ["mites gone", "not crowded", "springtails fine", "lid closed", "hides fine", "crowded"]
)
def test_what_settles_a_finding_is_heard_in_a_text_of_acts_too(key):
    assert LEXICON.read_acts(f"watered, {key}").states == {"finding": (key,)}


@pytest.mark.parametrize(
    "text", ["lamp full of dust", "young fern planted", "dry side fine", "climbing frame in", "dead fruit flies"]
)
def test_words_that_may_be_of_anything_are_not_taken_from_among_others(text):
    assert LEXICON.read_state(text, "finding").keys == ()
    assert text in LEXICON.read_state(text, "finding").unknown


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("moss too dry", "too dry"),
        ("lid was left open", "way out"),
        ("slimy patch on cork", "slime"),
        ("tub overcrowded", "crowded"),
    ],
)
def test_a_thing_with_its_finding_and_a_finding_with_its_place_are_that_finding(text, key):
    found = LEXICON.read_state(text, "finding")

    assert (found.keys, found.guessed) == ((key,), ())


@pytest.mark.parametrize("text", ["friend has gnats", "saw grain mites at the shop", "heard of mites from a neighbour"])
def test_what_others_have_is_told_and_not_found_here(text):
    found = LEXICON.read_acts(text)

    assert "finding" not in found.states
    assert found.loose


def test_a_dead_animal_of_that_colour_is_a_death_and_a_finding():
    found = LEXICON.read_acts("2 violet adults dead")

    assert (found.keys, found.states) == (("dead",), {"finding": ("blue or violet",)})
    assert len(found.numbers) == 1


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("the lid won't shut at the hinge", {"way out"}),
        ("woodlouse number nine walking outside on the window sill", {"way out"}),
        ("rim cracked near the handle", {"way out"}),
        ("whole lot of them, all piled up below the slate", {"huddling"}),
        ("no one on the left", {"one side empty"}),
        ("the bottom reeks", {"sour smell"}),
        ("sphagnum crunchy to the touch", {"too dry"}),
        ("dirt waterlogged right down", {"too wet"}),
        ("earwig under the slate", {"pests"}),
        ("droplets all over the window", {"condensation"}),
        ("grey hyphae between the leaves", {"mould"}),
        ("greasy sheen across the surface", {"film"}),
        ("drain flies each time, little flies", {"gnats"}),
        ("ran out of lime, limestone finished", {"calcium gone"}),
        ("springies dwindling", {"springtails low"}),
        ("collembola galore", {"springtails fine"}),
        ("tub bursting", {"crowded"}),
        ("branch fell apart, cork papery", {"hides worn"}),
        ("four females with eggs", {"gravid"}),
        ("smells lovely, of forest", {"smell gone"}),
        ("dots on the pea, mites?", {"mites"}),
    ],
)
def test_signs_in_a_phrase_are_findings(text, keys):
    found = LEXICON.read_acts(text)

    assert set(found.states["finding"]) == keys
    assert {*found.keys} <= {"substrate_look"}


@pytest.mark.parametrize(
    "text",
    [
        "hall carpet cleaned, stinks",
        "will look whether the cork is rotten",
        "gave leaf mould",
        "predatory mites released on the moss",
        "gnats are fewer",
        "the lid shuts well",
        "no drops on the lid",
    ],
)
def test_no_sign_is_taken_from_plans_house_or_what_is_less_or_denied(text):
    assert not BAD.intersection(LEXICON.read_acts(text).states.get("finding", ()))


@pytest.mark.parametrize(
    ("text", "well"),
    [
        ("looked in, fine", True),
        ("watered, all good", True),
        ("label peeling off, good", False),
        ("new label on it, ok", False),
    ],
)
def test_fine_alone_is_of_what_stands_before_it_if_that_is_no_act(text, well):
    assert (WELL in LEXICON.read_acts(text).states.get("finding", ())) is well


def test_a_sign_is_told_as_a_guess_and_no_more_as_not_understood():
    found = LEXICON.read_acts("fed pea, grey hyphae between the slates")

    assert ("grey hyphae between the slates", "mould") in found.guessed
    assert (found.keys, found.unknown) == (("feed",), ())


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Spalt im Deckel", "way out"),
        ("kurk bijna vergaan", "hides worn"),
        ("couvercle entrouvert", "way out"),
        ("moho en la esquina", "mould"),
        ("troppo secco a destra", "too dry"),
        ("roztocza na marchewce", "mites"),
        ("kaum Springschwänze", "springtails low"),
        ("tout va bien", WELL),
    ],
)
def test_signs_in_other_languages(text, key):
    assert seen(text) == ((key,), (key,))
