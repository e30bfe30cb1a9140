"""Read a .csv file, or a folder of them, as a workbook with one sheet a file. Values stay text."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from workbook_tools.defaults import DEFAULTS
from workbook_tools.intake.cells import Book, Sheet
from workbook_tools.intake.csvtext import decoded, delimiter_name, delimiter_of, records, split_declaration
from workbook_tools.intake.files import TEXT_SUFFIXES, cannot, kind_of, read_bytes
from workbook_tools.intake.placing import Placing
from workbook_tools.problems import CannotRead, CellRef, Problem


def read_csv(data: bytes, path: Path) -> tuple[Book, list[Problem]]:
    """Read one file as a workbook of one sheet, named after the file."""
    sheet, problems, facts = _sheet(data, path.stem, int(DEFAULTS["sheet.cells"].value))
    return Book(path, (sheet,), facts={"format": "csv", **facts}), problems


def read_folder(folder: Path) -> tuple[Book, list[Problem]]:
    """Read every .csv, .tsv or .tab file that stands directly in a folder, in order of their names.

    Hidden files and the lock files of open documents are passed over. A file that can't be read is named and left
    out.

    Raises
    ------
    CannotRead
        The folder can't be opened, or no file in it can be read.
    """
    sheets: list[Sheet] = []
    problems: list[Problem] = []
    how: dict[str, list[str]] = {"encoding": [], "delimiter": []}
    failed: CannotRead | None = None
    left = int(DEFAULTS["book.cells"].value)
    for name, file in _named(_files(folder)):
        try:
            data = read_bytes(file)
            kind = kind_of(data, file.suffix)
            if kind != "csv":
                raise cannot("file.other_kind", what=f"a workbook (.{kind})")
        except CannotRead as error:
            failed = error
            facts = {"name": file.name, "reason": error.problem.says}
            problems.append(Problem("file.left_out", CellRef(name), facts))
            continue
        sheet, found, noted = _sheet(data, name, min(left, int(DEFAULTS["sheet.cells"].value)))
        left -= len(sheet.cells)
        sheets.append(sheet)
        problems += found
        for key, value in noted.items():
            if value not in how[key]:
                how[key].append(value)
    if failed is not None and not sheets:
        raise failed
    return Book(folder, tuple(sheets), facts={"format": "folder of csv", **_joined(how)}), problems


def _joined(how: dict[str, list[str]]) -> dict[str, str]:
    return {key: ", ".join(values) for key, values in how.items()}


def _files(folder: Path) -> list[Path]:
    try:
        found = sorted(folder.iterdir(), key=lambda file: (file.name.casefold(), file.name))
    except OSError as error:
        if isinstance(error, PermissionError):
            raise cannot("file.no_permission") from None
        raise cannot("file.unreadable", reason=error.strerror or error) from None
    shown = [file for file in found if not file.name.startswith((".", "~$")) and file.is_file()]
    files = [file for file in shown if file.suffix.lower() in TEXT_SUFFIXES]
    if not files:
        others = ", ".join(file.name for file in shown[:3])
        raise cannot("file.no_tables", found=f" It holds {others}." if others else "")
    most = int(DEFAULTS["file.parts"].value)
    if len(files) > most:
        raise cannot("file.too_big", what="the number of files", size=f"{len(files):,}", limit=f"{most:,}")
    return files


def _named(files: list[Path]) -> Iterator[tuple[str, Path]]:
    """Sheet names: the file's name without its ending, or with it where two would be the same."""
    stems = [file.stem.casefold() for file in files]
    for file in files:
        yield (file.stem if stems.count(file.stem.casefold()) == 1 else file.name), file


def _sheet(data: bytes, name: str, limit: int) -> tuple[Sheet, list[Problem], dict[str, str]]:
    text, encoding = decoded(data)
    delimiter, text = split_declaration(text)
    delimiter = delimiter or delimiter_of(text)
    placing = Placing(name, limit)
    for record in records(text, delimiter):
        if record.open_quote:
            placing.blame("csv.open_quote", record.row, 0)
        for col, value in enumerate(record.values, 1):
            placing.put(record.row, col, value)
        if placing.full:
            break
    sheet, problems = placing.sheet()
    if encoding == "cp1252":
        problems.append(Problem("csv.encoding", CellRef(name)))
    return sheet, problems, {"encoding": encoding, "delimiter": delimiter_name(delimiter)}
