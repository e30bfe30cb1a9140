import datetime as dt

from workbook_tools.plan.backtest.records import Backtest, Comparison
from workbook_tools.plan.backtest.score import scores, scores_by_day
from workbook_tools.plan.learned.records import Range
from workbook_tools.plan.wording import Wording
from workbook_tools.report.sheets.backtest import NOTHING, sheets, short_table

ON = dt.date(2026, 1, 1)


def backtest(*rows):
    return Backtest(ON, (ON,) if rows else (), rows, scores(rows), scores_by_day(rows))


def one(quantity, seen, middle, **rules):
    return Comparison(quantity, "A", ON, ON, seen, seen, Range(middle * 0.8, middle, middle * 1.2), True, rules)


GOOD = one("moss", 4.0, 5.0, usual=7.0, last=4.0)
LEAF = one("leaf", 1.0, 2.0, usual=4.0)


def sheet(*args):
    return sheets(*args)[0]


def shown(table, row):
    return {column.heading: column.get(row) for column in table.columns}


def test_scores_are_shown_in_the_quantitys_own_unit():
    made = sheet(backtest(GOOD, LEAF), "mine.xlsx", Wording())
    moss, leaf = (shown(made.tables[0], row) for row in made.tables[0].rows)
    assert (moss["Off by"], moss["Unit"], moss["Fits 80 %"]) == (1.0, "days", 1.0)
    assert (moss["Common practice: off by"], moss["Common practice: ratio"]) == (3.0, 0.333)
    assert moss["Last one: ratio"] is None
    assert (round(leaf["Off by"], 6), leaf["Unit"], leaf["Fits 80 %"]) == (2.0, "times", 0.0)
    assert leaf["Last three: off by"] is None


def test_first_line_says_what_was_better_than_every_rule():
    assert (
        "nearer than any simple rule for leaf litter used in a week; not for"
        in sheet(backtest(GOOD, LEAF), "mine.xlsx", Wording()).answer
    )
    assert "for every quantity" in sheet(backtest(LEAF), "mine.xlsx", Wording()).answer
    assert "for no quantity" in sheet(backtest(GOOD), "mine.xlsx", Wording()).answer


def test_every_comparison_is_listed():
    (table,) = sheets(backtest(GOOD, LEAF), "mine.xlsx", Wording())[1].tables
    row = shown(table, table.rows[0])
    assert (row["Bin"], row["Seen from"], row["Estimate"], row["Fits"]) == ("A", 4.0, 5.0, "yes")


def test_nothing_to_look_back_to_is_said():
    (made,) = sheets(backtest(), "mine.xlsx", Wording())
    assert (made.answer, made.tables) == (NOTHING, ())
    assert short_table(backtest()) == [NOTHING]


def test_short_table_has_a_line_for_each_quantity():
    head, moss, leaf = short_table(backtest(GOOD, LEAF))
    assert head.split()[:3] == ["notes", "off", "by"]
    assert moss.startswith("Days until the moss corner is dry")
    assert "1.00 days" in moss
    assert "2.00 times" in leaf
    assert len(head) == len(moss) == len(leaf)
