import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from workbook_tools.estimate._grid import RatePrior, climb, discount, pool, span_chance, with_slips

PRIOR = RatePrior(
    mean=1.0,
    sd_top=0.5,
    sd_between=0.3,
    sd_species=0.3,
    sigma=0.3,
    grid_low=-2.0,
    grid_high=4.0,
    outlier=0.0,
    half_life=100.0,
)
ONE = np.zeros(1, dtype=np.int64)


@pytest.mark.parametrize(
    ("low", "high"), [(-1.0, 1.0), (-np.inf, 0.3), (2.0, np.inf), (8.0, 9.0), (-9.0, -8.0), (-np.inf, np.inf)]
)
def test_the_chance_of_a_span_is_the_integral_of_the_density(low, high):
    found = span_chance(np.array(low), np.array(high), np.array(0.5), 0.8)

    wanted, _ = integrate.quad(stats.norm(0.5, 0.8).pdf, low, high, epsabs=0, epsrel=1e-11, limit=200)
    assert found == pytest.approx(wanted, rel=1e-8)


def test_an_empty_span_has_no_chance():
    assert span_chance(np.array(2.0), np.array(1.0), np.array(1.5), 1.0) == 0.0


def test_one_slip_cannot_outweigh_the_rest():
    worst, best = with_slips(np.array([0.0, 1.0]), 0.05)

    assert best - worst < np.log(1 / 0.0125) + 1e-9
    assert np.isfinite(worst)


def test_a_note_of_one_half_life_ago_counts_half_and_one_of_tomorrow_whole():
    assert discount(np.array([0.0, 100.0, -1.0]), 100.0) == pytest.approx([1.0, 0.5, 1.0])


def test_the_posterior_of_a_lone_bin_is_the_one_by_quadrature():
    grid = PRIOR.grid(400)
    spans = [(0.2, 0.9), (0.5, np.inf), (-np.inf, 1.1)]
    log_like = sum(with_slips(span_chance(np.array(a), np.array(b), grid, 0.3), 0.02) for a, b in spans)

    pooled = pool(log_like[None], grid, ONE, ONE, PRIOR)

    def density(u):
        each = [0.98 * (stats.norm.cdf((b - u) / 0.3) - stats.norm.cdf((a - u) / 0.3)) + 0.005 for a, b in spans]
        return np.prod(each) * stats.norm.pdf(u, pooled.mean[0], pooled.sd[0])

    total, _ = integrate.quad(density, -2, 4, limit=200)
    mean, _ = integrate.quad(lambda u: u * density(u) / total, -2, 4, limit=200)
    assert pooled.weight @ grid == pytest.approx([mean], abs=1e-6)
    assert pooled.evidence == pytest.approx(np.log(total), abs=1e-3)


def test_a_bin_without_notes_leans_on_its_species_and_a_strange_species_less():
    grid = PRIOR.grid(300)
    fast = with_slips(span_chance(np.array(-0.6), np.array(-0.4), grid, 0.3), 0.01) * 20
    log_like = np.vstack([fast] * 6 + [np.zeros(300)] * 3)
    species = np.array([0] * 6 + [0, 1, 2])
    appetite = np.array([1] * 8 + [0])

    mean = pool(log_like, grid, species, appetite, PRIOR).weight @ grid

    assert mean[0] < mean[6] + 0.2
    assert mean[6] < mean[7] < mean[8] < 1.05


def test_no_bin_gives_nothing():
    none = np.zeros(0, dtype=np.int64)

    assert pool(np.zeros((0, 50)), PRIOR.grid(50), none, none, PRIOR).weight.shape == (0, 50)


def test_a_nan_is_refused_and_so_is_an_unknown_appetite():
    grid = PRIOR.grid(10)
    with pytest.raises(ValueError, match="finite"):
        pool(np.full((1, 10), np.nan), grid, ONE, ONE, PRIOR)
    with pytest.raises(ValueError, match="appetite"):
        pool(np.zeros((1, 10)), grid, ONE, np.array([3]), PRIOR)


@given(st.lists(st.tuples(st.floats(-5, 5), st.floats(0.01, 8), st.integers(0, 60)), min_size=1, max_size=8))
def test_whatever_is_seen_the_weights_are_a_distribution(notes):
    grid = PRIOR.grid(80)
    rows = [count * with_slips(span_chance(np.array(a), np.array(a + w), grid, 0.3), 0.0) for a, w, count in notes]
    bins = np.arange(len(rows))

    weight = pool(np.vstack(rows), grid, bins % 3, bins % 3, PRIOR).weight

    assert np.isfinite(weight).all() and (weight >= 0).all()
    assert weight.sum(axis=1) == pytest.approx(np.ones(len(rows)))


def test_climbing_finds_the_top_and_keeps_off_what_is_not_allowed():
    def hill(place):
        return -((place[0] - 0.7) ** 2) - (place[1] + 0.4) ** 2 if place[0] < 0.5 else float("nan")

    place, best = climb(hill, [0.0, 0.0], [0.2, 0.2], halvings=5)

    assert place == pytest.approx([0.5, -0.4], abs=0.06)
    assert np.isfinite(best)


def test_climbing_from_a_place_without_a_score_fails_loudly():
    with pytest.raises(ValueError, match="can't start"):
        climb(lambda place: float("nan"), [0.0], [1.0])
