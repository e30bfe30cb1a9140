import datetime as dt
from dataclasses import replace

import pytest

from tools.drawn import values
from tools.learned_sample import days, substrate
from tools.report_sample import ON, a_bin, sample
from workbook_tools.plan.learned.records import Basis, Estimates
from workbook_tools.plan.records import NextChange
from workbook_tools.plan.wording import Wording
from workbook_tools.report.sheets.learned import Row
from workbook_tools.report.sheets.substrate import answer, sheet

WORDING = Wording("en-GB")


@pytest.fixture(scope="module")
def spec():
    return sheet(sample(next_changes=()))


def test_first_line_says_how_many_need_new_substrate(spec):
    # spent on days 0, 40, 80 and 120 of the 122 to 14 Jul
    assert spec.answer == "4 bins need new substrate by 14 Jul 2026, 1 of them now, of 13."


@pytest.mark.parametrize(
    ("ahead", "said"),
    [
        ((0, 0), "2 bins need new substrate now, of 2."),
        ((50, 900), "1 bin needs new substrate by 14 Jul 2026, of 2."),
        ((400, 900), "No bin needs new substrate by 14 Jul 2026; the first about 18 Apr 2027."),
        ((None, None), "No bin needs new substrate by 14 Jul 2026."),
    ],
)
def test_first_line_in_other_cases(ahead, said):
    rows = [Row(a_bin(1), substrate(ON, "A01", 0, spent=days(ON, None, day, None))) for day in ahead]
    assert answer(rows, ON, WORDING) == said


def test_what_is_spent_first_stands_first(spec):
    rows = values(spec, "SubstrateLeft")
    about = [row["Spent about"] for row in rows]
    assert about[:-1] == sorted(about[:-1])
    assert about[-1] == "can't say"
    assert rows[0]["In words"] == "About 40 %, between 30 and 52 can still be recognised; spent by now"
    assert rows[1]["In words"].endswith("spent about Apr 2026, not before Apr 2026")
    assert rows[-1]["In words"].startswith("Starting guess: about 40 %")
    assert rows[-1]["In words"].endswith("when it is spent isn't known")
    assert {row["Not after"] for row in rows} == {"can't say"}


def test_the_smallest_part_to_renew_is_said_in_words(spec):
    rows = values(spec, "SubstrateLeft")
    assert rows[0]["Renew"] == "half"
    assert rows[-1]["Renew"] == "not even all"
    (column,) = [column for column in spec.tables[0].columns if column.heading == "Renew"]
    assert "lasts 6 months" in column.note


def test_the_chart_by_month_has_every_bin_once(spec):
    chart = spec.charts[0]
    assert chart.over[:2] == ("by now", "Mar 2026")
    assert chart.over[-2:] == ("Feb 2027", "later")
    assert len(chart.over) == 14
    counts = [sum(values) for values in zip(*(one.values for one in chart.series), strict=True)]
    assert sum(counts) == 13
    shown = dict(zip(chart.over, counts, strict=True))
    expected = dict.fromkeys(chart.over, 0)
    for i in range(12):
        day = ON + dt.timedelta(days=40 * i)
        name = "by now" if not i else WORDING.month(day)
        expected[name if name in expected else "later"] += 1
    expected["later"] += 1
    assert shown == expected


def test_paths_have_the_line_at_which_it_is_spent(spec):
    paths = spec.charts[1:]
    assert [chart.title for chart in paths] == [f"Bin A0{i}: substrate still recognisable" for i in (1, 2)]
    assert all(chart.share and chart.series[-1].name == "spent" for chart in paths)


def test_without_anything_known_the_sheet_says_so():
    spec = sheet(sample(estimates=Estimates(ON)))
    assert spec.answer == "Nothing can be said of substrate: no start, no change and no look at it is logged."
    assert spec.charts == ()


def test_the_day_of_change_is_that_of_changes_and_due():
    known = {name: substrate(ON, name, place) for place, name in enumerate(("A01", "A02", "A03"))}
    unlearned = replace(known["A02"], basis=Basis(0, False, "common practice, not yet learned here"))
    known |= {"A02": unlearned, "A03": replace(unlearned, bin="A03")}
    expected = (NextChange("A01", ON, "."), NextChange("A02", dt.date(2026, 5, 2), "."), NextChange("A03", None, "."))
    made = sheet(sample(estimates=Estimates(ON, substrate=known), next_changes=expected))
    rows = {row["Bin"]: row for row in values(made, "SubstrateLeft")}
    assert made.answer == "2 bins need new substrate by 14 Jul 2026, 1 of them now, of 3."
    assert [rows[name]["Spent about"] for name in known] == [ON, dt.date(2026, 5, 2), "can't say"]
    assert rows["A03"]["In words"].endswith("when it is spent isn't known")
    assert rows["A02"]["Not before"] == "can't say"
    assert rows["A02"]["In words"].endswith("can still be recognised; by the rhythm its change is due about May 2026")
