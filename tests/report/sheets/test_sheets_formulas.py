from tools.report_sample import ON, sample
from workbook_tools.defaults import DEFAULTS
from workbook_tools.plan.learned.records import Estimates
from workbook_tools.report.sheets.formulas import learning
from workbook_tools.report.sheets.methods import sheet


def test_every_estimate_has_words_formula_caution_and_source():
    by_estimate = {}
    for what, said in learning():
        estimate, part = what.split(": ")
        by_estimate.setdefault(estimate, {})[part] = said
    assert {"All estimates", "Moss corner", "Food", "Leaf litter", "Substrate", "Numbers", "Sifting"} <= set(
        by_estimate
    )
    assert "Variation of a line" in by_estimate
    for parts in by_estimate.values():
        assert list(parts) == ["in words", "formula", "misleads when", "source"]
        assert all(said.endswith(".") for said in parts.values())


def test_numbers_in_the_formulas_are_the_defaults():
    said = dict(learning())
    assert f"^{DEFAULTS['litter.power'].value:g} " in said["Leaf litter: formula"]
    assert f"trap {DEFAULTS['seen.trap'].value:g}" in said["Numbers: formula"]


def test_the_first_line_says_how_much_was_learned():
    assert sheet(sample()).answer.endswith("the pace of 12 bins was learned from your log.")
    assert sheet(sample(estimates=Estimates(ON))).answer.endswith("nothing was learned from your log yet.")
