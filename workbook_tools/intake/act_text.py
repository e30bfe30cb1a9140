"""Take a text of acts apart: its parts, the numbers in each, and whether a part says that nothing was done."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from workbook_tools.intake.amount_words import LOOSE_SHARES, PARTS, WHOLE
from workbook_tools.intake.headings import plain
from workbook_tools.intake.units import Measures, find_unit

NOT = frozenset(
    "no not none nor without skip skips skipped skipping forgot forgotten forget never non dont didnt wasnt wont cant "
    "couldnt hasnt havent isnt cannot unable missed refused nicht kein keine keinen ohne pas sans geen niet".split()
)
"""Words that turn what stands beside them into something not done."""
_NOT_YET = re.compile(
    r"\b(?:needs?|(?<!as )needed|needing|should|must|ought|tomorrow|to ?do|buy|(?<!in )order(?:s|ed|ing)?|"
    r"plan(?:s|ned|ning)?|later|soon|will|wants?|shall|remember|remind(?:er)?|due|ha(?:ve|s) to|going to|about to|"
    r"to be|wait(?:ing)?|if|maybe|perhaps|time to|ready (?:to|for)|next (?:time|week|round|month|visit|day)|"
    r"bought (?:\w+ )?(?:leaves|leaf|litter|moss|substrate|soil|food|calcium|bark|cork))\b|^to \w"
)
"""What is wanted, planned, bought for later or hung on a condition, in a text without signs."""
_JOINED = frozenset({"/", "&", "and", "und", "et", "y"})
"""Signs and words over which 'not' reaches on: 'did not water and feed', 'no water/feed'."""
_BETWEEN = re.compile(
    r"\s*(?:[+;,&/|\n]|\band\b|\bthen\b|\bbut\b|\bund\b|\baber\b|\bet\b|\by\b(?=\s)|[.!](?=\s)|"
    r"\((?=[^)]*\b(?:not?|forgot|skip\w*)\b))\s*",
    re.IGNORECASE,
)
_QUANTITY = re.compile(
    r"(?<![\w.,/:#-])(?:[~<>≈]\s*)?(?:\d+\s*x\s*(?=\d))?"
    r"(?:\d+ \d/\d+|\d+\s*/\s*\d+|\d*[½⅓⅔¼¾⅕⅛]|[.,]\d+|\d+(?:[.,]\d+)*(?:\s*[-–]\s*\d+(?:[.,]\d+)?|(?:\s*\+\s*\d+)+)?)"
    r"(?:\s?%|\+(?![\w+])|\s?ish\b|\?)?(?![\d:]|[.,/]\d)",
    re.IGNORECASE,
)
_NAMED_BY_NUMBER = re.compile(r"\b(?:shelf|rack|bin|box|tub|no|nr|row|level|line|day|week|page)\.?\s*$", re.IGNORECASE)
"""Words behind which a number is part of a name."""
_PAST = re.compile(r"fed|gave|took|sold|(?!feed$|need$)\w+ed")
_FIRST = 0xE000
_KEPT_UNITS = frozenset({"l", "ml", "g", "count", "percent", "degC", "degF"})
_SHARES = sorted(
    (word for word in (*PARTS, *WHOLE, *(w for w, key in LOOSE_SHARES.items() if key == "share.side"))),
    key=lambda word: -len(word),
)
_SHARE = re.compile(rf"\b(?:{'|'.join(map(re.escape, _SHARES))})\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number in a text of acts with its unit, as written; ``last`` says that no word follows it in its part."""

    text: str
    unit: str = ""
    last: bool = False
    behind: str = ""
    """The word right behind it, in plain letters."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a text of acts: as written, its words without the numbers, the numbers, and why it isn't done."""

    text: str
    bare: str
    quantities: tuple[Quantity, ...] = ()
    undone: str = ""
    """Empty, or why it isn't done: "said" by its own words, "asked", or "joined" to a part that denies."""

    def share(self) -> tuple[str, str]:
        """The words for a share in it ("half", "one side"), and its other words; both empty when there are none."""
        found = _SHARE.search(self.bare)
        if not found:
            return "", ""
        return found[0], plain(f"{self.bare[: found.start()]} {self.bare[found.end() :]}")


def parts_of(text: str, measures: Measures) -> list[Part]:
    """Take a text of acts apart.

    Numbers and their units are set aside first, so that the stroke of ``1/3`` and the comma of ``0,5 g`` part nothing.
    A part is undone when it denies ("no water"), wants or plans ("needs water", "water tomorrow") or asks ("water?").
    """
    numbers: list[str] = []

    def aside(found: re.Match[str]) -> str:
        if _NAMED_BY_NUMBER.search(text[: found.start()]) or len(numbers) > 99:
            return found[0]
        numbers.append(found[0])
        return chr(_FIRST + len(numbers) - 1)

    masked = _QUANTITY.sub(aside, text)
    cuts = list(_BETWEEN.finditer(masked))
    starts, ends = [0, *(cut.end() for cut in cuts)], [*(cut.start() for cut in cuts), len(masked)]
    joined = [False, *(cut[0].strip().casefold() in _JOINED for cut in cuts)]
    parts: list[Part] = []
    denied = ""
    for start, end, on in zip(starts, ends, joined, strict=True):
        piece = masked[start:end].strip()
        if not piece:
            continue
        words = plain(re.sub(r"n['’`]t\b", " not", piece))
        first = words.split()[0] if words else ""
        if NOT.intersection(words.split()) or _NOT_YET.search(words):
            denied = "said"
        else:
            denied = "joined" if on and denied and not _PAST.fullmatch(first) else ""
        asked = "?" in piece
        parts.append(_part(piece, numbers, measures, "asked" if asked and denied != "said" else denied))
        if asked and on and len(parts) > 1 and not parts[-2].undone:
            parts[-2] = replace(parts[-2], undone="asked")
    return parts


def _part(piece: str, numbers: list[str], measures: Measures, undone: str) -> Part:
    quantities: list[Quantity] = []
    bare = piece
    for sign in [ch for ch in piece if 0 <= ord(ch) - _FIRST < len(numbers)]:
        number = numbers[ord(sign) - _FIRST]
        tail = bare[bare.index(sign) + 1 :]
        behind = re.split("[\ue000-\ue063]", tail)[0]
        unit, rest = _unit(behind, measures)
        word = next(iter(plain(rest).split()), "")
        quantities.append(Quantity(f"{number} {unit}".strip(), unit, not word, word))
        bare = f"{bare[: bare.index(sign)]} {rest}{tail[len(behind) :]}"
    written = "".join(numbers[ord(ch) - _FIRST] if 0 <= ord(ch) - _FIRST < len(numbers) else ch for ch in piece)
    return Part(written, plain(bare), tuple(quantities), undone)


def _unit(behind: str, measures: Measures) -> tuple[str, str]:
    """Split the unit off the words behind a number; empty when they begin with none."""
    words = behind.strip().split()
    for count in range(min(3, len(words)), 0, -1):
        written = " ".join(words[:count])
        found = find_unit(written.casefold(), "", measures)
        if found and not found[1] and found[0].unit in _KEPT_UNITS:
            return written.strip(".,;:!?()"), " ".join(words[count:])
    return "", behind
