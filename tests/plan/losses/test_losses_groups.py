import datetime as dt

import pytest

from plan.losses.losses_log import ON, at
from tools.rows import amount, bin_row, log_row, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.losses.groups import batches_in, events_of, groups_of


def ledger(*rows):
    return build_ledger(rows, settings(), on=ON)[0]


def test_bins_of_one_place_and_of_one_source():
    known = ledger(
        bin_row("A", place="Top", came_from="swap"),
        bin_row("B", place=" top ", came_from="A"),
        bin_row("C", place="Low", came_from="Swap"),
    )

    assert groups_of(known, ON) == {"at Top": (0, 1), "that came from swap": (0, 2)}


@pytest.mark.parametrize(
    ("note", "batches"),
    [
        ("oak, batch 3", {"batch 3"}),
        ("Batch no. 12b from the park", {"batch 12B"}),
        ("bag B", {"bag B"}),
        ("lot #4 and lot 5", {"lot 4", "lot 5"}),
        ("a lot of leaves", set()),
        ("batch of leaves", set()),
        ("lots", set()),
        ("a lot a week; batch3", {"batch 3"}),
    ],
)
def test_batches_that_a_note_names(note, batches):
    known = ledger(bin_row("A"), log_row(at(3), "A", "leaf", note=note))

    assert batches_in(known.entries[0]) == batches


def test_bins_given_one_batch_within_two_months():
    known = ledger(
        *(bin_row(name) for name in "ABCD"),
        log_row(at(3), "A, B", "leaf", leaf=amount(1, "l"), note="batch 3"),
        log_row(at(30), "C", "leaf", note="new batch 3"),
        log_row(at(90), "D", "leaf", note="batch 3"),
        log_row(at(3), "A", "feed", food="pellets", note="bag 7"),
    )

    assert groups_of(known, ON) == {"given leaf litter of batch 3": (0, 1, 2)}


def test_without_anything_shared_there_is_no_group():
    assert groups_of(ledger(bin_row("A"), bin_row("B")), ON) == {}


def test_events_of_the_house_tell_heat_from_other_things():
    known = ledger(
        bin_row("A"),
        log_row(at(40), "", "house", note="too long ago"),
        log_row(at(5), "", "house", note="heating on"),
        log_row(at(9), "", "house", note="air freshener"),
        log_row(at(2), "A", "water", note="heating on"),
    )
    events = events_of(known, ON - dt.timedelta(days=30), ON)

    assert [(event.note, event.heat) for event in events] == [("air freshener", False), ("heating on", True)]
    assert events[0].says
