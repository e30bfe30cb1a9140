"""The export of real files, read back with other tools and compared with the workbook and with the report."""

import datetime as dt
import json
from pathlib import Path

import openpyxl
import pandas as pd
import pytest

from tools.command import digest, run
from tools.drawn import reopened, table_rows
from tools.exported import tables
from tools.grid import workbook_from_text
from tools.tree import ROOT
from workbook_tools.fields import ACTS, BIN_FIELDS, LOG_FIELDS
from workbook_tools.report.export.estimates import QUANTITIES
from workbook_tools.report.export.tables import HEADINGS

SMALL = """# sheet Bins
Bin | Species | Place | Started | Note
A1 | Porcellio scaber | top, left | d:2025-01-05 | =cmd
A2 | Armadillidium "vulgare" | Käfer-Regal | Feb 2025 |
# sheet Log
Date | Bin | Done | Amount | Number
d:2025-03-01 | A1 | water | 20 ml |
d:2025-03-02 | A1 + A2 | feed | ~2 g |
d:2025-03-03 | A2 | count | | 30+
d:2025-03-04 | A2 | zwirbled | |
"""
ON = "2025-03-20"


@pytest.fixture
def keeper(tmp_path):
    return workbook_from_text(SMALL.replace("=cmd", "t:=cmd"), tmp_path / "mine.xlsx")


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    out = tmp_path_factory.mktemp("demo") / "out"
    status, said = run("export", ROOT / "demo" / "cellar-bins.xlsx", "-o", out, "--on", "2026-11-25")
    assert status == 0
    return tables(out), said


@pytest.fixture(scope="module")
def cellar():
    return openpyxl.load_workbook(ROOT / "demo" / "cellar-bins.xlsx", data_only=True)


def same(value, text):
    """Whether a cell of the workbook holds what the export says that it does; a ditto mark says what it stands for."""
    if value == '"':
        return text == '"' or text.startswith('" (')
    if isinstance(value, dt.datetime):
        return text == value.date().isoformat()
    if isinstance(value, int | float):
        return float(text) == value
    return value is not None and text == value.strip()


def test_every_fact_of_the_demo_stands_in_the_cell_it_names(demo, cellar):
    found, _ = demo
    facts = pd.concat([found["bins"], found["entries"]])
    cells = facts[facts["field"] != ""][["sheet", "cell", "text"]].drop_duplicates()
    assert len(cells) > 40_000
    wrong = [(*one,) for one in cells.itertuples(index=False) if not same(cellar[one.sheet][one.cell].value, one.text)]
    assert wrong == []


def test_a_sum_over_the_demos_facts_is_that_over_its_column(demo, cellar):
    entries = demo[0]["entries"]
    water = entries[(entries["act"] == "water") & (entries["field"] == "water")].drop_duplicates("entry")
    plain = water[(water["low"] == "") & water["text"].str.fullmatch(r"\d+(\.\d+)?")]
    column = [row[5] for row in cellar["Diary"].iter_rows(min_row=2, values_only=True)]
    assert plain["value"].astype(float).sum() == sum(v for v in column if isinstance(v, int | float))
    assert len(plain) > 3000


def test_days_of_the_demo_are_iso_8601_and_in_order(demo):
    found, _ = demo
    entries, estimates, tasks = found["entries"], found["estimates"], found["tasks"]
    dated = entries[entries["first_day"] != ""]
    first, last = (pd.to_datetime(dated[name], format="%Y-%m-%d") for name in ("first_day", "last_day"))
    assert (first <= last).all() and last.max() <= pd.Timestamp("2026-11-25")
    assert pd.to_datetime(tasks["due"], format="%Y-%m-%d").notna().all()
    of_days = estimates[(estimates["unit"] == "date") & (estimates["middle"] != "")]
    middle = pd.to_datetime(of_days["middle"], format="%Y-%m-%d")
    low, high = (pd.to_datetime(of_days[name].replace("", None), format="%Y-%m-%d") for name in ("low", "high"))
    assert ((low.isna() | (low <= middle)) & (high.isna() | (middle <= high))).all()
    assert (pd.Timestamp("2026-11-25") - pd.to_datetime(tasks["due"])).dt.days.tolist() == [*map(int, tasks["days"])]


def test_keys_of_the_demo_are_those_of_the_docs(demo):
    found, _ = demo
    assert set(found["entries"]["act"]) <= set(ACTS)
    fields = {key.split(".")[0] for key in found["entries"]["field"]}
    assert fields <= {field.key for field in (*LOG_FIELDS, *BIN_FIELDS)}
    assert set(found["bins"]["field"]) - {""} <= {field.key for field in BIN_FIELDS}
    assert set(found["estimates"]["quantity"]) <= set(QUANTITIES)
    assert len(set(found["estimates"]["quantity"])) > 20


def test_an_entry_of_the_demo_has_one_day_and_act_and_each_fact_once_a_bin(demo):
    entries = demo[0]["entries"]
    assert not entries.duplicated(["entry", "bin", "field"]).any()
    assert (entries.groupby("entry")[["act", "first_day", "last_day"]].nunique() == 1).all(axis=None)
    assert [*entries["entry"].drop_duplicates().astype(int)] == [*range(1, entries["entry"].nunique() + 1)]


def test_the_last_line_says_what_was_written_and_where(demo):
    found, said = demo
    assert said.count("\n") == 1 and said.startswith("Export: ")
    for name, table in found.items():
        assert f"{name}.csv ({len(table):,} lines)" in said


def test_texts_and_values_of_a_small_workbook(keeper, tmp_path):
    before = digest(keeper)
    status, _ = run("export", keeper, "-o", tmp_path / "out", "--on", ON)
    found = tables(tmp_path / "out")
    bins, entries = found["bins"], found["entries"]
    assert (status, digest(keeper)) == (0, before)
    assert [*bins["text"]] == [
        *("A1", "Porcellio scaber", "top, left", "2025-01-05", "=cmd"),
        *("A2", 'Armadillidium "vulgare"', "Käfer-Regal", "Feb 2025"),
    ]
    assert b",'=cmd\r\n" in (tmp_path / "out" / "bins.csv").read_bytes()
    assert [*bins.iloc[8]] == [
        *("A2", "started", "2025-02-14", "2025-02-01", "2025-02-28", "", "no", "Bins", "D3", "Feb 2025")
    ]
    fed = entries[(entries["act"] == "feed") & (entries["field"] == "amount")]
    assert [*fed["bin"]] == ["A1", "A2"] and {*fed["value"]} == {"2"} and {*fed["unit"]} == {"g"}
    assert float(fed["low"].iloc[0]) < 2 < float(fed["high"].iloc[0])
    counted = entries[entries["field"] == "number"].iloc[0]
    assert [*counted[["act", "value", "low", "high", "text"]]][2:] == ["30", "", "30+"]
    unknown = found["problems"][found["problems"]["kind"] == "words.unknown"]
    assert [*unknown[["sheet", "cell", "read"]].iloc[0]] == ["Log", "C5", "zwirbled"]


def test_tasks_and_estimates_agree_with_the_report(keeper, tmp_path):
    assert run("export", keeper, "-o", tmp_path / "out", "--on", ON)[0] == 0
    assert run("report", keeper, "-o", tmp_path / "report.xlsx", "--on", ON)[0] == 0
    found, report = tables(tmp_path / "out"), reopened((tmp_path / "report.xlsx").read_bytes())

    def column(sheet, table, heading):
        head, *rows = table_rows(report[sheet], table)
        return [row[head.index(heading)] for row in rows]

    tasks = found["tasks"]
    due = [*zip(column("Due", "DueTasks", "Bin"), column("Due", "DueTasks", "Due"), strict=True)]
    assert sorted(zip(tasks["bin"], tasks["due"], strict=True)) == sorted((b, d.date().isoformat()) for b, d in due)
    animals = found["estimates"][found["estimates"]["quantity"] == "animals"]
    name = next(name for name in report["Numbers"].tables if column("Numbers", name, "Bin"))
    shown = dict(zip(column("Numbers", name, "Bin"), column("Numbers", name, "Animals"), strict=True))
    assert shown.keys() == {*animals["bin"]}
    assert {bin: float(middle) for bin, middle in zip(animals["bin"], animals["middle"], strict=True)} == pytest.approx(
        shown, rel=0.05
    )
    kinds = found["problems"][["read", "what"]].drop_duplicates()
    assert sorted(kinds["what"]) == sorted(column("How it was read", "Problems", "What is wrong"))


def test_json_holds_the_same_as_csv(keeper, tmp_path):
    assert run("export", keeper, "-o", tmp_path / "csv", "--on", ON)[0] == 0
    status, said = run("export", keeper, "-o", tmp_path / "json", "--on", ON, "--format", "json")
    assert status == 0 and "entries.json" in said
    words = {True: "yes", False: "no", None: ""}
    for name, table in tables(tmp_path / "csv").items():
        rows = json.loads((tmp_path / "json" / f"{name}.json").read_text(encoding="utf-8"))
        plain = [
            {key: words[v] if v is None or isinstance(v, bool) else str(v) for key, v in row.items()} for row in rows
        ]
        assert plain == table.to_dict("records")


def test_the_same_workbook_and_day_give_the_same_bytes(keeper, tmp_path):
    for name in ("a", "b"):
        run("export", keeper, "-o", tmp_path / name, "--on", ON)
    for name in HEADINGS:
        assert digest(tmp_path / "a" / f"{name}.csv") == digest(tmp_path / "b" / f"{name}.csv")


def test_an_export_goes_beside_the_workbook_and_over_an_earlier_one(keeper):
    for _ in range(2):
        assert run("export", keeper, "--on", ON)[0] == 0
    assert len([*(keeper.parent / f"mine-export-{ON}").iterdir()]) == 5


def test_rows_left_out_are_named_and_end_with_status_1(tmp_path):
    file = workbook_from_text(SMALL + "31/31/2025 | A2 | water | 20 ml |\n", tmp_path / "mine.xlsx")
    status, said = run("export", file, "-o", tmp_path / "out", "--on", ON)
    assert status == 1
    assert "left out: Log!6" in said and said.splitlines()[-1].startswith("Export: ")


def test_what_cannot_be_read_makes_no_folder(tmp_path):
    (tmp_path / "torn.xlsx").write_bytes(b"PK\x03\x04 torn off")
    status, said = run("export", tmp_path / "torn.xlsx", "-o", tmp_path / "out", "--on", ON)
    assert (status, said.count("\n"), (tmp_path / "out").exists()) == (3, 1, False)


@pytest.fixture
def csv_keeper(tmp_path):
    folder = tmp_path / "keeper"
    folder.mkdir()
    (folder / "bins.csv").write_text("Bin,Species\nA1,Porcellio scaber\n")
    (folder / "Log.csv").write_text("Date,Bin,Done\n2025-03-01,A1,water\n")
    return folder


def bytes_in(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.parametrize(
    ("file", "out"),
    [
        ("keeper", "keeper"),
        ("keeper", "keeper/export"),
        ("keeper/Log.csv", "keeper"),
        ("keeper/bins.csv", "keeper"),
        ("keeper", "keeper/Log.csv"),
    ],
)
def test_a_keepers_folder_stays_as_it_is_byte_for_byte(csv_keeper, tmp_path, file, out):
    before = bytes_in(csv_keeper)
    for form in ("csv", "json"):
        status, said = run("export", tmp_path / file, "-o", tmp_path / out, "--on", ON, "--format", form)
        assert (status, said.count("\n")) == (2, 1)
        assert "can't be written" in said
    assert bytes_in(csv_keeper) == before
    assert not (tmp_path / "keeper/export").exists()


def test_a_keepers_folder_is_exported_beside_it(csv_keeper, tmp_path):
    before = bytes_in(csv_keeper)
    assert run("export", csv_keeper, "--on", ON)[0] == 0
    assert bytes_in(csv_keeper) == before
    assert len([*(tmp_path / f"keeper-export-{ON}").iterdir()]) == 5


@pytest.mark.parametrize("command", ["report", "check", "backtest", "export"])
def test_an_export_is_not_taken_for_a_workbook(keeper, tmp_path, command):
    out = tmp_path / "out"
    run("export", keeper, "-o", out, "--on", ON)
    for file, name in ((out, "bins.csv"), (out / "tasks.csv", "tasks.csv")):
        status, said = run(command, file, "--on", ON)
        assert (status, said.count("\n")) == (3, 1)
        assert f"{name} was written by frassbook export" in said
    assert sorted(path.name for path in tmp_path.iterdir()) == ["mine.xlsx", "out"]


def test_a_log_with_an_export_put_in_its_folder_is_refused_by_name(csv_keeper, keeper, tmp_path):
    run("export", keeper, "-o", tmp_path / "out", "--on", ON)
    (csv_keeper / "copied.csv").write_bytes((tmp_path / "out" / "tasks.csv").read_bytes())
    status, said = run("check", csv_keeper, "--on", ON)
    assert status == 3 and "copied.csv was written by frassbook export" in said


def test_a_failure_leaves_the_earlier_export(keeper, tmp_path, monkeypatch):
    out = tmp_path / "out"
    run("export", keeper, "-o", out, "--on", ON)
    before, real = bytes_in(out), Path.write_bytes

    def full(self, content):
        if "problems" in self.name:
            raise OSError(28, "No space left on device")
        return real(self, content)

    monkeypatch.setattr(Path, "write_bytes", full)
    status, said = run("export", keeper, "-o", out, "--on", "2025-03-21")
    assert status == 2 and "No space left" in said
    assert bytes_in(out) == before
