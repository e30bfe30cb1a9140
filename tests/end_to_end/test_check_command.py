"""A conversation through a workbook: check, correct, check and report again, while the keeper's file grows."""

import time
from pathlib import Path

import pytest

from tools.command import digest, run
from tools.drawn import reopened, set_box
from tools.grid import workbook_from_text

MINE = """# sheet Bins
Bin | Species | Place | Started
A1 | Porcellio scaber | top | d:2025-01-05
A2 | Armadillidium vulgare | top | d:2025-01-05
# sheet Log
Date | Bin | Done | Zorb
d:2025-03-01 | A1 | zwirbled | 20 ml
d:2025-03-02 | A2 | feed |
d:2025-03-05 | A2 | look | 25 ml
"""
GROWN = """# sheet Bins
Bin | Species | Place | Started
A1 | Porcellio scaber | top | d:2025-01-05
A2 | Armadillidium vulgare | top | d:2025-01-05
# sheet Log
Our cellar



 | Date | Weather | Bin | Zorb | Done
 | d:2025-03-01 | rain | A1 | 20 ml | zwirbled
 | d:2025-03-02 | rain | A2 | | feed
 | d:2025-03-05 | sun | A2 | 25 ml | look
 | d:2025-03-09 | sun | A1 | 30 ml | zwirbled
"""


def correct(path: Path, page: str, about: str, value: str | None, column: str = "Taken as") -> None:
    """Set a box as a keeper would, in a program of another make."""
    book = reopened(path.read_bytes())
    set_box(book[page], about, column, value)
    book.save(path)


def sheet_texts(path: Path, name: str) -> list[str]:
    page = reopened(path.read_bytes())[name]
    return [str(cell.value) for row in page.iter_rows() for cell in row if cell.value is not None]


@pytest.fixture
def keeper(tmp_path: Path) -> Path:
    return workbook_from_text(MINE, tmp_path / "mine.xlsx")


def test_check_writes_a_reading_workbook_says_where_and_leaves_the_keepers_file_alone(keeper: Path):
    before = digest(keeper)
    status, said = run("check", keeper, "--on", "2025-03-20")
    book = keeper.with_name("mine-reading.xlsx")

    assert status == 0
    assert said.splitlines()[-1].startswith(f"Reading workbook: {book}")
    assert said.count(str(book)) == 1
    assert "Log!D1  Zorb -> not used" in said
    assert reopened(book.read_bytes()).sheetnames == ["Tables and headings", "Words", "Assumptions", "Choices"]
    assert digest(keeper) == before


def test_the_same_workbook_and_day_give_the_same_reading_workbook(keeper: Path):
    book = keeper.with_name("mine-reading.xlsx")
    run("check", keeper, "--on", "2025-03-20")
    first = digest(book)
    time.sleep(1.1)
    run("check", keeper, "--on", "2025-03-20")
    assert digest(book) == first


def test_a_correction_changes_the_reading_and_holds_when_the_file_grows(keeper: Path, tmp_path: Path):
    book, out = keeper.with_name("mine-reading.xlsx"), tmp_path / "out.xlsx"
    _, said = run("check", keeper, "--on", "2025-03-20")
    assert "The word 'zwirbled' under 'Done' is not known" in said
    run("report", keeper, "-o", out, "--on", "2025-03-20")
    assert "25 ml" not in "".join(sheet_texts(out, "Moss & food"))
    plain = sheet_texts(out, "How it was read")
    assert any("'Zorb' is not known" in text for text in plain)

    correct(book, "Tables and headings", "Zorb", "Water")
    correct(book, "Words", "zwirbled", "Look over")
    kept, correction = digest(keeper), digest(book)
    status, _ = run("report", keeper, "-o", out, "--on", "2025-03-20")
    assert status == 0
    told = sheet_texts(out, "How it was read")
    assert not any("Zorb' is not known" in text or "zwirbled" in text for text in told)
    assert "as you said" in told
    assert (digest(keeper), digest(book)) == (kept, correction)

    workbook_from_text(GROWN, keeper)
    kept = digest(keeper)
    _, said = run("check", keeper, "--on", "2025-03-20")
    assert "Log!E5  Zorb -> Water (as you said)" in said
    assert "zwirbled" not in said
    assert "'Weather' is not known" in said
    assert "Your correction" not in said
    assert "Corrections of yours that were followed: 2 of 2, from mine-reading.xlsx." in said
    assert digest(keeper) == kept
    texts = sheet_texts(book, "Tables and headings")
    assert "Weather" in texts
    _, again = run("check", keeper, "--on", "2025-03-20")
    assert again == said


def test_corrections_may_lie_elsewhere(keeper: Path, tmp_path: Path):
    elsewhere = tmp_path / "other" / "mine to correct.xlsx"
    elsewhere.parent.mkdir()
    run("check", keeper, "--on", "2025-03-20", "--reading", elsewhere)
    assert elsewhere.exists()
    assert not keeper.with_name("mine-reading.xlsx").exists()
    correct(elsewhere, "Tables and headings", "Zorb", "Water")

    _, without = run("check", keeper, "--on", "2025-03-20")
    _, said = run("check", keeper, "--on", "2025-03-20", "--reading", elsewhere)
    assert "Zorb -> not used" in without
    assert "Zorb -> Water (as you said)" in said
    out = tmp_path / "out.xlsx"
    run("report", keeper, "-o", out, "--on", "2025-03-20", "--reading", elsewhere)
    assert "as you said" in sheet_texts(out, "How it was read")
    status, _ = run("backtest", keeper, "-o", tmp_path / "b.xlsx", "--on", "2025-03-20", "--reading", elsewhere)
    assert status == 0


def test_a_correction_that_fits_nothing_now_is_named_and_kept(keeper: Path):
    book = keeper.with_name("mine-reading.xlsx")
    run("check", keeper, "--on", "2025-03-20")
    correct(book, "Tables and headings", "Zorb", "Water")
    workbook_from_text(MINE.replace("Zorb", "Blort"), keeper)

    status, said = run("check", keeper, "--on", "2025-03-20")
    assert status == 0
    assert "Your correction of 'Zorb' of 'Log' to 'Water' fits nothing in the workbook now." in said
    workbook_from_text(MINE, keeper)
    _, said = run("check", keeper, "--on", "2025-03-20")
    assert "Zorb -> Water (as you said)" in said


def test_a_file_of_that_name_that_is_no_reading_workbook_is_left_alone(keeper: Path):
    other = workbook_from_text("# sheet Recipes\nCake | Eggs\nsponge | 4", keeper.with_name("mine-reading.xlsx"))
    before = digest(other)
    status, said = run("check", keeper, "--on", "2025-03-20")
    assert status == 0
    assert "Zorb -> not used" in said
    assert "No reading workbook was written" in said.splitlines()[-1]
    assert "is no reading workbook of ours" in said
    assert digest(other) == before


def test_a_folder_that_cannot_be_written_to_is_said_and_the_check_still_printed(keeper: Path, monkeypatch):
    def refuse(self: Path, data: bytes) -> int:
        raise PermissionError(13, "Permission denied")

    with monkeypatch.context() as patched:
        patched.setattr(Path, "write_bytes", refuse)
        status, said = run("check", keeper, "--on", "2025-03-20")
    assert status == 0
    assert "Zorb -> not used" in said
    assert said.splitlines()[-1].startswith("No reading workbook was written")
    assert "its folder may not be written to" in said
    assert not keeper.with_name("mine-reading.xlsx").exists()


def test_a_reading_workbook_open_in_another_program_is_said_and_the_check_still_printed(keeper: Path):
    keeper.with_name(".~lock.mine-reading.xlsx#").write_text("")
    status, said = run("check", keeper, "--on", "2025-03-20")
    assert status == 0
    assert "Zorb -> not used" in said
    assert "it is open in another program" in said.splitlines()[-1]


def test_a_reading_workbook_is_no_workbook_of_bins(keeper: Path):
    run("check", keeper, "--on", "2025-03-20")
    status, said = run("check", keeper.with_name("mine-reading.xlsx"), "--on", "2025-03-20")
    assert status == 3
    assert "is a reading workbook" in said


def test_a_report_is_never_written_over_a_reading_workbook(keeper: Path):
    run("check", keeper, "--on", "2025-03-20")
    book = keeper.with_name("mine-reading.xlsx")
    before = digest(book)
    status, _ = run("report", keeper, "-o", book, "--on", "2025-03-20")
    assert status == 2
    assert digest(book) == before


def test_a_workbook_of_unknown_headings_can_be_put_right(tmp_path: Path):
    text = "# sheet Kisten\nNummer | Art | Regal\nK1 | scaber | oben\nK2 | laevis | unten\n"
    keeper = workbook_from_text(text, tmp_path / "kisten.xlsx")
    book = tmp_path / "kisten-reading.xlsx"
    status, said = run("check", keeper, "--on", "2025-03-20")
    assert status == 3
    assert f"Reading workbook: {book}" in said
    correct(book, "Tables and headings", "Nummer | Art | Regal", "list of bins")
    correct(book, "Tables and headings", "Nummer", "Bin")
    correct(book, "Tables and headings", "Regal", "Place")

    status, said = run("check", keeper, "--on", "2025-03-20")
    assert status == 0
    assert "2 of 2 rows used; 2 bins" in said
    assert "Regal -> Place (as you said)" in said


def test_a_reading_workbook_named_but_not_there_is_said(keeper: Path, tmp_path: Path):
    status, said = run("report", keeper, "--on", "2025-03-20", "--reading", tmp_path / "none.xlsx")
    assert status == 3
    assert "none.xlsx" in said
