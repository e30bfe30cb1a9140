"""Lists of words by kind, as they stand in ``words/``: headings in square brackets, wordings parted by semicolons."""

from __future__ import annotations

from importlib.resources import files


def kinds_in(name: str) -> dict[str, str]:
    """The kind of each wording of a list, in lower case; no wording is broken over lines."""
    kinds: dict[str, str] = {}
    kind = ""
    for line in files(__package__).joinpath("words", f"{name}.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("["):
            kind = line.strip("[]")
        else:
            kinds.update((word.strip().casefold(), kind) for word in line.split(";") if word.strip())
    return kinds
