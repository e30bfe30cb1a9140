import datetime as dt

import pytest

from tools.report_sample import ON, sample
from workbook_tools.estimate.sifting import sift_left
from workbook_tools.plan.sift_advice import advise
from workbook_tools.plan.sifting import CLOSED, LAPSED, OPEN, Batch
from workbook_tools.problems import CellRef
from workbook_tools.report.cautions import DISPOSAL, DUST, LAW_FIRST
from workbook_tools.report.sheets.sifting import sheet


def batch(bin="A01", state=OPEN, passes=(41, 22, 9, 4), traps=(), ago=3, **more):
    left = sift_left(passes, traps) if passes or traps else None
    last = ON - dt.timedelta(days=ago)
    made = {
        "bin": bin,
        "state": state,
        "begun": last - dt.timedelta(days=2),
        "changed": True,
        "went": "straggler tub",
        "tub": "",
        "passes": passes,
        "traps": traps,
        "minutes": None,
        "left": left,
        "advice": advise(left) if left and state == OPEN else None,
        "next_check": last + dt.timedelta(days=3) if state == OPEN else None,
        "last": last,
        "ended": last if state == CLOSED else None,
        "how": "frozen" if state == CLOSED else "",
        "where": CellRef("Log", 9),
    }
    return Batch(**{**made, **more})


def made(*batches):
    return sheet(sample(batches=batches))


def cells(spec, table, row=0):
    return {column.heading: column.get(spec.tables[table].rows[row]) for column in spec.tables[table].columns}


def test_first_line_says_how_much_waits_what_may_be_left_and_the_next_look():
    left = sift_left((41, 22, 9, 4))
    assert made(batch(), batch("A02", passes=(3, 1, 0), ago=1)).answer == (
        "Old substrate of 2 bins waits for stragglers; most may be left in that of A01 "
        f"(about {left.middle}, {left.low} to {left.high}); next look: A01, 14 Mar 2026 (today)."
    )


@pytest.mark.parametrize(
    ("batches", "said"),
    [
        ((), "Nothing can be said of old substrate: no pass and no trap check is logged, and none went to a tub."),
        (
            (batch(state=CLOSED),),
            "No old substrate waits; that of 1 change was sifted or trapped and done with in the last year.",
        ),
        (
            (batch(state=LAPSED, ago=120),),
            "Whether old substrate waits isn't known: of that of 1 change nothing is written since 14 Nov 2025.",
        ),
        (
            (batch(state=CLOSED), batch("A02", LAPSED, ago=120), batch("A03", LAPSED, passes=(), ago=130)),
            "Whether old substrate waits isn't known: of that of 2 changes nothing is written since 14 Nov 2025 or "
            "before; that of 1 change was sifted or trapped and done with in the last year.",
        ),
        (
            (batch(passes=(), ago=9),),
            "Old substrate of 1 bin waits for stragglers; next look: A01, 8 Mar 2026 (6 days overdue).",
        ),
        (
            (batch(passes=(5, 7, 8)),),
            "Old substrate of 1 bin waits for stragglers; most may be left in that of A01 (at least "
            f"{sift_left((5, 7, 8)).low}, no upper limit); next look: A01, 14 Mar 2026 (today).",
        ),
    ],
)
def test_first_line_of_other_cases(batches, said):
    assert made(*batches).answer == said


def test_tub_in_which_nothing_was_found_has_no_lower_bound_and_is_not_named_as_holding_most():
    nothing = batch("A02", passes=(0, 0), traps=(0,) * 12)
    left = sift_left((41, 22, 9, 4))

    assert made(nothing).answer == (
        "Old substrate of 1 bin waits for stragglers; in that of A02 nothing was found in 14 looks, which proves "
        "little; next look: A02, 14 Mar 2026 (today)."
    )
    assert f"most may be left in that of A01 (about {left.middle}," in made(nothing, batch()).answer
    row = cells(made(nothing), 0)
    assert row["From"] is None
    assert row["What to do"].startswith("Nothing was found in 14 looks, which proves little. ")
    assert "your decision" in row["What to do"]


def test_bound_is_of_numbers_given():
    assert made(batch()).lines[0].startswith("Where a number of those left is given, it is a likely lower bound")


def test_cautions_stand_on_it_the_law_first():
    spec = made(batch())
    assert spec.cautions[:2] == (LAW_FIRST, DUST)
    assert DISPOSAL in spec.cautions[2]


def test_open_stand_above_and_those_ended_within_a_year_below():
    old = batch("A05", CLOSED, ago=400)
    spec = made(batch(), batch("A03", CLOSED), batch("A04", LAPSED, ago=120), old)
    assert [[row.bin for row in table.rows] for table in spec.tables] == [["A01"], ["A03", "A04"]]
    assert cells(spec, 1)["How it ended"].startswith("Frozen; probably left in it then: about ")
    assert cells(spec, 1, 1)["Ended"] == "not written"
    assert spec.tables[1].title == "Done with, or not written of any more, in the last year"
    assert "log a freeze or discard" in cells(spec, 1, 1)["How it ended"]


def test_lots_that_ended_without_a_number_are_counted_and_not_listed():
    spec = made(batch("A03", CLOSED, passes=()), batch("A04", CLOSED))
    assert [row.bin for row in spec.tables[1].rows] == ["A04"]
    assert (
        spec.lines[1]
        == "Besides, old substrate was done with once in the last year with no number of a pass or check logged."
    )


def test_finds_that_do_not_fall_have_no_upper_limit_and_no_chance_of_none():
    row = cells(made(batch(passes=(5, 7, 8))), 0)
    assert (row["Left about"], row["To"], row["None left"], row["Next pass"]) == (
        "can't say",
        "no limit",
        "can't say",
        None,
    )


def test_chance_of_none_is_not_told_where_the_trap_never_caught_anything():
    assert cells(made(batch(passes=(41, 9, 1), traps=(0, 0))), 0)["None left"] == "can't say"
    assert 0 < cells(made(batch(passes=(41, 9, 1), traps=(1, 0, 0))), 0)["None left"] < 1


def test_chance_of_none_is_not_told_where_a_find_of_late_may_have_been_made_in_it():
    day = ON - dt.timedelta(days=9)
    for empty, told in ((9, False), (10, True)):
        row = cells(made(batch(passes=(60, 6, 0), traps=(2, *[0] * empty), doubtful=day)), 0)
        assert (row["None left"] != "can't say") is told
    assert cells(made(batch(passes=(60, 6, 0), traps=(2, 0))), 0)["None left"] != "can't say"


def test_what_to_do_is_said_also_without_any_number():
    assert cells(made(batch(passes=())), 0)["What to do"].startswith("No pass and no check with a number is logged")
    assert cells(made(batch()), 0)["What to do"] == f"{batch().advice.say} {batch().advice.reason}"


def test_nothing_is_called_safe_clear_or_compliant():
    spec = made(batch(passes=(9, 1, 0), traps=(1, *[0] * 14)), batch("A03", CLOSED))
    said = " ".join([spec.answer, *spec.lines, *spec.cautions])
    said += " ".join(str(value) for table in (0, 1) for value in cells(spec, table).values())
    for word in ("safe", "cleared", "compliant", "guarantee"):
        assert word not in said.casefold()
    assert "never a clearance" in said
