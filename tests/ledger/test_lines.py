import datetime as dt

import pytest

from tools.rows import bin_row, log_row, number, words
from tools.rows import settings as made_settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.lines import lines_mixed

ON = dt.date(2026, 3, 31)
SCABER, LAEVIS = "Porcellio scaber", "Porcellio laevis"


def a_bin(name, species=SCABER, line="Grey", started="2025-01-01", **more):
    return bin_row(name, species=species, line=line, started=started, **more)


def found(*rows):
    return lines_mixed(build_ledger([*rows], made_settings(), on=ON)[0], ON)


def moved(day="2026-03-01", did="animals_out", bins="A", **more):
    return log_row(day, bins, did, number=number(5), **({"to_bin": "B"} | more))


def test_animals_of_one_line_put_in_with_another_are_named():
    (problem,) = found(a_bin("A"), a_bin("B", line="Rust"), moved(at=9))
    assert problem.says == (
        "Animals of A (Porcellio scaber, Grey) went in with those of B (Porcellio scaber, Rust) here."
    )
    assert problem.where.row == 9


@pytest.mark.parametrize("other", [{"line": "grey "}, {"line": ""}, {"species": "", "line": "Grey"}])
def test_same_line_or_one_that_is_not_written_is_no_problem(other):
    assert found(a_bin("A"), a_bin("B", **other), moved()) == []


def test_other_species_are_named_even_if_the_line_is_called_the_same():
    assert len(found(a_bin("A"), a_bin("B", species=LAEVIS), moved())) == 1


def test_the_other_way_round_too():
    rows = a_bin("A"), a_bin("B", line="Rust")
    assert len(found(*rows, log_row("2026-03-01", "B", "animals_in", number=number(5), from_bin="A"))) == 1
    assert len(found(*rows, log_row("2026-03-01", "B", "animals_in", number=number(5), from_bin="a friend"))) == 0


@pytest.mark.parametrize("written", ["B", "Rust", "Porcellio scaber", "any", "Amber, Rust"])
@pytest.mark.parametrize("in_first", [True, False])
def test_keeper_may_allow_it_in_either_bin(written, in_first):
    if in_first:
        rows = a_bin("A", mixes=written), a_bin("B", line="Rust")
    else:
        rows = a_bin("B", line="Grey"), a_bin("A", line="Rust", mixes=written.replace("Rust", "Grey"))
    assert found(*rows, moved()) == []


def test_what_is_allowed_for_one_line_is_not_for_another():
    assert len(found(a_bin("A", mixes="Amber"), a_bin("B", line="Rust"), moved())) == 1


def test_split_into_a_bin_that_no_list_has_is_fine():
    assert found(a_bin("A"), moved(did="split", to_bin="B2")) == []


def test_a_new_line_may_begin_from_another_but_not_from_another_species():
    new = {"started": "2026-03-01"}
    assert found(a_bin("A"), a_bin("B", line="Grey F2", **new), moved(did="split")) == []
    assert len(found(a_bin("A"), a_bin("B", line="Grey F2", **new), moved("2026-03-20"))) == 1
    assert len(found(a_bin("A"), a_bin("B", species=LAEVIS, **new), moved(did="split"))) == 1


def test_straggler_tub_holds_all_lines():
    tub = bin_row("Tub", species="mixed", status=words("straggler tub"))
    assert found(a_bin("A"), tub, moved(to_bin="Tub")) == []


def test_animals_out_of_a_tub_that_holds_a_like_line_are_named():
    tub = bin_row("Tub", status=words("straggler tub"))
    old = log_row("2026-03-01", "A", "substrate_change", old_went="Tub")
    back = log_row("2026-03-08", "Tub", "trap", number=number(2), to_bin="B")
    (problem,) = found(a_bin("A"), a_bin("B", line="Rust"), tub, old, back)
    assert problem.code == "entries.lines_in_tub"
    assert found(a_bin("A"), a_bin("B"), tub, old, back) == []
    assert found(a_bin("A"), a_bin("B", species=LAEVIS), tub, old, back) == []
    frozen = log_row("2026-03-05", "A", "freeze")
    assert found(a_bin("A"), a_bin("B", line="Rust"), tub, old, frozen, back) == []
