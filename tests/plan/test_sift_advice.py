import pytest

from workbook_tools.estimate.sifting import sift_left
from workbook_tools.plan.sift_advice import BOUND, Next, advise, probably_empty

NEVER = ("safe", "cleared", "compliant", "certain", "guarantee", "is empty", "none is left in it")
EMPTY_TEN = (0,) * 10


def advised(catches, trap=(), minutes=(), days=None):
    return advise(sift_left(catches, trap), minutes, days)


@pytest.mark.parametrize(
    ("catches", "trap"),
    [
        ((41, 22, 9, 4), ()),
        ((5, 7, 8), ()),
        ((10, 0, 0), ()),
        ((0, 0, 0), ()),
        ((3,), ()),
        ((41, 22, 9, 4, 0), EMPTY_TEN * 6),
        ((41, 22, 9, 4, 0), (4, 2, 1, *EMPTY_TEN, *EMPTY_TEN)),
        ((), (0, 0)),
    ],
)
def test_what_is_left_is_a_lower_bound_and_nothing_is_cleared(catches, trap):
    advice = advised(catches, trap)

    assert advice.bound == BOUND
    assert "likely lower bound" in advice.paragraph and "your decision" in advice.paragraph
    assert not [word for word in NEVER if word in advice.paragraph]
    assert advice.say and advice.reason


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


def test_silence_of_a_trap_that_never_caught_is_called_worth_little():
    left = sift_left((41, 22, 9, 4, 0, 0, 0, 0), (0,) * 200)
    advice = advise(left)

    assert not probably_empty(left)
    assert advice.act is Next.KEEP
    assert "proves little" in advice.reason
    assert "chance that none is left" not in advice.found


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
