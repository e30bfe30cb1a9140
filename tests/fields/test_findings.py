from collections import Counter

import pytest

from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import FINDINGS, STATES, THINGS, WELL

LIST_HOLDS = 255
"""Signs that a drop-down written into a cell may have."""


def test_the_drop_down_of_findings_is_their_table_and_fits_into_a_cell():
    offered = list(STATES["finding"])

    assert offered == [WELL, *FINDINGS]
    assert len(",".join(offered)) <= LIST_HOLDS


def test_a_word_is_of_one_finding_or_says_that_one_is_settled():
    of_finding = [word for key, words in STATES["finding"].items() for word in (key, *words)]
    settled = [word for key, words in STATES["settled"].items() for word in (key, *words)]

    assert [word for word, times in Counter([*dict.fromkeys(of_finding), *settled]).items() if times > 1] == []


@pytest.mark.parametrize("one", FINDINGS.values(), ids=lambda one: one.key)
def test_numbers_of_a_finding_are_defaults_with_a_source(one):
    assert one.good or DEFAULTS[one.days].source in ("practice", "judgement")
    assert not one.quiet or one.quiet in DEFAULTS
    assert one.about in THINGS


def test_every_day_of_a_default_belongs_to_a_finding():
    assert {key for key in DEFAULTS if key.startswith("found.")} == {
        "found.again",
        *(one.days for one in FINDINGS.values() if not one.good),
    }


@pytest.mark.parametrize("thing", THINGS.values(), ids=lambda one: one.key)
def test_what_a_thing_lacks_is_a_finding_about_it(thing):
    assert not thing.lacking or FINDINGS[thing.lacking].about == thing.key
    assert not thing.named or thing.settled
