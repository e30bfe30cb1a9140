"""Read an old workbook (.xls) by the fast reader in a process of its own.

The reader believes the sizes that a file of this kind states of itself: a damaged one can make it end the whole
process, which nothing in that process can prevent. So it may end this one.
"""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from dataclasses import dataclass

from python_calamine import SheetVisibleEnum

from workbook_tools.intake.cells import Area, Raw
from workbook_tools.intake.fast import FastReader, ReaderFailed, values

_LONGEST = 300
"""Seconds after which the reader is taken to have lost its way."""


@dataclass(frozen=True, slots=True)
class OldSheet:
    """One sheet as the reader gives it; ``cells`` (row, column, value) is None when it can't be read."""

    name: str
    hidden: bool
    cells: list[tuple[int, int, Raw]] | None
    merged: tuple[Area, ...]


def read_apart(data: bytes) -> list[OldSheet]:
    """Read all sheets of an old workbook.

    Raises
    ------
    ReaderFailed
        The reader can't open the file, or went down over it.
    """
    command = [sys.executable, "-P", "-m", "workbook_tools.intake.apart"]
    surroundings = os.environ | {"PYTHONPATH": os.pathsep.join(filter(None, sys.path))}
    try:
        run = subprocess.run(command, input=data, capture_output=True, env=surroundings, timeout=_LONGEST, check=True)
    except (subprocess.SubprocessError, OSError) as error:
        raise ReaderFailed(str(error)) from None
    return [OldSheet(*fields) for fields in pickle.loads(run.stdout)]


_Fields = tuple[str, bool, list[tuple[int, int, Raw]] | None, tuple[Area, ...]]
"""The fields of an ``OldSheet``: that class has another name in the process that sends them."""


def _sheets(data: bytes) -> list[_Fields]:
    reader = FastReader(data)
    return [_sheet(reader, name, visible != SheetVisibleEnum.Visible) for name, visible in reader.sheets()]


def _sheet(reader: FastReader, name: str, hidden: bool) -> _Fields:
    try:
        found = reader.sheet(name)
    except ReaderFailed:
        return name, hidden, None, ()
    merged = tuple(
        Area(top + 1, left + 1, bottom + 1, right + 1)
        for (top, left), (bottom, right) in found.merged_cell_ranges or []
    )
    return name, hidden, list(values(found)), merged


def _main() -> int:
    try:
        sheets = _sheets(sys.stdin.buffer.read())
    except ReaderFailed:
        return 1
    sys.stdout.buffer.write(pickle.dumps(sheets))
    return 0


if __name__ == "__main__":
    sys.exit(_main())
