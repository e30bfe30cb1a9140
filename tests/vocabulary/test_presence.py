import pytest

from workbook_tools.intake.headings import plain
from workbook_tools.vocabulary.presence import NOT, SILENT, UNDONE, Presence, presence_of, words_of


def test_words_are_plain_so_that_they_can_be_compared():
    assert {word for word in NOT if plain(word) != word} == set()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Ja", Presence.DONE),
        ("DONE!", Presence.DONE),
        ("✗", Presence.NOT_DONE),
        ("  Nope.", Presence.NONE),
        ("don’t know", Presence.UNKNOWN),
        ("not yet", Presence.NOT_YET),
        ("done?", Presence.ASKED),
        ("-", Presence.EMPTY),
        ("", Presence.EMPTY),
        ("carrot", None),
        ("no carrot", None),
        ("carrot?", None),
    ],
)
def test_a_whole_cell_says_one_thing(text, said):
    assert presence_of(text) is said


def test_no_word_is_of_two_kinds():
    every = [word for kind in Presence for word in words_of(kind)]

    assert len(every) == len(set(every))


def test_what_says_nothing_denies_nothing():
    assert not UNDONE & SILENT
    assert Presence.DONE not in UNDONE | SILENT
