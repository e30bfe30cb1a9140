"""The care rhythm against common practice. No source: this is what keepers do, and nothing measured.

Each check says the practice in words; the bounds are those words in days.
"""

import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.plan.rhythm import Rhythm

WEEK = 7


@pytest.mark.parametrize(
    ("key", "least", "most", "practice"),
    [
        ("every.moss", WEEK, WEEK, "the moss corner is looked at once a week at the least"),
        ("every.look", WEEK, WEEK, "every bin is looked over once a week"),
        ("every.food", WEEK / 3, WEEK / 2, "food is given two or three times a week"),
        ("after.leftovers", 1, 1, "leftovers are looked at the day after a feeding"),
        ("every.leaf", WEEK, 2 * WEEK, "hearty bins get leaf litter every one or two weeks"),
        ("quarantine.days", 4 * WEEK, 8 * WEEK, "quarantine lasts four to eight weeks"),
    ],
)
def test_default_is_common_practice_no_source(key, least, most, practice):
    assert least <= Rhythm().days(key).days <= most, practice
    assert DEFAULTS[key].source == "practice"
    assert Rhythm().days(key).said == "common practice"
