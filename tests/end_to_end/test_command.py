import datetime as dt
import os
import re
import subprocess
import sys
import time
import warnings
import zipfile
from pathlib import Path

import openpyxl
import pytest

from tools.command import digest, run
from tools.drawn import reopened
from tools.grid import workbook_from_text
from workbook_tools.report import saving

SMALL = """# sheet Bins
Bin | Species | Place | Started
A1 | Porcellio scaber | top | d:2025-01-05
A2 | Armadillidium vulgare | top | d:2025-01-05
# sheet Log
Date | Bin | Done | Amount
d:2025-03-01 | A1 | water | 20 ml
d:2025-03-02 | A2 | feed | 1 g
"""
BROKEN = SMALL + "31/31/2025 | A2 | water | 20 ml\n"


@pytest.fixture
def keeper(tmp_path: Path) -> Path:
    return workbook_from_text(SMALL, tmp_path / "mine.xlsx")


def test_numbers_that_no_bin_can_have_are_named_and_hold_nothing_up(tmp_path: Path):
    rows = (
        "d:2025-03-01 | A1 | substrate change |  |  |",
        "d:2025-03-02 | A1 | sift, old substrate | 1000000000000000000 |  |",
        "d:2025-03-02 | A2 | dead |  | 1000000000000000000000000000000 |",
        "d:2025-03-03 | A2 | mark | 900000000 |  |",
        "d:2025-03-05 | A2 | recapture | 900000000 |  | 900000000",
        f"d:2025-03-06 | A2 | count | 1{'0' * 300} |  |",
    )
    text = SMALL.partition("# sheet Log")[0] + "# sheet Log\nDate | Bin | Done | Number | Dead | With a mark\n"
    file = workbook_from_text(text + "\n".join(rows) + "\n", tmp_path / "huge.xlsx")

    status, said = run("report", file, "--on", "2025-03-10", "--out", tmp_path / "out.xlsx")
    _, read = run("check", file, "--on", "2025-03-10")

    assert (status, "8 of 8 rows used" in said) == (0, True)
    assert read.count("the highest number of animals that is believed") >= 4


def test_report_writes_a_workbook_and_one_line_and_leaves_the_input_alone(keeper: Path, tmp_path: Path):
    before = digest(keeper)
    out = tmp_path / "out.xlsx"

    status, said = run("report", keeper, "-o", out, "--on", "2025-03-20")

    assert status == 0
    assert said.count("\n") == 1
    assert str(out) in said and "most urgent" in said
    assert digest(keeper) == before
    with zipfile.ZipFile(out) as parts:
        sheets = re.findall(r'<sheet name="([^"]+)"', parts.read("xl/workbook.xml").decode())
    assert sheets[:3] == ["Due", "Changes", "Bins"]
    assert {"How it was read", "Methods &amp; sources"} <= set(sheets)


def test_the_same_workbook_and_day_give_the_same_bytes(keeper: Path, tmp_path: Path):
    first, second = tmp_path / "1.xlsx", tmp_path / "2.xlsx"
    run("report", keeper, "-o", first, "--on", "2025-03-20")
    time.sleep(1.1)
    run("report", keeper, "-o", second, "--on", "2025-03-20")

    assert digest(first) == digest(second)


def test_a_report_goes_beside_the_workbook_when_no_name_is_given(keeper: Path):
    status, _ = run("report", keeper, "--on", "2025-03-20")

    assert status == 0
    assert (keeper.parent / "mine-report-2025-03-20.xlsx").exists()


def test_rows_left_out_are_named_and_end_with_status_1(tmp_path: Path):
    keeper = workbook_from_text(BROKEN, tmp_path / "mine.xlsx")

    status, said = run("report", keeper, "-o", tmp_path / "out.xlsx", "--on", "2025-03-20")

    assert status == 1
    assert "Log!A4" in said or "Log!4" in said


@pytest.mark.parametrize(
    ("content", "name"),
    [
        (None, "missing.xlsx"),
        (b"", "empty.xlsx"),
        (b"just some text", "text.xlsx"),
        (b"PK\x03\x04 torn off", "torn.xlsx"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600, "locked.xlsx"),
        (b"%PDF-1.7", "paper.pdf"),
    ],
)
def test_what_cannot_be_read_is_one_line_and_status_3(tmp_path: Path, content: bytes | None, name: str):
    path = tmp_path / name
    if content is not None:
        path.write_bytes(content)
    out = tmp_path / "out.xlsx"

    status, said = run("report", path, "-o", out, "--on", "2025-03-20")

    assert status == 3
    assert said.startswith("frassbook: ") and said.count("\n") == 1
    assert not out.exists()


def test_a_workbook_without_bins_or_log_says_what_it_looked_for_and_found(tmp_path: Path):
    keeper = workbook_from_text("# sheet Recipes\nCake | Eggs\nsponge | 4\n", tmp_path / "cake.xlsx")

    status, said = run("report", keeper, "-o", tmp_path / "out.xlsx", "--on", "2025-03-20")

    assert status == 3
    assert "Recipes" in said and "'Bin'" in said


def test_the_keepers_own_workbook_is_never_written_over(keeper: Path):
    before = digest(keeper)

    status, said = run("report", keeper, "-o", keeper, "--on", "2025-03-20")

    assert (status, digest(keeper)) == (2, before)
    assert "can't be written" in said


def test_another_workbook_is_not_written_over_but_an_older_report_is(keeper: Path, tmp_path: Path):
    other = workbook_from_text("# sheet S\nmine | too\n", tmp_path / "other.xlsx")
    before = digest(other)
    out = tmp_path / "out.xlsx"

    assert run("report", keeper, "-o", other, "--on", "2025-03-20")[0] == 2
    assert digest(other) == before
    assert run("report", keeper, "-o", out, "--on", "2025-03-20")[0] == 0
    assert run("report", keeper, "-o", out, "--on", "2025-03-21")[0] == 0


def test_a_report_with_filled_boxes_is_not_written_over(keeper: Path, tmp_path: Path):
    out = tmp_path / "out.xlsx"
    run("report", keeper, "-o", out, "--on", "2025-03-20")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        book = openpyxl.load_workbook(out)
    due = book["Due"]
    head = next(cell for row in due.iter_rows() for cell in row if cell.value == "Seen")
    due.cell(head.row + 1, head.column, "damp")
    book.save(out)
    book.close()
    before = digest(out)

    status, said = run("report", keeper, "-o", out, "--on", "2025-03-20")

    assert (status, digest(out)) == (2, before)
    assert "one box" in said


@pytest.mark.parametrize("name", ["report.ods", "report", "report.csv"])
def test_only_an_xlsx_is_written(keeper: Path, tmp_path: Path, name: str):
    assert run("report", keeper, "-o", tmp_path / name, "--on", "2025-03-20")[0] == 2
    assert run("new", tmp_path / name)[0] == 2
    assert not (tmp_path / name).exists()


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31", "25/11/2026", "2025-02-30"])
def test_a_day_out_of_range_is_wrong_use(keeper: Path, day: str):
    assert run("report", keeper, "--on", day)[0] == 2


def test_a_report_is_not_read_as_a_workbook_of_bins(keeper: Path, tmp_path: Path):
    out = tmp_path / "out.xlsx"
    run("report", keeper, "-o", out, "--on", "2025-03-20")

    status, said = run("check", out, "--on", "2025-03-20")

    assert status == 3
    assert "is a report" in said


@pytest.mark.parametrize("target", ["no/such/folder/out.xlsx", "."])
def test_a_place_that_cannot_be_written_is_one_line_and_status_2(keeper: Path, tmp_path: Path, target: str):
    status, said = run("report", keeper, "-o", tmp_path / target, "--on", "2025-03-20")

    assert status == 2
    assert "can't be written" in said and said.count("\n") == 1


def test_a_report_open_elsewhere_stays_and_nothing_half_written_remains(
    keeper: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    out = tmp_path / "out.xlsx"
    run("report", keeper, "-o", out, "--on", "2025-03-20")
    before = digest(out)

    def refuse(self: Path, target: Path) -> Path:
        raise PermissionError(13, "in use", str(target))

    monkeypatch.setattr(saving.Path, "replace", refuse)
    status, said = run("report", keeper, "-o", out, "--on", "2025-03-21")

    assert (status, digest(out)) == (2, before)
    assert "open in another program" in said
    assert sorted(path.name for path in tmp_path.iterdir()) == ["mine.xlsx", "out.xlsx"]


@pytest.mark.parametrize("args", [["report"], ["report", "x", "--on", "25/11/2026"], ["no-such-command"], ["check"]])
def test_wrong_use_ends_with_status_2(args: list[str]):
    assert run(*args)[0] == 2


def test_since_after_on_is_wrong_use(keeper: Path):
    status, said = run("report", keeper, "--on", "2025-03-20", "--since", "2025-04-01")

    assert status == 2
    assert "--since" in said


def test_check_names_sheets_headings_and_problems(tmp_path: Path):
    keeper = workbook_from_text(BROKEN, tmp_path / "mine.xlsx")

    status, said = run("check", keeper, "--on", "2025-03-20")

    assert status == 1
    assert "Bins!A1:D3: list of bins" in said
    assert "Log!C1  Done -> Done" in said
    assert "Log!A4" in said


def test_new_writes_a_blank_workbook_that_reads_back_clean_and_is_never_overwritten(tmp_path: Path):
    path = tmp_path / "blank.xlsx"

    assert run("new", path)[0] == 0
    assert openpyxl.load_workbook(path).sheetnames[:3] == ["Bins", "Log", "Settings"]
    before = digest(path)
    status, said = run("new", path)
    assert (status, digest(path)) == (2, before)
    assert "already" in said


def test_help_starts_quickly_and_without_the_heavy_libraries():
    heavy = ("pandas", "pint", "openpyxl", "babel", "xlsxwriter", "python_calamine")
    code = f"import sys, workbook_tools.cli; print([m for m in {heavy} if m in sys.modules])"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"

    times = []
    for _ in range(3):
        start = time.perf_counter()
        shown = subprocess.run(
            [sys.executable, "-m", "workbook_tools", "--help"], capture_output=True, text=True, check=True
        )
        times.append(time.perf_counter() - start)
    assert "report" in shown.stdout
    assert min(times) < 0.5


def test_without_a_day_the_report_is_for_today(keeper: Path, tmp_path: Path):
    first, second = tmp_path / "1.xlsx", tmp_path / "2.xlsx"
    run("report", keeper, "-o", first)
    run("report", keeper, "-o", second, "--on", dt.date.today().isoformat())  # noqa: DTZ011

    assert digest(first) == digest(second)


def test_what_the_report_could_not_hold_is_said_on_screen_and_in_the_report(tmp_path: Path):
    folder = tmp_path / "mine"
    folder.mkdir()
    (folder / "Bins.csv").write_text(f"Bin,Species,Place\nA1,{'x' * 40_000},shelf\ufffeA\n", encoding="utf-8")
    out = tmp_path / "out.xlsx"

    status, said = run("report", folder, "-o", out, "--on", "2025-03-20")

    assert status == 0
    lost = [line for line in said.splitlines() if line.startswith("Texts")]
    assert [line.split(" in ")[0] for line in lost] == ["Texts cut short", "Texts"]
    page = reopened(out.read_bytes())["How it was read"]
    shown = [cell.value for row in page.iter_rows() for cell in row if isinstance(cell.value, str)]
    assert [f"- {line}" in shown for line in lost] == [True, True]


def test_backtest_prints_a_table_and_writes_a_workbook_and_leaves_the_input_alone(tmp_path: Path):
    visits = [f"d:{dt.date(2025, 1, 1) + dt.timedelta(days=5 * n)} | A1 | water | 20 ml | dry" for n in range(40)]
    text = "# sheet Bins\nBin | Species\nA1 | Porcellio scaber\n# sheet Log\nDate | Bin | Done | Amount | Moss corner\n"
    keeper = workbook_from_text(text + "\n".join(visits) + "\n", tmp_path / "mine.xlsx")
    before = digest(keeper)

    status, said = run("backtest", keeper, "--on", "2025-12-31")

    out = tmp_path / "mine-backtest-2025-12-31.xlsx"
    assert status == 0
    assert "Days until the moss corner is dry" in said
    assert said.splitlines()[-1] == f"Every comparison: {out}"
    assert digest(keeper) == before
    assert openpyxl.load_workbook(out).sheetnames == ["Backtest", "Single estimates"]
    first = digest(out)
    assert run("backtest", keeper, "--on", "2025-12-31")[0] == 0
    assert digest(out) == first


def test_backtest_of_a_short_log_says_that_it_is_too_short(keeper: Path):
    status, said = run("backtest", keeper, "--on", "2025-03-20")

    assert status == 0
    assert "too short" in said


@pytest.mark.parametrize("name", [b"b\xfe&ins.xlsx", "Fässer & Kästen.xlsx".encode(), b"a 'b' [c].xlsx"])
def test_a_file_of_any_name_is_reported_on(keeper: Path, tmp_path: Path, name: bytes):
    odd = tmp_path / os.fsdecode(name)
    odd.write_bytes(keeper.read_bytes())

    status, _ = run("report", odd, "--on", "2025-03-20")

    assert status == 0
    (out,) = tmp_path.glob("*-report-2025-03-20.xlsx")
    assert "A1" in {row[0].value for row in reopened(out.read_bytes())["Bins"].iter_rows()}
