import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from workbook_tools.estimate.drying import Visits, fit_drying

DRY, DRYING, DAMP, WET, SOAKED = range(5)
SEVEN = 7.0


def visits(rows, **more):
    """Rows of (bin, day, state, days since watering)."""
    columns = [np.array(part) for part in zip(*rows, strict=True)] if rows else [np.zeros(0)] * 4
    bin_of, day, state = (part.astype(np.int64) for part in columns[:3])
    return Visits(bin_of, day, state, columns[3].astype(float), **more)


def fit(seen, bins=1, now=400, **more):
    which = np.zeros(bins, dtype=np.int64)
    return fit_drying(seen, bins=bins, airing=more.pop("airing", which + 1), now=now, **more)


def kept(usual, *, gap, many, chance, bins=12, scatter=0.2, forget=0.0):
    """A log of bins that dry in ``usual`` days, looked at every ``gap`` days; watered when dry or drying."""
    rows = []
    for which in range(bins):
        day, watered, logged = 0, 0, 0
        dry_in = usual[which] * np.exp(scatter * chance.normal())
        for _ in range(many):
            day += int(chance.integers(1, 2 * gap))
            share = (day - watered) / dry_in
            state = DRY if share >= 1 else DRYING if share > 0.66 else DAMP if share > 0.38 else WET
            rows.append((which, day, state, day - logged))
            if state <= DRYING:
                watered, dry_in = day, usual[which] * np.exp(scatter * chance.normal())
                logged = logged if chance.random() < forget else day
    return visits(rows)


def test_the_days_to_dry_are_found_for_quick_and_slow_bins():
    chance = np.random.default_rng(11)
    usual = np.geomspace(2.5, 11, 12)
    seen = kept(usual, gap=2, many=90, chance=chance)

    drying = fit(seen, 12, now=int(seen.day.max()))

    assert np.abs(np.log(drying.quantile(0.5) / usual)).max() < 0.2
    assert drying.rates.sigma == pytest.approx(0.22, abs=0.06)
    dry_days = usual * np.exp(0.2 * chance.normal(size=(400, 12)))
    inside = (dry_days > drying.quantile(0.1)) & (dry_days < drying.quantile(0.9))
    assert 0.74 < inside.mean() < 0.92
    after = drying.next_check(risk=0.1, ceiling=np.full(12, SEVEN)).after
    assert (dry_days < after).mean(axis=0).max() < 0.15


def test_waterings_nobody_logged_do_not_make_the_moss_slow():
    chance = np.random.default_rng(12)
    usual = np.full(12, 5.0)
    seen = kept(usual, gap=2, many=120, chance=chance, forget=0.25)

    drying = fit(seen, 12, now=int(seen.day.max()))

    assert drying.missed > 0.01
    assert np.abs(np.log(drying.quantile(0.5) / usual)).max() < 0.3


def test_without_a_look_it_is_the_prior_and_the_ceiling_holds():
    drying = fit(visits([]), 2)
    checks = drying.next_check(risk=0.1, ceiling=np.array([7.0, 1.0]))

    assert drying.quantile(0.5) == pytest.approx([7.0, 7.0], rel=0.05)
    assert (checks.after >= 1).all() and checks.after[1] == 1
    assert not drying.too_wet.any()


def test_one_look_moves_it_a_little():
    slow = fit(visits([(0, 390, WET, 6)])).quantile(0.5)
    quick = fit(visits([(0, 390, DRY, 1)])).quantile(0.5)

    assert quick < 7.0 < slow
    assert np.isfinite([quick, slow]).all()


def test_dry_the_day_after_soaking_eight_times_is_a_quick_bin_checked_every_day():
    rows = [(0, 2 * turn + 1, DRY, 1) for turn in range(8)]

    drying = fit(visits(rows), now=20)

    assert 0.5 < drying.quantile(0.5)[0] < 3.0
    assert drying.next_check(risk=0.1, ceiling=np.full(1, SEVEN)).after == [1]


def test_never_seen_dry_is_slow_but_still_looked_at_by_the_ceiling():
    rows = [(0, 30 * turn + 6, WET, 6) for turn in range(12)]

    checks = fit(visits(rows)).next_check(risk=0.1, ceiling=np.full(1, SEVEN))

    assert checks.after == [7] and checks.by_ceiling == [True]
    assert checks.high[0] < 200


def test_a_look_since_the_watering_moves_the_next_check():
    drying = fit(visits([]), 4)
    state = np.array([-1, DAMP, WET, DRY])
    checks = drying.next_check(risk=0.1, ceiling=np.full(4, SEVEN), state=state, since=np.array([0.0, 4.0, 4.0, 4.0]))

    assert checks.after[0] < checks.after[1] <= checks.after[2] <= 11
    assert checks.after[3] == 4
    assert (checks.low < checks.middle).all() and (checks.middle < checks.high).all()
    assert checks.low[1] > 4.0


def test_the_chance_dry_at_the_check_is_the_risk_when_days_are_not_rounded():
    """Against drawn times to dry, kept where they agree with the look."""
    chance = np.random.default_rng(4)
    drying = fit(visits([]))
    rates = drying.rates
    times = np.exp(chance.choice(rates.grid, 400_000, p=rates.weight[0]) + rates.sigma * chance.normal(size=400_000))
    # Drawn from the prior and kept where they agree with the look; the engine is given the look as its only note.
    agreeing = times[(times > 4 * drying.drying) & (times <= 4 * drying.damp)]
    seen = fit(visits([(0, 400, DAMP, 4)]))
    checks = seen.next_check(risk=0.1, ceiling=np.full(1, 90.0), state=np.array([DAMP]), since=np.array([4.0]))

    assert checks.middle[0] == pytest.approx(np.median(agreeing), rel=0.05)
    assert checks.low[0] == pytest.approx(np.quantile(agreeing, 0.1), rel=0.05)


def test_on_a_clock_a_dry_room_brings_the_check_forward():
    rows = [(0, 9 * turn + 5, DRYING, 5) for turn in range(20)]
    seen = visits(rows, clock=np.full(20, 5.0))

    calm = fit(seen, now=190, pace=np.array([1.0]))
    heated = fit(seen, now=190, pace=np.array([2.0]))

    """Twice the thirst of the air, but the substrate draws a quarter of the water, whatever the air."""
    assert heated.quantile(0.5) == pytest.approx(calm.quantile(0.5) / (0.26 + 0.74 * 2))


def test_without_room_readings_the_interval_is_wider_until_a_year_was_seen():
    """The same looks ten days apart and ten weeks apart, and with readings."""
    soon, long = (visits([(0, 400 - apart * turn, DRYING, 5) for turn in range(7)]) for apart in (10, 63))
    read = visits([(0, 400 - 10 * turn, DRYING, 5) for turn in range(7)], clock=np.full(7, 5.0))

    assert fit(soon).rates.sigma > fit(long).rates.sigma + 0.05
    assert fit(long).rates.sigma == pytest.approx(fit(read).rates.sigma)


def test_bins_aired_alike_lean_on_each_other():
    rows = [(which, 7 * turn + 2, DRY, 2) for which in range(4) for turn in range(15)]
    airing = np.array([2, 2, 2, 2, 2, 0, 1, -1])

    days = fit(visits(rows), 8, now=110, airing=airing).quantile(0.5)

    assert days[:5].max() < 3.0
    assert 12 < days[5] < 16 and 6 < days[6] < 8 and 6 < days[7] < 8


def test_soaked_or_a_running_lid_is_too_wet_until_a_later_look_says_otherwise():
    rows = [(0, 5, SOAKED, 3), (1, 5, SOAKED, 3), (1, 9, DAMP, 7), (2, 5, DAMP, 3)]
    seen = visits(rows, condensation=np.array([False, False, False, True]))

    assert fit(seen, 4).too_wet.tolist() == [True, False, True, False]


def test_looks_later_than_now_are_not_known_yet():
    rows = [(0, day, WET, 6) for day in range(10, 100, 10)]

    assert fit(visits(rows), now=5).quantile(0.5) == pytest.approx(fit(visits([])).quantile(0.5))


looks = st.tuples(
    st.integers(0, 3), st.integers(0, 400), st.integers(-1, 4), st.one_of(st.just(float("nan")), st.floats(-3, 500))
)


@settings(max_examples=40, deadline=None)
@given(st.lists(looks, max_size=14))
def test_no_look_whatever_gives_a_nan_or_a_check_beyond_the_ceiling(rows):
    drying = fit(visits(rows), 4, size=60)
    checks = drying.next_check(risk=0.1, ceiling=np.full(4, SEVEN))

    assert np.isfinite([checks.low, checks.middle, checks.high, drying.rates.notes]).all()
    assert ((checks.after >= 1) & (checks.after <= 7)).all()
    assert (checks.low > 0).all()
    assert drying.damp >= 1.15 * drying.drying
