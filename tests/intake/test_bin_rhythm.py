"""How often a bin is to be cared for, said in its row of the list."""

import datetime as dt

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book


def read(text):
    intake, problems = read_book(book(sheet("Bins", text)), dt.date(2025, 3, 20))
    return intake.settings, [(str(one.where), one.code) for one in problems]


def test_it_is_a_setting_of_that_bin():
    settings, _ = read("Bin|Species|Soak every|Feed every\nA1|x|5d|\nA2|x|10-14 days|weekly\nA3|x||3 wks")
    assert settings.find("every.moss", "a1").value == 5
    assert settings.find("every.moss", "A2").value == 12
    assert settings.find("every.moss", "A3") is None
    assert [str(one.where) for one in settings.values] == ["Bins!C2", "Bins!C3", "Bins!D3", "Bins!D4"]


def test_what_is_no_interval_is_named():
    settings, problems = read("Bin|Species|Soak every\nA1|x|when dry\nA2|x|0")
    assert settings.values == ()
    assert problems == [("Bins!C2", "bins.every"), ("Bins!C3", "bins.every")]
