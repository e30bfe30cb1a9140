import pytest

from workbook_tools.estimate.sifting import sift_left
from workbook_tools.plan.sift_advice import BOUND, Next, advise, probably_empty

NEVER = ("safe", "cleared", "compliant", "certain", "guarantee", "is empty", "none is left in it")
EMPTY_TEN = (0,) * 10


def advised(catches, trap=(), minutes=(), days=None, every=None):
    return advise(sift_left(catches, trap), minutes, days, every)


@pytest.mark.parametrize(
    ("catches", "trap"),
    [
        ((41, 22, 9, 4), ()),
        ((5, 7, 8), ()),
        ((10, 0, 0), ()),
        ((9,), ()),
        ((41, 22, 9, 4, 0), EMPTY_TEN * 6),
        ((41, 22, 9, 4, 0), (4, 2, 1, *EMPTY_TEN, *EMPTY_TEN)),
    ],
)
def test_what_is_left_is_a_lower_bound_and_nothing_is_cleared(catches, trap):
    advice = advised(catches, trap)

    assert advice.bound == BOUND
    assert "likely lower bound" in advice.paragraph and "your decision" in advice.paragraph
    assert not [word for word in NEVER if word in advice.paragraph]
    assert advice.say and advice.reason


@pytest.mark.parametrize(("catches", "trap"), [((0, 0, 0), ()), ((0,), EMPTY_TEN), ((), (0, 0)), ((0, 0), (0,) * 40)])
def test_no_lower_bound_is_spoken_of_where_no_number_is_given(catches, trap):
    advice = advised(catches, trap)

    assert "no upper limit" in advice.found and "lower bound" not in advice.paragraph
    assert "Tiny young" in advice.bound and "your decision" in advice.bound
    assert not [word for word in NEVER if word in advice.paragraph]


def test_one_more_is_not_several():
    assert "1 more are" not in " ".join(advised((n,)).found for n in range(1, 12))
    assert any("At least 1 more is likely" in advised((n,)).found for n in range(1, 12))


def test_another_pass_while_it_should_find_something():
    advice = advised((41, 22, 9, 4))

    assert advice.act is Next.PASS
    assert "should find about 3" in advice.reason


def test_the_straggler_corner_when_another_pass_would_hardly_find_any():
    advice = advised((10, 0, 0))

    assert advice.act is Next.TRAP
    assert "fewer than 1" in advice.reason and "straggler corner" in advice.say


def test_no_fall_is_no_upper_limit():
    advice = advised((5, 7, 8))

    assert "no upper limit" in advice.found and "don't clearly fall" in advice.found
    assert advice.act is Next.PASS


def test_one_pass_shows_no_fall():
    advice = advised((3,))

    assert "one pass can't show" in advice.found and advice.act is Next.PASS


def test_nothing_found_tells_nothing_of_how_well_animals_are_found():
    advice = advised((0, 0, 0))

    assert "no upper limit" in advice.found and advice.act is Next.TRAP


def test_hands_leave_off_after_many_passes():
    assert advised((50, 45, 42, 40, 36, 33, 30)).act is Next.PASS
    assert advised((50, 45, 42, 40, 36, 33, 30, 28)).act is Next.TRAP


@pytest.mark.parametrize(("checks", "act"), [(2, Next.KEEP), (9, Next.KEEP), (10, Next.DECIDE), (200, Next.DECIDE)])
def test_silence_of_a_trap_that_never_caught_proves_little_and_can_end(checks, act):
    left = sift_left((41, 22, 9, 4, 0, 0, 0, 0), (0,) * checks)
    advice = advise(left)

    assert not probably_empty(left)
    assert advice.act is act
    assert "proves little" in advice.reason and "your decision" in advice.say
    assert "chance that none is left" not in advice.found


def test_silent_trap_is_tried_a_number_of_times_that_is_said():
    advice = advised((40, 0, 0), (0, 0))

    assert advice.more_checks == 8
    assert advice.say == (
        "Trap on with fresh bait or in another spot, 8 more times; whether to stop before that is your decision."
    )


def test_silent_trap_after_passes_that_found_nothing_says_how_many_looks():
    advice = advised((40, 0, 0), EMPTY_TEN)

    assert advice.say == "Stop here, go through it once more by hand, or freeze the lot: that is your decision."
    assert advice.reason.startswith("Nothing was found in the last 12 looks. That proves little: a trap that never")


def test_silent_trap_where_hands_should_find_more_names_the_pass():
    advice = advised((41, 22, 9, 4), EMPTY_TEN)

    assert advice.act is Next.DECIDE and advice.say.startswith("Choose: another pass by hand")
    assert "Another pass by hand should find about" in advice.reason


@pytest.mark.parametrize(
    ("catches", "trap", "looks", "act"),
    [
        ((0, 0), (), 2, Next.TRAP),
        ((0, 0), (0, 0), 4, Next.KEEP),
        ((0, 0, 0), EMPTY_TEN, 13, Next.DECIDE),
        ((), EMPTY_TEN * 3, 30, Next.DECIDE),
    ],
)
def test_where_nothing_is_ever_found_stopping_is_the_keepers_decision(catches, trap, looks, act):
    advice = advised(catches, trap)

    assert advice.act is act
    assert f"nothing was found in {looks} looks, which proves little" in advice.found
    assert "your decision" in advice.say
    assert "Stop only" not in advice.paragraph
    assert advice.paragraph.count("proves little") == 1


# --- what a keeper can finish ---


def test_more_empty_checks_than_a_keeper_would_do_are_a_choice():
    left = sift_left((41, 22, 9, 4), (2, 1, 0, 0))
    advice = advise(left)

    assert left.empty_needed > 20 and left.next_pass >= 1
    assert advice.act is Next.DECIDE and advice.more_checks is None
    assert advice.say == (
        "Choose: another pass by hand, or freeze the lot now and accept what may be left. That is your decision, after "
        "what your permit and the law ask."
    )
    assert advice.reason.startswith(f"It would take {left.empty_needed} more empty checks in a row")
    assert "longer than most would wait" in advice.reason
    assert "Another pass by hand should find about 1." in advice.reason


def test_checks_far_apart_are_a_choice_sooner():
    few = (60, 20, 5, 0, 0), (5, 0, 0, 0)

    assert advised(*few, every=3).act is Next.KEEP
    assert advised(*few, every=9).act is Next.DECIDE
    assert "about 63 days" in advised(*few, every=9).reason
    assert advised(*few, days=27).act is Next.DECIDE, "a check in nine days so far"


@pytest.mark.parametrize("checks", [6, 20, 60])
def test_finds_that_do_not_fall_are_not_trapped_for_ever(checks):
    assert (advised((), (1, 0) * (checks // 2)).act is Next.DECIDE) is (checks >= 20)


def test_nothing_is_to_be_trapped_longer_than_a_keeper_would():
    for catches in ((), (0, 0), (5, 7, 8), (41, 22, 9, 4), (41, 22, 9, 4, 0), (40, 0, 0), (200, 150, 120, 90)):
        for trap in ((0,), (1,), (1, 0, 0), (4, 2, 1, 0, 0), (0,) * 20, (0,) * 20 + (1, 0, 0), (1, 0) * 30):
            advice = advised(catches, trap, every=3)
            assert advice.act is Next.DECIDE or (advice.more_checks or 0) <= 20, (catches, trap)


@pytest.mark.parametrize("empty", [9, 10])
def test_ten_empty_checks_at_least(empty):
    left = sift_left((60, 20, 5, 0, 0), (5, 0) + (0,) * (empty - 1))

    assert left.empty_checks == empty and left.chance_none >= 0.9
    assert probably_empty(left) is (empty == 10)


@pytest.mark.parametrize(("days", "empty"), [(9, False), (10, True)])
def test_ten_days_at_least(days, empty):
    left = sift_left((60, 20, 5, 0, 0), (5, *EMPTY_TEN, *EMPTY_TEN))

    assert probably_empty(left, days) is empty
    assert (advise(left, empty_days=days).act is Next.DECIDE) is empty


def test_a_late_find_after_long_silence_is_not_probably_empty():
    assert not probably_empty(sift_left((), (0,) * 20 + (1,) + (0,) * 12))


def test_probably_empty_leaves_the_decision_to_the_keeper():
    advice = advised((60, 20, 5, 0, 0), (5, *EMPTY_TEN, *EMPTY_TEN))

    assert "Probably empty" in advice.found and "yours to decide" in advice.say and "permit" in advice.say


def test_how_many_more_empty_checks_are_wanted():
    left = sift_left((41, 22, 9, 4, 0), (2, 1, 0, 0))
    advice = advise(left)

    assert advice.act is Next.KEEP
    assert advice.more_checks == max(left.empty_needed, 8)
    assert f"{advice.more_checks} more checks" in advice.say
    assert probably_empty(sift_left((41, 22, 9, 4, 0), (2, 1, 0, 0, *(0,) * advice.more_checks)))


def test_days_that_are_still_wanted_are_said():
    advice = advised((60, 20, 5, 0, 0), (5, *EMPTY_TEN, *EMPTY_TEN), days=4)

    assert "6 more days" in advice.say


def test_minutes_give_the_price_of_a_find():
    assert "about 7 minutes a find" in advised((41, 22, 9, 4), minutes=(20, 20, 20, 20)).reason


def test_passes_of_unlike_length_are_doubted():
    assert "unlike times" not in advised((41, 22, 9, 4), minutes=(20, 20, 20, 20)).found
    assert "unlike times" in advised((41, 22, 9, 4), minutes=(60, 25, 20, 10)).found


@pytest.mark.parametrize("minutes", [(20, 20, 20, 0), (20, 20, 20, float("inf"))])
def test_minutes_that_can_not_be_are_left_out(minutes):
    assert "a find" not in advised((41, 22, 9, 4), minutes=minutes).paragraph


def test_minutes_that_do_not_fit_the_passes_are_left_out():
    assert "unlike" not in advised((41, 22, 9, 4), minutes=(60, 5)).found
