import datetime as dt
import io
import re
import zipfile

import pytest

from tools.drawn import drawn, reopened
from workbook_tools.report.charts import pixels
from workbook_tools.report.columns import ChartSpec, Column, Series, SheetSpec, TableSpec
from workbook_tools.report.layout import CHART_ROWS, lay_out
from workbook_tools.report.styles import CHART_LOOKS, LEAST_CHART_CONTRAST, PAPER, contrast

DAYS = tuple(dt.date(2026, 1, 1) + dt.timedelta(weeks=i) for i in range(5))


def table(name="Things", rows=(1, 2, 3)):
    return TableSpec(
        name, (Column("One", lambda row: row, "number", 40), Column("Two", str, width=60)), rows, "A title"
    )


def lines(title="Litter left", **changes):
    made = {
        "title": title,
        "says": "Falls from 5 to 1.",
        "kind": "line",
        "over": DAYS,
        "over_title": "Day",
        "title_up": "Litres",
        "series": (
            Series("so far", "so far", (5.0, 4.0, 3.0, None, None)),
            Series("expected", "ahead", (None, None, 3.0, 2.0, 1.0)),
            Series("", "edge", (5.5, 4.5, 3.5, 3.0, float("nan"))),
        ),
        "below": "Things",
    }
    return ChartSpec(**{**made, **changes})


def bars(**changes):
    series = (Series("learned", "learned", (1.0, 2.0)), Series("guess", "guess", (0.0, 4.0)))
    return lines("Bins by month", kind="bar", over=("by now", "=1+1"), series=series, whole=True, **changes)


def sheet(*charts, tables=None, **more):
    return SheetSpec("Sheet", "Answer.", tables or (table(),), charts=charts, **more)


def parts(content, kind):
    with zipfile.ZipFile(io.BytesIO(content)) as book:
        return {name: book.read(name).decode() for name in book.namelist() if re.fullmatch(kind, name)}


def test_charts_stand_in_rows_below_their_table_and_their_numbers_in_columns_of_their_own():
    layout = lay_out(sheet(lines(), lines(), bars()), date_width=10)
    first, second, third = layout.charts
    assert first.row == second.row > layout.tables[0].last
    assert (first.place, second.place, third.place) == (0, 1, 0)
    assert third.row == first.row + CHART_ROWS
    assert layout.last_row == third.rows[-1]
    assert first.numbers == layout.hidden_from == len(layout.widths) + 1
    assert (second.numbers, third.numbers) == (first.numbers + 4, first.numbers + 8)
    assert len(layout.hidden) == 4 + 4 + 3


def test_a_table_stands_below_the_charts_of_the_one_before():
    layout = lay_out(sheet(lines(), tables=(table(), table("More"))), date_width=10)
    assert layout.tables[1].headings > layout.charts[0].rows[-1]


@pytest.mark.parametrize(
    "wrong",
    [
        {"below": "Nothing"},
        {"series": ()},
        {"over": DAYS[:4]},
        {"title": "=1+1"},
        {"says": ""},
    ],
)
def test_a_chart_that_would_be_empty_or_run_is_a_mistake_of_ours(wrong):
    with pytest.raises(ValueError, match="chart"):
        lay_out(sheet(lines(**wrong)), date_width=10)


def test_a_line_chart_names_the_cells_of_its_numbers():
    content = drawn(sheet(lines()))
    (chart,) = parts(content, r"xl/charts/chart\d+\.xml").values()
    page = reopened(content)["Sheet"]
    cells = re.findall(r"<c:f>Sheet!\$(\w+)\$(\d+)(?::\$\w+\$(\d+))?</c:f>", chart)
    names, days, values = cells[0::3], cells[1::3], cells[2::3]
    assert [page[f"{col}{row}"].value for col, row, _ in names] == ["so far", "expected", None]
    for col, first, last in days:
        assert [page[f"{col}{row}"].value.date() for row in range(int(first), int(last) + 1)] == list(DAYS)
    shown = [[page[f"{col}{row}"].value for row in range(int(a), int(b) + 1)] for col, a, b in values]
    assert shown == [[5, 4, 3, None, None], [None, None, 3, 2, 1], [5.5, 4.5, 3.5, 3, None]]
    assert "<c:dateAx>" in chart
    assert '<c:plotVisOnly val="1"/>' not in chart
    assert '<c:legendEntry><c:idx val="2"/><c:delete val="1"/></c:legendEntry>' in chart
    assert all(text in chart for text in ("Litter left", ">Day<", ">Litres<"))


def test_numbers_of_a_chart_are_hidden_and_not_printed():
    page = reopened(drawn(sheet(lines(), bars())))["Sheet"]
    hidden = [name for name, column in page.column_dimensions.items() if column.hidden]
    assert hidden
    assert page.print_area.startswith("'Sheet'!$A$1:$B$")


def test_bars_stand_on_one_another_and_a_keepers_word_is_no_formula():
    content = drawn(sheet(bars()))
    (chart,) = parts(content, r"xl/charts/chart\d+\.xml").values()
    assert '<c:grouping val="stacked"/>' in chart
    (page,) = parts(content, r"xl/worksheets/sheet\d+\.xml").values()
    assert "<f>" not in page
    assert "=1+1" in {cell.value for row in reopened(content)["Sheet"].iter_rows() for cell in row}


def test_every_chart_says_what_it_shows_to_those_who_cannot_see_it():
    drawings = "".join(parts(drawn(sheet(lines(), bars())), r"xl/drawings/drawing\d+\.xml").values())
    assert re.findall(r'<xdr:cNvPr id="\d+" name="Chart \d+" descr="([^"]*)"', drawings) == ["Falls from 5 to 1."] * 2


def test_shares_end_at_all_and_counts_go_by_ones():
    (share,) = parts(drawn(sheet(lines(share=True))), r"xl/charts/chart\d+\.xml").values()
    assert '<c:max val="1"/>' in share
    (count,) = parts(drawn(sheet(bars())), r"xl/charts/chart\d+\.xml").values()
    assert '<c:majorUnit val="1"/>' in count


def test_a_long_title_is_cut_and_odd_characters_are_shown_as_such():
    (chart,) = parts(drawn(sheet(lines("Bin \x07" + "x" * 200))), r"xl/charts/chart\d+\.xml").values()
    assert "\x07" not in chart
    assert "x" * 100 not in chart


def test_charts_side_by_side_fill_the_width_of_the_sheet():
    layout = lay_out(sheet(lines(), lines()), date_width=10)
    (drawing,) = parts(drawn(sheet(lines(), lines())), r"xl/drawings/drawing\d+\.xml").values()
    columns = [int(n) for n in re.findall(r"<xdr:from><xdr:col>(\d+)</xdr:col>", drawing)]
    assert columns == [0, 1]
    assert int(re.findall(r"<xdr:to><xdr:col>(\d+)</xdr:col>", drawing)[-1]) <= len(layout.widths)
    assert pixels(layout.widths) == sum(round(width * 7) + 5 for width in layout.widths)


def test_every_look_stands_out_from_the_paper_and_lines_differ_without_colour():
    assert all(contrast(look.colour, PAPER) >= LEAST_CHART_CONTRAST for look in CHART_LOOKS.values())
    drawn_as = [(CHART_LOOKS[name].dash, CHART_LOOKS[name].width) for name in ("so far", "ahead", "edge", "mark")]
    assert len(set(drawn_as)) == 4
