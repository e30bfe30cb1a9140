import re

from workbook_tools.fields import FINDINGS
from workbook_tools.report import cautions

TEXTS = {name: text for name, text in vars(cautions).items() if name.isupper() and isinstance(text, str)}


def test_permit_and_law_come_first():
    assert cautions.LAW_FIRST.startswith("Your permit and the law")


def test_nothing_is_called_safe_cleared_or_compliant():
    assert not [name for name, text in TEXTS.items() if re.search(r"\b(safe|cleared|compliant|sterile)\b", text, re.I)]


def test_disposal_names_freezing_before_throwing_away_and_no_release():
    assert cautions.DISPOSAL.index("freeze") < cautions.DISPOSAL.index("throw it away")
    assert "outdoors" in cautions.DISPOSAL
    assert "72 hours" in cautions.FREEZING.format(hours=72)


def test_the_cautions_of_findings_are_all_named_by_one():
    assert {one.caution for one in FINDINGS.values() if one.caution} == set(cautions.OF_FINDINGS)


def test_the_caution_of_the_virus_names_isolation_and_no_release_and_promises_no_cure():
    for word in ("apart", "tools", "Move no animals", "daily", "death", "outdoors", "nothing is known to help"):
        assert word in cautions.VIRUS
    assert not re.search(r"\b(cures?|treat|remedy|heals?)\b", cautions.VIRUS)
