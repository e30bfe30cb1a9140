import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.intake.cells import Cell
from workbook_tools.intake.date_order import judge_order
from workbook_tools.problems import CellRef


def column(*values, col=1):
    return [Cell(CellRef("Log", row, col), value, str(value)) for row, value in enumerate(values, start=2)]


def test_an_impossible_month_decides():
    verdict = judge_order([column("3/2/2025", "13/2/2025")])
    assert (verdict.order, verdict.sure, str(verdict.evidence)) == ("dmy", True, "Log!A3")
    verdict = judge_order([column("3/2/2025", "2/13/2025")])
    assert (verdict.order, verdict.sure, verdict.problems) == ("mdy", True, ())


def test_a_day_without_a_year_above_twelve_decides_for_day_first_only():
    assert judge_order([column("12/3", "28/2")]).order == "dmy"
    assert not judge_order([column("12/3", "03/24")]).sure


def test_a_weekday_beside_decides():
    assert judge_order([column("5/2/25 (Wed)")]).order == "dmy"
    assert judge_order([column("5/2/25 (Fri)")]).order == "mdy"


def test_the_order_of_rows_decides_when_no_date_does():
    verdict = judge_order([column("1/2/2025", "1/9/2025", "2/3/2025", "2/10/2025", "3/5/2025", "3/12/2025")])
    assert (verdict.order, verdict.sure) == ("mdy", True)
    verdict = judge_order([column("2/1/2025", "9/1/2025", "3/2/2025", "10/2/2025", "5/3/2025", "12/3/2025")])
    assert (verdict.order, verdict.sure) == ("dmy", True)


def test_newest_first_is_an_order_of_rows_too():
    dates = ["12/3/2025", "5/3/2025", "10/2/2025", "3/2/2025", "9/1/2025", "2/1/2025"]
    assert judge_order([column(*dates)]).order == "dmy"


def test_real_dates_beside_help():
    values = [dt.date(2025, 1, 30), "2/1/2025", dt.date(2025, 2, 2), "2/9/2025", dt.date(2025, 2, 20), "3/2/2025"]
    verdict = judge_order([column(*values)])
    assert (verdict.order, verdict.sure) == ("mdy", True)


def test_what_stays_open_is_a_problem_with_every_cell():
    verdict = judge_order([column("3/4/2025", "5/4/2025"), column("6/4", col=3)])
    assert (verdict.order, verdict.sure) == ("dmy", False)
    (problem,) = verdict.problems
    assert problem.code == "dates.order_open"
    assert [str(ref) for ref in problem.cells] == ["Log!A2", "Log!A3", "Log!C2"]
    assert "April 3" in problem.says


def test_the_majority_decides_and_the_odd_cells_are_named():
    verdict = judge_order([column("13/2/2025", "14/2/2025", "15/2/2025", "2/16/2025", "3/3/2025")])
    assert (verdict.order, verdict.sure) == ("dmy", True)
    assert [str(ref) for ref in verdict.odd] == ["Log!A5"]
    assert [problem.code for problem in verdict.problems] == ["dates.order_mixed"]


def test_year_first_and_names_leave_nothing_open():
    assert judge_order([column("2025-03-04", "2025-03-05")]).order == "ymd"
    assert judge_order([column("4 March 2025")]).sure
    assert judge_order([]).sure


def test_real_dates_that_the_program_may_have_swapped_are_named():
    values = ["13/2/2025", "21/2/2025", "28/2/2025", dt.date(2025, 5, 3), dt.date(2025, 9, 3), dt.date(2025, 12, 3)]
    (problem,) = judge_order([column(*values)]).problems
    assert (problem.code, len(problem.cells)) == ("dates.swapped", 3)
    assert judge_order([column(*values, dt.date(2025, 3, 15))]).problems == ()


@given(
    st.lists(st.dates(dt.date(2020, 1, 1), dt.date(2024, 12, 31)), min_size=1, max_size=40),
    st.sampled_from([("dmy", "%d/%m/%Y"), ("mdy", "%m/%d/%Y")]),
)
def test_a_sure_verdict_on_dates_in_one_order_and_running_on_is_right(days, how):
    order, pattern = how
    verdict = judge_order([column(*(day.strftime(pattern) for day in sorted(days)))])
    differ = any(day.day <= 12 and day.day != day.month for day in days) or any(day.day > 12 for day in days)
    if verdict.sure and differ:
        assert verdict.order == order


def test_a_month_and_year_decide_nothing_where_other_dates_are_day_month():
    verdict = judge_order([column("20/11/26", "18/11/26", "12/25")])

    assert (verdict.order, verdict.sure, verdict.odd, verdict.problems) == ("dmy", True, (), ())


def test_a_month_and_day_without_a_year_decide_where_nothing_else_does():
    assert judge_order([column("11/20", "11/24")]).order == "mdy"
