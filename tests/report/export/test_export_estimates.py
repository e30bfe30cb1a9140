import dataclasses
import datetime as dt

from tools import learned_sample
from tools.report_sample import ON, sample
from workbook_tools.estimate.sifting import sift_left
from workbook_tools.ledger.records import Bin, Ledger
from workbook_tools.plan.learned.records import Estimates, LineForecast, MarksCount, Range
from workbook_tools.plan.losses.records import BinLosses, Losses
from workbook_tools.plan.records import NextChange
from workbook_tools.plan.sifting import Batch
from workbook_tools.problems import CellRef
from workbook_tools.report.export.estimates import QUANTITIES, estimate_rows

NOTHING = {"next_changes": (), "losses": None, "batches": ()}


def findings(estimates=None, **changes):
    bins = {name: Bin(name, CellRef("Bins", 4)) for name in ("A1", "B2")}
    return sample(ledger=Ledger(bins, ()), estimates=estimates or Estimates(ON), **{**NOTHING, **changes})


def found(estimates=None, **changes):
    """The rows by bin and quantity; no two of them may share both."""
    rows = list(estimate_rows(findings(estimates, **changes)))
    by = {(row[0], row[1]): row[2:] for row in rows}
    assert len(by) == len(rows)
    return by


def batch(**changes):
    left = sift_left((41, 22, 9, 4), ())
    made = (
        "A1",
        "open",
        ON,
        True,
        "tub",
        "",
        (41, 22, 9, 4),
        (),
        None,
        left,
        None,
        None,
        ON,
        None,
        "",
        CellRef("Log", 5),
    )
    return dataclasses.replace(Batch(*made), **changes)


def test_every_quantity_can_come_and_has_its_own_unit():
    everything = {
        "moss": {"A1": learned_sample.moss(ON, "A1", 1)},
        "food": {"A1": (learned_sample.food(ON, "A1", 1), learned_sample.food(ON, "A1", 1, kind="fresh"))},
        "leaf": {"A1": learned_sample.leaf(ON, "A1", 1)},
        "substrate": {"A1": learned_sample.substrate(ON, "A1", 1)},
        "numbers": {
            "A1": learned_sample.numbers(
                ON, "A1", 1, crowded=learned_sample.days(ON, 3, 9, None), marks=MarksCount(80, 60, None, ON)
            )
        },
        "lines": (LineForecast("P", "L", ("A1",), 1, ON, None, 90, 40, 20.5, 9, 2.0, Range(0.6, 0.8, 0.9)),),
    }
    rows = found(
        Estimates(ON, **everything),
        next_changes=(NextChange("A1", ON, "It is spent."),),
        losses=Losses(ON, {"A1": BinLosses("A1", 1, 0.5, 7, Range(0.1, 0.4, 0.9), ON)}),
        batches=(batch(),),
    )
    assert {key for _, key in rows} == set(QUANTITIES)
    assert {bin for bin, _ in rows} == {"A1"}
    for (_, key), (*ends, unit, _, _) in rows.items():
        assert unit == QUANTITIES[key].unit
        assert all(isinstance(end, dt.date) == (unit == "date") for end in ends if end is not None)


def test_an_estimate_keeps_its_interval_its_ground_and_its_notes():
    moss = learned_sample.moss(ON, "B2", 0, days=Range(4.123456789, 6.0, 8.2))
    rows = found(Estimates(ON, moss={"B2": moss}))
    assert rows["B2", "moss_dry_after"] == (6.0, 4.12346, 8.2, "days", "learned from 9 notes", 9)
    assert rows["B2", "moss_look"] == (moss.next, None, None, "date", "learned from 9 notes", 9)


def test_a_day_later_than_can_be_said_is_empty_and_what_is_not_known_has_no_line():
    leaf = learned_sample.leaf(
        ON, "A1", 0, runs_out=learned_sample.days(ON, 5, None, None), next=None, basis=learned_sample.GUESS
    )
    moss = learned_sample.moss(ON, "A1", 0, dry=None, next=None)
    rows = found(Estimates(ON, moss={"A1": moss}, leaf={"A1": leaf}))
    assert rows["A1", "litter_runs_out"][:3] == (None, ON + dt.timedelta(days=5), None)
    assert rows["A1", "litter_runs_out"][4:] == ("common practice, not yet learned here", 1)
    assert not {"moss_dry", "moss_look", "litter_top_up"} & {key for _, key in rows}


def test_a_change_that_is_not_expected_has_no_line_and_one_that_is_says_why():
    rows = found(next_changes=(NextChange("A1", None, "Not known."), NextChange("B2", ON, "Found spent.")))
    assert rows == {("B2", "substrate_change"): (ON, None, None, "date", "Found spent.", None)}


def test_only_old_substrate_that_still_waits_is_told():
    rows = found(batches=(batch(state="closed", ended=ON), batch(bin="B2")))
    left = sift_left((41, 22, 9, 4), ())
    assert rows == {
        ("B2", "stragglers_left"): (
            left.middle,
            left.low,
            left.high,
            "count",
            "4 passes by hand, 0 checks of a trap",
            4,
        )
    }
