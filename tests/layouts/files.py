"""The same workbooks as real files: .xlsx and .ods, .xls through LibreOffice, folders of .csv."""

from __future__ import annotations

import csv
import datetime as dt
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import openpyxl

from layouts.page import Page
from layouts.workbooks import Workbook
from workbook_tools.intake.cells import Raw


def as_xlsx(workbook: Workbook, folder: Path) -> Path:
    """Write an .xlsx."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for page in workbook.pages:
        sheet = book.create_sheet(page.name)
        for (row, col), value in sorted(page.cells.items()):
            cell = sheet.cell(row, col, value)
            if isinstance(value, str):
                cell.data_type = "s"
        for area in page.merged:
            sheet.merge_cells(str(area))
    path = folder / f"{workbook.seed}.xlsx"
    book.save(path)
    return path


def converted(paths: Sequence[Path], kind: str, folder: Path) -> list[Path]:
    """Let LibreOffice save workbooks in another format."""
    soffice = shutil.which("soffice")
    assert soffice, "soffice is not on the PATH"
    profile = f"-env:UserInstallation=file://{folder / 'profile'}"
    command = [soffice, profile, "--headless", "--convert-to", kind, "--outdir", str(folder)]
    subprocess.run([*command, *map(str, paths)], check=True, capture_output=True, timeout=300)
    return [folder / path.with_suffix(f".{kind}").name for path in paths]


def as_csv(workbook: Workbook, folder: Path) -> Path:
    """Write a folder with one .csv a sheet; a keeper with decimal commas separates by semicolons."""
    place = folder / str(workbook.seed)
    place.mkdir()
    for page in workbook.pages:
        with (place / f"{page.name.replace('/', '-')}.csv").open("w", encoding="utf-8", newline="") as file:
            csv.writer(file, delimiter=";").writerows(_rows(page))
    return place


def _rows(page: Page) -> list[list[str]]:
    last_row, last_col = (max(place[at] for place in page.cells) for at in (0, 1))
    return [[_text(page.cells.get((row, col), "")) for col in range(1, last_col + 1)] for row in range(1, last_row + 1)]


def _text(value: Raw) -> str:
    return value.isoformat(" ") if isinstance(value, dt.datetime) else str(value)
