"""Odd logs through the whole way: ledger, estimates, tasks. Always a sane answer, and a problem where one is due."""

import dataclasses
import datetime as dt
import math

import pytest

from tools.rows import amount, bin_row, log_row, number, settings, words
from workbook_tools.intake.values import Number
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.checks import check
from workbook_tools.plan.changes import next_changes, substrate_changes
from workbook_tools.plan.estimates import estimate_all
from workbook_tools.plan.history import History
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.tasks import due_tasks
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 31)
LATEST = ON + dt.timedelta(days=3650)


def ledger_of(*rows, on=ON, **values):
    return build_ledger([*rows], settings(**values), on=on)[0]


def learn(*rows, on=ON, **values):
    ledger = ledger_of(*rows, on=on, **values)
    estimates = estimate_all(ledger, on)
    return estimates, {(task.bin, task.task): task for task in tasks_of(ledger, on, estimates)}


def tasks_of(ledger, on, estimates, horizon_days=60):
    past, rhythm = History.of(ledger, on), Rhythm(ledger.settings)
    changes = next_changes(past, substrate_changes(ledger), rhythm, Wording(), estimates)
    return due_tasks(past, changes, rhythm, Wording(), horizon_days, estimates)[0]


def parts(value):
    """Every plain value inside a record."""
    if dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            yield from parts(getattr(value, field.name))
    elif isinstance(value, dict):
        for one in value.values():
            yield from parts(one)
    elif isinstance(value, tuple):
        for one in value:
            yield from parts(one)
    else:
        yield value


def assert_sane(estimates, tasks):
    for value in parts(estimates):
        if isinstance(value, float):
            assert math.isfinite(value), estimates
        if isinstance(value, dt.date):
            assert dt.date(2015, 1, 1) < value <= LATEST
    for kind in (estimates.moss, estimates.leaf, estimates.substrate, estimates.numbers):
        for one in kind.values():
            for value in vars_of(one):
                if type(value).__name__ == "Range":
                    assert value.low <= value.middle <= value.high
    for task in tasks.values():
        assert dt.date(2015, 1, 1) < task.due <= LATEST
        assert task.why.endswith(".")
        assert "nan" not in task.why.lower().split()


def vars_of(record):
    return [getattr(record, field.name) for field in dataclasses.fields(record)]


def ago(days):
    return (ON - dt.timedelta(days=days)).isoformat()


def moss(days, word, did="", bins="A"):
    return log_row(ago(days), bins, did, moss=words(word))


def count(days, value, way="full sort", bins="A"):
    return log_row(ago(days), bins, "count", number=value if isinstance(value, Number) else number(value), way=way)


def fed(days, grams, left=""):
    more = {"leftovers": words(left)} if left else {}
    return log_row(ago(days), "A", food="flakes", amount=amount(grams, "g"), **more)


OLD = bin_row("A", started="2025-01-01", founders=number(30), volume=amount(6, "l"))
ODD = {
    "no bin": [],
    "a bin and nothing else": [bin_row("A")],
    "no observation": [OLD],
    "a start to come": [bin_row("A", started="2026-05-01")],
    "one look at moss": [OLD, log_row(ago(9), "A", "water"), moss(3, "damp")],
    "one of everything": [
        OLD,
        log_row(ago(9), "A", "water"),
        moss(3, "drying"),
        fed(5, 0.5),
        log_row(ago(4), "A", leftovers=words("some")),
        log_row(ago(20), "A", leaf=amount(0.5, "l")),
        log_row(ago(10), "A", substrate=words("good")),
        count(30, 40),
    ],
    "only damp, never dry": [
        OLD,
        log_row(ago(60), "A", "water"),
        *(moss(60 - 3 * n, "damp", "water") for n in range(18)),
    ],
    "only dry": [OLD, log_row(ago(60), "A", "water"), *(moss(60 - 7 * n, "dry", "water") for n in range(8))],
    "dry the day after soaking, eight times": [
        OLD,
        *(log_row(ago(50 - 6 * n), "A", "water", moss=words("soaked")) for n in range(8)),
        *(moss(49 - 6 * n, "dry") for n in range(8)),
    ],
    "food always gone": [OLD, *(fed(60 - 3 * n, 1.0, "gone") for n in range(15))],
    "food never touched": [OLD, *(fed(60 - 3 * n, 1.0, "most") for n in range(15))],
    "food by no weight": [OLD, *(log_row(ago(30 - n), "A", food="carrot", leftovers=words("gone")) for n in range(9))],
    "litter that grows": [
        OLD,
        log_row(ago(80), "A", leaf=amount(0.1, "l")),
        *(
            log_row(ago(70 - 9 * n), "A", leaf_left=words(("none", "little", "half", "plenty")[n % 4]))
            for n in range(8)
        ),
    ],
    "leaves by no measure": [OLD, *(log_row(ago(90 - 9 * n), "A", "leaf") for n in range(9))],
    "substrate that mends": [
        OLD,
        *(log_row(ago(200 - 30 * n), "A", substrate=words(("spent", "part frass", "good")[n % 3])) for n in range(6)),
    ],
    "a split that halves it": [OLD, count(100, 90), count(60, 100), log_row(ago(40), "A", "split"), count(5, 55)],
    "split into a bin": [
        OLD,
        bin_row("B", started=ago(40)),
        count(60, 100),
        log_row(ago(40), "A", "split", number=number(50), to_bin="B"),
        count(5, 40, bins="B"),
    ],
    "moved to a bigger bin": [OLD, bin_row("B"), count(60, 100), log_row(ago(30), "A", "move_up", to_bin="B")],
    "a sale larger than its number": [
        OLD,
        count(60, 40),
        log_row(ago(30), "A", "animals_out", number=number(400)),
        count(5, 30),
    ],
    "died out and refilled": [
        OLD,
        count(200, 40),
        count(120, 0),
        log_row(ago(100), "A", "animals_in", number=number(20)),
        count(10, 35),
    ],
    "counted only in words": [OLD, *(count(90 - 30 * n, Number(200, 100, 500), "") for n in range(4))],
    "counted only from below": [OLD, *(count(90 - 30 * n, Number(130, 100, math.inf), "") for n in range(4))],
    "never counted, start unknown": [bin_row("A"), log_row(ago(300), "A", "water"), log_row(ago(10), "A", "water")],
    "counted none": [OLD, *(count(90 - 30 * n, 0) for n in range(4))],
    "a count of a million": [OLD, count(90, 40), count(10, 1_000_000)],
    "very old": [
        bin_row("A", started="2016-03-01", founders=number(10), target=amount(200, "count")),
        count(30, 60),
        log_row(ago(9), "A", "substrate_change"),
    ],
    "gone": [bin_row("A", status=words("gone"), started="2025-01-01"), count(100, 40), log_row(ago(50), "A", "end")],
    "crowded long ago": [
        bin_row("A", started="2025-01-01", founders=number(30), target=amount(50, "count")),
        *(count(90 - 20 * n, 150 + n) for n in range(5)),
    ],
    "a floor of nothing": [
        bin_row("A", volume=amount(0, "l"), floor=amount(0, "dm2"), target=amount(0, "count"), founders=number(0)),
        log_row(ago(30), "A", leaf=amount(0, "l")),
        log_row(ago(20), "A", leaf=amount(5000, "l")),
    ],
    "only vague dates": [
        OLD,
        log_row("2026-02", "A", "water", moss=words("dry")),
        log_row("2026-01", "A", "count", number=number(40)),
        log_row("2025-12", "A", "substrate_change"),
        log_row("2026-02", "A", leaf=amount(1, "l")),
    ],
    "all on one day": [
        OLD,
        *(moss(0, word, "water+feed+leaf+substrate_change+count") for word in ("dry", "wet", "damp")),
        count(0, 5),
        count(0, 500),
    ],
}


@pytest.mark.parametrize("name", ODD)
def test_odd_log_gives_a_sane_answer(name):
    for on in (ON, ON - dt.timedelta(days=45)):
        assert_sane(*learn(*ODD[name], on=on))


@pytest.mark.parametrize("name", ODD)
def test_odd_log_beside_sound_bins_leaves_them_sane(name):
    sound = bin_row("Z", started="2025-06-01", founders=number(20), appetite=words("hearty"))
    rows = [
        sound,
        *(log_row(ago(60 - 5 * n), "Z", "water", moss=words(("drying", "dry")[n % 2])) for n in range(11)),
        *(
            log_row(ago(58 - 7 * n), "", "room", temperature=amount(20, "degC"), humidity=amount(50, "percent"))
            for n in range(8)
        ),
    ]
    estimates, tasks = learn(*ODD[name], *rows)
    assert_sane(estimates, tasks)
    assert estimates.readings == 8
    assert 2 < estimates.moss["Z"].days.middle < 8


def test_a_sale_larger_than_its_number_is_named():
    ledger = ledger_of(*ODD["a sale larger than its number"])
    codes = {p.code for p in (*check(ledger, ON), *estimate_all(ledger, ON).problems)}
    assert codes & {"learned.oversold", "entries.too_many_out"}


def test_a_bin_without_notes_says_common_practice_and_one_with_notes_how_many():
    estimates, _ = learn(OLD, bin_row("N", started="2025-01-01"), log_row(ago(30), "A", "water"), *ODD["only dry"][1:])
    assert estimates.moss["N"].basis.said == "common practice, not yet learned here"
    assert estimates.moss["A"].basis.said == "learned from 7 notes"


def test_what_is_written_after_the_day_changes_nothing():
    rows = ODD["one of everything"]
    later = [
        log_row("2026-04-02", "A", "water+leaf", moss=words("dry")),
        log_row("2026-04-03", "A", "count", number=number(9)),
    ]
    assert learn(*rows) == learn(*rows, *later)


def test_same_log_gives_the_same_estimates():
    assert learn(*ODD["one of everything"]) == learn(*ODD["one of everything"])


def test_learned_moss_is_looked_at_before_it_is_dry_and_never_later_than_the_ceiling():
    dry = [log_row(ago(61), "A", "water"), *(moss(61 - 4 * n, "dry", "water") for n in range(1, 16))]
    _, tasks = learn(OLD, *dry)
    last = dt.date.fromisoformat(ago(1))
    task = tasks["A", "moss"]
    assert last < task.due < last + dt.timedelta(days=4)
    assert "learned from 15 notes" in task.why
    damp = [log_row(ago(61), "A", "water"), *(moss(61 - 5 * n, "damp", "water") for n in range(1, 13))]
    _, tasks = learn(OLD, *damp, every__moss=5.0)
    assert tasks["A", "moss"].due == dt.date.fromisoformat(ago(1)) + dt.timedelta(days=5)
    assert "(learned from 12 notes), at most every 5 days (your setting)" in tasks["A", "moss"].why


def test_less_risk_means_an_earlier_look():
    dry = [
        log_row(ago(121), "A", "water"),
        *(moss(121 - 6 * n, ("dry", "drying")[n % 2], "water") for n in range(1, 20)),
    ]
    due = [learn(OLD, *dry, risk__moss=risk, every__moss=30.0)[1]["A", "moss"].due for risk in (2.0, 10.0, 50.0)]
    assert due == sorted(due)
    assert due[0] < due[-1]


def test_too_wet_means_no_water():
    _, tasks = learn(OLD, log_row(ago(3), "A", "water"), moss(1, "soaked"))
    assert tasks["A", "moss"].why.endswith("It is too wet (found soaked): look, but give no water.")


def test_next_portion_is_said_with_the_last_one():
    _, tasks = learn(OLD, *(fed(60 - 3 * n, 1.0, "gone") for n in range(15)))
    why = tasks["A", "food"].why
    assert "Give about" in why
    assert "last 1 g flakes, not looked at (learned from 14 notes)" in why


def test_crowded_bin_is_to_be_split():
    _, tasks = learn(*ODD["crowded long ago"])
    task = tasks["A", "split"]
    assert task.due == ON
    assert "crowded now, at 50 (learned from 5 notes)" in task.why
    _, without = learn(OLD, *(count(90 - 20 * n, 150 + n) for n in range(5)))
    assert ("A", "split") not in without


def test_leaf_litter_is_topped_up_before_it_runs_out():
    tops = [log_row(ago(90 - 10 * n), "A", leaf=amount(0.5, "l"), leaf_left=words("none")) for n in range(9)]
    _, tasks = learn(OLD, *tops)
    task = tasks["A", "leaf"]
    assert task.due <= dt.date.fromisoformat(ago(10)) + dt.timedelta(days=14)
    assert "learned from" in task.why
    slow = [log_row(ago(300 - 60 * n), "A", leaf=amount(1.5, "l"), leaf_left=words("half")) for n in range(5)]
    _, tasks = learn(OLD, *slow)
    assert tasks["A", "leaf"].due > dt.date.fromisoformat(ago(60)) + dt.timedelta(days=14)


def test_substrate_is_due_when_it_is_spent_by_what_was_learned():
    looks = [
        log_row(ago(400 - 100 * n), "A", substrate=words(word))
        for n, word in enumerate(("fresh", "good", "good", "part frass"))
    ]
    ledger = ledger_of(bin_row("A", started=ago(440), founders=number(30)), *looks, log_row(ago(440), "A", "water"))
    estimates = estimate_all(ledger, ON)
    assert estimates.substrate["A"].basis.learned
    (task,) = (task for task in tasks_of(ledger, ON, estimates, 2000) if task.task == "change")
    assert task.due == estimates.substrate["A"].spent.middle
    assert "can still be recognised; spent about" in task.why


def marked(old, *rows):
    estimates = estimate_all(ledger_of(bin_row("A", started="2025-01-01", founders=number(20)), *old, *rows), ON)
    return estimates.numbers["A"], [problem.code for problem in estimates.problems]


def test_a_log_with_marks_tells_the_number_by_marks():
    glances = [log_row(ago(90 - 20 * n), "A", "count", number=number(30), way="under bark") for n in range(4)]
    before, _ = marked(glances)
    after, problems = marked(
        glances,
        log_row(ago(10), "A", "mark", number=number(60)),
        log_row(ago(4), "A", "recapture", number=number(70), marked=number(20)),
    )
    # 210 by marks as they were written, fewer for marks lost since
    assert after.last_method == "marks"
    assert 150 < after.last_count < 210
    assert 130 < after.now.middle < 230
    assert after.now.high / after.now.low < before.now.high / before.now.low
    assert after.basis.notes == before.basis.notes + 1
    assert problems == []


def test_a_log_that_sifts_a_whole_bin_tells_the_number_by_passes():
    found = [log_row(ago(5), "A", "sift", number=number(n)) for n in (41, 22, 9, 4)]
    change = log_row(ago(5), "A", "substrate_change", share=amount(1, "share"))
    one, problems = marked([], change, *found)
    assert one.last_method == "passes"
    assert 78 <= one.last_count <= 95
    # what was found is what is there now
    assert one.now.low < 76 < one.now.high
    assert one.now.high / one.now.low < 2
    assert problems == []


def test_marks_that_cant_be_are_a_problem_and_leave_the_numbers_alone():
    plain, _ = marked([])
    one, problems = marked(
        [],
        log_row(ago(10), "A", "mark", number=number(10)),
        log_row(ago(4), "A", "recapture", number=number(70), marked=number(20)),
    )
    assert problems == ["census.more_marked"]
    assert one == plain
