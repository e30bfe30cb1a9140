from dataclasses import replace

import pytest

from tools.drawn import drawn, reopened
from workbook_tools.report.columns import ChartSpec, Column, Series, SheetSpec, TableSpec
from workbook_tools.report.layout import CHART_ROWS, lay_out
from workbook_tools.report.paging import DEFAULT_HEIGHT, breaks, scale


def chart(below, across=1):
    return ChartSpec("Title", "Says.", "bar", ("a", "b"), "x", "y", (Series("n", "learned", (1, 2)),), below, across)


def spec(*charts, rows=4, width=100, landscape=True):
    tables = tuple(
        TableSpec(name, (Column("One", str, width=width),), list(range(rows)), "Title") for name in ("First", "Second")
    )
    return SheetSpec("Sheet", "Answer.", tables, charts=charts, landscape=landscape)


def test_a_narrow_sheet_is_not_enlarged_and_a_wide_one_fits():
    assert scale(lay_out(spec(width=50), date_width=10), "A4") == 100
    # 200 characters are 1405 pixels or 1053.75 points; A4 lying has 784.3 of them, of which 92 % are counted on.
    assert scale(lay_out(spec(width=200), date_width=10), "A4") == 68
    assert scale(lay_out(spec(width=200), date_width=10), "Letter") == 64
    assert scale(lay_out(spec(width=200, landscape=False), date_width=10), "A4") == 46
    assert scale(lay_out(spec(width=9000), date_width=10), "A4") == 10


def test_one_table_without_a_chart_needs_no_break():
    one = replace(spec(rows=400), tables=spec(rows=400).tables[:1])
    layout = lay_out(one, date_width=10)
    assert breaks(layout, "A4", {}) == []
    assert reopened(drawn(one))["Sheet"].sheet_properties.pageSetUpPr.fitToPage


@pytest.mark.parametrize("rows", range(16, 60))
def test_a_title_takes_the_first_rows_of_its_table_with_it(rows):
    layout = lay_out(spec(rows=rows, width=50), date_width=10)
    title = layout.tables[1].headings - 1
    # at 100 % a lying A4 page has 501.7 points: 33 rows of 15; title, headings and three rows need five of them
    above = title % 33
    found = breaks(layout, "A4", {})
    assert found == ([title] if above == 0 or above > 33 - 5 - 1 else [])


@pytest.mark.parametrize(("rows", "again"), [(36, True), (50, False)])
def test_headings_repeated_on_each_page_take_room(rows, again):
    sheet = spec(rows=rows, width=50)
    layout, repeated = (lay_out(one, date_width=10) for one in (sheet, replace(sheet, repeated_headings=True)))
    title, high = layout.tables[1].headings - 1, {layout.tables[0].headings: 150.0}
    # the first page holds 23 rows with the high one; the second 33, or 23 where that one is printed again
    assert (title - 24) % 33 > 33 - 6 if not again else (title - 24) > 23 - 6
    assert breaks(layout, "A4", high) == ([] if again else [title])
    assert breaks(repeated, "A4", high) == ([title] if again else [])


def test_a_second_row_of_charts_that_does_not_fit_begins_a_page():
    layout = lay_out(spec(*[chart("First")] * 4), date_width=10)
    found = breaks(layout, "A4", {})
    assert found == [layout.charts[1].row, layout.charts[2].row, layout.charts[3].row][: len(found)]
    assert found
    ends = [0, *found, layout.last_row + 1]
    for placed in layout.charts:
        page = max(end for end in ends if end <= placed.row)
        rows = placed.rows[-1] + 1 - page
        assert rows * DEFAULT_HEIGHT <= 501.7 * 100 / scale(layout, "A4")


def test_a_later_table_with_charts_begins_a_page_with_its_title():
    layout = lay_out(spec(chart("Second")), date_width=10)
    assert breaks(layout, "A4", {}) == [layout.tables[1].headings - 1]


def test_high_rows_push_a_chart_to_the_next_page():
    layout = lay_out(spec(chart("First")), date_width=10)
    assert breaks(layout, "A4", {}) == []
    assert breaks(layout, "A4", {2: 400.0}) == [layout.charts[0].row]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_scale_and_breaks_stand_in_the_file(paper):
    sheet = spec(*[chart("First")] * 3, width=200)
    page = reopened(drawn(sheet, paper=paper))["Sheet"]
    layout = lay_out(sheet, date_width=10)
    assert page.page_setup.scale == scale(layout, paper)
    assert not page.sheet_properties.pageSetUpPr.fitToPage
    assert {brk.id for brk in page.row_breaks.brk} <= {placed.row for placed in layout.charts}
    assert len(layout.charts[0].rows) == CHART_ROWS
