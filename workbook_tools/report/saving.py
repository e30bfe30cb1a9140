"""Saving a finished workbook: whole or not at all."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path


class CannotWrite(Exception):
    """The file can't be written; ``reason`` is a sentence for the keeper. What stood there before is untouched."""

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(f"{path} can't be written: {reason}")
        self.path = path
        self.reason = reason


def save(content: bytes, path: Path) -> None:
    """Write beside the file, then put it in its place in one step, so that no half-written file remains.

    Raises
    ------
    CannotWrite
        The folder is missing or may not be written to, the file is open in another program, the disk is full.
    """
    target = path.resolve()
    if target.is_dir():
        raise CannotWrite(path, "it is a folder; give the name of a file.")
    for lock in (target.with_name(f".~lock.{target.name}#"), target.with_name(f"~${target.name}")):
        if lock.exists():
            raise CannotWrite(
                path, f"it is open in another program (there is a {lock.name} beside it). Close it first."
            )
    beside = target.with_name(f".frassbook-{os.getpid()}.part")
    try:
        beside.write_bytes(content)
        beside.replace(target)
    except OSError as problem:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise CannotWrite(path, _reason(problem, target)) from problem


def _reason(problem: OSError, target: Path) -> str:
    if isinstance(problem, FileNotFoundError | NotADirectoryError):
        return f"there is no folder {target.parent}."
    if isinstance(problem, PermissionError):
        return "it is open in another program, or its folder may not be written to."
    return f"{problem.strerror or problem}."
