import re

from tools.report_sample import sample
from workbook_tools.defaults import DEFAULTS
from workbook_tools.plan.rhythm import KEYS, Rhythm
from workbook_tools.report.sheets.methods import sheet


def values(findings, name):
    table = next(table for table in sheet(findings).tables if table.name == name)
    return [[column.get(row) for column in table.columns] for row in table.rows]


def test_first_line_says_whose_numbers_the_due_days_rest_on():
    assert sheet(sample()).answer.startswith("Due days rest on 2 of your own settings and otherwise on common practice")
    assert sheet(sample(rhythm=Rhythm())).answer.startswith("Due days rest on common practice, as you made no settings")


def test_own_settings_are_told_from_common_practice():
    rows = values(sample(), "CareRhythm")
    by_work = {(row[0], row[3]): row for row in rows}
    assert by_work["Feed every", "all bins"][2] == 3
    assert by_work["Feed every", "all bins"][6] == f"your setting; common practice is {DEFAULTS['every.food'].value:g}"
    assert by_work["Look at moss corner every", "Porcellio scaber"][2] == 5
    assert by_work["Look at moss corner every", "all bins"][6] == "common practice"


def test_every_default_is_shown_once_with_unit_range_and_source():
    others = values(sample(), "NumbersUsed")
    assert len(others) + len(KEYS) == len(DEFAULTS)
    assert all(row[3] and row[6] and row[4] <= row[2] <= row[5] for row in others)


def test_sources_are_said_in_words_not_by_their_keys():
    sources = {row[6] for row in values(sample(), "NumbersUsed")}
    assert not [source for source in sources if re.fullmatch(r"[a-z0-9]+", source)]


def test_what_is_unknown_and_the_cautions_are_said():
    after = " ".join(sheet(sample()).after)
    assert "What this report can't know:" in after
    assert "Your permit and the law of the place" in after
    assert "pesticide" in after
