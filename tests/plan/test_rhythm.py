import datetime as dt

import pytest

from tools.rows import settings
from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.cells import Cell
from workbook_tools.intake.settings import Settings, SettingValue
from workbook_tools.intake.values import Fact
from workbook_tools.ledger.records import Bin, Ledger
from workbook_tools.plan.rhythm import KEYS, LABELS, Rhythm, rhythm_of
from workbook_tools.problems import CellRef

WHERE = CellRef("Bins", 2, 1)
BIN = Bin(
    "A1",
    WHERE,
    {
        key: Fact(key, text, Cell(WHERE, text, text))
        for key, text in {"species": "Porcellio scaber", "line": "Grey"}.items()
    },
)


def rhythm(*values):
    made = tuple(SettingValue("every.moss", scope, days, CellRef("Settings", 2, 2)) for scope, days in values)
    return Rhythm(Settings(made))


@pytest.mark.parametrize(
    ("values", "days", "said"),
    [
        ([], 7, "common practice"),
        ([("", 6)], 6, "your setting"),
        ([("", 6), ("Grey", 5)], 5, "your setting for Grey"),
        ([("", 6), ("Grey", 5), ("porcellio SCABER", 4)], 4, "your setting for porcellio SCABER"),
        ([("A1", 3), ("", 6), ("Grey", 5), ("Porcellio scaber", 4)], 3, "your setting for A1"),
        ([("B9", 3)], 7, "common practice"),
    ],
)
def test_nearest_setting_counts(values, days, said):
    found = rhythm(*values).days("every.moss", BIN)
    assert (found.days, found.said) == (days, said)


@pytest.mark.parametrize("value", [0, 61, "often", (0, 3)])
def test_setting_out_of_range_is_passed_over(value):
    assert rhythm(("", value)).days("every.moss", BIN).days == 7


def test_unknown_kind_of_care_is_refused():
    with pytest.raises(KeyError):
        Rhythm().days("every.thing", BIN)


def test_every_interval_has_a_label_and_a_default_in_days():
    assert set(KEYS) <= set(LABELS)
    assert all(DEFAULTS[key].unit == "days" for key in KEYS)


def test_rows_list_every_kind_once_and_the_exceptions_below():
    rows = rhythm(("", 6), ("Grey", 5)).rows()
    assert [row.key for row in rows if not row.scope] == list(KEYS)
    moss = [(row.scope, row.days, row.said) for row in rows if row.key == "every.moss"]
    assert moss == [("", 6, "your setting"), ("Grey", 5, "your setting")]


def test_set_by_keeper():
    assert rhythm(("Grey", 5)).set_by_keeper("every.moss")
    assert not rhythm(("Grey", 5)).set_by_keeper("every.food")


def test_setting_for_no_bin_is_named():
    made = settings(every__moss_for_A1=3, every__food_for_Z9=3, every__leaf=9)
    found, problems = rhythm_of(Ledger({"A1": BIN}, (), made), dt.date(2026, 3, 10))
    assert found.days("every.moss", BIN).days == 3
    assert [(str(p.where), p.code) for p in problems] == [("Settings!B3", "settings.for_nothing")]
