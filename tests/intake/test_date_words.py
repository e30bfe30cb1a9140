import pytest

from workbook_tools.intake.date_words import ABSENT, RELATIVE, fold, months, weekdays


@pytest.mark.parametrize(
    ("word", "month"),
    [("March", 3), ("Mar", 3), ("Sept", 9), ("Febr", 2), ("März", 3), ("Maerz", 3), ("Mai", 5), ("août", 8),
     ("févr", 2),
     ("enero", 1), ("dic", 12), ("mrt", 3), ("mei", 5), ("Okt", 10), ("dezember", 12), ("settembre", 9)],
)  # fmt: skip
def test_months_of_several_languages(word, month):
    assert months()[fold(word)] == month


@pytest.mark.parametrize("word", ["ma", "jui", "out", "set", "mag", "gen", "x"])
def test_what_is_two_months_or_an_english_word_is_none(word):
    assert word not in months()


def test_weekdays_and_the_word_that_is_two():
    assert weekdays()["wed"] == weekdays()["mittwoch"] == weekdays()["weds"] == frozenset({2})
    assert weekdays()["thurs"] == frozenset({3})
    assert weekdays()["di"] == frozenset({1, 6})


def test_folding_takes_accents_dashes_and_blanks():
    assert fold("  14.  MÄRZ – 2025 ") == "14. marz - 2025"


def test_no_word_is_both_absent_and_relative():
    assert not ABSENT & RELATIVE
    assert all(word == fold(word) for word in ABSENT | RELATIVE)
