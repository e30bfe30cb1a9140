import datetime as dt

import numpy as np
import pytest

from tools.rows import bin_row, log_row, number, settings
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.deaths import death_series

ON = dt.date(2026, 3, 31)


def series(*rows, on=ON):
    return death_series(build_ledger(rows, settings(), on=on)[0], on)


def found(made, on=ON):
    """Dead found by bin and day of March."""
    first = dt.date.fromordinal(made.first_day)
    at = {(int(b), (first + dt.timedelta(days=int(d))).day): made.found[b, d] for b, d in np.argwhere(made.found)}
    return at


def test_deaths_in_their_own_column_and_as_an_act():
    made = series(
        bin_row("A"),
        bin_row("B"),
        log_row("2026-03-01", "A", "look", dead=number(2)),
        log_row("2026-03-05", "B", "dead", number=number(3)),
        log_row("2026-03-06", "B", "dead"),
        log_row("2026-03-07", "B", "look", dead=number(0)),
    )

    assert found(made) == {(0, 1): 2, (1, 5): 3, (1, 6): 1}
    assert [(f.bin, f.number) for f in made.finds] == [(0, 2), (1, 3), (1, 1)]
    assert made.found.shape == made.looked.shape == (2, 31)


def test_dead_of_several_bins_are_shared_out():
    made = series(bin_row("A"), bin_row("B"), log_row("2026-03-05", "A, B", "dead", number=number(3)))

    assert found(made) == {(0, 5): 1.5, (1, 5): 1.5}


def test_whatever_opens_the_bin_is_a_look_and_what_does_not_is_none():
    made = series(
        bin_row("A"),
        log_row("2026-03-01", "A", "water"),
        log_row("2026-03-03", "A", "feed"),
        log_row("2026-03-09", "A", "note"),
    )

    assert np.flatnonzero(made.looked[0]).tolist() == [0, 2]


def test_a_bin_begins_when_it_was_set_up_or_first_opened():
    made = series(
        bin_row("A", started="2026-02-01"),
        bin_row("B"),
        log_row("2026-03-01", "A", "look"),
        log_row("2026-03-09", "B", "look"),
    )

    assert made.began.tolist() == [-28, 8]


def test_a_vague_day_and_what_is_later_are_not_used():
    made = series(
        bin_row("A"),
        log_row("2026-03-01", "A", "look"),
        log_row("2026-02", "A", "dead", number=number(9)),
        log_row("2026-04-02", "A", "dead", number=number(9)),
    )

    assert made.vague == 1
    assert made.found.sum() == 0


@pytest.mark.parametrize(
    ("written", "counts"), [(Number(30, 30, float("inf")), 30), (Number(4, 2, 6), 4), (number(0), 0)]
)
def test_numbers_that_are_not_exact(written, counts):
    made = series(bin_row("A"), log_row("2026-03-01", "A", "dead", number=written))

    assert made.found.sum() == counts


def test_nothing_logged():
    made = series(bin_row("A"))

    assert made.found.shape == (1, 1)
    assert made.finds == ()
