"""Words beside known headings."""

import pytest

from workbook_tools.fields import BIN_FIELDS, LOG_FIELDS
from workbook_tools.fields.beside import BESIDE
from workbook_tools.intake.headings import SCORE_SURE, candidates, stems


def test_every_key_is_a_field():
    assert set(BESIDE) <= {field.key for field in (*BIN_FIELDS, *LOG_FIELDS)}


def test_words_stand_without_plural_endings():
    ours = {word for words in BESIDE.values() for word in words}
    assert {word for word in ours if stems(f"box {word} box")[1] != word} == set()


@pytest.mark.parametrize(
    ("heading", "key"),
    [
        ("Date of the visit", "when"),
        ("Dead animals seen", "dead"),
        ("New leaves added", "leaf"),
        ("State of moss", "moss"),
        ("Kind of food", "food"),
        ("Weight of food (g)", "amount"),
        ("Share of soil renewed", "share"),
    ],
)
def test_words_beside_a_heading_change_nothing(heading, key):
    best = candidates(heading, "", LOG_FIELDS)[0]
    assert best[0] >= SCORE_SURE
    assert best[1].key == key


@pytest.mark.parametrize("heading", ["Next date", "Date of birth", "Dead leaves", "Food left"])
def test_other_words_do_change_it(heading):
    found = candidates(heading, "", LOG_FIELDS)
    assert not [field.key for score, field in found if score >= SCORE_SURE and field.key in ("when", "dead", "food")]
