import datetime as dt

import pytest

from tools.rows import amount, bin_row, log_row, number, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.plan.estimates import numbers_and_eating
from workbook_tools.plan.learned.food import eaters_of, fed_of, food_swings, forecast_food
from workbook_tools.plan.learned.frame import Frame
from workbook_tools.plan.learned.numbers import numbers_of

ON = dt.date(2026, 3, 31)
OLD = bin_row("A", started="2025-01-01", founders=number(60))


def ago(days):
    return (ON - dt.timedelta(days=days)).isoformat()


def forecast(*rows):
    frame = Frame.of(build_ledger([OLD, *rows], settings(), on=ON)[0], ON)
    return {one.kind: one for one in forecast_food(frame, fed_of(frame, numbers_of(frame))).get("A", ())}


def fed(grams, word, food="flakes", times=12):
    rows = []
    for n in range(times, 0, -1):
        rows.append(log_row(ago(4 * n), "A", food=food, amount=amount(grams, "g")))
        rows.append(log_row(ago(4 * n - 1), "A", leftovers=words(word)))
    return rows


def test_all_gone_asks_for_more_and_much_left_for_less_but_never_twice_or_half():
    gone, most = forecast(*fed(1.0, "gone"))["dry"], forecast(*fed(1.0, "most"))["dry"]
    assert gone.portion > 1.0 > most.portion
    assert gone.portion <= 2.0
    assert most.portion >= 0.5
    assert most.limited == -1
    assert most.wanted < 0.5
    assert (gone.last_grams, gone.last_food, gone.left, gone.basis.notes) == (1.0, "flakes", "gone", 12)
    assert gone.last_day == ON - dt.timedelta(days=4)


def test_simple_reckoning_is_the_mean_of_the_last_three():
    rows = [*fed(1.0, "gone", times=2), *fed(0.4, "gone", times=1)]
    assert "dry" in forecast(*rows)
    assert forecast(*fed(1.0, "gone", times=3))["dry"].simple == pytest.approx(1.0)
    assert forecast(*fed(1.0, "some", times=3))["dry"].simple == pytest.approx(0.7)
    assert forecast(*fed(1.0, "gone", times=2))["dry"].simple is None


def test_fresh_and_dry_food_are_kept_apart():
    made = forecast(*fed(8.0, "some", "courgette"), *fed(0.5, "some"))
    assert made["fresh"].a_day.middle > 4 * made["dry"].a_day.middle
    assert forecast() == {}


def test_food_given_by_no_weight_has_no_last_portion_to_keep_to():
    one = forecast(log_row(ago(3), "A", food="carrot"))["fresh"]
    assert (one.last_grams, one.limited, one.basis.notes) == (None, 0, 0)
    assert one.portion > 0


def colonies(counted, grams):
    """Bins of one species: those counted hold a hundred each; the last one was never counted. All eat some of it."""
    names = [f"B{i}" for i in range(counted + 1)]
    rows = [bin_row(name, at=i + 2, species="Porcellio scaber") for i, name in enumerate(names)]
    rows += [log_row(ago(60), name, "count", number=number(100), way="full sort") for name in names[:-1]]
    for n in range(20, 0, -1):
        for name in names:
            given = grams if name == names[-1] else 1.0
            rows.append(log_row(ago(3 * n), name, food="flakes", amount=amount(given, "g")))
            rows.append(log_row(ago(3 * n - 1), name, leftovers=words("some")))
    frame = Frame.of(build_ledger(rows, settings(), on=ON)[0], ON)
    return frame, *numbers_and_eating(frame)


def test_a_bin_never_counted_is_thought_larger_the_more_it_eats():
    found = [float(colonies(6, grams)[1].now[-1]) for grams in (0.3, 1.0, 3.0)]
    assert found[0] < 0.8 * found[1]
    assert found[2] > 1.25 * found[1]


def test_eating_narrows_what_a_bin_never_counted_may_hold_and_hardly_moves_one_well_counted():
    frame, numbers, _ = colonies(6, 3.0)
    before = numbers_of(frame)
    assert numbers.error[-1] < 0.9 * before.error[-1]
    assert numbers.now[:-1] == pytest.approx(before.now[:-1], rel=0.1)
    assert numbers.population.by_eating.all()
    assert not numbers.population.counted[-1]
    assert numbers.population.notes[-1] == 0


def test_without_food_numbers_are_those_counted():
    frame = Frame.of(build_ledger([OLD], settings(), on=ON)[0], ON)
    counted = numbers_of(frame)
    assert eaters_of(frame, fed_of(frame, counted), counted).bin.size == 0
    numbers, _ = numbers_and_eating(frame)
    assert numbers.now == pytest.approx(counted.now)
    assert not numbers.population.by_eating.any()


def room(bins, word, since=12):
    """Bins fed a gram every third day for two months: some left as a rule, ``word`` in the last days."""
    names = [f"B{i}" for i in range(bins)]
    rows = [bin_row(name, at=i + 2, species="Porcellio scaber") for i, name in enumerate(names)]
    for n in range(20, 0, -1):
        for name in names:
            rows.append(log_row(ago(3 * n), name, food="flakes", amount=amount(1.0, "g")))
            rows.append(log_row(ago(3 * n - 1), name, leftovers=words(word if 3 * n <= since else "some")))
    frame = Frame.of(build_ledger(rows, settings(), on=ON)[0], ON)
    return food_swings(frame, fed_of(frame, numbers_of(frame)))


def test_it_is_told_when_all_bins_eat_less_or_more_than_usual():
    (less,) = room(8, "most")
    assert less.kind == "dry"
    assert less.share < -0.3
    assert ON - dt.timedelta(days=20) <= less.since <= ON - dt.timedelta(days=4)
    (more,) = room(8, "gone")
    assert more.share > 0.3


@pytest.mark.parametrize(("bins", "word"), [(8, "some"), (4, "most")])
def test_no_swing_is_told_of_steady_eaters_or_of_few(bins, word):
    assert room(bins, word) == ()


def test_a_bin_split_off_begins_with_the_appetite_its_parent_showed():
    def eaten(source):
        came = {"from_bin": source} if source else {}
        rows = [
            bin_row("B", started="2025-01-01", founders=number(60)),
            bin_row("C", started=ago(10)),
            *(log_row(ago(days), "A+B", "count", number=number(120), way="full sort") for days in (200, 100, 30)),
            *fed(2.0, "gone"),
            *(row for n in range(12, 0, -1) for row in (
                log_row(ago(4 * n), "B", food="flakes", amount=amount(0.3, "g")),
                log_row(ago(4 * n - 1), "B", leftovers=words("most")),
            )),
            log_row(ago(10), "C", "animals_in", number=number(60), **came),
            log_row(ago(1), "C", food="flakes", amount=amount(0.3, "g")),
        ]  # fmt: skip
        frame = Frame.of(build_ledger([OLD, *rows], settings(), on=ON)[0], ON)
        return forecast_food(frame, fed_of(frame, numbers_of(frame)))["C"][0]

    of_hearty, of_dainty, of_none = eaten("A"), eaten("B"), eaten("")
    assert of_hearty.a_day.middle > 1.3 * of_none.a_day.middle
    assert of_dainty.a_day.middle < of_none.a_day.middle / 1.3
    assert of_hearty.basis.said == "learned from A, which it was split off, not yet here"
