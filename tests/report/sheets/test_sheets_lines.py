import datetime as dt

from tools.report_sample import ON, sample
from workbook_tools.plan.learned.records import Estimates, LineForecast, Range
from workbook_tools.plan.wording import Wording
from workbook_tools.report.sheets.bins import bin_lines, sheet
from workbook_tools.report.sheets.formulas import learning
from workbook_tools.report.sheets.lines import least_kept, line_table

WORDING = Wording("en-GB")


def line(kept=0.95, **more):
    made = {
        "species": "Porcellio scaber",
        "line": "Grey A",
        "bins": ("A01", "A04"),
        "alive": 2,
        "began": dt.date(2025, 1, 1),
        "founders": 20.0,
        "now": 140.4,
        "least": 18.0,
        "breeders": 11.3,
        "months": 9.0,
        "generations": 1.62,
        "kept": Range(kept - 0.1, kept, kept + 0.02),
    }
    return LineForecast(**{**made, **more})


def findings(*lines):
    return sample(estimates=Estimates(ON, lines=lines))


def test_line_that_lost_most_stands_first_and_one_that_is_gone_last():
    rows = line_table([line(0.98), line(0.6, alive=0), line(0.8)], WORDING).rows
    assert [row.kept.middle for row in rows] == [0.8, 0.98, 0.6]


def test_lines_that_lost_much_are_named_the_worst_first():
    assert least_kept([line(0.95), line(0.5, alive=0)], WORDING) == ()
    (text,) = least_kept([line(0.85, line="Rust"), line(0.8), line(0.95)], WORDING)
    assert text.startswith(
        "Likely to have lost more than 10 % of their variation: Grey A (80 % kept) and Rust (85 % kept). Animals of"
    )
    (text,) = least_kept([line(0.8 + i / 100) for i in range(5)], WORDING)
    assert "(82 % kept) and 2 lines more." in text


def test_cells():
    table = line_table([line(founders=None)], WORDING)
    row = {column.heading: column.get(table.rows[0]) for column in table.columns}
    assert [row[heading] for heading in ("Line", "Bins in all", "Founders", "Animals", "Fewest", "Kept")] == [
        "Grey A",
        2,
        None,
        140,
        18,
        0.95,
    ]
    assert row["If few breed"] < row["Kept"] < row["If many breed"]


def test_each_bin_shows_its_line_and_other_bins_nothing():
    shown = {one.bin.name: one.of_line for one in bin_lines(findings(line()), WORDING)}
    assert (shown["A01"], shown["A04"], shown["A02"]) == (line(), line(), None)
    column = next(c for c in sheet(findings(line())).tables[0].columns if c.heading == "Variation kept")
    rows = bin_lines(findings(line()), WORDING)
    assert [column.get(row) for row in rows[:2]] == [0.95, None]


def test_sheet_says_that_it_is_a_rough_guide_and_where_the_formula_stands():
    (text,) = [text for text in sheet(findings(line())).lines if "rough guide" in text]
    assert "Ne" not in text and "sheet Methods & sources" in text
    assert "1 - 1 / (2 Ne)" in str(learning())
