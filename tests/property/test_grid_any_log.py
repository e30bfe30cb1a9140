"""A known log written as a grid of dates comes back whole, or what differs is named."""

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from workbook_tools.intake.cells import Book, Cell, Sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.problems import CannotRead, CellRef

ON = dt.date(2025, 6, 30)
ACTS = {"water": "water", "feed": "food", "leaf": "leaf litter", "count": "count", "dead": "dead", "look": "look"}
CODES = {
    "letters": {"water": "W", "feed": "F", "leaf": "L", "count": "C", "dead": "d", "look": "K"},
    "others": {"water": "g", "feed": "n", "leaf": "LL", "count": "Z", "dead": "X", "look": "o"},
}
NUMBERED = ("count", "dead")
MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()


@st.composite
def logs(draw):
    """Bins, days in order, and what was done: (day, bin) to acts with numbers."""
    bins = draw(st.lists(st.integers(1, 40), min_size=2, max_size=6, unique=True))
    names = [f"{draw(st.sampled_from('ABQ'))}{number}" for number in bins]
    day = dt.date(2025, draw(st.integers(1, 4)), draw(st.integers(1, 28)))
    days = [day]
    for _ in range(draw(st.integers(3, 9))):
        days.append(days[-1] + dt.timedelta(days=draw(st.integers(1, 12))))
    done = {}
    for name in names:
        for day in days:
            acts = draw(st.lists(st.sampled_from(sorted(ACTS)), max_size=3, unique=True))
            if acts:
                done[day, name] = {act: draw(st.integers(1, 90)) if act in NUMBERED else None for act in acts}
    return names, days, done


@st.composite
def written(draw):
    """A log, the sheet that says it, and the cells that say each entry.

    Offsets, orders, styles of days, the key's place and further columns vary.
    """
    names, days, done = draw(logs())
    codes = CODES[draw(st.sampled_from(sorted(CODES)))]
    style = draw(st.sampled_from(["full", "dmy", "mdy", "named", "carried", "mdy carried", "months"]))
    down, backwards = draw(st.booleans()), draw(st.booleans()) and style != "months"
    key = draw(st.sampled_from(["row", "line", "beside", "none"]))
    who, total = draw(st.booleans()), draw(st.booleans())
    top, left = draw(st.integers(0, 3)), draw(st.integers(0, 2))
    cells, places = {}, {}

    def put(row, col, value):
        cells[row, col] = value

    first = top + 3
    order = days[::-1] if backwards else days
    start = left + 2 + (who and not down)
    heads = {}
    before = None
    for i, day in enumerate(order):
        heads[day] = i
        new_month = before is None or before.month != day.month
        text = {
            "full": day,
            "dmy": f"{day.day}/{day.month}/{day.year}",
            "mdy": f"{day.month}/{day.day}/{day.year}",
            "named": f"{day.day} {MONTHS[day.month - 1]}",
            "carried": f"{day.day}/{day.month}" if new_month else day.day,
            "mdy carried": f"{day.month}/{day.day}" if new_month else day.day,
            "months": day.day,
        }[style]
        at = (first, start + i)
        put(*at, text)
        if style == "months" and new_month:
            put(first - 1, start + i, MONTHS[day.month - 1])
        before = day
    put(first, left + 1, draw(st.sampled_from(["Bin", "Box", "Tub", "Bin no"])))
    shuffled = draw(st.permutations(names))
    for place, name in enumerate(shuffled, start=1):
        put(first + place, left + 1, name)
        if who and not down:
            put(first, left + 2, "Species")
            put(first + place, left + 2, "Porcellio scaber")
        for day in days:
            acts = done.get((day, name), {})
            places[day, name] = [
                (first + place, start + heads[day]),
                (first, start + heads[day]),
                (first + place, left + 1),
            ]
            if acts:
                parts = [f"{codes[act]}{number or ''}" for act, number in acts.items()]
                put(first + place, start + heads[day], draw(st.sampled_from(["", " ", ",", "+"])).join(parts))
            elif draw(st.booleans()):
                put(first + place, start + heads[day], draw(st.sampled_from([".", "–", "-"])))
        if total and not down:
            put(first, start + len(days), "total")
            put(first + place, start + len(days), sum(day_name[1] == name for day_name in done))
    last = first + len(names)
    if down:
        turn = lambda at: (at[1] - left + top, at[0] - top + left)  # noqa: E731
        cells = {turn(at): value for at, value in cells.items()}
        places = {key: [turn(at) for at in ats] for key, ats in places.items()}
        last = max(row for row, _ in cells)
    end = max(col for _, col in cells)
    if min(row for row, _ in cells) > 1:
        cells[1, left + 1] = "Care chart 2025"
    says = [(codes[act], ACTS[act]) for act in ACTS]
    if key == "row":
        cells[last + 2, left + 1] = "KEY"
        cells[last + 2, left + 2] = " ".join(f"{code} {words}" for code, words in says)
    elif key == "line":
        cells[last + 2, left + 1] = ", ".join(f"{code} = {words}" for code, words in says)
    elif key == "beside":
        for i, (code, words) in enumerate(says):
            cells[top + 3 + i, end + 2], cells[top + 3 + i, end + 3] = code, words
    clear = key != "none" and not style.startswith("mdy")
    return done, cells, clear, {key: {CellRef("Chart", *at) for at in ats} for key, ats in places.items()}


def as_book(cells):
    made = {
        (row, col): Cell(
            CellRef("Chart", row, col), value, value.isoformat() if isinstance(value, dt.date) else str(value)
        )
        for (row, col), value in sorted(cells.items())
    }
    return Book("made.xlsx", (Sheet("Chart", made),))


def read_back(intake):
    """What was read: (day, bin, act) with its number, and the cells it came from."""
    found = {}
    for row in intake.rows:
        day, bins, did = (row.first(key) for key in ("when", "bins", "did"))
        if row.role != "log" or day is None or bins is None or did is None:
            continue
        numbers = {"count": row.first("number"), "dead": row.first("dead")}
        for act in did.value.keys:
            number = numbers.get(act)
            value = None if number is None else number.value.best
            found[day.value.first, bins.value, act] = (value, {day.cell.ref, bins.cell.ref, did.cell.ref})
    return found


@settings(max_examples=60, deadline=None, derandomize=True)
@given(written())
def test_a_log_written_as_a_grid_comes_back_or_is_named(case):
    done, cells, clear, places = case
    known = {(day, name, act): number for (day, name), acts in done.items() for act, number in acts.items()}
    try:
        intake, problems = read_book(as_book(cells), ON)
    except CannotRead:
        assert not done
        return
    named = {ref for problem in problems for ref in problem.cells}
    found = read_back(intake)
    if clear:
        assert {key: value for key, (value, _) in found.items()} == known
    wrong = {key: value for key, (value, refs) in found.items() if known.get(key, "-") != value and not refs & named}
    assert wrong == {}
    lost = {key for key in known if key not in found and not places[key[:2]] & named}
    assert lost == set()
