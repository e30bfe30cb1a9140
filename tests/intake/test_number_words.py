import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.number_words import ABSENT, VAGUE, ZERO, tidy, vague_key, word_value


@pytest.mark.parametrize(
    ("text", "out"),
    [("1½", "1 1/2"), ("½", "1/2"), ("10–14", "10-14"), ("2 -> 1", "2 → 1"), ("1\u00a0200", "1 200"), ("12×8", "12x8"),
     ("cm²", "cm2"), ("≈5", "~5"), ("CAN’T", "can't")],
)  # fmt: skip
def test_tidying(text, out):
    assert tidy(text) == out


@pytest.mark.parametrize(("word", "value"), [("seven", 7), ("forty", 40), ("forty two", 42), ("half a dozen", 6)])
def test_words_for_numbers(word, value):
    assert word_value(word) == value


@pytest.mark.parametrize("word", ["forty eleven", "many", "ten five", ""])
def test_words_for_none(word):
    assert word_value(word) is None


def test_loose_words_have_a_default_with_a_range():
    for key in VAGUE.values():
        assert DEFAULTS[key].low <= DEFAULTS[key].value <= DEFAULTS[key].high


def test_nothing_is_both_absent_and_zero():
    assert not ABSENT & ZERO


@pytest.mark.parametrize(("text", "key"), [("Lots!", "number.lots"), ("dozens", "number.dozens"), ("40", "")])
def test_vague_words_stand_for_a_default(text, key):
    assert vague_key(text) == key
