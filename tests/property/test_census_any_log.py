"""Whatever is marked, caught, sifted, moved: estimates are finite and in order, and nothing raises."""

import datetime as dt
import math

from hypothesis import given, settings
from hypothesis import strategies as st

from tools.rows import amount, bin_row, log_row, number
from tools.rows import settings as keeper_settings
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.census import census_series
from workbook_tools.ledger.series.numbers import number_series
from workbook_tools.plan.learned.census import worked_out
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.numbers import forecast_numbers, numbers_of

ON = dt.date(2026, 3, 31)
VALUE = st.one_of(
    st.integers(0, 90).map(number),
    st.sampled_from([0.4, 1, 1e4, 1e8]).map(number),
    st.just(Number(50, 35, 65)),
    st.just(Number(30, 30, math.inf)),
    st.lists(st.integers(0, 60), min_size=2, max_size=5).map(lambda n: Number(sum(n), sum(n), sum(n), tuple(n))),
)


ACTS = (
    "mark mark mark recapture recapture recapture recapture count sift sift substrate_change trap dead animals_out "
    "animals_in split move_up"
).split()


@st.composite
def entry(draw):
    act = draw(st.sampled_from(ACTS))
    fields = {}
    if draw(st.integers(0, 9)):
        fields["dead" if act == "dead" else "number"] = draw(VALUE)
    if act in ("recapture", "count", "dead", "animals_out") and draw(st.integers(0, 3)):
        fields["marked"] = draw(VALUE)
    if act in ("count", "sift") and draw(st.booleans()):
        fields["way"] = draw(st.sampled_from(["passes", "pass 2", "whole bin", "full sort"]))
    if act == "substrate_change":
        fields = {"share": amount(draw(st.sampled_from([1, 0.5])), "share")}
    if act in ("split", "move_up", "animals_out") and draw(st.booleans()):
        fields["to_bin"] = "B"
    when = ON - dt.timedelta(days=draw(st.integers(0, 70)))
    return log_row(when.isoformat(), draw(st.sampled_from(["A", "A", "A", "B", "A+B"])), act, **fields)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(rows=st.lists(entry(), max_size=14))
def test_worked_out_counts_are_finite_and_in_order(rows):
    ledger, _ = build_ledger([bin_row("A", started="2025-10-01"), bin_row("B"), *rows], keeper_settings(), on=ON)
    moves = number_series(ledger, ON).moves
    series = census_series(ledger, ON, moves)
    made = worked_out(series, list(ledger.bins), moves)

    for census in series.censuses:
        for catch in census.catches:
            assert 0 <= catch.again <= catch.caught
            assert catch.again <= catch.marked < math.inf
            assert all(days >= 0 and number > 0 for days, number in catch.marks)
    for count in made.counts:
        assert 0 <= count.low <= count.value <= count.high < math.inf
        assert count.day <= ON.toordinal()
    assert all(move.change < 0 for move in made.moves)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(rows=st.lists(entry(), min_size=4, max_size=14))
def test_numbers_that_take_them_are_finite_and_in_order(rows):
    ledger, _ = build_ledger([bin_row("A", started="2025-10-01"), bin_row("B"), *rows], keeper_settings(), on=ON)
    frame = Frame.of(ledger, ON)
    found, problems = forecast_numbers(frame, numbers_of(frame))

    for one in found.values():
        assert 0 <= one.now.low <= one.now.middle <= one.now.high < math.inf
        assert all(math.isfinite(x) for x in (one.growth.low, one.growth.middle, one.growth.high))
        assert one.last_count is None or math.isfinite(one.last_count)
        assert all(0 <= p.low <= p.middle <= p.high < math.inf for p in one.path)
    assert all(problem.says and problem.fix for problem in problems)
