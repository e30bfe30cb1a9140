import datetime as dt

from tools.rows import bin_row, day, log_row, settings, words
from workbook_tools.ledger.build import build_ledger
from workbook_tools.ledger.series.moss import moss_series

ON = dt.date(2026, 3, 31)


def series(*rows, on=ON):
    return moss_series(build_ledger(rows, settings(), on=on)[0], on)


def looks(made):
    return list(zip(made.bin.tolist(), made.state.tolist(), made.since.tolist(), strict=True))


def moss(when, word, did="", bins="A"):
    return log_row(when, bins, did, moss=words(word))


def test_a_look_counts_from_the_watering_before_it():
    made = series(
        bin_row("A"),
        log_row("2026-03-01", "A", "water"),
        moss("2026-03-03", "damp"),
        moss("2026-03-06", "dry", "water"),
        moss("2026-03-10", "drying"),
    )
    assert looks(made) == [(0, 2, 2), (0, 0, 5), (0, 1, 4)]
    assert made.watered.tolist() == [dt.date(2026, 3, 6).toordinal()]
    assert made.looked.tolist() == [dt.date(2026, 3, 10).toordinal()]
    assert made.found.tolist() == [1]
    assert made.gaps(0, ON.toordinal()) == [5]
    assert made.gaps(0, dt.date(2026, 3, 5).toordinal()) == []


def test_nothing_can_be_reckoned_before_the_first_watering():
    made = series(bin_row("A"), moss("2026-03-03", "damp"), log_row("2026-03-05", "A", "water"))
    assert made.size == 0
    assert made.found.tolist() == [-1]
    assert series(bin_row("A")).watered.tolist() == [0]


def test_two_looks_of_one_day_count_once_the_drier():
    made = series(
        bin_row("A"), log_row("2026-03-01", "A", "water"), moss("2026-03-04", "damp"), moss("2026-03-04", "drying")
    )
    assert looks(made) == [(0, 1, 3)]


def test_vague_dates_and_those_to_come_are_not_used():
    made = series(bin_row("A"), log_row("2026-02", "A", "water"), log_row("2026-04-01", "A", "water"))
    assert made.watered.tolist() == [0]


def test_too_wet_until_seen_damp_or_for_two_weeks():
    wet = series(bin_row("A"), moss("2026-03-25", "soaked"))
    assert wet.too_wet[0][0] == "found soaked"
    drier = series(bin_row("A"), moss("2026-03-25", "soaked"), moss("2026-03-28", "damp"))
    assert drier.too_wet == {}
    assert series(bin_row("A"), moss("2026-03-01", "soaked")).too_wet == {}
    lid = series(bin_row("A"), log_row("2026-03-29", "A", "look", seen=words("condensation")))
    assert lid.too_wet[0][0] == "condensation seen"
    dry = log_row("2026-03-29", "A", "look", seen=words("condensation"), moss=words("dry"))
    assert series(bin_row("A"), dry).too_wet == {}


def test_bin_list_dates_count_as_waterings():
    made = series(bin_row("A", last_water=day("2026-03-20")))
    assert made.watered.tolist() == [dt.date(2026, 3, 20).toordinal()]
