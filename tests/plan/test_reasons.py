import datetime as dt
from dataclasses import replace

from tools.rows import bin_row, day, log_row, settings
from workbook_tools.defaults import DEFAULTS
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan import reasons
from workbook_tools.plan.care import CARE
from workbook_tools.plan.rhythm import Interval
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 11)
EVERY = Interval(7, "your setting for Porcellio scaber", DEFAULTS["every.moss"])
KINDS = {care.key: care for care in CARE}


def last(key, when, did):
    ledger, _ = build_ledger([bin_row("A1"), log_row(when, "A1", did)], settings(), on=ON)
    return reasons.last_time(KINDS[key], ledger.entries[0], EVERY, Wording())


def test_last_time_is_said_with_day_interval_and_whose_it_is():
    assert last("moss", "2026-03-03", "water") == (
        "Last watered 3 Mar 2026; every 7 days (your setting for Porcellio scaber)."
    )


def test_act_that_only_opened_the_bin_is_named():
    assert last("look", "2026-03-10", "feed").startswith("Last opened 10 Mar 2026 (Feed);")
    assert last("look", "2026-03-10", "look").startswith("Last looked over 10 Mar 2026;")


def test_vague_date_is_said():
    assert last("moss", "2026-02", "water").startswith(
        "Last watered 1 Feb 2026 (your log says only February 2026); every 7 days"
    )


def test_first_time_names_the_start_as_precisely_as_it_is_known():
    assert reasons.first_time(day("2026-03-09"), EVERY, Wording(), new=True) == (
        "Not logged yet; set up 9 Mar 2026; first after 7 days (your setting for Porcellio scaber)."
    )
    assert reasons.first_time(day("2026-03"), EVERY, Wording(), new=False).startswith(
        "Not logged yet; set up March 2026 (counted from its first day); every 7 days"
    )


def test_kind_never_logged_for_a_bin_says_from_when_it_counts():
    since = reasons.KIND_BEGAN.format(day="9 Mar 2026")
    assert reasons.never_here(since, EVERY, Wording()) == (
        "Never logged for this bin; first logged for another 9 Mar 2026; "
        "every 7 days (your setting for Porcellio scaber)."
    )


def test_kind_never_logged_is_named():
    assert "'Feed'" in reasons.never_for_any(KINDS["food"])


def test_a_reason_says_when_what_was_done_is_a_guess():
    ledger, _ = build_ledger([bin_row("A1"), log_row("2026-03-03", "A1", "water")], settings(), on=ON)
    entry = ledger.entries[0]
    did = entry.facts["did"]
    wording = "a splash where it looked the driest to me, by the vent"
    guessed = replace(did, guessed=True, cell=replace(did.cell, value=wording, text=wording))
    said = reasons.last_time(KINDS["moss"], replace(entry, facts={**entry.facts, "did": guessed}), EVERY, Wording())

    assert said.startswith("Last watered 3 Mar 2026 (guessed from 'a splash where it looked the driest to…'); every")
