import pytest

from workbook_tools.vocabulary.lists import kinds_in


@pytest.mark.parametrize("name", ["verbs", "things", "moods", "beside", "presence"])
def test_every_wording_of_a_list_has_a_kind(name):
    kinds = kinds_in(name)

    assert len(kinds) > 10
    assert all(word == word.strip().casefold() and kind for word, kind in kinds.items())
