import dataclasses
import datetime as dt

import pytest

from plan.losses.losses_log import ON, at
from tools.rows import bin_row, log_row, number, settings, words
from workbook_tools.defaults import DEFAULTS
from workbook_tools.fields import ACTS, FINDINGS, THINGS
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.losses.sights import said_well, sights_of

BAD = [one for one in FINDINGS.values() if not one.good]


def ledger(*rows, on=ON):
    return build_ledger([bin_row("A"), bin_row("B"), *rows], settings(), on=on)[0]


def sights(*rows, on=ON):
    return [(one.bin, one.finding, (on - one.day).days, (on - one.due).days) for one in sights_of(ledger(*rows), on)]


def seen(days, *keys, bin="A", did="look", **fields):
    return log_row(at(days), bin, did, **({"seen": words(*keys)} if keys else {}), **fields)


def still(*rows, on=ON):
    return [one.finding for one in sights_of(ledger(*rows), on)]


@pytest.mark.parametrize("one", BAD, ids=lambda one: one.key)
def test_a_finding_is_open_from_its_day_and_due_by_its_own_default(one):
    (name, key, day, late), *rest = sights(seen(5, one.key))

    assert (name, key, day, late, rest) == ("A", one.key, 5, 5 - DEFAULTS[one.days].value, [])


def test_what_can_cost_animals_at_once_is_due_the_same_day():
    urgent = {one.key for one in BAD if not DEFAULTS[one.days].value}

    assert {"blue or violet", "way out", "huddling", "sour smell", "too dry", "pests"} == urgent


def test_a_good_sign_opens_nothing():
    assert still(seen(5, "mancas"), seen(4, "gravid")) == []


@pytest.mark.parametrize("one", BAD, ids=lambda one: one.key)
def test_all_well_on_a_later_day_settles_it_and_not_before_nor_elsewhere(one):
    assert still(seen(5, one.key), seen(3, "all well")) == []
    assert still(seen(5, "all well"), seen(5, one.key), seen(5, "all well")) == [one.key]
    assert still(seen(5, one.key), seen(3, "all well", bin="B")) == [one.key]
    assert still(seen(5, one.key), seen(-3, "all well")) == [one.key]
    assert still(seen(5, one.key), seen(3, "all well", one.key)) == [one.key]


@pytest.mark.parametrize("thing", [one for one in THINGS.values() if one.settled], ids=lambda one: one.key)
def test_a_fine_word_about_a_thing_settles_what_is_about_it_and_nothing_else(thing):
    rows = [seen(5, *(one.key for one in BAD))]

    assert still(*rows, seen(4, thing.settled)) == [
        one.key for one in BAD if one.about != thing.key and one.quiet != "sights.once"
    ]


@pytest.mark.parametrize("one", BAD, ids=lambda one: one.key)
def test_its_own_acts_settle_a_finding_and_no_others(one):
    settling = {act for act in ACTS if not still(seen(5, one.key), log_row(at(4), "A", act, number=number(3)))}

    assert settling == one.acts | ({"look"} if one.quiet == "sights.once" else set())


def test_an_act_of_the_same_row_or_a_later_one_of_the_day_settles_and_one_of_the_row_before_does_not():
    assert still(seen(5, "too dry", did=words("water"))) == []
    assert still(seen(5, "too dry"), log_row(at(5), "A", "water")) == []
    assert still(log_row(at(5), "A", "water"), seen(5, "too dry")) == ["too dry"]


@pytest.mark.parametrize(
    ("key", "moss", "settled"),
    [
        ("too dry", "damp", True),
        ("too dry", "soaked", True),
        ("too dry", "dry", False),
        ("too wet", "drying", True),
        ("too wet", "damp", True),
        ("too wet", "soaked", False),
        ("mites", "damp", False),
    ],
)
def test_how_the_moss_corner_is_found_later_settles_what_is_about_moisture(key, moss, settled):
    assert still(seen(5, key), log_row(at(3), "A", "moss", moss=words(moss))) == ([] if settled else [key])


@pytest.mark.parametrize("one", BAD, ids=lambda one: one.key)
def test_looks_that_say_nothing_of_it_let_go_of_what_may_pass_by_itself(one):
    looks = [seen(40, one.key), *(seen(40 - day) for day in range(1, 31))]
    needed = DEFAULTS[one.quiet].value if one.quiet else 99

    assert still(*looks) == ([] if one.quiet else [one.key])
    assert still(*looks[: round(needed)]) == [one.key]
    if one.quiet:
        assert still(*looks[: round(needed) + 1]) == []


def test_other_work_at_the_bin_is_no_look():
    assert still(seen(9, "mould"), *(log_row(at(day), "A", "water") for day in (7, 6, 5, 4))) == ["mould"]


def test_what_is_seen_again_counts_from_then_and_takes_no_place_of_another():
    rows = [seen(9, "mould"), seen(7), seen(5, "mould", "huddling")]

    assert sights(*rows) == [("A", "huddling", 5, 5), ("A", "mould", 5, 3)]
    assert still(*rows, seen(3), seen(2)) == ["huddling", "mould"]
    assert sights_of(ledger(*rows), ON)[1].first == ON - dt.timedelta(days=9)


def test_a_finding_is_heard_from_whatever_entry_says_it():
    assert still(log_row(at(5), "A", "feed", seen=words("mites"))) == ["mites"]
    assert still(seen(6, "mites"), log_row(at(5), "A", "water", seen=words("mites gone"))) == []
    assert said_well(ledger(log_row(at(5), "A", "count", seen=words("all well"))), ON) == {
        "A": ON - dt.timedelta(days=5)
    }


def test_a_bin_kept_apart_is_looked_at_daily_until_all_is_well():
    blue = seen(9, "blue or violet")

    assert sights(blue) == [("A", "blue or violet", 9, 9)]
    assert sights(blue, seen(4)) == [("A", "blue or violet", 9, 3)]
    assert sights(blue, seen(4, "mites gone"), seen(2, "blue or violet")) == [("A", "blue or violet", 2, 1)]
    assert still(blue, *(seen(day) for day in (8, 7, 6, 5, 4)), seen(3, "lid closed")) == ["blue or violet"]


def test_a_line_that_is_blue_by_nature_is_not_kept_apart_unless_it_turned():
    def of(text, **bin):
        said = log_row(at(5), "C", "look", seen=words("blue or violet"))
        said.facts["seen"] = tuple(
            dataclasses.replace(one, cell=dataclasses.replace(one.cell, text=text)) for one in said.facts["seen"]
        )
        return [one.finding for one in sights_of(build_ledger([bin_row("C", **bin), said], settings(), on=ON)[0], ON)]

    assert of("two blue ones", species="Porcellionides pruinosus", line="Powder Blue") == []
    assert of("two turned blue", line="Powder Blue") == ["blue or violet"]
    assert of("blue or violet", species="Cubaris 'Violet'") == ["blue or violet"]
    assert of("two blue ones", line="Powder Orange") == ["blue or violet"]
