import datetime as dt

from workbook_tools.plan.due import Due


def test_a_job_was_never_done_unless_it_says_so():
    due = Due("A1", "food", "Feed", dt.date(2026, 3, 1), "Because.", dt.date(2026, 2, 20))
    assert due.last is None
    assert due.moves
