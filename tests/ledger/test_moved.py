import datetime as dt

import pytest

from tools.rows import amount, bin_row, log_row, number, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.moved import animals, moved_by

BINS = ("K1", "K2", "K3")


def entry_of(*args, **fields):
    ledger, _ = build_ledger(
        [*(bin_row(name) for name in BINS), log_row("2026-03-01", *args, **fields)],
        settings(),
        on=dt.date(2026, 3, 31),
    )
    return ledger.entries[0]


@pytest.mark.parametrize(
    ("bins", "did", "told", "sources", "targets", "coming"),
    [
        ("K1", "animals_out", {"to_bin": "K2"}, ("K1",), ("K2",), False),
        ("K1", "animals_out", {"to_bin": "Rosa"}, ("K1",), (), False),
        ("K1", "animals_out", {}, ("K1",), (), False),
        ("K2", "animals_in", {"from_bin": "K1"}, ("K1",), ("K2",), True),
        ("K2", "animals_in", {"from_bin": "fair"}, (), ("K2",), True),
        ("K1", "animals_in", {"from_bin": "K1", "to_bin": "K2"}, ("K1",), ("K2",), True),
        ("K1", "animals_in", {"to_bin": "K2"}, ("K1",), ("K2",), True),
        ("K2", "split", {"from_bin": "K1"}, ("K1",), ("K2",), True),
        ("K1", "split", {"from_bin": "K1", "to_bin": "K2"}, ("K1",), ("K2",), False),
        ("K1", "split", {"to_bin": "K2+K3"}, ("K1",), ("K2", "K3"), False),
        ("K1+K2", "split", {"to_bin": "K3"}, ("K1", "K2"), ("K3",), False),
        ("K1+K2", "split", {"to_bin": "K2"}, ("K1",), ("K2",), False),
        ("K2", "start", {"from_bin": "K1"}, ("K1",), ("K2",), True),
        ("K1", "move_up", {}, ("K1",), (), False),
        ("K1", "move_up", {"to_bin": "K1"}, ("K1",), (), False),
        ("K1", "move_place", {"to_bin": "K2"}, (), (), False),
    ],
)
def test_where_animals_came_from_and_went_to(bins, did, told, sources, targets, coming):
    found = moved_by(entry_of(bins, did, **told), BINS)
    assert (found.sources, found.targets, found.coming) == (sources, targets, coming)


def test_an_amount_of_something_else_is_no_number_of_animals():
    assert animals(entry_of("K1", "split", amount=amount(3, "l"), to_bin="K2")) == ("", None)
    field, count = animals(entry_of("K1", "split", number=number(3), to_bin="K2"))
    assert (field, count.best) == ("number", 3)
