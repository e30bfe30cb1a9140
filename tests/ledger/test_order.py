import datetime as dt
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tools.rows import bin_row, log_row, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.checks import check
from workbook_tools.ledger.order import in_order

ON = dt.date(2026, 3, 10)
WINTER = ["2025-12-20", "2025-12-27", "2026-01-03", "2026-01-09", "2026-01-17", "2026-01-24", "2026-01-31"]


def named(*days):
    rows = [log_row(day, "A1", "water", at=at) for at, day in enumerate(days, start=2)]
    ledger, _ = build_ledger([bin_row("A1"), *rows], settings(), on=ON)
    return [
        (problem.where.row, problem.facts["days"])
        for problem in check(ledger, ON)
        if problem.code == "entries.out_of_order"
    ]


def test_last_years_year_in_january_is_named_and_the_rows_around_it_are_not():
    days = [*WINTER[:2], "2025-01-03", "2025-01-09", *WINTER[4:]]
    assert named(*days) == [(4, 358), (5, 352)]
    assert named(*reversed(days)) == [(5, 352), (6, 358)]


def test_wrong_year_in_the_last_row_is_named():
    assert named(*WINTER, "2025-02-06") == [(9, 359)]


@pytest.mark.parametrize(
    "days",
    [
        WINTER,
        [*WINTER[:3], "2025-12-01", *WINTER[3:]],
        ["2025-12-27", "2025-01-03", "2026-01-09"],
        ["2025-01-01", "2025-06-01", "2026-01-01", "2025-01-01", "2025-06-01", "2026-01-01"],
        [*WINTER, "2027-02-07"],
    ],
    ids=["in order", "written in late", "too few to tell", "bin by bin", "after the report"],
)
def test_order_that_tells_nothing_is_not_named(days):
    assert named(*days) == []


@given(st.lists(st.integers(0, 6), max_size=8))
def test_as_few_as_can_be_are_left_out(days):
    run = in_order(days)
    found = [days[place] for place in run]
    assert run == sorted(set(run))
    assert found in (sorted(found), sorted(found, reverse=True))
    longer = combinations(days, len(run) + 1)
    assert not any(list(more) in (sorted(more), sorted(more, reverse=True)) for more in longer)
