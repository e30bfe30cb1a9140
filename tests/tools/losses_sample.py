"""Made-up losses for tests of the report: an alarm, one worth a look, one settled, two clusters, a bin never opened."""

import datetime as dt

from workbook_tools.plan.learned.records import Range
from workbook_tools.plan.losses.records import Alarm, BinLosses, Cluster, Event, Losses, Question, Sight
from workbook_tools.problems import CellRef


def alarm(on, name, tier="alarm", **changes):
    made = {
        "bin": name,
        "tier": tier,
        "day": on - dt.timedelta(days=6),
        "found": 11.0,
        "expected": 0.4,
        "chance": 2e-6,
        "after": 3.0,
        "last": on - dt.timedelta(days=2),
        "well": None,
        "rests_on": (CellRef("Log", 70), CellRef("Log", 71)),
    }
    return Alarm(**{**made, **changes})


def event(on, says="bug spray", note="next door", **changes):
    made = {"day": on - dt.timedelta(days=10), "says": says, "note": note, "heat": False, "where": CellRef("Log", 60)}
    return Event(**{**made, **changes})


def cluster(on, names, **changes):
    made = {
        "shares": "at Shelf 1",
        "bins": tuple(names),
        "of": 5,
        "first": on - dt.timedelta(days=7),
        "last": on - dt.timedelta(days=2),
        "found": 19.0,
        "expected": 1.3,
        "luck": 0.0004,
        "events": (event(on),),
    }
    return Cluster(**{**made, **changes})


def losses(on, names):
    """Losses of the bins named: the last was never opened."""
    at = on - dt.timedelta(days=3)
    bins = {
        name: BinLosses(name, max(9.0 - 3 * i, 0.0), 0.4, max(20.0 - 3 * i, 0.0), Range(0.3, 0.6, 1.1), on)
        for i, name in enumerate(names)
    }
    bins[names[-1]] = BinLosses(names[-1], 0.0, 0.0, 0.0, None, None, opened=False)
    return Losses(
        on,
        bins,
        (
            alarm(on, names[0]),
            alarm(on, names[1], "worth a look", found=4.0, chance=0.002, after=0.0),
            alarm(on, names[2], well=on - dt.timedelta(days=1)),
        ),
        (
            cluster(on, names[:2]),
            cluster(on, names[2:4], shares="given leaf litter of batch 3", luck=0.03, events=()),
        ),
        (
            Question("Chemicals", "Was anything sprayed?", ("bug spray on 4 Mar 2026",)),
            Question("Moisture", "Is one side damp?", ()),
        ),
        (
            Sight(names[3], "huddling", at, at, at, CellRef("Log", 9)),
            Sight(names[3], "mould", at, at, at + dt.timedelta(days=2), CellRef("Log", 9)),
        ),
        tuple((on - dt.timedelta(weeks=back), float(back == 1) * 9, 2.0) for back in range(25, -1, -1)),
        1,
    )
