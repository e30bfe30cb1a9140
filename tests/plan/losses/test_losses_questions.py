import datetime as dt

from plan.losses.losses_log import ON, at
from tools.losses_sample import event
from tools.rows import amount, bin_row, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.losses.questions import TOPICS, questions
from workbook_tools.plan.wording import Wording

FIRST = ON - dt.timedelta(days=8)


def asked(*rows, bins="AB", events=(), **more):
    known = build_ledger([*(bin_row(name, **more) for name in "AB"), *rows], settings(), on=ON)[0]
    return questions(known, list(bins), FIRST, ON, events, Wording())


def test_all_topics_are_asked_in_the_usual_order_where_nothing_is_noted():
    found = asked()

    assert [one.topic for one in found] == list(TOPICS)
    assert all(one.asks.endswith("?") and not one.noted for one in found)
    assert asked(bins="") == ()


def test_an_event_goes_before_what_was_seen():
    found = asked(log_row(at(5), "A, B", "look", seen=words("huddling")), events=[event(ON)])

    assert [one.topic for one in found][:2] == ["Chemicals", "Moisture"]
    assert found[0].noted == ("bug spray on 22 May 2026",)
    assert found[1].noted == ("huddling seen in 2 of the 2 bins, last on 27 May 2026",)


def test_heat_is_another_topic():
    assert asked(events=[event(ON, "heating on", "", heat=True)])[0].topic == "Temperature"


def test_what_was_noted_in_more_bins_goes_first():
    found = asked(
        log_row(at(9), "A, B", "substrate_change"),
        log_row(at(5), "A", "look", seen=words("condensation")),
    )

    assert [one.topic for one in found][:2] == ["Recent change", "Ventilation"]
    assert found[1].noted == ("condensation seen in A, last on 27 May 2026",)


def test_what_changed_after_the_first_death_or_long_before_is_no_recent_change():
    found = asked(log_row(at(2), "A", "substrate_change"), log_row(at(60), "B", "substrate_change"))

    assert not any(one.noted for one in found)


def test_a_hot_room_is_named():
    found = asked(log_row(at(4), "", "room", temperature=amount(31, "degC"), humidity=amount(40, "percent")))

    assert found[0].topic == "Temperature"
    assert found[0].noted == ("the room at 31 °C on 28 May 2026",)


def test_little_ventilation_by_the_list():
    found = asked(ventilation=words("low"))

    assert found[0].topic == "Ventilation"
    assert found[0].noted == ("little ventilation by your list in 2 of the 2 bins",)
