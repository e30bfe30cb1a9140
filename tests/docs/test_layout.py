"""What lies where: the top level, a test file for each module, module length, words that don't belong."""

import re

import pytest

from tools.tree import ROOT, tracked

TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "workbook_tools", "templates", "tests", "demo", "docs"}
NO_TEST_OF_ITS_OWN = {
    "__main__": "two lines; tests/end_to_end runs it",
    "defaults": "a table; tests/docs checks its sources, tests/published its rhythm",
    "pipeline": "the stages in order; tests/end_to_end and tests/golden run it",
    "cli": "tests/end_to_end runs every command",
    "intake/cells": "records only",
    "intake/readings": "records only",
    "intake/settings": "records and one look-up; tested through intake/settings_sheet",
    "intake/tables": "records only",
    "intake/values": "records only",
    "ledger/records": "records only",
    "plan/records": "records only",
    "report/columns": "records only",
    "report/findings": "records only",
}
MODULES = sorted(
    path.relative_to("workbook_tools").with_suffix("").as_posix()
    for path in tracked()
    if path.parts[0] == "workbook_tools" and path.suffix == ".py" and path.name != "__init__.py"
)
TEXTS = [path for path in tracked() if path.suffix in (".py", ".md", ".toml", ".txt", "", ".json")]
LEFT_BEHIND = re.compile(
    r"\btranscripts?\b|\bvideos?\b|\brecordings?\b|\bseed (?:document|file|page|text)s?\b|(?<![\w.])/work/|\bshared/",
    re.IGNORECASE,
)


def test_top_level_holds_only_what_belongs_there():
    assert {path.parts[0] for path in tracked() if not path.parts[0].startswith(".")} <= TOP


def test_exempt_modules_exist():
    assert set(NO_TEST_OF_ITS_OWN) <= set(MODULES)


@pytest.mark.parametrize("module", [name for name in MODULES if name not in NO_TEST_OF_ITS_OWN])
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


def test_nothing_points_outside_the_project():
    here = "tests/docs/test_layout.py"
    found = [
        f"{path}:{number}: {line.strip()[:100]}"
        for path in TEXTS
        if path.as_posix() != here
        for number, line in enumerate((ROOT / path).read_text(encoding="utf-8").splitlines(), start=1)
        if LEFT_BEHIND.search(line)
    ]
    assert found == []
