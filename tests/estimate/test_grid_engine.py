import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, optimize, stats

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


def exact(seen, noise, species, appetite, between, apart, doubt):
    """Mean and sd of every bin by the closed form of one joint normal."""
    seen, noise = np.array(seen), np.array(noise)
    alike = (species[:, None] == species) & (appetite[:, None] == appetite)
    prior = np.diag(between**2 + doubt) + apart**2 * alike + PRIOR.sd_top**2 * (appetite[:, None] == appetite)
    noted = np.isfinite(seen)
    gain = prior[:, noted] @ np.linalg.inv(prior[np.ix_(noted, noted)] + np.diag(noise[noted] ** 2))
    mean = PRIOR.mean + gain @ (seen[noted] - PRIOR.mean)
    return mean, np.sqrt(np.diag(prior - gain @ prior[noted])), prior[np.ix_(noted, noted)] + np.diag(noise[noted] ** 2)


@pytest.mark.parametrize("doubtful", [0.0, 0.5])
@pytest.mark.parametrize(
    ("seen", "noise", "species", "appetite"),
    [
        ([0.6, 0.9, np.nan, np.nan, np.nan], [0.2, 0.4, 1, 1, 1], [0, 0, 0, 1, 2], [1, 1, 1, 1, 2]),
        ([1.7, np.nan, 1.2, 1.1, 0.4, np.nan], [0.1, 1, 0.3, 0.3, 0.8, 1], [0, 0, 1, 1, 2, 2], [0, 0, 0, 0, 0, 0]),
        ([np.nan] * 3, [1.0] * 3, [0, 0, 1], [1, 1, 1]),
        ([1.4] + [np.nan] * 30, [0.05] + [1.0] * 30, [0] * 31, [1] * 31),
    ],
)
def test_normal_notes_are_pooled_as_the_closed_form_says(seen, noise, species, appetite, doubtful):
    grid = np.linspace(-3, 5, 1200)
    log_like = np.array(
        [stats.norm.logpdf(s, grid, n) if np.isfinite(s) else np.zeros(1200) for s, n in zip(seen, noise, strict=True)]
    )
    species, appetite = np.array(species), np.array(appetite)
    doubt = doubtful * np.arange(len(seen)) / len(seen)

    pooled = pool(log_like, grid, species, appetite, PRIOR, doubt)

    mean, sd, covariance = exact(seen, noise, species, appetite, pooled.between, pooled.apart, doubt)
    found = pooled.weight @ grid
    assert found == pytest.approx(mean, abs=1e-3)
    assert np.sqrt(pooled.weight @ grid**2 - found**2) == pytest.approx(sd, rel=2e-3)
    own = np.isfinite(seen) & (np.array(noise) < 0.9)
    assert pooled.own_mean[own] == pytest.approx(np.array(seen)[own], abs=0.01)
    assert pooled.own_sure[own] == pytest.approx(np.array(noise)[own] ** -2.0, rel=0.02)
    assert pooled.own_sure[~np.isfinite(seen)] == pytest.approx(0.0, abs=1e-3)
    noted = np.array(seen)[np.isfinite(seen)]
    whole = stats.multivariate_normal(np.full(len(noted), PRIOR.mean), covariance).logpdf(noted) if len(noted) else 0.0
    assert pooled.evidence == pytest.approx(whole, abs=5e-3)


def test_spans_of_two_bins_are_pooled_nearly_as_the_integral_over_both_says():
    grid = PRIOR.grid(600)
    spans = [(-0.2, np.inf), (-np.inf, 0.5)]
    log_like = np.array([with_slips(span_chance(np.array(a), np.array(b), grid, 0.3), 0.02) for a, b in spans])
    two = np.zeros(2, dtype=np.int64)

    pooled = pool(np.vstack([log_like, np.zeros(600)]), grid, np.zeros(3, dtype=np.int64), np.ones(3, int), PRIOR)

    shared = PRIOR.sd_top**2 + pooled.apart**2
    joint = stats.multivariate_normal(two + PRIOR.mean, shared + pooled.between**2 * np.eye(2))
    points = np.stack(np.meshgrid(grid, grid, indexing="ij"), axis=-1)
    mass = joint.pdf(points) * np.exp(log_like[0][:, None] + log_like[1])
    mass /= mass.sum()
    # The third bin, of which nothing is known, follows the other two.
    pull = shared / (2 * shared + pooled.between**2)
    own = (points - PRIOR.mean).sum(axis=-1) * pull + PRIOR.mean
    mean = (mass * own).sum()
    variance = (mass * (own - mean) ** 2).sum() + shared + pooled.between**2 - 2 * pull * shared
    found = pooled.weight[2] @ grid
    assert found == pytest.approx(mean, abs=0.01)
    assert pooled.weight[2] @ grid**2 - found**2 == pytest.approx(variance, rel=0.02)
    assert pooled.weight[:2] @ grid == pytest.approx([(mass.sum(1) * grid).sum(), (mass.sum(0) * grid).sum()], abs=0.01)


def test_the_learned_spread_of_bins_is_the_most_likely_one_and_bins_without_notes_do_not_sway_it():
    rng = np.random.default_rng(3)
    seen, noise = 1.0 + rng.normal(0, 0.6, 200), 0.3
    grid = np.linspace(-3, 5, 800)
    log_like = stats.norm.logpdf(seen[:, None], grid, noise)
    every = np.zeros(400, dtype=np.int64)

    pooled = pool(np.vstack([log_like, np.zeros((200, 800))]), grid, every, every, PRIOR)

    shared = pooled.apart**2 + PRIOR.sd_top**2

    def less_likely(between):
        covariance = np.diag(np.full(200, between**2 + noise**2)) + shared
        usual = 4 * (np.log(between) + PRIOR.sd_between**2 / between**2 / 2)
        return usual - stats.multivariate_normal(np.full(200, PRIOR.mean), covariance).logpdf(seen)

    wanted = optimize.minimize_scalar(less_likely, bounds=(0.1, 2), method="bounded").x
    assert pooled.between == pytest.approx(wanted, rel=2e-3)
    assert pooled.mean[-1] == pytest.approx(seen.mean(), abs=0.01)


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
