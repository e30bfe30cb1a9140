import pytest

from workbook_tools.report.columns import Column, SheetSpec, Spark, TableSpec
from workbook_tools.report.layout import WORDS_WIDTH, lay_out


def column(heading, width=12, **more):
    return Column(heading, lambda row: row, width=width, **more)


def table(name, *columns, rows=(1, 2), **more):
    return TableSpec(name, columns or (column("One"), column("Two")), rows, **more)


def placed(*tables, **more):
    return lay_out(SheetSpec("Sheet", "Answer.", tables, **more), date_width=13)


def test_words_come_first_then_tables_with_blank_rows_between():
    layout = placed(
        table("A", title="First"),
        table("B", title="Second", rows=()),
        lines=("a line",),
        cautions=("careful",),
        after=("the end",),
    )
    assert [(line.row, line.style) for line in layout.lines] == [
        (0, "answer"),
        (1, "line"),
        (2, "caution"),
        (4, "title"),
        (10, "title"),
        (15, "line"),
    ]
    first, second = layout.tables
    assert (first.headings, first.first, first.last) == (5, 6, 7)
    assert (second.headings, second.first, second.last) == (11, 12, 12)
    assert layout.last_row == 15


def test_the_widest_of_stacked_columns_counts_and_dates_have_their_least():
    layout = placed(
        table("A", column("One", 20), column("Two", 5, style="date")), table("B", column("One", 9), column("Two", 6))
    )
    assert layout.widths == (20, 13)


def test_a_heading_is_never_wider_than_its_column():
    layout = placed(table("A", column("Extraordinarily", 3)))
    assert layout.widths[0] > len("Extraordinarily")


def test_blank_rows_belong_to_the_table():
    layout = placed(table("A", blank_rows=10))
    assert layout.tables[0].last - layout.tables[0].headings == 12


def test_numbers_of_small_charts_stand_in_hidden_columns_to_the_right():
    spark = Spark(("w1", "w2", "w3"), lambda row: (1, 2, 3))
    layout = placed(table("A", column("One"), column("Two", spark=spark)))
    assert layout.tables[0].sparks == {1: 2}
    assert len(layout.hidden) == 3


def test_words_run_over_no_more_than_can_be_read_at_a_glance():
    layout = placed(table("A", *(column(f"Column {i}", 30) for i in range(8))))
    assert WORDS_WIDTH <= layout.words_width < WORDS_WIDTH + 30


@pytest.mark.parametrize("name", ["", "x" * 32, "a/b", "a[b", "'quoted'", "a:b"])
def test_a_sheet_name_that_programs_refuse_is_a_mistake(name):
    with pytest.raises(ValueError, match="no sheet can be named"):
        lay_out(SheetSpec(name, "Answer."), date_width=13)


def test_headings_that_differ_only_in_case_are_a_mistake():
    with pytest.raises(ValueError, match="differ only in case"):
        placed(table("A", column("Bin"), column("BIN")))


def test_tables_without_headings_or_with_unknown_toned_ones_are_a_mistake():
    with pytest.raises(ValueError, match="lacks a heading"):
        placed(table("A", column(" ")))
    with pytest.raises(ValueError, match="colours a heading"):
        placed(table("A", toned=("None such",)))
