"""The bin that docs/methods.md works out by hand: the sums come out as the program does, and the page shows them."""

import importlib.util
import sys

import pytest

from tools.tree import ROOT


@pytest.fixture(scope="module")
def traced():
    spec = importlib.util.spec_from_file_location("traced", ROOT / "docs" / "traced.py")
    module = importlib.util.module_from_spec(spec)
    sys.modules["traced"] = module
    spec.loader.exec_module(module)
    yield module
    del sys.modules["traced"]


@pytest.fixture(scope="module")
def learned(traced):
    return traced.read()


@pytest.fixture(scope="module")
def steps(traced, learned):
    return traced.steps(*learned)


def test_every_estimate_is_traced(steps):
    assert {name: len(own) >= 3 for name, own in steps.items()} == dict.fromkeys(
        ("Numbers", "Moss corner", "Food", "Leaf litter", "Substrate"), True
    )


def test_sums_by_hand_come_out_as_the_program_does(steps):
    off = {
        step.what: (step.by_hand, step.program)
        for own in steps.values()
        for step in own
        if step.by_hand != pytest.approx(step.program, rel=step.within)
    }
    assert off == {}


def test_the_page_shows_these_figures(traced, learned, steps):
    """After a change of the estimates: cog -I docs -r docs/methods.md."""
    assert traced.text(steps, learned[1]) in (ROOT / "docs" / "methods.md").read_text(encoding="utf-8")
