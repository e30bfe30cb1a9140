import pytest

from workbook_tools.fields.things import ANIMALS, BOXES, FOODS, NOT_ANIMALS, OLD


@pytest.mark.parametrize("others", [FOODS, NOT_ANIMALS])
def test_no_word_is_both_an_animal_and_another_thing(others):
    assert not ANIMALS & others


def test_old_substrate_and_boxes_are_no_food():
    assert not (OLD | BOXES) & FOODS
