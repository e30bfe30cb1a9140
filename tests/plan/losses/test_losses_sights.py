import datetime as dt

from plan.losses.losses_log import ON, at
from tools.rows import bin_row, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.losses.sights import sights_of


def sights(*rows, on=ON):
    known = build_ledger([bin_row("A"), bin_row("B"), *rows], settings(), on=on)[0]
    return [(one.bin, one.seen, (on - one.day).days, (on - one.due).days) for one in sights_of(known, on)]


def seen(days, *keys, bin="A"):
    return log_row(at(days), bin, "look", **({"seen": words(*keys)} if keys else {}))


def test_what_can_cost_animals_is_due_the_same_day_and_the_rest_soon():
    assert sights(seen(5, "huddling"), seen(4, "condensation", bin="B")) == [
        ("A", ("huddling",), 5, 5),
        ("B", ("condensation",), 4, 2),
    ]


def test_ways_out_fungus_and_pests_count_and_gnats_do_not():
    assert [one[1] for one in sights(seen(5, "way out", "mould", "pests"))] == [("way out", "mould", "pests")]
    assert sights(seen(5, "gnats"), seen(5, "mites", bin="B")) == []


def test_a_later_look_that_says_all_is_well_settles_it():
    assert sights(seen(5, "huddling"), seen(3, "all well")) == []
    assert sights(seen(5, "all well"), seen(5, "huddling")) != []
    assert sights(seen(5, "huddling"), seen(3, "all well", bin="B")) != []


def test_three_later_looks_that_say_nothing_of_it_do_too():
    looks = [seen(9, "mould"), seen(7), seen(5)]

    assert len(sights(*looks)) == 1
    assert sights(*looks, seen(3)) == []


def test_what_is_seen_anew_begins_anew():
    assert sights(seen(9, "mould"), seen(7), seen(5), seen(3, "huddling")) == [("A", ("huddling",), 3, 3)]


def test_other_work_at_the_bin_and_later_days_settle_nothing():
    assert len(sights(seen(9, "mould"), *(log_row(at(day), "A", "water") for day in (7, 6, 5, 4)))) == 1
    assert sights(seen(9, "mould"), seen(-3, "all well"), on=ON - dt.timedelta(days=0)) != []
