"""Serial numbers of dates, against ECMA-376 (Office Open XML), second edition, Annex L.2.16.9 "Dates and times".

Each number is written with a date format into a workbook, and the workbook is opened as any other. The standard prints
times to the second, so half a second is the tolerance: reading to the second must give the very time printed.

The standard knows two ways to count in the 1900 system. In its "1900 date base" day 0 is 30 December 1899 and there is
no 29 February 1900; in its "1900 backward compatibility date base" day 1 is 1 January 1900, and day 60 is the 29
February 1900 that never was. Both agree from day 61 on, 1 March 1900. Where they differ the standard contradicts
itself: under the 1900 date base it prints 1.5 for noon on 1 January 1900, which is true only in the compatibility base
(in the other it would be 2.5). No number below 61 is therefore taken for a date; each is named as a problem instead.
In the 1904 system the numbers of its first 60 days are treated alike, since there they are counts and not dates.
"""

import datetime as dt

import pytest
import xlsxwriter

from workbook_tools.intake.workbook import open_book

SHAPE = "yyyy-mm-dd hh:mm:ss"


def read(tmp_path, serial, date_1904):
    path = tmp_path / "dates.xlsx"
    with xlsxwriter.Workbook(path, {"date_1904": date_1904}) as book:
        book.add_worksheet("D").write_number(0, 0, serial, book.add_format({"num_format": SHAPE}))
    opened, problems = open_book(path)
    assert opened.date_1904 is date_1904
    cell = opened.sheets[0].cells.get((1, 1))
    return (cell.value if cell else None), [problem.code for problem in problems]


@pytest.mark.parametrize(
    ("serial", "date_1904", "printed"),
    [
        # ECMA-376, 2nd edition, Annex L.2.16.9
        (3687.4207639, False, "1910-02-03T10:05:54"),
        (2958465.9999884, False, "9999-12-31T23:59:59"),
        (2225.4207639, True, "1910-02-03T10:05:54"),
        (2957003.9999884, True, "9999-12-31T23:59:59"),
    ],
)
def test_serial_ecma_376_annex_l(tmp_path, serial, date_1904, printed):
    assert read(tmp_path, serial, date_1904) == (dt.datetime.fromisoformat(printed), [])


@pytest.mark.parametrize(
    ("serial", "date_1904"),
    [
        # ECMA-376, 2nd edition, Annex L.2.16.9: dates before the first that this reader takes for one
        (-2337.999989, False),  # printed: 1893-08-05T00:00:01
        (-3799.999989, True),  # printed: 1893-08-05T00:00:01
        (1.5, False),  # printed: 1900-01-01T12:00:00, a misprint, true in the compatibility base only
        (2.5, False),  # what noon of that day would be in the base it is printed under
    ],
)
def test_serial_too_early_ecma_376_annex_l_is_named_and_never_another_date(tmp_path, serial, date_1904):
    assert read(tmp_path, serial, date_1904) == (None, ["cell.early_date"])


def test_serial_half_a_day_ecma_376_annex_l_1904_reads_as_a_time(tmp_path):
    """The standard prints 0.5 as noon on 1 January 1904: the time of day is kept, the day isn't meant."""
    assert read(tmp_path, 0.5, True) == (dt.time(12), [])


@pytest.mark.parametrize(
    ("serial_1900", "serial_1904"),
    # ECMA-376, 2nd edition, Annex L.2.16.9: the same moment in both systems, 1462 days apart
    [(3687.4207639, 2225.4207639), (2958465.9999884, 2957003.9999884)],
)
def test_one_moment_in_both_systems_ecma_376_annex_l(tmp_path, serial_1900, serial_1904):
    value, problems = read(tmp_path, serial_1900, False)
    assert isinstance(value, dt.datetime)
    assert read(tmp_path, serial_1904, True) == (value, problems)


@pytest.mark.parametrize(
    ("serial", "date_1904", "day"),
    [
        # Spreadsheet library Axlsx, test/workbook/worksheet/tc_date_time_converter.rb at commit 02341a9
        (25569, False, dt.date(1970, 1, 1)),
        (36526, False, dt.date(2000, 1, 1)),
    ],
)
def test_serial_axlsx(tmp_path, serial, date_1904, day):
    assert read(tmp_path, serial, date_1904) == (day, [])
