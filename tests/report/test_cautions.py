import re

from workbook_tools.report import cautions

TEXTS = {name: text for name, text in vars(cautions).items() if name.isupper()}


def test_permit_and_law_come_first():
    assert cautions.LAW_FIRST.startswith("Your permit and the law")


def test_nothing_is_called_safe_cleared_or_compliant():
    assert not [name for name, text in TEXTS.items() if re.search(r"\b(safe|cleared|compliant|sterile)\b", text, re.I)]


def test_disposal_names_freezing_before_throwing_away_and_no_release():
    assert cautions.DISPOSAL.index("freeze") < cautions.DISPOSAL.index("throw it away")
    assert "outdoors" in cautions.DISPOSAL
    assert "72 hours" in cautions.FREEZING.format(hours=72)
