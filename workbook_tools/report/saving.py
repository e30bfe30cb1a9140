"""Saving finished files: whole or not at all."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterable, Mapping
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
    _not_open(target, path)
    beside = target.with_name(f".frassbook-{os.getpid()}.part")
    try:
        beside.write_bytes(content)
        beside.replace(target)
    except OSError as problem:
        with contextlib.suppress(OSError):
            beside.unlink()
        raise CannotWrite(path, _reason(problem, target)) from problem


def save_all(contents: Mapping[str, bytes], folder: Path) -> None:
    """Write files beside their places, then put all of them in: every one of them, or none.

    The folder is made if it is missing. A link that stands in a file's place is replaced, not followed.

    Raises
    ------
    CannotWrite
        As for :func:`save`; what stood there before is there again, and a folder that was made is gone.
    """
    targets = {folder / name: content for name, content in contents.items()}
    for target in targets:
        _not_open(target, target)
    missing = [place for place in (folder, *folder.parents) if not place.exists()]
    put: list[Path] = []
    old: dict[Path, Path] = {}
    at = folder
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for at, content in targets.items():
            _part(at, "new").write_bytes(content)
        for at in targets:
            if os.path.lexists(at):
                at.replace(_part(at, "old"))
                old[at] = _part(at, "old")
            _part(at, "new").replace(at)
            put.append(at)
    except OSError as problem:
        _clear([*put, *(_part(target, "new") for target in targets)])
        for target, kept in old.items():
            with contextlib.suppress(OSError):
                kept.replace(target)
        for place in missing:
            with contextlib.suppress(OSError):
                place.rmdir()
        raise CannotWrite(at, _reason(problem, at)) from problem
    _clear(old.values())


def _part(target: Path, which: str) -> Path:
    return target.with_name(f".frassbook-{os.getpid()}-{target.name}.{which}")


def _clear(files: Iterable[Path]) -> None:
    for file in files:
        with contextlib.suppress(OSError):
            file.unlink()


def _not_open(target: Path, path: Path) -> None:
    """Refuse where another program has left a lock beside the file."""
    for lock in (target.with_name(f".~lock.{target.name}#"), target.with_name(f"~${target.name}")):
        if lock.exists():
            raise CannotWrite(
                path, f"it is open in another program (there is a {lock.name} beside it). Close it first."
            )


def _reason(problem: OSError, target: Path) -> str:
    if isinstance(problem, FileNotFoundError | NotADirectoryError):
        return f"there is no folder {target.parent}."
    if isinstance(problem, PermissionError):
        return "it is open in another program, or its folder may not be written to."
    return f"{problem.strerror or problem}."
