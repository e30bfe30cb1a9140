import datetime as dt
import math

import pytest

from tools.rows import amount, bin_row, day, log_row, settings, words
from workbook_tools.defaults import DEFAULTS
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.substrate import FOUND, filled_with, share_of, substrate_series

ON = dt.date(2026, 3, 31)


def ledger(*rows):
    return build_ledger(rows, settings(), on=ON)[0]


def series(*rows):
    return substrate_series(ledger(*rows), ON)


def change(when, **more):
    return log_row(when, "A", "substrate_change", **more)


def test_changes_with_their_shares():
    made = series(
        bin_row("A", started="2025-01-01"),
        change("2025-06-01", share=amount(0.5, "share")),
        change("2025-12-01"),
        change("2026-04-01"),
    )
    assert made.share.tolist() == [0.5, 1.0]
    assert made.day[0] == dt.date(2025, 6, 1).toordinal()


def test_two_changes_of_one_day_leave_what_neither_took():
    half = {"share": amount(0.5, "share")}
    assert series(bin_row("A"), change("2026-03-01", **half), change("2026-03-01", **half)).share.tolist() == [0.75]


def test_looks_are_words_or_a_written_share():
    made = series(
        bin_row("A"),
        log_row("2026-03-01", "A", substrate=words("part frass")),
        log_row("2026-03-05", "A", "substrate_look", recognisable=amount(40, "percent")),
    )
    assert (made.low[0], made.high[0]) == FOUND["part frass"]
    assert (made.low[1], made.high[1]) == pytest.approx((0.32, 0.48))


def test_date_of_the_list_that_the_log_has_too_counts_once():
    rows = [bin_row("A", last_substrate_change=day("2026-03")), change("2026-03-09", share=amount(0.5, "share"))]
    assert series(*rows).share.tolist() == [0.5]
    assert series(rows[0]).share.tolist() == [1.0]


@pytest.mark.parametrize(
    ("facts", "share"),
    [
        ({"share": amount(75, "percent")}, 0.75),
        ({"way": "part of it"}, math.nan),
        ({"way": "all of it"}, 1.0),
        ({}, 1.0),
        ({"share": amount(0, "share")}, 1.0),
    ],
)
def test_share_of_a_change(facts, share):
    (entry,) = ledger(bin_row("A"), change("2026-03-01", **facts)).entries
    assert share_of(entry) == pytest.approx(share, nan_ok=True)


def test_nothing_known_is_no_rows():
    assert series(bin_row("A")).bin.size == 0


def test_depth_is_a_share_of_the_deepest_since_the_last_change():
    def depth(when, cm):
        return log_row(when, "A", depth=amount(cm, "cm"))

    made = series(
        bin_row("A", depth=amount(8, "cm")),
        depth("2026-01-01", 6),
        change("2026-02-01"),
        depth("2026-02-02", 10),
        depth("2026-03-01", 5),
    )
    assert made.ratio.tolist() == pytest.approx([0.75, 1.0, 0.5])
    assert series(bin_row("A"), depth("2026-01-01", 6)).ratio.size == 0


def split_off(did="split", **fields):
    rows = [bin_row("A", started="2024-01-01"), bin_row("B")]
    made, _ = build_ledger([*rows, log_row("2026-03-01", "A", did, to_bin="B", **fields)], settings(), on=ON)
    return filled_with(made, ON)


def test_a_bin_split_or_moved_off_holds_old_substrate():
    split, moved = split_off()["B"], split_off("move_up")["B"]
    assert (split.source, split.share) == ("A", DEFAULTS["substrate.split"].value)
    assert split.share < moved.share
    assert split_off("animals_out") == {}


def test_words_for_fresh_or_old_substrate_go_before_the_usual_share():
    assert split_off(note="into fresh coir soil") == {}
    old = split_off(note="in their old substrate")["B"]
    assert old.share == DEFAULTS["substrate.split"].high
    assert old.error < split_off(note="lid cracked")["B"].error


def test_what_goes_to_a_bin_that_lived_already_brings_no_substrate():
    rows = [bin_row("A", started="2024-01-01"), bin_row("B", started="2024-01-01")]
    made, _ = build_ledger([*rows, log_row("2026-03-01", "A", "split", to_bin="B")], settings(), on=ON)
    assert filled_with(made, ON) == {}


def test_fresh_substrate_said_by_any_of_several_parents_is_fresh():
    rows = [bin_row("A", started="2024-01-01"), bin_row("C", started="2024-01-01"), bin_row("B")]
    made, _ = build_ledger(
        [
            *rows,
            log_row("2026-03-01", "A", "split", to_bin="B"),
            log_row("2026-03-04", "C", "split", to_bin="B", note="new soil in there"),
        ],
        settings(),
        on=ON,
    )
    assert filled_with(made, ON) == {}
