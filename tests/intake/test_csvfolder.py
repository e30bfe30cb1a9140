"""Folders of .csv files and single ones."""

import os

import pytest
from made_files import named, shown

from workbook_tools.intake.csvtext import delimiter_of, records
from workbook_tools.intake.workbook import open_book
from workbook_tools.problems import CannotRead


def opened(tmp_path, data, name="Log.csv"):
    path = tmp_path / name
    path.write_bytes(data.encode() if isinstance(data, str) else data)
    return open_book(path)


@pytest.mark.parametrize(
    ("text", "name"),
    [("bin,ml,note\nB07,30,x\n", "comma"), ("bin;ml;note\nB07;0,5;x\n", "semicolon"), ("bin\tml\nB07\t1,5\n", "tab")],
)
def test_the_delimiter_is_told_from_the_rows(tmp_path, text, name):
    read, problems = opened(tmp_path, text)
    assert read.facts == {"format": "csv", "encoding": "utf-8", "delimiter": name}
    assert shown(read)["Log"]["A2"] == "B07"
    assert problems == []


def test_decimal_commas_and_title_rows_mislead_no_one():
    assert delimiter_of("My log of 2024\n\nbin;ml\nB1;0,5\nB2;1,5\nB3;2,5\n") == ";"
    assert delimiter_of("one column\nB1\nB2\n") == ","
    assert delimiter_of('bin,note\nB1,"a; b; c"\nB2,"d; e; f"\n') == ","


def test_a_declared_delimiter_is_taken_and_its_line_is_no_row(tmp_path):
    read, _ = opened(tmp_path, "sep=|\r\nbin|ml\r\nB1|1,2,3\r\n")
    assert shown(read)["Log"] == {"A1": "bin", "B1": "ml", "A2": "B1", "B2": "1,2,3"}


@pytest.mark.parametrize(
    ("encoding", "noted", "codes"),
    [
        ("utf-8", "utf-8", []),
        ("utf-8-sig", "utf-8", []),
        ("utf-16", "utf-16", []),
        ("cp1252", "cp1252", [("Log", "csv.encoding")]),
    ],
)
def test_encodings(tmp_path, encoding, noted, codes):
    read, problems = opened(tmp_path, "Bläh,½\nç,é\n".encode(encoding))
    assert shown(read)["Log"] == {"A1": "Bläh", "B1": "½", "A2": "ç", "B2": "é"}
    assert read.facts["encoding"] == noted
    assert named(problems) == codes


def test_values_stay_text(tmp_path):
    read, _ = opened(tmp_path, "007, 7.0 ,2024-02-29,TRUE,=1+1,1e3\n")
    values = [cell.value for cell in read.sheets[0].cells.values()]
    assert values == ["007", "7.0", "2024-02-29", "TRUE", "=1+1", "1e3"]


def test_ragged_rows_blank_lines_and_line_breaks_in_quotes_keep_their_rows(tmp_path):
    read, problems = opened(tmp_path, 'a,b\r\n\r\n1\r\n2,"x\r\ny",z,,\r\n3,"say ""hi"""\r\n')
    assert shown(read)["Log"] == {
        "A1": "a", "B1": "b", "A3": "1", "A4": "2", "B4": "x\ny", "C4": "z", "A5": "3", "B5": 'say "hi"',
    }  # fmt: skip
    assert problems == []


def test_a_quote_never_closed_swallows_nothing(tmp_path):
    read, problems = opened(tmp_path, 'a,b\n1,"open\n2,x\n3,y\n')
    assert shown(read)["Log"] == {
        "A1": "a",
        "B1": "b",
        "A2": "1",
        "B2": '"open',
        "A3": "2",
        "B3": "x",
        "A4": "3",
        "B4": "y",
    }
    assert named(problems) == [("Log!2", "csv.open_quote")]


def test_bare_ditto_marks_swallow_nothing(tmp_path):
    read, problems = opened(tmp_path, 'day,bin,act\n1,B1,feed\n2,",feed\n3,",water\n4,B2,"\n5,B3,"\n6,B4,feed\n')
    column = {address: text for address, text in shown(read)["Log"].items() if address.startswith("A")}
    assert column == {"A1": "day", "A2": "1", "A3": "2", "A4": "3", "A5": "4", "A6": "5", "A7": "6"}
    assert shown(read)["Log"]["B3"] == '"'
    assert [where for where, code in named(problems) if code == "csv.open_quote"][:1] == ["Log!3"]


def test_inch_marks_inside_a_cell_are_just_text(tmp_path):
    read, problems = opened(tmp_path, 'bin,size\nB1,12" tub\nB2,6"\n')
    assert shown(read)["Log"]["B2"] == '12" tub'
    assert shown(read)["Log"]["B3"] == '6"'
    assert problems == []


def test_empty_bytes_in_a_cell_are_left_out_and_named(tmp_path):
    read, problems = opened(tmp_path, b"bin,ml\n" + b"B\x0007,3\n" + b"B08,4\n" * 50)
    assert shown(read)["Log"]["A2"] == "B07"
    assert named(problems) == [("Log!A2", "cell.unprintable")]


def test_a_cell_longer_than_the_librarys_limit_is_read(tmp_path):
    read, _ = opened(tmp_path, "bin,note\nB1," + "x" * 300_000 + "\nB2,y\n")
    assert len(shown(read)["Log"]["B2"]) == 300_000
    assert shown(read)["Log"]["B3"] == "y"


def test_many_open_quotes_are_read_in_reasonable_time():
    assert sum(1 for _ in records('a,"b\n' * 20_001, ",")) >= 10_000
    assert sum(1 for _ in records('a,"' + "b,c\n" * 200_000, ",")) == 200_000


def test_a_folder_is_a_workbook_in_order_of_names(tmp_path):
    for name in ("log.csv", "Bins.csv", "room.tsv", ".hidden.csv", "~$log.csv", ".~lock.log.csv#", "notes.txt"):
        (tmp_path / name).write_text("a,b\n1,2\n")
    (tmp_path / "old").mkdir()
    read, problems = open_book(tmp_path)
    assert [sheet.name for sheet in read.sheets] == ["Bins", "log", "room"]
    assert read.facts["format"] == "folder of csv"
    assert problems == []


def test_two_files_of_one_name_keep_their_endings(tmp_path):
    (tmp_path / "log.csv").write_text("a,b\n")
    (tmp_path / "Log.tsv").write_text("a\tb\n")
    read, _ = open_book(tmp_path)
    assert [sheet.name for sheet in read.sheets] == ["log.csv", "Log.tsv"]


def test_a_file_that_is_no_table_is_left_out_of_the_folder_and_named(tmp_path):
    (tmp_path / "a.csv").write_bytes(b"\x89PNG\r\n\x1a\n")
    (tmp_path / "b.csv").write_text("bin,ml\nB1,3\n")
    (tmp_path / "c.csv").write_bytes(b"")
    read, problems = open_book(tmp_path)
    assert shown(read) == {"b": {"A1": "bin", "B1": "ml", "A2": "B1", "B2": "3"}}
    assert named(problems) == [("a", "file.left_out"), ("c", "file.left_out")]
    assert "a.csv" in str(problems[0]) and "a picture" in str(problems[0])


def test_a_folder_without_tables_says_what_it_holds(tmp_path):
    (tmp_path / "bins.xlsx").write_bytes(b"x")
    with pytest.raises(CannotRead) as caught:
        open_book(tmp_path)
    assert caught.value.problem.code == "file.no_tables"
    assert "bins.xlsx" in str(caught.value)


def test_a_folder_whose_files_all_fail_says_why(tmp_path):
    (tmp_path / "bins.csv").write_bytes(b"%PDF-1.4")
    with pytest.raises(CannotRead) as caught:
        open_book(tmp_path)
    assert caught.value.problem.code == "file.other_kind"


def test_a_pipe_in_the_folder_is_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "pipe.csv")
    (tmp_path / "log.csv").write_text("a,b\n")
    read, _ = open_book(tmp_path)
    assert [sheet.name for sheet in read.sheets] == ["log"]


def test_two_quotes_never_closed_make_no_one_row(tmp_path):
    book, problems = opened(tmp_path, b'Date,Bin\n2026-01-01,"B1\n2026-01-02,"B2\n2026-01-03,B3\n')

    rows = {row: cell.text for (row, col), cell in book.sheets[0].cells.items() if col == 1}
    assert rows == {1: "Date", 2: "2026-01-01", 3: "2026-01-02", 4: "2026-01-03"}
    assert "csv.open_quote" in [problem.code for problem in problems]
