import pytest

from workbook_tools.intake.phrases.chunks import cut
from workbook_tools.intake.phrases.context import in_context
from workbook_tools.intake.units import Measures


def kind_of(text, part):
    return next(chunk.kind for chunk in in_context(cut(text, Measures())) if part in chunk.text)


@pytest.mark.parametrize(
    ("text", "part", "kind"),
    [
        ("a cup of water", "water", "water"),
        ("filled the water jar", "water", "supply"),
        ("leaf bag nearly empty", "leaf", "supply"),
        ("15 ml onto the bark", "bark", "place"),
        ("took out the worn bark", "worn", "modifier"),
        ("bark worn", "worn", "state"),
        ("walnut leaves", "walnut", "leaf"),
        ("wet end", "wet", "place"),
        ("moss soaked", "soaked", "wet"),
        ("soaked moss", "soaked", "did water"),
        ("9 litre box", "9", "holds"),
        ("did not water", "did", "filler"),
        ("moved to 6", "6", "bin"),
        ("counted 31?", "?", "filler"),
        ("dead beech", "dead", "modifier"),
        ("6 from Agathe", "agathe", "source"),
    ],
)
def test_a_chunk_is_what_its_neighbours_make_it(text, part, kind):
    assert kind_of(text, part) == kind


def test_a_capital_before_a_verb_is_a_person():
    assert kind_of("Ottilie misted", "ottilie") == "named"
    assert kind_of("Gribble", "gribble") == "unknown"
