import datetime as dt

from tools.learned_sample import GUESS, LEARNED, leaf, path
from tools.report_sample import ON, a_bin, sample
from workbook_tools.plan.wording import Wording
from workbook_tools.report.sheets.learned import (
    BAND,
    SHORT,
    URGENT,
    Row,
    between,
    by_species,
    day_or_words,
    guess,
    path_chart,
    rows_of,
    tables,
)

WORDING = Wording("en-GB")


def test_rows_keep_the_keepers_order_and_leave_out_bins_without_a_forecast():
    known = {name: leaf(ON, name, 0) for name in ("A05", "A02", "nowhere")}
    assert [row.bin.name for row in rows_of(sample(), known)] == ["A02", "A05"]


def test_numbers_are_said_with_their_interval():
    assert between("5", "6", "7", "litres") == "about 6 litres, between 5 and 7"
    assert between("6", "6", "6") == "about 6"
    assert day_or_words(None) == "can't say"
    assert day_or_words(ON) == ON


def test_what_is_not_learned_is_called_a_starting_guess():
    assert guess(Row(a_bin(1), leaf(ON, "A01", 0, basis=GUESS)), "About 6") == "Starting guess: about 6"
    assert guess(Row(a_bin(1), leaf(ON, "A01", 0, basis=LEARNED)), "About 6") == "About 6"


def test_a_short_table_stands_first_only_where_there_are_many_bins():
    rows = [Row(a_bin(number), leaf(ON, str(number), number)) for number in range(SHORT + 1)]
    first, whole = tables("T", (), rows, urgent="First", title="All", when_empty="None.")
    assert len(first.rows) == URGENT
    assert len(whole.rows) == SHORT + 1
    assert first.key is None  # links lead to the whole table
    (only,) = tables("T", (), rows[:SHORT], urgent="First", title="All", when_empty="None.")
    assert only.name == "T"


def test_species_are_grouped_whatever_their_case():
    bins = [a_bin(4), a_bin(8), a_bin(5)]
    groups = by_species([Row(bin, None) for bin in bins])
    assert [(species, len(rows)) for species, rows in groups.items()] == [
        ("Porcellio scaber", 2),
        ("Porcellionides pruinosus", 1),
    ]


def test_a_path_has_its_past_its_future_and_a_mark():
    points = path(ON, 0.5, -0.01, 0.1, back=4, ahead=4)
    chart = path_chart("Bin A", points, ON, "T", WORDING, up="Share", share=True, mark=("spent", 0.2))
    low, high, so_far, ahead, mark = chart.series
    assert (low.name, high.name, so_far.name, ahead.name, mark.name) == (BAND, "", "so far", "expected", "spent")
    assert [value is not None for value in so_far.values] == [True] * 5 + [False] * 4
    assert [value is not None for value in ahead.values] == [False] * 4 + [True] * 5
    assert set(mark.values) == {0.2}
    assert len(chart.series) <= 8
    assert chart.says == "Bin A. 14 Mar 2026: about 50 %; 11 Apr 2026: about 46 %, between 31 % and 61 %."


def test_a_path_that_only_lies_ahead_is_drawn_too():
    points = tuple(point for point in path(ON, 9.0, 0.0, 1.0) if point.day > ON + dt.timedelta(days=1))
    chart = path_chart("Bin A", points, ON, "T", WORDING, up="Litres")
    assert chart.series[3].values[0] == 9.0
