"""Signs in a phrase that something was found: words that must stand together in one clause."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files


@cache
def signs() -> tuple[tuple[str, tuple[re.Pattern[str], ...]], ...]:
    """What each sign means, with a pattern for each of its groups; one of every group must be there.

    Source: ``words/signs.txt``: what it means in square brackets, below it a sign a line, its groups parted by ``+``.
    """
    found = []
    means = ""
    for line in files(__package__).joinpath("words", "signs.txt").read_text(encoding="utf-8").splitlines():
        if line.startswith("["):
            means = line.strip("[]")
        elif line.strip():
            found.append((means, tuple(_any_of(group) for group in line.split(" + "))))
    return tuple(found)


def _any_of(group: str) -> re.Pattern[str]:
    words = sorted((word.strip() for word in group.split(";") if word.strip()), key=lambda word: -len(word))
    return re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, words))})(?![\w-])")
