import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.intake.phrases.chunks import cut
from workbook_tools.intake.units import Measures

MEASURES = Measures()


def kinds(text):
    return [(chunk.kind, chunk.value) for chunk in cut(text, MEASURES)]


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("35 ml", "volume", 35),
        ("3 cl", "volume", 30),
        ("1,5 dl", "volume", 150),
        ("2 x 15 ml", "volume", 30),
        ("10 + 15 ml", "volume", 25),
        ("20-30 ml", "volume", 25),
        ("half a litre", "volume", 500),
        ("½ l", "volume", 500),
        ("0.4 g", "mass", 0.4),
        ("60%", "share", 0.6),
        ("1/4", "share", 0.25),
        ("two thirds", "modifier", None),
        ("twenty five", "number", 25),
        ("dozen", "number", 12),
        ("~40", "number", 40),
        ("x12", "times", 12),
        ("9 days", "duration", 9),
        ("21.5 °C", "degrees", 21.5),
    ],
)
def test_a_quantity_is_one_chunk(text, kind, value):
    found = cut(text, MEASURES)
    assert found[0].kind == kind
    if value is not None:
        assert found[0].value == pytest.approx(value)


def test_spoons_and_pinches_are_no_millilitres():
    assert "volume" not in dict(kinds("2 pinches of flakes"))


@pytest.mark.parametrize(("text", "kind"), [("K7", "bin"), ("tub 14", "bin"), ("#3", "bin"), ("4 May", "date")])
def test_names_of_bins_and_dates_are_no_numbers(text, kind):
    assert [chunk.kind for chunk in cut(text, MEASURES)] == [kind]


def test_the_longest_wording_wins():
    assert [chunk.text for chunk in cut("topped up leaf litter", MEASURES)] == ["topped up", "leaf litter"]


def test_a_slip_in_a_verb_is_mended_and_one_in_a_thing_is_not():
    assert [chunk.kind for chunk in cut("waterd", MEASURES)] == ["did water"]
    assert [chunk.kind for chunk in cut("parsnlp", MEASURES)] == ["unknown"]


@given(st.text(max_size=60))
def test_nothing_is_too_odd_to_be_cut(text):
    assert all(chunk.kind and chunk.text for chunk in cut(text, MEASURES))
