"""Whatever is logged of old substrate: no animal is made or lost by finding it, and nothing is read twice."""

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from tools.rows import bin_row, log_row, number, words
from tools.rows import settings as made_settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.numbers import number_series
from workbook_tools.ledger.series.sifting import old_substrate
from workbook_tools.plan.history import History
from workbook_tools.plan.rhythm import Rhythm
from workbook_tools.plan.sifting import batches, straggler_tasks
from workbook_tools.plan.wording import Wording

ON = dt.date(2026, 3, 31)
BINS = bin_row("A"), bin_row("B"), bin_row("Tub", status=words("straggler tub"))
NOTES = st.lists(
    st.tuples(
        st.integers(0, 120),
        st.sampled_from(["A", "B", "Tub", "A+B"]),
        st.sampled_from(["substrate_change", "sift", "trap", "freeze", "discard", "count"]),
        st.one_of(st.none(), st.integers(0, 60)),
        st.sampled_from(["", "Tub", "straggler corner", "freezer", "?"]),
        st.booleans(),
    ),
    max_size=14,
)


def rows(notes):
    made = []
    for ago, bins, act, found, went, old in notes:
        day = (ON - dt.timedelta(days=ago)).isoformat()
        more = {"number": number(found)} if found is not None and act not in ("freeze", "discard") else {}
        more |= {"old_went": went} if went and act == "substrate_change" else {}
        more |= {"way": "old soil"} if old and act == "sift" else {}
        made.append(log_row(day, bins, act, **more))
    return made


@settings(deadline=None, max_examples=150)
@given(NOTES)
def test_finds_neither_make_nor_lose_animals(notes):
    ledger = build_ledger([*BINS, *rows(notes)], made_settings(), on=ON)[0]
    moves = number_series(ledger, ON).moves
    assert {place: sum(m.change for m in moves if m.bin == place) for place in range(3)} == {0: 0, 1: 0, 2: 0}


@settings(deadline=None, max_examples=150)
@given(NOTES)
def test_every_find_is_of_one_lot_and_the_plan_follows(notes):
    ledger = build_ledger([*BINS, *rows(notes)], made_settings(), on=ON)[0]
    sifted = old_substrate(ledger, ON)
    finds = [(one.where, one.found) for lot in sifted.lots for one in (*lot.passes, *lot.traps) if one.found]
    assert len(finds) == len(set(finds))
    assert all(lot.closed is None or lot.begun <= lot.closed for lot in sifted.lots)
    past = History.of(ledger, ON)
    found = batches(past, Rhythm())
    assert len(found) == len(sifted.lots)
    assert len(straggler_tasks(found, past, Rhythm(), Wording())) <= sum(one.next_check is not None for one in found)
