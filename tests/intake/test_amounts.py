import datetime as dt
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.intake.amounts import Measures, read_amount, read_share
from workbook_tools.intake.values import Number


def got(text, usual, **more):
    amount = read_amount(text, usual, **more).amount
    return (round(amount.number.best, 6), amount.unit) if amount else None


@pytest.mark.parametrize(
    ("text", "usual", "value"),
    [
        ("6qt", "l", (5.678118, "l")),
        ("6 qt", "l", (5.678118, "l")),
        ("5,7 l", "l", (5.7, "l")),
        ("1/2 L", "l", (0.5, "l")),
        ("½ L", "l", (0.5, "l")),
        ("~50ml", "ml", (50, "ml")),
        ("17", "l", (17, "l")),
        ("2 slices", "g", (8, "g")),
        ("pinch", "g", (0.1, "g")),
        ("handful", "l", (0.4, "l")),
        ("a handful", "l", (0.4, "l")),
        ("2 hands", "l", (0.8, "l")),
        ("half a handful", "l", (0.2, "l")),
        ("double handful", "l", (1, "l")),
        ("good soak", "ml", (80, "ml")),
        ("splash", "ml", (20, "ml")),
        ("shoebox", "l", (5.5, "l")),
        ("20 g", "l", (20, "g")),
        ("200 ml", "l", (0.2, "l")),
        ("1 tsp", "g", (4.928922, "ml")),
        ("2 x 30 ml", "ml", (60, "ml")),
        ("1 l 200 ml", "ml", (1200, "ml")),
        ("1 1/2 cups", "ml", (354.882355, "ml")),
        ("12x8x5in", "l", (7.865791, "l")),
        ("12x8x5in", "dm2", (6.193536, "dm2")),
        ("30x20 cm", "dm2", (6, "dm2")),
        ("550 cm²", "dm2", (5.5, "dm2")),
        ("5-6cm", "cm", (5.5, "cm")),
        ('2"', "cm", (5.08, "cm")),
        ("25ct", "count", (25, "count")),
        ("1 L", "", (1, "l")),
        ("30 ml", "", (30, "ml")),
        ("40", "", (40, "")),
        ("21", "degC", (21, "degC")),
        ("21,5", "degC", (21.5, "degC")),
        ("19-22", "degC", (20.5, "degC")),
        ("72F", "degC", (22.222222, "degC")),
        ("72 °F", "degC", (22.222222, "degC")),
        ("21 °C", "degC", (21, "degC")),
        ("55%", "percent", (55, "percent")),
        ("0.55", "percent", (55, "percent")),
        ("48", "percent", (48, "percent")),
    ],
)
def test_amounts_in_the_unit_of_their_field(text, usual, value):
    assert got(text, usual) == value
    assert read_amount(text, usual).code == ""
    assert read_amount(text, usual).truth is True


def test_ranges_are_converted_with_their_ends():
    number = read_amount("2-3 slices", "g").amount.number
    assert (number.low, number.best, number.high) == (6, 10, 15)
    number = read_amount("30+ ml", "ml").amount.number
    assert (number.low, number.high) == (30, math.inf)
    assert read_amount("50ml+", "ml").amount.number.low == 50


def test_about_a_temperature_is_some_degrees():
    number = read_amount("~21", "degC").amount.number
    assert (number.low, number.best, number.high) == (19, 21, 23)
    assert read_amount(">30", "degC").amount.number.best == 30


def test_a_room_too_hot_for_celsius_is_taken_as_fahrenheit_and_named():
    reading = read_amount("72", "degC")
    assert (round(reading.amount.number.best, 1), reading.code, reading.guessed) == (22.2, "amounts.unit_assumed", True)


def test_sides_without_a_unit_are_centimetres_and_named():
    reading = read_amount("30 x 20", "dm2")
    assert (reading.amount.number.best, reading.code) == (6, "amounts.unit_assumed")
    assert got("12x8x5", "l", heading_unit="in") == (7.865791, "l")


def test_the_unit_of_the_heading_holds_for_bare_numbers():
    assert got("2", "ml", heading_unit="cups") == (473.176473, "ml")
    assert got(30, "ml", heading_unit="fl oz") == (887.205887, "ml")
    assert got("2 l", "ml", heading_unit="cups") == (2000, "ml")


@pytest.mark.parametrize(
    ("text", "truth"),
    [
        ("y", True),
        ("yes!!", True),
        ("x", True),
        ("✓", True),
        (True, True),
        ("n", False),
        ("none", False),
        ("-", False),
        ("no", False),
        (False, False),
    ],
)
def test_yes_and_no(text, truth):
    reading = read_amount(text, "ml")
    assert (reading.amount, reading.truth, reading.code) == (None, truth, "")


def test_nothing_given_is_an_amount_and_a_no():
    reading = read_amount("0", "ml")
    assert (reading.amount.number, reading.truth) == (Number.exactly(0), False)


@pytest.mark.parametrize("text", ["?", "n/k", "tba", ""])
def test_not_known_is_absent(text):
    assert read_amount(text, "ml").absent
    assert read_share(text).absent


@pytest.mark.parametrize(
    ("text", "usual", "problem"),
    [
        ("half box", "l", "amounts.unit_unknown"),
        ("2 flakes", "g", "amounts.unit_unknown"),
        ("30 s", "ml", "amounts.wrong_unit"),
        ("5 cm", "ml", "amounts.wrong_unit"),
        ("21 ml", "degC", "amounts.wrong_unit"),
        ("30x20 cm", "l", "amounts.no_height"),
        ("huge tub", "l", "amounts.not_understood"),
        ("bare!", "l", "amounts.not_understood"),
        (dt.date(2025, 3, 1), "ml", "numbers.date_there"),
    ],
)
def test_what_is_no_amount_is_a_problem(text, usual, problem):
    reading = read_amount(text, usual)
    assert (reading.amount, reading.code) == (None, problem)


def test_a_second_amount_of_another_kind_is_named():
    reading = read_amount("2 slices + 30 ml", "g")
    assert (reading.amount.number.best, reading.code) == (8, "amounts.more_there")


def test_the_keepers_own_measures():
    assert got("2 handfuls", "l", measures=Measures({"handful": 0.5})) == (1, "l")
    assert not read_amount("2 handfuls", "l", Measures({"handful": 0.5})).amount.guessed
    assert read_amount("2 handfuls", "l").amount.guessed


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("1/3", 0.333333),
        ("half", 0.5),
        ("½", 0.5),
        ("75 %", 0.75),
        ("0.75", 0.75),
        ("0,5", 0.5),
        ("all", 1),
        ("quarter", 0.25),
        ("two thirds", 0.666667),
        ("1/2 in Jan", 0.5),
        ("75", 0.75),
        ("one side", 0.5),
        ("1", 1),
        ("none", 0),
        ("1/2 of it", 0.5),
        (0.25, 0.25),
        (33, 0.33),
        ("100%", 1),
    ],
)
def test_shares(text, share):
    reading = read_share(text)
    assert (round(reading.amount.number.best, 6), reading.amount.unit, reading.code) == (share, "share", "")


def test_loose_shares_are_guesses_with_a_range():
    for text in ("one side", "most", "~half", "some"):
        reading = read_share(text)
        assert reading.guessed
        assert 0 <= reading.amount.number.low < reading.amount.number.high <= 1


def test_words_behind_a_share_are_kept():
    assert read_share("1/2 in Jan").rest == "in jan"


@pytest.mark.parametrize("text", ["200", "3 handfuls", "50 ml", "soon", "-1/2", "14/15", "150 %"])
def test_what_is_no_share_is_a_problem(text):
    reading = read_share(text)
    assert (reading.amount, reading.code) == (None, "amounts.not_a_share")


@given(
    st.floats(0.01, 1e6).map(lambda x: round(x, 2)),
    st.sampled_from([("ml", "ml"), ("l", "l"), ("g", "g"), ("cm", "cm")]),
)
def test_an_amount_reads_back(value, unit):
    written, usual = unit
    for text in (f"{value:.2f} {written}", f"{value:.2f}{written}".replace(".", ",")):
        amount = read_amount(text, usual).amount
        assert (amount.number.best, amount.unit) == (value, usual)


@given(st.text(max_size=25), st.sampled_from(["", "ml", "l", "g", "cm", "dm2", "count", "degC", "percent"]))
def test_no_text_ends_in_an_exception(text, usual):
    reading = read_amount(text, usual)
    assert reading.amount or reading.code or reading.absent or reading.truth is not None
    share = read_share(text)
    assert share.amount or share.code or share.absent or share.truth is not None


@given(
    st.text('0123456789.,+-~<>?/%°"() xlmgcfqt½', max_size=12),
    st.sampled_from(["", "l", "g", "dm2", "degC", "percent"]),
)
def test_no_jumble_of_marks_ends_in_an_exception(text, usual):
    for reading in (read_amount(text, usual), read_share(text)):
        assert reading.amount or reading.code or reading.absent or reading.truth is not None
        if reading.amount:
            assert reading.amount.number.low <= reading.amount.number.best <= reading.amount.number.high


@pytest.mark.parametrize("value", [0.00001, 1e-7, 250_000_000_000_000_000.0])
def test_a_number_of_the_file_is_read_whatever_its_size(value):
    assert read_amount(value, "g").amount.number.best == pytest.approx(value)


@pytest.mark.parametrize("text", ["1,234,567k ml", "9" * 400 + " 1/2 l", "9" * 400 + " g"])
def test_huge_amounts_raise_nothing(text):
    read_amount(text, "ml")
    read_share(text)
