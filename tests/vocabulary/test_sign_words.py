from workbook_tools.fields import FINDINGS, STATES
from workbook_tools.vocabulary.sign_words import signs


def test_every_sign_means_what_we_say_of_a_bin():
    assert {means for means, _ in signs()} <= {*STATES["finding"], *STATES["settled"]}


def test_every_finding_that_calls_for_something_has_a_sign():
    assert {key for key, one in FINDINGS.items() if not one.good} <= {means for means, _ in signs()}


def test_a_group_is_met_by_whole_words_alone():
    groups = next(groups for means, groups in signs() if means == "pests")

    assert groups[0].search("a spider in the moss")
    assert not groups[0].search("spiderwort planted")
    assert not groups[0].search("jumping-spider-proof")
