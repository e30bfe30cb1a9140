"""Whatever moves between bins and however it is written, no animal is lost and none is made."""

import datetime as dt
import math

from hypothesis import given
from hypothesis import settings as tries
from hypothesis import strategies as st

from tools.rows import bin_row, log_row, number, settings
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.numbers import number_series

ON = dt.date(2026, 6, 30)
FIRST = dt.date(2026, 4, 1)
OLD, NEW = ("A1", "A2", "A3"), ("B1", "B2")
BINS = OLD + NEW
START = 500
STYLES = ("out", "into", "both", "out, nothing of where to", "in, nothing of where from", "columns")

MOVE = st.tuples(
    st.integers(0, 40),
    st.sampled_from(BINS),
    st.sampled_from(BINS),
    st.integers(1, 15),
    st.sampled_from(["animals_out", "split"]),
    st.integers(0, 2),
).filter(lambda move: move[1] != move[2])
OTHER = st.tuples(
    st.integers(0, 40), st.sampled_from(OLD), st.sampled_from(["bought", "sold", "dead"]), st.integers(200, 215)
)


def written(move, style):
    """The rows of one move."""
    ahead, source, target, count, act, later = move
    out_day, in_day = (str(FIRST + dt.timedelta(days=days)) for days in (ahead, ahead + later))
    told = {"number": number(count)}
    leaves = log_row(out_day, source, act, to_bin=target, **told)
    comes = log_row(in_day, target, "animals_in", from_bin=source, **told)
    return {
        "out": [leaves],
        "into": [comes],
        "both": [leaves, comes],
        "out, nothing of where to": [log_row(out_day, source, "animals_out", **told), comes],
        "in, nothing of where from": [leaves, log_row(in_day, target, "animals_in", **told)],
        "columns": [log_row(out_day, source, act, from_bin=source, to_bin=target, **told)],
    }[style]


def other_row(other):
    ahead, bin, kind, count = other
    day = str(FIRST + dt.timedelta(days=ahead))
    if kind == "bought":
        return log_row(day, bin, "animals_in", number=number(count), from_bin="the fair")
    if kind == "sold":
        return log_row(day, bin, "animals_out", number=number(count), to_bin="a friend")
    return log_row(day, bin, "dead", number=number(count))


def in_the_end(rows, new=()):
    """How many animals each bin holds: what it began with and all that moved; ``new`` are rows of the list."""
    listed = [bin_row(name, started="2024-06-01", founders=number(START)) for name in OLD]
    ledger, _ = build_ledger([*listed, *new, *(bin_row(name) for name in NEW), *rows], settings(), on=ON)
    made = number_series(ledger, ON)
    assert all(math.isfinite(move.change) for move in made.moves)
    held = [0.0 if math.isnan(began) else began for began in made.start_number]
    for move in made.moves:
        held[move.bin] += move.change
    return {name: round(held[place], 6) for place, name in enumerate(ledger.bins)}


def truth(moves, others):
    held = {name: START if name in OLD else 0 for name in BINS}
    for _, source, target, count, *_ in moves:
        held[source] -= count
        held[target] += count
    for _, bin, kind, count in others:
        held[bin] += count if kind == "bought" else -count
    return held


@tries(max_examples=250, deadline=None, derandomize=True)
@given(
    moves=st.lists(MOVE, max_size=7),
    others=st.lists(OTHER, max_size=3),
    style=st.sampled_from(STYLES),
    shuffle=st.randoms(use_true_random=False),
)
def test_every_bin_ends_with_what_truly_moved_whichever_way_it_is_written(moves, others, style, shuffle):
    rows = [row for move in moves for row in written(move, style)] + [other_row(other) for other in others]
    shuffle.shuffle(rows)
    assert in_the_end(rows) == truth(moves, others)


@tries(max_examples=250, deadline=None, derandomize=True)
@given(
    moves=st.lists(st.tuples(MOVE, st.sampled_from(STYLES)), max_size=8),
    others=st.lists(OTHER, max_size=3),
    shuffle=st.randoms(use_true_random=False),
)
def test_the_total_is_founders_and_bought_less_given_away_and_dead_however_rows_are_mixed(moves, others, shuffle):
    rows = [row for move, style in moves if "nothing" not in style for row in written(move, style)]
    rows += [other_row(other) for other in others]
    shuffle.shuffle(rows)
    assert sum(in_the_end(rows).values()) == sum(truth([], others).values())


@tries(max_examples=100, deadline=None, derandomize=True)
@given(
    splits=st.lists(st.tuples(st.integers(0, 40), st.sampled_from(OLD), st.sets(st.sampled_from(BINS), min_size=1))),
    shuffle=st.randoms(use_true_random=False),
)
def test_the_shares_that_arrive_are_those_that_left(splits, shuffle):
    rows = []
    for ahead, source, targets in splits:
        if others := sorted(targets - {source}):
            rows.append(log_row(str(FIRST + dt.timedelta(days=ahead)), source, "split", to_bin="+".join(others)))
    shuffle.shuffle(rows)
    listed = [bin_row(name, started="2024-06-01", founders=number(START)) for name in OLD]
    ledger, _ = build_ledger([*listed, *(bin_row(name) for name in NEW), *rows], settings(), on=ON)
    left, came = {}, {}
    for move in number_series(ledger, ON).moves:
        table, bin = (came, move.source) if move.source >= 0 else (left, move.bin)
        table[move.where, bin] = table.get((move.where, bin), 0.0) + move.share
    assert len(left) == len(rows)
    assert {key: round(share, 9) for key, share in left.items()} == {
        key: round(share, 9) for key, share in came.items()
    }


@tries(max_examples=150, deadline=None, derandomize=True)
@given(
    moves=st.lists(MOVE.filter(lambda move: move[1] not in NEW), min_size=1, max_size=7),
    style=st.sampled_from(["out", "into", "both"]),
    shuffle=st.randoms(use_true_random=False),
)
def test_new_bins_with_start_and_founders_in_the_list_end_with_what_truly_moved(moves, style, shuffle):
    rows = [row for move in moves for row in written(move, style)]
    shuffle.shuffle(rows)
    listed = []
    for name in NEW:
        days = {FIRST + dt.timedelta(days=m[0] + (m[5] if style == "into" else 0)): 0 for m in moves if m[2] == name}
        for move in moves:
            if move[2] == name:
                days[FIRST + dt.timedelta(days=move[0] + (move[5] if style == "into" else 0))] += move[3]
        if days:
            founders = sum(count for day, count in days.items() if (day - min(days)).days <= 10)
            listed.append(bin_row(name, started=str(min(days)), founders=number(founders)))
    assert in_the_end(rows, listed) == truth(moves, [])


NAMES = ("C1", "C2", "C3", "C4")
RENAME = st.tuples(st.just("rename"), st.integers(0, 40), st.sampled_from(NAMES), st.sampled_from(NAMES))
CARE = st.tuples(st.just("water"), st.integers(0, 40), st.sampled_from(NAMES), st.just(""))


@tries(max_examples=150, deadline=None, derandomize=True)
@given(
    log=st.lists(st.one_of(RENAME, CARE), max_size=10),
    listed=st.lists(st.tuples(st.sampled_from(NAMES), st.sampled_from(("", *NAMES))), max_size=4),
)
def test_however_bins_are_renamed_every_row_stays_with_a_bin(log, listed):
    rows = [bin_row(name, **({"formerly": old} if old else {})) for name, old in listed]
    for act, ahead, name, to in log:
        told = {"to_bin": to} if to else {}
        rows.append(log_row(str(FIRST + dt.timedelta(days=ahead)), name, act, **told))
    ledger, _ = build_ledger(rows, settings(), on=ON)
    assert len(ledger.entries) == len(log)
    assert all(entry.bins and set(entry.bins) <= set(ledger.bins) for entry in ledger.entries)
