"""The pages people read: README's two commands, links that lead somewhere, sources that exist."""

import re
from pathlib import Path

import pytest

from tools.tree import ROOT, tracked
from workbook_tools.cli import cli
from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS, BIN_FIELDS, LOG_FIELDS, SETTINGS
from workbook_tools.problems import KINDS
from workbook_tools.report.export.estimates import QUANTITIES
from workbook_tools.report.export.tables import HEADINGS

PAGES = [path for path in tracked() if path.suffix == ".md"]
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
LINK = re.compile(r"\[[^\]]*\]\(([^)]+)\)")


def text(name):
    return (ROOT / name).read_text(encoding="utf-8")


def anchors(page):
    """The anchors of a page's headings, as code hosts make them."""
    heads = re.findall(r"^#+ (.+)$", text(page), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", head.lower()).replace(" ", "-") for head in heads}


def test_readme_begins_with_the_job_and_has_two_commands():
    readme = text("README.md")
    blocks = FENCE.findall(readme)
    shell = [body for kind, body in blocks if kind == "sh"]
    windows = [body for kind, body in blocks if kind == "powershell"]
    assert len(shell) == len(windows) == 2
    assert all(len(body.strip().splitlines()) == 1 for body in shell + windows)
    assert "frassbook report demo/cellar-bins.xlsx --on 2026-11-25 -o report.xlsx" in shell[0]
    assert "pytest" in shell[1]
    assert readme.index("```sh") < 2500
    first = readme.split("\n\n")[1]
    assert "isopods" in first
    assert not first.startswith(("#", "```", "-"))


def test_there_are_pages_links_and_commands_to_check():
    assert {Path("README.md"), Path("docs/index.md")} <= set(PAGES)
    assert sum(len(LINK.findall(text(page))) for page in PAGES) > 10
    assert set(cli.commands) >= {"report", "check", "new"}


@pytest.mark.parametrize("page", PAGES, ids=str)
def test_links_lead_somewhere(page):
    for link in LINK.findall(FENCE.sub("", text(page))):
        if re.match(r"https?://", link):
            continue
        name, _, anchor = link.partition("#")
        target = ROOT / page.parent / name if name else ROOT / page
        assert target.exists(), link
        if anchor:
            assert anchor in anchors(target), link


def test_every_command_and_option_is_in_the_docs():
    docs = text("docs/index.md") + text("docs/report.md") + text("docs/sifting.md") + text("README.md")
    docs += text("docs/export.md")
    for name, command in cli.commands.items():
        assert f"frassbook {name}" in docs, name
        for option in command.params:
            names = [one for one in option.opts if one.startswith("-")]
            assert not names or any(one in docs for one in names), names


def test_docs_name_no_command_that_does_not_exist():
    named = {name for page in PAGES for name in re.findall(r"frassbook ([a-z]+) \S+\.xlsx", text(page))}
    assert "report" in named
    assert named <= set(cli.commands)


def test_every_source_of_a_default_is_in_the_bibliography():
    assert {one.source for one in DEFAULTS.values()} <= anchors("docs/sources.md")


def test_defaults_lie_in_their_range():
    assert [key for key, one in DEFAULTS.items() if not one.low <= one.value <= one.high] == []


def test_generated_pages_name_everything():
    columns, problems, defaults = text("docs/columns.md"), text("docs/problems.md"), text("docs/defaults.md")
    for one in (*BIN_FIELDS, *LOG_FIELDS, *SETTINGS, *ACTS.values()):
        assert f"| **{one.label}** |" in columns
    for code in KINDS:
        assert f"`{code}`" in problems
    for key in DEFAULTS:
        assert f"`{key}`" in defaults


def test_the_page_on_exports_names_every_key():
    page = text("docs/export.md")
    for key in (*ACTS, *(one.key for one in (*BIN_FIELDS, *LOG_FIELDS)), *QUANTITIES):
        assert f"| `{key}` |" in page
    for headings in HEADINGS.values():
        assert ", ".join(f"`{heading}`" for heading in headings) in page
