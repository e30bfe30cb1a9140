from workbook_tools.intake.headings import plain
from workbook_tools.vocabulary.presence import NOT


def test_words_are_plain_so_that_they_can_be_compared():
    assert {word for word in NOT if plain(word) != word} == set()
