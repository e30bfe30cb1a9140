from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS, FINDINGS
from workbook_tools.plan.care import CARE, LAST, OPENS, ORDER, TRAP


def test_kinds_of_care_use_known_acts_and_defaults():
    for care in (*CARE, TRAP):
        assert set(care.acts) <= set(ACTS)
        assert care.every in DEFAULTS
        assert not care.first or care.first in DEFAULTS
    assert set(LAST) <= set(ACTS)


def test_keys_are_unique_and_ordered_tasks_are_known():
    keys = [care.key for care in (*CARE, TRAP)]
    assert len(keys) == len(set(keys))
    assert set(ORDER) <= {*keys, "look_again", "leftovers", "losses", *(one.task for one in FINDINGS.values())}


def test_setting_up_a_bin_is_no_look_at_it_but_feeding_is():
    assert "start" not in OPENS
    assert {"feed", "water", "count", "look"} <= set(OPENS)
    assert not {"room", "house", "note", "freeze"} & set(OPENS)
