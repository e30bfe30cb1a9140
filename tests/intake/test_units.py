import subprocess
import sys

import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.units import _WORDS, Measures, celsius, factor, find_unit, unit_of_heading


@pytest.mark.parametrize(
    ("text", "usual", "unit", "times"),
    [
        ("qt", "l", "l", 0.946352946),
        ("l", "ml", "ml", 1000),
        ("cl", "ml", "ml", 10),
        ("cc", "ml", "ml", 1),
        ("cm³".replace("³", "3"), "ml", "ml", 1),
        ("kg", "g", "g", 1000),
        ("in", "cm", "cm", 2.54),
        ('"', "cm", "cm", 2.54),
        ("mm", "cm", "cm", 0.1),
        ("cm2", "dm2", "dm2", 0.01),
        ("sq ft", "dm2", "dm2", 9.290304),
        ("g", "l", "g", 1),
        ("l", "", "l", 1),
        ("ml", "", "ml", 1),
    ],
)
def test_units_are_converted_to_what_the_field_is_kept_in(text, usual, unit, times):
    found, rest = find_unit(text, usual, Measures())
    assert (found.unit, found.factor, rest) == (unit, times, "")


def test_an_ounce_is_what_the_field_measures_and_a_guess():
    assert find_unit("oz", "g", Measures())[0].factor == 28.349523125
    assert find_unit("oz", "ml", Measures())[0].factor == 29.5735295625
    assert find_unit("oz", "g", Measures())[0].guessed
    assert not find_unit("ounces", "g", Measures())[0].guessed


def test_a_quart_is_liquid_until_the_keeper_says_otherwise():
    assert find_unit("qt", "l", Measures())[0].guessed
    for said, litres in (("US dry", 1.101220942715), ("imperial", 1.1365225), ("US liquid", 0.946352946)):
        found = find_unit("qt", "l", Measures({"quart": said}))[0]
        assert (found.factor, found.guessed) == (litres, False)
    assert "0.946" in Measures().quart_note
    assert "1.137" in Measures({"quart": "imperial"}).quart_note


def test_an_imperial_keeper_has_imperial_gallons():
    assert find_unit("gal", "l", Measures({"quart": "imperial"}))[0].factor == 4.54609


def test_hobby_measures_have_the_range_of_their_default_until_set():
    default = DEFAULTS["measure.handful"]
    found = find_unit("handfuls of oak", "l", Measures())
    assert (found[0].factor, found[0].low, found[0].high) == (default.value, default.low, default.high)
    assert (found[0].guessed, found[1]) == (True, "oak")
    own = find_unit("hf", "l", Measures({"handful": 0.3}))[0]
    assert (own.factor, own.low, own.high, own.guessed) == (0.3, 0.3, 0.3, False)


def test_a_size_before_a_measure_changes_it():
    usual = find_unit("pinch", "g", Measures())[0].factor
    assert find_unit("tiny pinch", "g", Measures())[0].factor == usual * DEFAULTS["measure.small"].value
    assert find_unit("good soak", "ml", Measures())[0].factor == DEFAULTS["measure.soak"].value


def test_c_is_a_cup_or_celsius_by_the_field():
    assert find_unit("c", "degC", Measures())[0].unit == "degC"
    assert find_unit("c", "ml", Measures())[0].written == "c"
    assert find_unit("c", "ml", Measures())[0].unit == "ml"


def test_what_is_no_unit_is_none():
    assert find_unit("flakes", "g", Measures()) is None
    assert find_unit("s", "ml", Measures())[0].unit == "second"


def test_units_of_another_kind_do_not_convert():
    with pytest.raises(Exception, match="Cannot convert"):
        factor("gram", "l")


def test_celsius():
    assert celsius(32) == 0
    assert celsius(212) == 100


def test_the_units_library_is_not_loaded_before_it_is_needed():
    run = "import workbook_tools.intake.amounts, sys; sys.exit('pint' in sys.modules or 'babel' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", run], check=False).returncode == 0


@pytest.mark.parametrize("word", sorted(_WORDS))
@pytest.mark.parametrize("usual", ["ml", "g", "l", "cm", "dm2", "count", "degC", "percent", ""])
def test_every_word_for_a_unit_is_known_whatever_the_field_is_kept_in(word, usual):
    found = find_unit(word, usual, Measures())

    assert found is None or found[0].unit


def test_a_cubic_metre_is_a_thousand_litres():
    assert find_unit("m3", "l", Measures())[0].factor == pytest.approx(1000)


@pytest.mark.parametrize("word", sorted(w for w in _WORDS if unit_of_heading(w) and w not in ("c", "f")))
def test_a_unit_in_a_heading_is_the_same_unit_in_a_cell(word):
    named = unit_of_heading(word)
    heading, cell = find_unit(named.casefold(), "l", Measures()), find_unit(word, "l", Measures())

    assert heading and cell and (heading[0].unit, heading[0].factor) == (cell[0].unit, cell[0].factor)


@pytest.mark.parametrize(
    ("text", "litres"), [("gallon (uk)", 4.54609), ("uk pints", 0.56826125), ("gallon", 3.785411784)]
)
def test_a_country_behind_a_unit_says_which(text, litres):
    found = find_unit(text, "l", Measures())

    assert found and not found[1] and found[0].factor == pytest.approx(litres, rel=1e-12)
