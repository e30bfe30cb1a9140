import datetime as dt

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.values import When

ON = dt.date(2025, 3, 20)


def read(text, name="Log"):
    intake, problems = read_book(book(sheet(name, text)), ON)
    return intake.rows, [(str(p.where), p.code) for p in problems if p.code != "dates.order_open"]


def days(rows):
    return [row.facts["when"][0].value.first if "when" in row.facts else None for row in rows]


def test_a_missing_year_is_that_of_the_row_above():
    rows, _ = read("Date|Bin|Done\n28/12/2024|A1|water\n30/12|A1|water\n2/1|A1|water\n5/1|A1|water")

    assert days(rows) == [dt.date(2024, 12, 28), dt.date(2024, 12, 30), dt.date(2025, 1, 2), dt.date(2025, 1, 5)]
    assert rows[2].facts["when"][0].guessed


def test_rows_before_the_first_full_date_take_its_year():
    rows, _ = read("Date|Bin|Done\n20/11|A1|water\n25/11|A1|water\n28/11/2023|A1|water")

    assert days(rows)[0] == dt.date(2023, 11, 20)


def test_a_date_written_once_for_several_rows_is_carried_and_said():
    rows, problems = read("Date|Bin|Done\n13/3/2025|A1|water\n|A2|water\n|A3|feed\n14/3/2025|A1|feed")

    assert days(rows) == [dt.date(2025, 3, 13)] * 3 + [dt.date(2025, 3, 14)]
    assert problems == [("Log!A3", "dates.carried")]


def test_a_ditto_mark_repeats_the_cell_above_and_keeps_its_own_place():
    rows, _ = read('Date|Bin|Done|Amount\n13/3/2025|A1|water|20 ml\n14/3/2025|"|"|″')

    fact = rows[1].facts["amount"][0]
    assert rows[1].facts["bins"][0].value == "A1"
    assert (str(fact.cell.ref), fact.value.number.best) == ("Log!D3", 20)
    assert "″" in fact.text


def test_a_ditto_mark_with_nothing_above_is_named():
    _, problems = read('Date|Bin|Done\n13/3/2025|"|water')

    assert ("Log!B2", "values.ditto_alone") in problems


def test_look_again_on_a_weekday_is_the_next_one():
    rows, _ = read("Date|Bin|Done|Look again\n13/3/2025|A1|water|Fri\n14/3/2025|A1|water|Fri")

    wanted = [row.facts["look_again"][0].value for row in rows]
    assert [when.first for when in wanted if isinstance(when, When)] == [dt.date(2025, 3, 14), dt.date(2025, 3, 21)]


def test_every_fact_keeps_its_cell_and_text():
    rows, _ = read("Date|Bin|Done|Dead|Note\n13/3/2025|A1|mist+feed|2 DOA|all=fine")

    for facts in rows[0].facts.values():
        for fact in facts:
            assert fact.cell.ref.row == 2
            assert fact.text
    assert rows[0].facts["note"][0].value == "all=fine"


def test_a_word_that_tells_a_field_nothing_is_named_and_a_plain_mark_is_not():
    text = "Bin|Species|Start|Last fed\nA1|Porcellio scaber|n/k|weekly\nA2|Porcellio scaber|-|3/3/2025"
    _, problems = read(text, "Bins")

    assert [found for found in problems if found[1].startswith("values.")] == [("Bins!D2", "values.nothing_told")]


def test_a_date_is_not_carried_over_one_that_cannot_be_read():
    rows, problems = read("Date|Bin|Done\n13/3/2025|A1|water\n31/2/2025|A2|water\n|A3|feed\n15/3|A1|feed")

    assert days(rows) == [dt.date(2025, 3, 13), None, None, dt.date(2025, 3, 15)]
    assert problems == [("Log!A3", "dates.impossible")]


def test_a_column_of_days_may_say_what_was_seen_and_a_score_is_no_day():
    text = "Bin|Species|Dirt look\nA1|x|6/10\nA2|x|frassy\nA3|x|13/2/2025\nA4|x|flaky"
    rows, problems = read(text, "Bins")

    assert [{key for key in row.facts if "substrate" in key} for row in rows] == [
        set(),
        {"substrate"},
        {"last_substrate_look"},
        set(),
    ]
    assert problems == [("Bins!C2", "dates.score_or_day"), ("Bins!C5", "dates.not_understood")]
