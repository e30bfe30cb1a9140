import pytest

from tools.drawn import values
from tools.learned_sample import estimates
from tools.report_sample import ON, sample
from workbook_tools.plan.learned.records import Estimates
from workbook_tools.plan.learned.totals import added
from workbook_tools.report.sheets.leaf_litter import sheet


@pytest.fixture(scope="module")
def spec():
    return sheet(sample())


def test_first_line_says_the_need_of_a_week_and_what_runs_out(spec):
    # bins 0, 1 and 2 may run out on days 0, 3 and 6
    litres = added(leaf.a_week for leaf in sample().estimates.leaf.values()).middle
    assert spec.answer == (
        f"About {litres:.1f} litres of leaf litter a week in all ({round(litres * 20)} g); "
        "3 bins may run out within a week."
    )


def test_what_runs_out_first_stands_first(spec):
    rows = values(spec, "LeafLitter")
    days = [row["Top up by"] for row in rows]
    assert days[:-1] == sorted(days[:-1])
    assert (rows[0]["Bin"], rows[0]["In words"]) == (
        "A01",
        "About 0 litres, between 0 and 0.1 left; as good as used up",
    )
    assert rows[1]["In words"] == "About 0.9 litres, between 0.4 and 1.3 left; lasts until about 6 Apr 2026"
    assert rows[1]["Not after"] == "can't say"
    assert rows[-1]["In words"] == "Starting guess: about 0.9 litres, between 0.4 and 1.3 left; lasts for years"
    assert (rows[-1]["Top up by"], rows[-1]["Simple reckoning"]) == ("can't say", None)
    assert values(spec, "LeafLitterFirst") == rows[:8]


def test_grams_are_the_litres_at_their_weight(spec):
    for row in values(spec, "LeafLitter"):
        assert row["Grams a week"] == pytest.approx(row["Litres a week"] * 20, abs=0.11)


def test_species_add_up_to_all(spec):
    rows = values(spec, "LeafBySpecies")
    assert rows[-1]["Species"] == "all"
    assert sum(row["Bins"] for row in rows[:-1]) == rows[-1]["Bins"] == 13
    assert sum(row["Run out"] for row in rows[:-1]) == rows[-1]["Run out"] == 3
    assert sum(row["Litres a week"] for row in rows[:-1]) == pytest.approx(rows[-1]["Litres a week"], rel=0.02)
    needs = [row["Litres a week"] for row in rows[:-1]]
    assert needs == sorted(needs, reverse=True)
    assert all(row["From"] <= row["Litres a week"] <= row["To"] for row in rows)


def test_charts_show_the_bins_that_run_out_first(spec):
    assert [chart.title for chart in spec.charts] == [f"Bin A0{i}: leaf litter left" for i in (1, 2, 3)]
    assert {chart.below for chart in spec.charts} == {"LeafLitterFirst"}


def test_bins_without_a_line_are_counted():
    known = estimates(ON, ["A01", "A02"])
    spec = sheet(sample(estimates=Estimates(ON, leaf=known.leaf)))
    assert "11 bins have no line" in spec.lines[0]


def test_without_anything_known_the_sheet_says_so():
    spec = sheet(sample(estimates=Estimates(ON)))
    assert spec.answer == "Nothing can be said of leaf litter: no top-up and no look at it is logged."
    assert spec.charts == ()
    assert [len(table.rows) for table in spec.tables] == [0]
