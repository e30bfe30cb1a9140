import csv
import datetime as dt
import io
import json
import os
from pathlib import Path

import pandas as pd
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tools.exported import given_back
from tools.report_sample import NASTY, sample
from workbook_tools.report.export.files import as_csv, as_json, exported_in, may_export, not_run, write_export
from workbook_tools.report.export.tables import HEADINGS, Tidy, tidy_tables
from workbook_tools.report.saving import CannotWrite

TASK = ("A1", "moss", dt.date(2026, 3, 1), 2, None, 'Why, "so"\nand Käfer', "Log!5")
TEXTS = st.text(st.characters(exclude_categories=("Cs",)))


def tasks(*rows):
    return Tidy("tasks", rows or (TASK,))


def of_estimates(*middles):
    return Tidy("estimates", tuple(("A1", "animals", middle, None, None, "count", "", None) for middle in middles))


def read(text):
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_csv_has_one_heading_line_and_iso_days():
    text = as_csv(tasks())
    assert text.startswith("bin,task,due,days,last_done,why,rests_on\r\nA1,moss,2026-03-01,2,,")
    assert read(text)[0]["why"] == TASK[5]


@pytest.mark.parametrize(
    ("number", "written"),
    [(30.0, "30"), (0.1, "0.1"), (2 / 3, "0.6666666666666666"), (-0.5, "-0.5"), (1e22, "1e+22"), (0.0, "0"), (7, "7")],
)
def test_numbers_are_written_in_the_shortest_form_that_is_exact(number, written):
    assert read(as_csv(of_estimates(number)))[0]["middle"] == written
    assert float(written) == number
    assert json.loads(as_json(of_estimates(number)))[0]["middle"] == number


def test_yes_and_no_and_nothing_in_both_kinds_of_file():
    table = Tidy(
        "estimates", (("A1", True, False, None, dt.time(7, 5), dt.datetime.fromisoformat("2026-03-01T07:05"), "", 1),)
    )
    assert list(read(as_csv(table))[0].values()) == ["A1", "yes", "no", "", "07:05:00", "2026-03-01T07:05:00", "", "1"]
    values = list(json.loads(as_json(table))[0].values())
    assert values == ["A1", True, False, None, "07:05:00", "2026-03-01T07:05:00", "", 1]


@pytest.mark.parametrize("text", [*NASTY[:4], NASTY[5], "\tx", "\nx", "＝1", "-", "'=1", "''@x"])
def test_a_text_that_could_be_run_is_kept_from_it_and_can_be_had_back(text):
    assert not_run(text) == f"'{text}"
    assert given_back(not_run(text)) == text


@pytest.mark.parametrize("text", ["", "5 mites", "a=1", "'tis dry", " =1", "10-14"])
def test_other_texts_stand_as_they_are(text):
    assert not_run(text) == text


def test_a_number_below_0_is_no_text_that_could_be_run():
    assert read(as_csv(of_estimates(-3)))[0]["middle"] == "-3"


@given(st.lists(TEXTS, min_size=1))
@example(['Käfer, "drei"\n=1+1', "Zoë's ümlaut; tab\tinside", '""', ",", "\u2028", "🪲"])
def test_every_text_comes_back_from_both_kinds_of_file(texts):
    table = tasks(*(("A1", text, None, 1, None, text, "") for text in texts))
    kept = [text.replace("\r\n", "\n").replace("\r", "\n") for text in texts]
    kept = ["".join("\ufffd" if _never_printed(sign) else sign for sign in text) for text in kept]
    assert [given_back(row["why"]) for row in read(as_csv(table))] == kept
    assert [row["why"] for row in json.loads(as_json(table))] == kept


def _never_printed(sign):
    return (ord(sign) < 32 and sign not in "\t\n") or sign in "\ufffe\uffff"


def test_a_lone_half_of_a_sign_is_replaced_and_stops_nothing(tmp_path):
    write_export([tasks(("A\ud800", "moss", None, 0, None, "", ""))], tmp_path, "csv")
    assert read((tmp_path / "tasks.csv").read_bytes().decode("utf-8"))[0]["bin"] == "A\ufffd"


@pytest.mark.parametrize("form", ["csv", "json"])
def test_all_tables_are_written_to_a_folder_that_is_made_and_again_over_themselves(tmp_path, form):
    folder = tmp_path / "new" / "out"
    for findings in (sample(), sample(problems=(), tasks=())):
        may_export(folder, tmp_path / "mine.xlsx")
        write_export(tidy_tables(findings), folder, form)
    assert sorted(file.name for file in folder.iterdir()) == sorted(f"{name}.{form}" for name in HEADINGS)
    reader = pd.read_csv if form == "csv" else pd.read_json
    assert len(reader(folder / f"entries.{form}")) > 100
    assert len(reader(folder / f"tasks.{form}")) == 0


def test_one_form_beside_the_other(tmp_path):
    write_export(tidy_tables(sample()), tmp_path, "csv")
    may_export(tmp_path, tmp_path / "mine.xlsx")
    write_export(tidy_tables(sample()), tmp_path, "json")
    may_export(tmp_path, tmp_path / "mine.xlsx")


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("bins.csv", b"Bin,Species\r\nA1,Porcellio scaber\r\n"),
        ("bins.csv", ("\ufeff" + as_csv(Tidy("bins", ()))).encode()),
        ("bins.csv", as_csv(Tidy("bins", ())).replace(",", ";").encode()),
        ("bins.csv", as_csv(tasks()).encode()),
        ("Log.csv", as_csv(Tidy("bins", ())).encode()),
        ("notes.tsv", b""),
        ("tasks.json", b"[1, 2]"),
        ("tasks.json", b"[\n1"),
        ("tasks.json", b""),
        ("tasks.json", as_json(of_estimates(1)).encode()),
        ("TASKS.JSON", b"{}"),
    ],
)
def test_no_folder_that_holds_other_tables_is_written_to(tmp_path, name, content):
    (tmp_path / name).write_bytes(content)
    with pytest.raises(CannotWrite, match=f"holds {name}, which is no earlier export"):
        may_export(tmp_path, tmp_path / "mine.xlsx")


def test_a_folder_in_place_of_a_table_is_no_export(tmp_path):
    (tmp_path / "bins.csv").mkdir()
    with pytest.raises(CannotWrite, match=r"holds bins\.csv"):
        may_export(tmp_path, tmp_path / "mine.xlsx")


def test_files_of_other_kinds_are_no_hindrance(tmp_path):
    for name in ("mine.xlsx", "photo.jpg", "data.json", ".~lock.x.csv#", ".hidden.csv"):
        (tmp_path / name).write_bytes(b"x")
    may_export(tmp_path, tmp_path / "mine.xlsx")


def test_a_keepers_folder_and_what_is_in_it_is_no_place(tmp_path):
    keeper = tmp_path / "keeper"
    keeper.mkdir()
    (tmp_path / "other name").symlink_to(keeper)
    for folder in (keeper, keeper / "deep" / "out", tmp_path / "other name", keeper / ".." / "keeper"):
        with pytest.raises(CannotWrite, match=r"in your folder of \.csv files"):
            may_export(folder, keeper)
    may_export(tmp_path, keeper)
    may_export(tmp_path / "keeper-export", keeper)


def test_a_folder_that_may_not_be_looked_into_is_named(tmp_path, monkeypatch):
    def refuse(self):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "iterdir", refuse)
    with pytest.raises(CannotWrite, match="may not be looked into"):
        may_export(tmp_path, tmp_path / "mine.xlsx")


def test_a_file_is_no_folder(tmp_path):
    (tmp_path / "out").write_bytes(b"x")
    with pytest.raises(CannotWrite, match="it is a file"):
        may_export(tmp_path / "out", tmp_path / "mine.xlsx")


def test_an_export_is_known_by_its_headings_whatever_became_of_its_name_and_form(tmp_path):
    as_written = as_csv(tasks())
    forms = {
        "tasks.csv": as_written.encode(),
        "A renamed one.csv": as_written.encode(),
        "marked.csv": ("\ufeff" + as_written).encode(),
        "semicolons.csv": as_written.replace(",", ";").encode(),
        "quoted.csv": (",".join(f'"{name}"' for name in HEADINGS["tasks"]) + "\nA1,,,,,,\n").encode(),
        "tabs.tsv": as_written.replace(",", "\t").encode("utf-16"),
        "declared.csv": f"sep=;\n{as_written.replace(',', ';')}".encode(),
    }
    for name, content in forms.items():
        file = tmp_path / name
        file.write_bytes(content)
        assert exported_in(file) == name
    assert exported_in(tmp_path) == "A renamed one.csv"


def test_other_tables_are_no_export(tmp_path):
    (tmp_path / "bins.csv").write_text("Bin,Field,Value\nA1,x,1\n")
    (tmp_path / "empty.csv").write_text("")
    os.mkfifo(tmp_path / "pipe.csv")
    assert exported_in(tmp_path) == exported_in(tmp_path / "bins.csv") == exported_in(tmp_path / "none.csv") == ""
