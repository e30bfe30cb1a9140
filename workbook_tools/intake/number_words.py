"""Words and marks that keepers write for numbers, and for the lack of one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable

from workbook_tools.fields.kinds import listed
from workbook_tools.vocabulary.presence import Presence, words_of

ABSENT = words_of(Presence.UNKNOWN, Presence.EMPTY, Presence.NOT_DONE, Presence.NOT_YET, Presence.ASKED) | frozenset(
    listed(
        "n/c; nc; ctd; not ctd; not counted; not count; can't count; cant count; cannot count; uncounted; not checked; "
        "not looked; lost count; hard to say; too many to count"
    )
)
"""No number was written, which is not the same as none."""

ZERO = words_of(Presence.NONE)

EXACT = {
    word: float(number)
    for number, word in enumerate(
        listed(
            "zero; one; two; three; four; five; six; seven; eight; nine; ten; eleven; twelve; thirteen; fourteen; "
            "fifteen; sixteen; seventeen; eighteen; nineteen; twenty"
        )
    )
} | {"half a dozen": 6, "half dozen": 6, "a dozen": 12, "one dozen": 12, "dozen": 12, "two dozen": 24, "a pair": 2}
TENS = {
    word: 10.0 * (number + 2)
    for number, word in enumerate(listed("twenty; thirty; forty; fifty; sixty; seventy; eighty; ninety"))
}

VAGUE = {
    word: key
    for key, words in {
        "number.couple": "a couple; couple; couple of; a couple of",
        "number.few": "a few; few; handful; a handful",
        "number.several": "several; some; a number",
        "number.dozens": "dozens; dozens of",
        "number.lots": "lots; a lot; lots!; many; loads; tons; heaps; plenty; masses; very many; lots and lots; viele",
        "number.hundreds": "hundreds; a few hundred; several hundred; couple hundred; a couple hundred",
        "number.thousands": "thousands; a thousand; a million; millions; swarming; countless; zillions; a few thousand",
    }.items()
    for word in listed(words)
}
"""Words for a number to the key of its default."""
NO_SIZE = "number.lots"
"""The key of words that are used of any large number, so that they tell nothing as a count."""

_VULGAR = {chr(c) for c in [0xBC, 0xBD, 0xBE, *range(0x2150, 0x215F)]}


def tidy(text: str) -> str:
    """Return the text in lower case with one kind of dash, apostrophe, blank and arrow; ½ is 1/2, .5 is 0.5."""
    out: list[str] = []
    for c in text:
        if c in _VULGAR:
            parts = unicodedata.normalize("NFKC", c).replace("⁄", "/")
            out.append(f" {parts}" if out and out[-1][-1:].isdecimal() else parts)
        else:
            out.append(c)
    text = "".join(out).casefold()
    text = re.sub(r"[‐‑‒–—−]", "-", text)
    text = re.sub(r"[’‘`´]", "'", text)
    text = re.sub(r"->|=>|→|➔|➜", "→", text)
    text = text.replace("×", "x").replace("⁄", "/").replace("≈", "~").replace("≥", ">").replace("≤", "<")
    text = text.replace("″", '"').replace("”", '"').replace("“", '"').replace("′", "'")
    text = text.replace("²", "2").replace("³", "3")
    text = re.sub(r"(?<![\w.,])[.,](?=\d)", "0.", text)
    return " ".join(text.split())


def _below_hundred(text: str) -> float | None:
    if text in EXACT:
        return EXACT[text]
    tens, _, ones = text.replace("-", " ").partition(" ")
    if tens in TENS and (not ones or 0 < EXACT.get(ones, 0) < 10):
        return TENS[tens] + EXACT.get(ones, 0)
    return None


def _above(text: str, word: str, size: float, below: Callable[[str], float | None]) -> float | None:
    """The value of so many hundreds or thousands and what follows them."""
    m = re.fullmatch(rf"(.+?)[ -]{word}(?:(?:,? and|,)? (.+))?", text)
    if m is None:
        return below(text)
    many = 1.0 if m[1] in ("a", "one") else below(m[1])
    more = below(m[2]) if m[2] else 0.0
    return many * size + more if many and more is not None and more < size else None


def _below_thousand(text: str) -> float | None:
    return _above(text, "hundred", 100, _below_hundred)


def word_value(text: str) -> float | None:
    """The value of a number written in English words, below a million; None when it is none.

    "A thousand" alone is no count but a word for very many (see ``VAGUE``), and left to whoever asks for those.
    """
    return _above(text, "thousand", 1000, _below_thousand)


def vague_key(text: str) -> str:
    """The key of the default for a vague word that stands for a number by itself ("lots", "dozens"), or ''."""
    return VAGUE.get(tidy(text).strip("!*?~ "), "")
