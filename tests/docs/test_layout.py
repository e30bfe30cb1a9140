"""What lies where: the top level, a test file for each module, module length."""

import pytest

from tools.tree import ROOT, tracked

TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "workbook_tools", "templates", "tests", "demo", "docs"}
RECORDS = {
    "intake/cells",
    "intake/readings",
    "intake/shapes/records",
    "intake/tables",
    "intake/values",
    "ledger/records",
    "plan/backtest/records",
    "plan/learned/records",
    "plan/losses/records",
    "plan/records",
    "report/columns",
    "report/findings",
}
"""Modules that hold records only."""
TESTED_IN = {
    "__main__": "end_to_end",
    "cli": "end_to_end",
    "pipeline": "golden/test_golden.py",
    "defaults/animals": "test_defaults.py",
    "defaults/care": "test_defaults.py",
    "defaults/default": "test_defaults.py",
    "defaults/reading": "test_defaults.py",
    "defaults/stocks": "test_defaults.py",
    "fields/acts": "fields/test_fields.py",
    "fields/bins": "fields/test_fields.py",
    "fields/kinds": "fields/test_fields.py",
    "fields/log": "fields/test_fields.py",
    "fields/movements": "fields/test_fields.py",
    "fields/outcome": "fields/test_fields.py",
    "fields/settings": "fields/test_fields.py",
    "fields/sizes": "fields/test_fields.py",
    "fields/states": "fields/test_fields.py",
    "estimate/_ahead": "estimate/test_ahead.py",
    "estimate/_cycles": "estimate/test_cycles.py",
    "estimate/_eaten": "estimate/test_litter.py",
    "estimate/_filter": "estimate/test_population.py",
    "estimate/_grid": "estimate/test_grid_engine.py",
    "estimate/_growth": "estimate/test_population.py",
    "estimate/_kalman": "estimate/test_kalman.py",
    "estimate/_layer": "estimate/test_layer.py",
    "estimate/_roomfit": "estimate/test_drying.py",
    "estimate/_swing": "estimate/test_swing.py",
    "estimate/_tree": "estimate/test_tree.py",
    "estimate/_usual": "estimate/test_deaths.py",
    "intake/amount_words": "intake/test_amounts.py",
    "intake/careful": "intake/test_xlsx.py",
    "intake/compound": "intake/test_workbook.py",
    "intake/csvtext": "intake/test_csvfolder.py",
    "intake/fast": "intake/test_xlsx.py",
    "intake/files": "intake/test_workbook.py",
    "intake/ods_values": "intake/test_ods.py",
    "intake/parts": "intake/test_workbook.py",
    "intake/placing": "intake/test_xlsx.py",
    "intake/prescan": "intake/test_xlsx.py",
    "intake/settings": "intake/test_settings_sheet.py",
    "intake/xls_scan": "intake/test_xls.py",
    "problems/about_bins": "problems/test_records.py",
    "problems/about_files": "problems/test_records.py",
    "problems/about_values": "problems/test_records.py",
    "problems/cells": "problems/test_records.py",
    "problems/kinds": "problems/test_records.py",
}
"""Modules tested together with others, and where."""
MODULES = sorted(
    path.relative_to("workbook_tools").with_suffix("").as_posix()
    for path in tracked()
    if path.parts[0] == "workbook_tools" and path.suffix == ".py" and path.name != "__init__.py"
)


def test_top_level_holds_only_what_belongs_there():
    assert {path.parts[0] for path in tracked() if not path.parts[0].startswith(".")} <= TOP


def test_modules_without_a_test_file_are_stated_rightly():
    assert set(TESTED_IN) | RECORDS <= set(MODULES)
    assert [place for place in TESTED_IN.values() if not (ROOT / "tests" / place).exists()] == []


@pytest.mark.parametrize("module", [name for name in MODULES if name not in RECORDS | set(TESTED_IN)])
def test_module_has_a_test_file_in_its_place(module):
    folder, _, name = module.rpartition("/")
    tests = ROOT / "tests" / folder
    found = sorted(tests.glob(f"test_{name}.py")) + sorted(tests.glob(f"test_{name}_*.py"))
    package = folder.rpartition("/")[2]
    found += sorted(tests.glob(f"test_{package}_{name}.py")) if package else []
    assert found, f"tests/{folder}/test_{name}.py is missing"


def test_test_files_have_names_of_their_own():
    names = [path.name for path in tracked() if path.parts[0] == "tests" and path.name.startswith("test_")]
    assert sorted(names) == sorted(set(names))


def test_modules_are_short():
    long = [
        str(path)
        for path in tracked()
        if path.suffix == ".py" and len((ROOT / path).read_text(encoding="utf-8").splitlines()) > 400
    ]
    assert long == []
