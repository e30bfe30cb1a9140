import pytest

from workbook_tools.intake.lexicon import Lexicon

LEXICON = Lexicon()


def numbers(text):
    return [(told.acts, told.quantity.text, told.thing) for told in LEXICON.read_acts(text).numbers]


def test_amounts_of_several_things_are_all_kept():
    assert numbers("alder 12 g, birch 9 g") == [(("leaf",), "12 g", "alder"), (("leaf",), "9 g", "birch")]


def test_a_lone_number_behind_an_act_that_has_none_is_not_lost():
    found = LEXICON.read_acts("split 6, 3 g")

    assert found.keys == ("split",)
    assert [one.text for one in found.unplaced] == ["3 g"]


def test_a_small_volume_behind_leaves_is_water():
    assert [one[0] for one in numbers("hazel, 15 ml")] == [("water",)]
    assert [one[0] for one in numbers("hazel, 2 l")] == [("leaf",)]


@pytest.mark.parametrize(
    ("text", "bins"),
    [
        ("moved 9 to C3", (("to_bin", "C3"),)),
        ("split 14 into d2", (("to_bin", "D2"),)),
        ("6 from A7", (("from_bin", "A7"),)),
        ("A1 -> A2 x5", (("to_bin", "A2"),)),
        ("8 moved from A1 to A4", (("from_bin", "A1"), ("to_bin", "A4"))),
        ("8 moved from A1", (("from_bin", "A1"),)),
        ("renamed A1 to F2", (("from_bin", "A1"), ("to_bin", "F2"))),
        ("now called F2", (("to_bin", "F2"),)),
        ("sold 4", ()),
    ],
)
def test_bins_that_animals_go_to_or_come_from_are_told(text, bins):
    assert LEXICON.read_acts(text).bins == bins


@pytest.mark.parametrize(
    ("text", "table", "state"),
    [
        ("pear mouldy", "leftovers", "mouldy"),
        ("ate 3/4 of the pear", "leftovers", "some"),
        ("ate 1/4 of the pear", "leftovers", "most"),
        ("didn't touch the pear", "leftovers", "most"),
        ("moss very dry", "moss", "dry"),
    ],
)
def test_how_it_was_is_told_with_the_look(text, table, state):
    assert LEXICON.read_acts(text).states == {table: (state,)}


def test_none_counted_is_nought():
    found = LEXICON.read_acts("no animals found")

    assert found.keys == ("count",)
    assert [told.quantity.text for told in found.numbers] == ["0"]


@pytest.mark.parametrize("text", ["fed 0", "water 0 ml", "0 g leaves"])
def test_an_amount_of_nothing_is_not_done(text):
    assert LEXICON.read_acts(text).keys == ()
    assert LEXICON.read_acts(text).undone == (text,)


@pytest.mark.parametrize(
    ("text", "day", "days"),
    [
        ("misted on Tuesday", "on Tuesday", ()),
        ("4 days ago: apple", "4 days ago", ()),
        ("fed today, watered yesterday", "", ("yesterday",)),
        ("misted", "", ()),
    ],
)
def test_the_day_is_told_where_it_holds_for_all(text, day, days):
    found = LEXICON.read_acts(text)

    assert (found.day, found.days) == (day, days)


def test_what_happened_in_the_house_is_no_finding_of_the_bin():
    assert LEXICON.read_acts("window cleaner used, smells").states == {}


def test_a_phrase_of_nothing_known_is_named_whole():
    assert LEXICON.read_acts("hm").unknown == ("hm",)


def test_a_condition_and_what_hangs_on_it_are_named_as_one():
    assert LEXICON.read_acts("if wet, skip the misting").undone == ("if wet, skip the misting",)
