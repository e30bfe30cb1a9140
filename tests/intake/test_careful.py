"""Dates and times, where the fast reader needs the careful one beside it; and that both agree elsewhere."""

import pytest
import xlsxwriter
from made_files import named, shown

from workbook_tools.intake.workbook import open_book


def dated(path, serials, formats, **options):
    book = xlsxwriter.Workbook(path, options)
    sheet = book.add_worksheet("D")
    for col, shape in enumerate(formats):
        style = book.add_format({"num_format": shape})
        for row, serial in enumerate(serials):
            sheet.write_number(row, col, serial, style)
    book.close()
    return open_book(path)


def test_the_1904_system_gives_right_dates(tmp_path):
    read, problems = dated(tmp_path / "d.xlsx", [43830, 43889.5], ["yyyy-mm-dd"], date_1904=True)
    assert read.date_1904
    assert shown(read) == {"D": {"A1": "2024-01-01", "A2": "2024-02-29 12:00"}}
    assert problems == []


@pytest.mark.parametrize("serial", [0, 1, 45, 59, 60, 60.5, -3, -0.25, -2.75])
def test_small_numbers_shown_as_dates_are_named_and_not_used(tmp_path, serial):
    read, problems = dated(tmp_path / "d.xlsx", [serial, 45292], ["dd/mm/yyyy", "0.00"])
    assert "A1" not in shown(read)["D"]
    assert shown(read)["D"]["A2"] == "2024-01-01"
    assert shown(read)["D"]["B1"] == str(serial)
    assert named(problems) == [("D!A1", "cell.early_date")]


def test_the_first_of_march_1900_is_a_date(tmp_path):
    read, problems = dated(tmp_path / "d.xlsx", [61], ["dd/mm/yyyy"])
    assert shown(read)["D"]["A1"] == "1900-03-01"
    assert problems == []


@pytest.mark.parametrize(
    ("serial", "shape", "expected"),
    [
        (0, "hh:mm", "00:00"),
        (0.5, "hh:mm", "12:00"),
        (1.5, "hh:mm", "12:00"),
        (0.999999999, "hh:mm", "00:00"),
        (1.5, "[h]:mm", "36:00"),
        (0, "[h]:mm", "0:00"),
        (45292.9999999, "yyyy-mm-dd hh:mm", "2024-01-02"),
        (45292.123456, "yyyy-mm-dd hh:mm", "2024-01-01 02:57:47"),
        (12, '0 "days"', "12"),
        (12, "[Red]0", "12"),
        (45292, "[$-409]d-mmm;@", "2024-01-01"),
    ],
)
def test_times_durations_and_number_formats(tmp_path, serial, shape, expected):
    read, problems = dated(tmp_path / "d.xlsx", [serial], [shape])
    assert shown(read)["D"] == {"A1": expected}
    assert problems == []


def test_a_number_beyond_all_dates_is_never_a_date(tmp_path):
    read, problems = dated(tmp_path / "d.xlsx", [2958466, 5], ["dd/mm/yyyy"])
    assert shown(read)["D"] == {}
    assert named(problems) == [("D!A1", "cell.no_date"), ("D!A2", "cell.early_date")]


def test_both_readers_give_the_same_cells(tmp_path, monkeypatch):
    from workbook_tools.intake import xlsx
    from workbook_tools.intake.fast import ReaderFailed

    path = tmp_path / "both.xlsx"
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet("Log")
    shapes = ["General", "yyyy-mm-dd", "dd/mm/yyyy hh:mm", "hh:mm:ss", "[h]:mm", "0%", "mmm yy", "0.00"]
    for col, shape in enumerate(shapes):
        style = book.add_format({"num_format": shape})
        for row, number in enumerate([61, 0.25, 45292, 45292.5, 45351.5451388889, 7, 1e9, 100.125]):
            if 1 <= number < 61 and shape in ("yyyy-mm-dd", "dd/mm/yyyy hh:mm", "mmm yy", "hh:mm:ss"):
                continue
            if number > 1e6 and shape not in ("General", "0%", "0.00"):
                continue
            sheet.write_number(row + 3, col + 2, number, style)
    sheet.write_column(20, 5, ["07", " note ", "a\nb", "½", "12+13"])
    sheet.write_boolean(30, 1, True)
    book.close()
    fast, fast_problems = open_book(path)

    def fails(_):
        raise ReaderFailed("not now")

    monkeypatch.setattr(xlsx, "FastReader", fails)
    careful, careful_problems = open_book(path)
    assert fast == careful
    assert fast_problems == careful_problems
    assert len(fast.sheets[0].cells) > 50
