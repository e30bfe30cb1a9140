import datetime as dt
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.numbers import read_number
from workbook_tools.intake.values import Number


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", 12), ("0", 0), ("none", 0), ("21,5", 21.5), ("5.7", 5.7), ("1.200,50", 1200.5), ("1,200.50", 1200.5),
        ("1 200", 1200), ("1\u202f200", 1200), ("½", 0.5), ("1½", 1.5), ("1 1/2", 1.5), ("1/2", 0.5), ("twelve", 12),
        ("twenty-five", 25), ("a dozen", 12), ("-5", -5), ("+54", 54), ("3!!", 3), ("0,5", 0.5), ("1.200.000", 1200000),
    ],
)  # fmt: skip
def test_a_plain_number_is_exact(text, value):
    reading = read_number(text)
    assert (reading.number, reading.guessed, reading.code, reading.rest) == (Number.exactly(value), False, "", "")


@pytest.mark.parametrize("text", ["~50", "50~", "50ish", "c. 50", "about 50", "50 or so", "≈50"])
def test_about_reaches_as_far_as_the_default_says(text):
    number = read_number(text).number
    off = 50 * DEFAULTS["number.about"].value
    assert (number.best, number.low, number.high) == (50, 50 - off, 50 + off)
    assert read_number(text).guessed


@pytest.mark.parametrize("text", ["30+", ">30", "30 +", "over 30", "at least 30", "30 or more", "30 ad + mancas"])
def test_a_lower_bound_has_no_upper_end(text):
    number = read_number(text).number
    assert (number.low, number.high) == (30, math.inf)
    assert 30 <= number.best < 60


def test_an_upper_bound_begins_at_nothing():
    assert read_number("<1").number == Number(0.5, 0, 1)
    assert read_number("up to 20").number.high == 20


@pytest.mark.parametrize("text", ["10-14", "10–14", "10 to 14", "10..14", "14-10"])
def test_a_range(text):
    number = read_number(text).number
    assert (number.best, number.low, number.high) == (12, 10, 14)


def test_a_range_that_runs_backwards_is_named():
    assert read_number("14-10").code == "numbers.range_backwards"


@pytest.mark.parametrize(
    ("text", "best", "parts"),
    [
        ("12 (10+2)", 12, (10, 2)),
        ("12 + 3", 15, (12, 3)),
        ("8 (3.5)", 8, (3, 5)),
        ("88 then 31", 119, (88, 31)),
        ("4.6.2", 12, (4, 6, 2)),
    ],
)
def test_parts_are_kept(text, best, parts):
    reading = read_number(text)
    assert (reading.number.best, reading.number.parts, reading.code) == (best, parts, "")


@pytest.mark.parametrize("text", ["2→1", "2 -> 1"])
def test_of_before_and_after_the_one_after_is_used_and_named(text):
    reading = read_number(text)
    assert (reading.number.best, reading.number.parts, reading.code) == (1, (2, 1), "numbers.before_after")


def test_parts_that_do_not_add_up_are_named():
    assert read_number("12 (10+3)").code == "numbers.parts_differ"
    assert read_number("12 (10+3)").number.best == 12


def test_sexes_only_where_they_are_meant():
    assert read_number("4.6").number.best == 4.6
    assert read_number("4.6", sexes=True).number == Number(10, 10, 10, (4, 6))


@pytest.mark.parametrize(
    ("text", "best", "way"),
    [
        ("34 under bark", 34, "under bark"),
        ("11 full sort", 11, "full sort"),
        ("40ish all over", 40, "all over"),
        ("2 DOA", 2, "doa"),
        ("trap 9", 9, "trap"),
        ("210 sieve 2mm", 210, "sieve 2mm"),
    ],
)
def test_the_words_beside_a_number_are_its_way(text, best, way):
    reading = read_number(text)
    assert (reading.number.best, reading.way, reading.code) == (best, way, "")


def test_two_numbers_with_words_are_named_and_both_kept():
    reading = read_number("116 sort, 38 sm")
    assert (reading.code, reading.number) == ("numbers.several", Number(116, 116, 154, (116, 38)))


@pytest.mark.parametrize("text", ["-", "–", "?", "n/c", "ctd", "can't count", "can’t count", "n/k", "not ctd"])
def test_no_number_is_absent_and_not_nothing(text):
    reading = read_number(text)
    assert (reading.number, reading.absent, reading.code) == (None, True, "")


@pytest.mark.parametrize("text", ["lots", "a few", "dozens", "a million", "Many", "several", "100s", "lots!"])
def test_loose_words_have_wide_ranges(text):
    reading = read_number(text)
    assert reading.guessed
    assert reading.number.low < reading.number.best < reading.number.high


def test_thousands_written_short_are_rounded():
    assert read_number("1,3k").number == Number(1300, 1250, 1350)
    assert read_number("2k").number == Number(2000, 1500, 2500)


def test_doubt_is_at_least_one_animal():
    assert read_number("1?").number == Number(1, 0, 2)


def test_three_digits_behind_a_mark_follow_the_file():
    assert read_number("1.234", ",").number.best == 1234
    assert read_number("1.234", ".").number.best == 1.234
    assert read_number("1,234", ",").number.best == 1.234
    reading = read_number("1,234")
    assert (reading.number.best, reading.code, reading.guessed) == (1234, "numbers.separator_open", True)


@pytest.mark.parametrize(
    ("given_value", "problem"),
    [
        ("14/15", "numbers.ratio"), ("3.5.2025", "numbers.ratio"), ("d2", "numbers.not_a_number"),
        ("hmm", "numbers.not_a_number"), ("12x8x5in", "numbers.not_a_number"), ("1e5", "numbers.not_a_number"),
        (True, "numbers.not_a_number"), (math.nan, "numbers.not_a_number"),
        (dt.date(2025, 10, 14), "numbers.date_there"),
        ("2025-10-14", "numbers.date_there"),
    ],
)  # fmt: skip
def test_what_is_no_number_is_a_problem(given_value, problem):
    reading = read_number(given_value)
    assert (reading.number, reading.code) == (None, problem)


def test_numbers_of_the_file_are_taken_as_they_are():
    assert read_number(1.234, ",").number == Number.exactly(1.234)


@given(st.floats(0, 1e9).map(lambda x: round(x, 2)))
def test_a_number_with_two_decimals_reads_back(value):
    text = f"{value:.2f}"
    assert read_number(text).number.best == value
    assert read_number(text.replace(".", ",")).number.best == value
    assert read_number(f"{value:,.2f}").number.best == value
    assert read_number(f"{value:,.2f}".translate(str.maketrans(",.", ".,"))).number.best == value


@given(st.integers(0, 10**9), st.sampled_from([",", "."]))
def test_a_whole_number_with_thousands_reads_back_where_the_mark_is_known(value, decimal):
    thousands = "." if decimal == "," else ","
    assert read_number(f"{value:,}".replace(",", thousands), decimal).number.best == value
    assert read_number(f"{value:,}".replace(",", " "), decimal).number.best == value


@given(st.text(max_size=25), st.sampled_from(["", ",", "."]))
def test_no_text_ends_in_an_exception(text, decimal):
    reading = read_number(text, decimal)
    assert reading.number or reading.code or reading.absent
    if reading.number:
        assert reading.number.low <= reading.number.best <= reading.number.high


@given(st.text("0123456789.,+-~<>?/() xkthen½→", max_size=12))
def test_no_jumble_of_number_marks_ends_in_an_exception(text):
    reading = read_number(text)
    assert reading.number or reading.code or reading.absent
    if reading.number:
        assert reading.number.low <= reading.number.best <= reading.number.high


@pytest.mark.parametrize(
    ("text", "best"), [("1,234,567k", 1_234_567_000), ("1'234k", 1_234_000), ("12 000k", 12_000_000), ("1,3k", 1300)]
)
def test_thousands_of_numbers_with_several_marks(text, best):
    assert read_number(text, "").number.best == best


_TOKENS = ("1", "12", "9" * 400, ",", ".", "'", " ", "k", "½", "/", "2", "~", "+", "-", "dozen", "lots", "(", ")", "<")


@settings(max_examples=300, deadline=None, derandomize=True)
@given(st.lists(st.sampled_from(_TOKENS), min_size=1, max_size=7).map("".join))
def test_no_text_made_of_the_readers_own_signs_raises(text):
    reading = read_number(text, "")
    assert reading.number is None or math.isfinite(reading.number.best)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("4 doz", 48),
        ("3 dozen", 36),
        ("2 score", 40),
        ("'35", 35),
        ("a hundred", 100),
        ("three hundred and forty-two", 342),
        ("two thousand one hundred", 2100),
        ("one hundred and five", 105),
    ],
)
def test_groups_and_number_words_above_a_hundred(text, value):
    found = read_number(text)

    assert found.number and found.number.exact and found.number.best == value and not found.rest
