"""Made-up estimates for tests of the report: every bin of the sample, with the odd cases among them."""

import datetime as dt

from workbook_tools.plan.learned.records import (
    Basis,
    DateRange,
    Estimates,
    FoodForecast,
    LeafForecast,
    MossForecast,
    NumberForecast,
    Point,
    Range,
    SubstrateForecast,
)

LEARNED = Basis(9, True, "learned from 9 notes")
GUESS = Basis(1, False, "common practice, not yet learned here")


def days(on, *ahead):
    """A range of days; None stays None."""
    return DateRange(*(None if day is None else on + dt.timedelta(days=day) for day in ahead))


def path(on, now, slope, width, *, back=26, ahead=16):
    """Weekly points on a straight line, with a band that widens ahead."""
    points = []
    for week in range(-back, ahead + 1):
        middle = max(now + slope * week, 0.0)
        reach = width * (1 + max(week, 0) / 8)
        points.append(Point(on + dt.timedelta(weeks=week), max(middle - reach, 0.0), middle, middle + reach))
    return tuple(points)


def moss(on, name, i, **changes):
    made = {
        "bin": name,
        "basis": LEARNED,
        "days": Range(4.6 + i, 6.2 + i, 8.1 + i),
        "simple": 7.0,
        "watered": on - dt.timedelta(days=3),
        "dry": days(on, i, i + 2, i + 4),
        "next": on + dt.timedelta(days=i - 2),
        "by_ceiling": False,
        "found": "damp",
        "looked": on - dt.timedelta(days=1),
        "too_wet": "",
        "too_wet_where": None,
    }
    return MossForecast(**{**made, **changes})


def food(on, name, i, **changes):
    made = {
        "bin": name,
        "kind": "dry",
        "basis": LEARNED,
        "a_day": Range(0.2 + i / 20, 0.3 + i / 20, 0.45 + i / 20),
        "simple": 0.25,
        "portion": 0.24,
        "wanted": 0.24,
        "limited": 0,
        "last_grams": 0.2,
        "last_food": "pellets",
        "last_day": on - dt.timedelta(days=4),
        "left": "gone",
    }
    return FoodForecast(**{**made, **changes})


def leaf(on, name, i, **changes):
    week = Range(0.1 + i / 50, 0.15 + i / 50, 0.25 + i / 50)
    made = {
        "bin": name,
        "basis": LEARNED,
        "left": Range(0.4, 0.9, 1.3),
        "a_week": week,
        "grams_a_week": Range(week.low * 20, week.middle * 20, week.high * 20),
        "simple": 0.2,
        "runs_out": days(on, 3 * i, 20 + 3 * i, None if i % 2 else 60),
        "next": on + dt.timedelta(days=3 * i),
        "path": path(on, 0.9, -0.05, 0.3),
    }
    return LeafForecast(**{**made, **changes})


def substrate(on, name, i, **changes):
    made = {
        "bin": name,
        "basis": LEARNED,
        "share": Range(0.3, 0.4, 0.52),
        "spent": days(on, 20 * i, 40 * i, None),
        "smallest": 0.5,
        "months": 6.0,
        "simple": on + dt.timedelta(days=90),
        "path": path(on, 0.4, -0.01, 0.1, back=30, ahead=48),
    }
    return SubstrateForecast(**{**made, **changes})


def numbers(on, name, i, **changes):
    made = {
        "bin": name,
        "basis": LEARNED,
        "now": Range(90.0, 180.0 + i, 330.0),
        "growth": Range(0.02, 0.08, 0.15),
        "doubles": days(on, 150, 260, None),
        "crowding": None,
        "crowded": None,
        "already": False,
        "last_count": 45.0,
        "last_day": on - dt.timedelta(days=40),
        "last_method": "hide lift",
        "counted": True,
        "path": path(on, 180.0, 2.0, 60.0, back=40, ahead=26),
    }
    return NumberForecast(**{**made, **changes})


def estimates(on, names):
    """Estimates of the bins named: the first is the odd one of each kind, the last the one of which little is known."""
    first, last = names[0], names[-1]
    ordinary = list(enumerate(names))
    all_moss = {name: moss(on, name, i) for i, name in ordinary}
    all_moss[first] = moss(on, first, 0, too_wet="condensation on 1 Mar 2026", found="soaked")
    all_moss[last] = moss(
        on, last, 5, basis=GUESS, watered=None, dry=None, next=None, simple=None, found="", looked=None
    )
    all_food = {name: (food(on, name, i), food(on, name, i, kind="fresh", portion=1.2)) for i, name in ordinary}
    all_food[first] = (food(on, first, 0, limited=1, portion=0.4, wanted=0.7),)
    all_food[last] = (food(on, last, 0, basis=GUESS, last_grams=None, left="", simple=None),)
    all_leaf = {name: leaf(on, name, i) for i, name in ordinary}
    all_leaf[first] = leaf(on, first, 0, left=Range(0.0, 0.0, 0.1), runs_out=days(on, 0, 0, 5), next=on)
    all_leaf[last] = leaf(
        on, last, 3, basis=GUESS, runs_out=days(on, None, None, None), next=None, simple=None, path=()
    )
    all_substrate = {name: substrate(on, name, i) for i, name in ordinary}
    all_substrate[last] = substrate(
        on, last, 0, basis=GUESS, spent=days(on, 700, None, None), smallest=None, simple=None, path=()
    )
    all_numbers = {name: numbers(on, name, i) for i, name in ordinary}
    all_numbers[first] = numbers(on, first, 0, crowding=150.0, crowded=days(on, 0, 0, 40), already=True)
    if len(names) > 3:
        all_numbers[names[1]] = numbers(on, names[1], 1, crowding=300.0, crowded=days(on, 30, 90, None))
        all_numbers[names[2]] = numbers(on, names[2], 2, crowding=9000.0, crowded=days(on, None, None, None))
    all_numbers[last] = numbers(
        on,
        last,
        0,
        basis=GUESS,
        now=Range(14.0, 50.0, 180.0),
        growth=Range(-0.1, 0.1, 0.4),
        doubles=days(on, None, None, None),
        last_count=None,
        last_day=None,
        last_method="",
        counted=False,
    )
    return Estimates(on, all_moss, all_food, all_leaf, all_substrate, all_numbers, readings=12)
