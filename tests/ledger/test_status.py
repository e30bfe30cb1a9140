import datetime as dt

import pytest

from tools.rows import bin_row, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.status import ends, statuses

ON = dt.date(2026, 3, 10)


def status(listed, *logged, on=ON):
    fields = {"status": words(listed)} if listed else {}
    rows = [bin_row("A1", **fields), *(log_row(when, "A1", did) for when, did in logged)]
    ledger, _ = build_ledger(rows, settings(), on=on)
    return statuses(ledger, on)["A1"]


@pytest.mark.parametrize("word", ["active", "quarantine", "straggler tub", "resting", "gone"])
def test_list_tells_what_a_bin_is(word):
    assert status(word).word == word
    assert status(word).differs == ""


def test_bin_that_nothing_is_said_of_is_active():
    assert status("").word == "active"


@pytest.mark.parametrize(
    ("listed", "logged", "word"),
    [
        ("", ["end"], "gone"),
        ("", ["rest"], "resting"),
        ("", ["quarantine"], "quarantine"),
        ("", ["quarantine", "release"], "active"),
        ("", ["rest", "release"], "active"),
        ("", ["end", "start"], "active"),
        ("", ["rest", "animals_in"], "active"),
        ("active", ["end"], "gone"),
        ("active", ["rest"], "resting"),
        ("active", ["rest", "feed"], "active"),
        ("quarantine", ["quarantine", "release"], "active"),
        ("gone", ["start"], "gone"),
        ("resting", ["start", "water"], "resting"),
        ("straggler tub", ["rest"], "straggler tub"),
    ],
)
def test_log_and_list_together(listed, logged, word):
    entries = [(f"2026-02-{place:02}", did) for place, did in enumerate(logged, start=1)]
    assert status(listed, *entries).word == word


def test_overruled_list_is_said_to_differ():
    found = status("active", ("2026-02-01", "end"))
    assert found.differs == "active"
    assert found.since == dt.date(2026, 2, 1)


def test_entries_to_come_do_not_count():
    assert status("", ("2026-04-01", "end")).word == "active"


def test_ends_has_the_day_of_closing():
    ledger, _ = build_ledger([bin_row("A1"), log_row("2026-02-01", "A1", "end")], settings(), on=ON)
    assert ends(ledger, statuses(ledger, ON)) == {"A1": dt.date(2026, 2, 1)}


def test_animals_that_another_bin_gives_wake_a_bin_that_was_closed():
    rows = [bin_row("A1"), bin_row("A2"), log_row("2026-02-01", "A1", "end")]
    gave = log_row("2026-03-01", "A2", "animals_out", to_bin="A1")
    words_of = {
        on: statuses(build_ledger([*rows, gave], settings(), on=ON)[0], on)["A1"].word
        for on in (dt.date(2026, 2, 20), ON)
    }
    assert words_of == {dt.date(2026, 2, 20): "gone", ON: "active"}
