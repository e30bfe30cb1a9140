"""The files of an export: tables as CSV or JSON, where they may be written, and how they are known again."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import re
from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from workbook_tools.intake.csvtext import decoded, split_declaration
from workbook_tools.intake.files import TEXT_SUFFIXES
from workbook_tools.report.export.estimates import Value
from workbook_tools.report.export.tables import HEADINGS, Tidy
from workbook_tools.report.plain import printable
from workbook_tools.report.saving import CannotWrite, save_all

Format = Literal["csv", "json"]
LINE_END = "\r\n"
"""Ends every line of a CSV file, as RFC 4180 has it."""
NO_OBJECTS = "[]\n"
_RUNS = re.compile("'*[=+\\-@\t\r\n＝＋－＠]")
"""How a text begins that a spreadsheet program may run as a formula, or that has been kept from it."""
_LONGEST = 1_000_000
"""Most bytes of a line that are looked at."""


def write_export(tables: Sequence[Tidy], folder: Path, form: Format) -> None:
    """Write a file for each table into a folder, which is made if it is missing: all of them or none.

    Raises
    ------
    CannotWrite
        A file can't be written; what stood there before is unchanged.
    """
    write = {"csv": as_csv, "json": as_json}[form]
    save_all({f"{table.name}.{form}": write(table).encode() for table in tables}, folder)


def as_csv(table: Tidy) -> str:
    """Write a table as RFC 4180 says: one heading line, commas, quotation marks only where they are needed."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator=LINE_END)
    writer.writerow(table.headings)
    writer.writerows([_csv_value(value) for value in row] for row in table.rows)
    return out.getvalue()


def as_json(table: Tidy) -> str:
    """Write a table as a list of objects, one a line, keyed by the headings."""
    lines = [
        json.dumps(dict(zip(table.headings, map(_json_value, row), strict=True)), ensure_ascii=False, allow_nan=False)
        for row in table.rows
    ]
    return "[\n" + ",\n".join(lines) + "\n]\n" if lines else NO_OBJECTS


def not_run(text: str) -> str:
    """Put an apostrophe before a text that could be run as a formula.

    It is put before such a text with apostrophes before it too, so that taking one off always gives the text back.
    """
    return f"'{text}" if _RUNS.match(text) else text


def _csv_value(value: Value) -> str:
    value = _json_value(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return not_run(value)
    return "" if value is None else repr(value)


def _json_value(value: Value) -> str | float | bool | None:
    """The same value as text, number, yes or no, or nothing: days by ISO 8601, whole numbers without a point."""
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    if isinstance(value, str):
        return printable(value)[0]
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return int(value)
    return value


def may_export(folder: Path, source: Path) -> None:
    """Refuse a folder that holds a keeper's data.

    A folder of .csv files is a workbook to this program, so an export doesn't go beside any that isn't its own.

    Raises
    ------
    CannotWrite
        The place is a file, or the keeper's own folder, or holds a table that is no earlier export.
    """
    if folder.exists() and not folder.is_dir():
        raise CannotWrite(folder, "it is a file; give the name of a folder with -o.")
    place, own = folder.resolve(), source.resolve()
    if own.is_dir() and own in (place, *place.parents):
        raise CannotWrite(folder, "it is in your folder of .csv files; give another folder with -o.")
    try:
        files = sorted(folder.iterdir()) if folder.exists() else []
    except OSError as problem:
        raise CannotWrite(folder, "its folder may not be looked into.") from problem
    names = {f"{name}.json" for name in HEADINGS}
    for file in files:
        if (_is_table(file) or file.name.casefold() in names) and not _is_earlier_export(file):
            raise CannotWrite(folder, f"it holds {file.name}, which is no earlier export; give another folder with -o.")


def _is_earlier_export(file: Path) -> bool:
    """Whether a file has the name and the headings of a table, just as they are written here."""
    headings, begins = HEADINGS.get(file.stem, ()), _two_lines(file)
    if file.suffix == ".csv":
        return bool(headings) and begins.startswith(f"{','.join(headings)}{LINE_END}".encode())
    if begins == NO_OBJECTS.encode():
        return bool(headings)
    try:
        first = json.loads(begins.removeprefix(b"[\n").rstrip(b",\n"))
    except ValueError:
        return False
    return bool(headings) and isinstance(first, dict) and tuple(first) == headings


def exported_in(path: Path) -> str:
    """The name of the first file that was written by an export, whatever it is called now; empty if there is none.

    ``path`` is a file or a folder. A file is known by its headings, also if a spreadsheet program has saved it anew.
    """
    try:
        files = sorted(path.iterdir()) if path.is_dir() else [path]
    except (OSError, ValueError):
        return ""
    tables = [file for file in files if _is_table(file)]
    return next((file.name for file in tables if _headings_of(file) in HEADINGS.values()), "")


def _is_table(file: Path) -> bool:
    return file.suffix.lower() in TEXT_SUFFIXES and not file.name.startswith((".", "~$"))


def _headings_of(file: Path) -> tuple[str, ...]:
    text, _ = decoded(_two_lines(file))
    _, text = split_declaration(text)
    return tuple(re.split("[,;\t|]", text.split("\n")[0].strip("\r").replace('"', "")))


def _two_lines(file: Path) -> bytes:
    """What a file begins with; nothing where it can't be read."""
    try:
        if not file.is_file():
            return b""
        with file.open("rb") as stream:
            return stream.readline(_LONGEST) + stream.readline(_LONGEST)
    except (OSError, ValueError):
        return b""
