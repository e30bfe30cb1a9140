import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tools.rows import amount, bin_row, day, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.changes import MONTH_DAYS, next_changes, substrate_changes
from workbook_tools.plan.history import History
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 10)
MEDIUM = dt.timedelta(days=round(14 * MONTH_DAYS))


def ledger_of(*rows):
    return build_ledger([*rows], settings(), on=ON)[0]


def nxt(*rows, log_begins="2019-01-01"):
    """The next change of A1, in a workbook whose log begins on some day."""
    rows = [*rows, bin_row("Z9"), log_row(log_begins, "Z9", "water")]
    ledger = ledger_of(*rows)
    found = next_changes(History.of(ledger, ON), substrate_changes(ledger), Rhythm(), Wording())
    return {change.bin: change for change in found}["A1"]


def changed(when, **fields):
    return log_row(when, "A1", "substrate_change", **fields)


def test_changes_are_listed_by_bin_and_date_with_way_share_and_where_the_old_went():
    ledger = ledger_of(
        bin_row("B1"),
        bin_row("A1"),
        changed("2026-02-01", share=amount(1 / 3, "share"), way="one side", old_went="straggler tub"),
        changed("2025-10-01"),
        log_row("2026-01-01", "B1", "substrate_change", share=amount(50, "percent")),
    )
    found = substrate_changes(ledger)
    assert [(change.bin, change.when_first.isoformat()) for change in found] == [
        ("B1", "2026-01-01"),
        ("A1", "2025-10-01"),
        ("A1", "2026-02-01"),
    ]
    assert [change.share for change in found] == [0.5, None, pytest.approx(1 / 3)]
    assert (found[2].way, found[2].old_went) == ("one side", "straggler tub")


def test_change_named_whole_has_that_share():
    ledger = ledger_of(bin_row("A1"), changed("2026-02-01", way="full change"), changed("2026-02-20", way="part of it"))
    assert [change.share for change in substrate_changes(ledger)] == [1.0, None]


def test_date_of_the_list_that_a_logged_change_falls_into_is_the_same_change():
    listed = bin_row("A1", last_substrate_change=day("2026-02"))
    assert len(substrate_changes(ledger_of(listed, changed("2026-02-11")))) == 1
    assert len(substrate_changes(ledger_of(listed, changed("2026-01-11")))) == 2


@pytest.mark.parametrize(("appetite", "months"), [("slow", 18), ("medium", 14), ("hearty", 9)])
def test_next_change_is_the_life_for_the_appetite_after_the_last(appetite, months):
    found = nxt(bin_row("A1", appetite=words(appetite)), changed("2025-06-01", share=amount(1, "share")))
    assert found.due == dt.date(2025, 6, 1) + dt.timedelta(days=round(months * MONTH_DAYS))
    assert found.last == dt.date(2025, 6, 1)
    assert found.why.startswith("All changed 1 Jun 2025; it lasts about")


def test_without_a_change_it_counts_from_the_start():
    found = nxt(bin_row("A1", started="2025-06-01"))
    assert found.due == dt.date(2025, 6, 1) + MEDIUM
    assert "No change logged since it was set up 1 Jun 2025" in found.why
    assert "no appetite is given" in found.why


def test_part_change_takes_that_part_off_the_age():
    found = nxt(bin_row("A1", started="2025-06-01"), changed("2025-12-28", share=amount(0.5, "share")))
    age = (dt.date(2025, 12, 28) - dt.date(2025, 6, 1)).days / 2
    assert found.due == dt.date(2025, 12, 28) + dt.timedelta(days=round(14 * MONTH_DAYS - age))
    assert "takes 50 % off its age" in found.why


def test_part_change_of_worn_out_substrate_gives_that_part_of_a_life():
    found = nxt(bin_row("A1", started="2020-01-01"), changed("2026-03-01", share=amount(0.25, "share")))
    assert (found.due - dt.date(2026, 3, 1)).days == round(14 * MONTH_DAYS * 0.25)


def test_change_in_part_without_a_share_counts_as_a_third():
    a_third = nxt(bin_row("A1", started="2025-06-01"), changed("2025-12-28", share=amount(1 / 3, "share")))
    part = nxt(bin_row("A1", started="2025-06-01"), changed("2025-12-28", way="partly"))
    assert part.due == a_third.due
    assert "taken as a third" in part.why


def test_substrate_seen_worn_out_is_due_from_that_day():
    rows = [bin_row("A1", started="2026-01-01")]
    seen = log_row("2026-03-05", "A1", "substrate_look", substrate=words("spent"), at=8)
    found = nxt(*rows, seen)
    assert found.due == dt.date(2026, 3, 5)
    assert found.why == "Found spent 5 Mar 2026; no change is logged since."
    assert [str(cell) for cell in found.rests_on] == ["Log!8"]
    assert nxt(*rows, seen, changed("2026-03-06")).due > ON


@pytest.mark.parametrize("seen", ["spent", "mostly frass"])
def test_change_on_the_day_of_the_look_or_later_answers_it(seen):
    look = log_row("2026-03-05", "A1", "substrate_look", substrate=words(seen))
    for when, share in (("2026-03-05", 1), ("2026-03-05", 2 / 3), ("2026-03-06", 1 / 3)):
        found = nxt(bin_row("A1", started="2025-03-01"), look, changed(when, share=amount(share, "share")))
        due = dt.date.fromisoformat(when) + dt.timedelta(days=round(14 * MONTH_DAYS * share))
        assert abs((found.due - due).days) <= 1
        assert ("as worn out as it was found" in found.why) is (share < 1)
    both = log_row("2026-03-05", "A1", "substrate_look+substrate_change", substrate=words(seen))
    assert nxt(bin_row("A1", started="2025-03-01"), both).due == dt.date(2026, 3, 5) + MEDIUM
    before = changed("2026-03-04", share=amount(1, "share"))
    assert nxt(bin_row("A1", started="2025-03-01"), before, look).due == dt.date(2026, 3, 5)


def test_start_known_to_its_month_is_said():
    found = nxt(bin_row("A1", started=day("2025-09")))
    assert "set up September 2025 (counted from its first day)" in found.why
    assert "set up March 2022 (counted" in nxt(bin_row("A1", started=day("2022-03")), log_begins="2025-01-01").why


def test_substrate_seen_good_when_it_should_be_spent_is_put_off():
    found = nxt(
        bin_row("A1", started="2024-01-01"), log_row("2026-03-05", "A1", "substrate_look", substrate=words("good"))
    )
    assert found.due == dt.date(2026, 5, 4)


@pytest.mark.parametrize("status", ["gone", "resting", "straggler tub"])
def test_none_is_expected_for_a_bin_set_aside(status):
    found = nxt(bin_row("A1", started="2020-01-01", status=words(status)))
    assert found.due is None
    assert status in found.why


def test_start_long_before_the_log_tells_nothing():
    old = bin_row("A1", started="2022-01-01")
    found = nxt(old, log_begins="2025-01-01")
    assert found.due is None
    assert found.why == ("Not known: it was set up 1 Jan 2022, your log begins 1 Jan 2025, and no change is logged.")
    assert nxt(old, log_begins="2023-01-01").due == dt.date(2022, 1, 1) + MEDIUM


def test_nothing_known_is_said():
    found = nxt(bin_row("A1"))
    assert found.due is None
    assert found.why.startswith("Not known")


def test_change_to_come_is_not_used():
    assert nxt(bin_row("A1", started="2025-06-01"), changed("2027-01-01")).due == dt.date(2025, 6, 1) + MEDIUM


@given(st.floats(0.05, 1), st.integers(0, 400))
def test_a_change_puts_the_next_one_off_and_never_past_a_whole_life(share, ago):
    start = bin_row("A1", started="2024-06-01")
    when = ON - dt.timedelta(days=ago)
    before = nxt(start).due
    after = nxt(start, changed(when.isoformat(), share=amount(share, "share"))).due
    assert after >= min(before, when)
    assert after <= when + MEDIUM


def test_a_list_that_says_the_substrate_is_spent_makes_a_change_due_until_a_look_is_logged():
    assert nxt(bin_row("A1", substrate=words("spent"))).due == ON
    assert nxt(bin_row("A1", substrate=words("good"))).due is None
    looked = log_row("2026-03-01", "A1", "substrate_look", substrate=words("good"))
    assert nxt(bin_row("A1", substrate=words("spent")), looked).due is None


def test_a_bin_split_off_counts_with_the_age_of_the_old_substrate_in_it():
    parent = bin_row("P1", started="2025-03-01", species="Oniscus asellus", appetite=words("medium"))
    split = log_row("2025-12-01", "P1", "split", to_bin="A1")
    old = nxt(parent, bin_row("A1"), split)
    age = 0.4 * (dt.date(2025, 12, 1) - dt.date(2025, 3, 1)).days
    assert old.due == dt.date(2025, 12, 1) + dt.timedelta(days=round(14 * MONTH_DAYS - age))
    assert (
        "with old substrate of P1 in it, taken as 40 %; it lasts about 14 months with medium eaters (as P1" in old.why
    )
    before = log_row("2025-11-01", "P1", "substrate_change", share=amount(1, "share"))
    assert nxt(parent, bin_row("A1"), before, split).due == old.due + dt.timedelta(
        days=round(0.4 * (dt.date(2025, 11, 1) - dt.date(2025, 3, 1)).days)
    )
    fresh = log_row("2025-12-01", "P1", "split", to_bin="A1", note="fresh substrate for the new one")
    assert nxt(parent, bin_row("A1"), fresh).due == dt.date(2025, 12, 1) + MEDIUM


def test_old_substrate_is_gone_with_a_full_change():
    parent = bin_row("P1", started="2025-01-01")
    split = log_row("2025-12-01", "P1", "split", to_bin="A1")
    assert nxt(parent, bin_row("A1"), split, changed("2026-02-01", share=amount(1, "share"))).due == (
        dt.date(2026, 2, 1) + MEDIUM
    )
