import datetime as dt

import pytest

from tools.sheets import book, sheet
from workbook_tools.intake.reading import read_book
from workbook_tools.intake.values import Amount, Words

ON = dt.date(2025, 3, 20)


def read(text, name="Log"):
    intake, problems = read_book(book(sheet(name, text)), ON)
    return intake.rows, [
        (str(p.where), p.code) for p in problems if p.code not in ("dates.order_open", "words.guessed")
    ]


def said(row, field):
    return [fact.value.keys if isinstance(fact.value, Words) else fact.value for fact in row.facts.get(field, ())]


@pytest.mark.parametrize("mark", ["0", "-", "no", "0 ml"])
def test_nothing_given_in_a_table_of_one_act_is_not_done(mark):
    rows, problems = read(f"Date|Bin|ml\n13/3/2025|A1|30\n14/3/2025|A1|{mark}", "Watering")

    assert [row.act for row in rows] == ["water", "" if mark != "0 ml" else "water"]
    assert problems == ([("Watering!C3", "values.not_given")] if mark != "0 ml" else [])


def test_an_empty_amount_in_a_table_of_one_act_is_done_all_the_same():
    rows, problems = read("Date|Bin|ml\n13/3/2025|A1|30\n14/3/2025|A1|", "Watering")

    assert ([row.act for row in rows], problems) == (["water", "water"], [])


def test_a_count_of_nothing_is_a_count():
    rows, problems = read("Date|Bin|Number\n13/3/2025|A1|0\n14/3/2025|A1|3", "Count")

    assert ([row.act for row in rows], problems) == (["count", "count"], [])


def test_words_of_a_row_that_deny_the_act_of_its_table_win():
    text = "Date|Bin|Done\n13/3/2025|A1|fed\n14/3/2025|A1|fed\n15/3/2025|A1|not fed\n16/3/2025|A1|watered"
    rows, _ = read(text, "Feeding")

    assert [row.act for row in rows] == ["feed", "feed", "", ""]


@pytest.mark.parametrize("written", ["half", "50%", "1/2", "½"])
def test_a_share_under_the_amount_of_a_change_is_its_share(written):
    rows, problems = read(f"Date|Bin|Done|Amount\n13/3/2025|A1|new substrate|{written}\n14/3/2025|A1|water|1/2 l")

    assert [fact.value.number.best for fact in rows[0].facts["share"]] == [0.5]
    assert "amount" not in rows[0].facts
    assert isinstance(rows[1].facts["amount"][0].value, Amount)
    assert problems == []


def test_a_column_of_its_own_wins_over_a_number_in_the_text_and_a_difference_is_named():
    text = "Date|Bin|Done|Dead\n13/3/2025|A1|2 dead|3\n14/3/2025|A1|2 dead|2\n15/3/2025|A1|2 dead|"
    rows, problems = read(text)

    assert [row.facts["dead"][0].value.best for row in rows] == [3, 2, 2]
    assert problems == [("Log!C2", "words.number_twice")]


@pytest.mark.parametrize("written", ["A1 -> A4", "A1 to A4"])
def test_animals_moved_from_bin_to_bin(written):
    rows, _ = read(f"Date|Bin|Done|Number\n13/3/2025|{written}|moved|5\n14/3/2025|{written}|split|5")

    for row, act in zip(rows, ("animals_out", "split"), strict=True):
        assert said(row, "did") == [(act,)]
        assert [said(row, field) for field in ("bins", "from_bin", "to_bin")] == [["A1"], ["A1"], ["A4"]]
        assert row.facts["bins"][0].text == written


def test_a_number_beside_moved_is_read_and_columns_of_from_and_to_do():
    rows, problems = read("Date|Bin|Done|From bin|To\n13/3/2025||moved 5|A1|A4\n14/3/2025|A2|moved|A1|A4")

    assert said(rows[0], "did") == said(rows[1], "did") == [("animals_out",)]
    assert (rows[0].facts["number"][0].value.best, said(rows[0], "bins")) == (5, ["A1"])
    assert problems == []


def test_watering_from_one_bin_to_another_is_a_range():
    rows, _ = read("Date|Bin|Done\n13/3/2025|A1 to A4|water\n14/3/2025|A1|water")

    assert (said(rows[0], "bins"), "to_bin" in rows[0].facts) == (["A1 to A4"], False)
