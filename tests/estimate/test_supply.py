import numpy as np
import pytest

from workbook_tools.estimate.runout import Exposure
from workbook_tools.estimate.stock import SEEN, Events
from workbook_tools.estimate.substrate import Grazed
from workbook_tools.estimate.supply import Wander, believe, exposure_ahead, sane_exposure

WANDER = Wander(walk=0.1, apart=0.5, species=0.3, between=0.4, reach=3.0)


def supply(bins, sights, appetite=None, history=False, doubt=None, ahead=None):
    bin_of, day, low, high = (np.array(part) for part in zip(*sights, strict=True)) if sights else [np.zeros(0)] * 4
    return believe(
        Grazed(0.9, np.inf),
        Events.of(bin_of.astype(int), day.astype(int), SEEN, low, high, noise=0.05, slip=0.05, jump=0.4),
        usual=np.full(bins, 0.003),
        species=np.zeros(bins, int),
        appetite=np.zeros(bins, int) if appetite is None else np.array(appetite),
        exposure=np.ones((bins, 200)),
        first_day=0,
        started=(np.full(bins, 0.9), np.full(bins, 0.03)),
        ahead=ahead or Exposure(np.ones((bins, 1)), np.zeros((bins, 1))),
        wander=WANDER,
        doubt=doubt,
        history=history,
    )


def test_without_a_sight_the_middle_rate_is_the_usual_one():
    low, middle, high = supply(2, []).rate_quantiles()

    assert middle == pytest.approx([0.003, 0.003], rel=0.02)
    assert (np.log(high / low) > 2 * 1.28 * 0.4).all()


def test_a_bin_never_looked_at_leans_on_its_like_and_on_no_others():
    fast = [(place, 100, 0.1, 0.2) for place in range(6)]
    like = supply(8, fast, appetite=[0] * 7 + [1]).rate_quantiles()[1]

    assert like[6] > 1.5 * 0.003
    assert like[7] == pytest.approx(0.003, rel=0.02)


def test_path_of_the_past_is_kept_only_when_asked_for():
    assert supply(1, [(0, 100, 0.5, 0.6)]).path is None
    path = supply(1, [(0, 100, 0.5, 0.6)], history=True).path

    assert path.shape == (3, 1, 200)
    assert (path[1] <= path[0]).all() and (path[0] <= path[2]).all()
    assert 0.4 < path[0, 0, 100] < 0.7


def test_unknown_numbers_of_animals_are_fifty():
    given = np.array([[np.nan, -1.0, 2.0, np.inf]])

    assert sane_exposure(given, 1.0)[0].tolist() == [0.5, 0.0, 2.0, 0.5]


def test_what_is_to_come_is_as_on_the_last_day_unless_told():
    past = np.array([[1.0, 3.0]])

    assert exposure_ahead(past, None, None, 1.0).daily.tolist() == [[3.0]]
    told = exposure_ahead(past, np.array([[4.0, np.nan]]), np.array([[0.1, np.nan]]), 1.0)
    assert told.daily.tolist() == [[4.0, 0.5]]
    assert told.sd.tolist() == [[0.1, 1.0]]


def test_doubt_of_todays_number_is_doubt_of_the_rate_until_looks_tell_it():
    sights = [(0, day, 0.9 - day / 400 - 0.03, 0.9 - day / 400 + 0.03) for day in range(20, 200, 20)]
    sure, doubtful = (supply(2, sights, doubt=np.full(2, part)).rate_quantiles() for part in (0.0, 0.6))

    wide = np.log(doubtful[2] / doubtful[0]) / np.log(sure[2] / sure[0])
    assert wide[0] == pytest.approx(1.0, abs=0.1)
    assert wide[1] > 1.2


def test_error_ahead_is_what_the_coming_days_add():
    ahead = Exposure(np.ones((1, 2)), np.array([[0.3, 0.5]]))

    assert supply(1, [], ahead=ahead).outlook.exposure.sd == pytest.approx(np.array([[0.0, 0.4]]))
