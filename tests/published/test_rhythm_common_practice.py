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
        ("every.moss", WEEK, WEEK, "no moss corner goes unseen for longer than a week"),
        ("every.look", WEEK, WEEK, "a week at most passes between two looks into a bin"),
        ("every.food", WEEK / 3, WEEK / 2, "there are two feedings a week, or three"),
        ("after.leftovers", 1, 1, "what is left of a meal is seen to on the following day"),
        ("every.leaf", WEEK, 2 * WEEK, "where animals eat much, leaves are added each week or each fortnight"),
        ("quarantine.days", 4 * WEEK, 8 * WEEK, "newcomers are kept apart for one month to two"),
    ],
)
def test_default_is_common_practice_no_source(key, least, most, practice):
    assert least <= Rhythm().days(key).days <= most, practice
    assert DEFAULTS[key].source == "practice"
    assert Rhythm().days(key).said == "common practice"
