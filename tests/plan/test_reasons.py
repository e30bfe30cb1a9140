import datetime as dt

from tools.rows import bin_row, log_row, settings
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
    return reasons.last_time(KINDS[key], ledger.entries[0], EVERY, Wording(), ON)


def test_last_time_is_said_with_day_interval_and_whose_it_is():
    assert last("moss", "2026-03-03", "water") == (
        "Last watered 3 Mar 2026 (8 days ago); due every 7 days (your setting for Porcellio scaber)."
    )


def test_act_that_only_opened_the_bin_is_named():
    assert last("look", "2026-03-10", "feed").startswith("Last opened 10 Mar 2026 (yesterday; logged: Feed);")
    assert last("look", "2026-03-10", "look").startswith("Last looked over 10 Mar 2026 (yesterday);")


def test_vague_date_is_said_to_count_from_its_first_day():
    why = last("moss", "2026-02", "water")
    assert why.startswith("Last watered 1 Feb 2026 (38 days ago)")
    assert why.endswith("The log says only February 2026, so it counts from the first day of that.")


def test_first_time_names_start_or_first_entry():
    birth = dt.date(2026, 3, 9)
    assert reasons.first_time(birth, True, EVERY, Wording(), new=True) == (
        "Not logged yet for this bin, set up 9 Mar 2026; the first time is after 7 days "
        "(your setting for Porcellio scaber)."
    )
    assert "whose first entry is of 9 Mar 2026; due every 7 days" in reasons.first_time(
        birth, False, EVERY, Wording(), new=False
    )


def test_kind_begun_later_says_from_when_it_counts():
    assert "counted from 9 Mar 2026" in reasons.later_kind(dt.date(2026, 3, 9), EVERY, Wording())


def test_kind_never_logged_is_named():
    assert "'Feed'" in reasons.never_for_any(KINDS["food"])
