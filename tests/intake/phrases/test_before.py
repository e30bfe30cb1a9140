import pytest

from workbook_tools.intake.phrases.clauses import read_phrase
from workbook_tools.intake.units import Measures


def booked(text):
    return [
        (clause.act, [one.text for one in clause.amounts]) for clause in read_phrase(text, Measures()) if clause.act
    ]


@pytest.mark.parametrize(
    ("text", "acts"),
    [
        ("sifted the old tub, 7 found", ["sift", "sift"]),
        ("sifted the old tub, none found", ["sift", "sift"]),
        ("trap checked, 3 in it", ["trap", "trap"]),
        ("split today, 20 to bin 4", ["split", "split"]),
        ("dead: 3, 2 males and 1 female", ["dead", "dead", "dead"]),
        ("set up: soil, birch, cork", ["start", "start", "start"]),
    ],
)
def test_what_stands_alone_goes_on_with_the_act_before(text, acts):
    assert [act for act, _ in booked(text)] == acts


def test_a_thing_takes_the_verb_before_it_and_a_verb_the_thing():
    assert [act for act, _ in booked("added 20 ml water, birch leaves")] == ["water", "leaf"]
    assert [act for act, _ in booked("mould on the carrot, removed")][-1] == "leftovers"


def test_a_weight_behind_an_act_without_one_is_no_feeding():
    assert "feed" not in dict(booked("sold 6, 3 g"))


@pytest.mark.parametrize("text", ["no animals yet", "never seen that"])
def test_not_every_denial_beside_animals_is_a_count_of_none(text):
    assert "count" not in dict(booked(text))
